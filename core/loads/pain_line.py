"""What pain allows of one exercise today: a lock, a lighter load, a hold, or the way back.

Worked out from the reports and the log alone, by site and pattern. Our proposal after a practising coach's
review; it never lets a load rise over pain of 4 and more, and only the coach unlocks what 7 and more locked.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from core.checkin.pain import Band, Felt, PainReport, band, bears_on, flares, grave, locks
from core.loads.asked import ZERO, Asked, eased, load_text, percent
from core.loads.go_ahead import HELD_SESSIONS, goes_on
from core.loads.order import ordered_over, standing_on
from core.loads.outcome import Ceiling, Reason
from core.loads.past import Inputs
from core.loads.performance import Performance, Verdict
from core.loads.reasons import ReasonCode
from core.units import Mass

CALM_SCORE = 2
"""Most pain of a calm session. [0..10] Our proposal."""
CALM_SESSIONS = 2
"""Calm sessions running that open the way back. Our proposal."""
BACK_LEAST = Decimal("0.80")
"""Share of the last pain-free load before the calm sessions, after a release. [fraction] Our proposal."""
BACK_MOST = Decimal("0.90")
"""Most of the last pain-free load on the way back. [fraction] Our proposal."""
BACK_DAYS = timedelta(days=14)
"""How long the way back lasts, at half speed. Our proposal."""


@dataclass(frozen=True, slots=True)
class PainLine:
    """What pain allows today.

    Attributes:
        ceilings: In order of authority; a mass of None forbids the exercise.
        used: Reports it rests on.
        holds: True when nothing may rise, neither load nor reps.
        half_speed: True on the way back.
        drop: Share that the reps fall by where the load cannot fall. [fraction]
    """

    ceilings: tuple[Ceiling, ...] = ()
    used: tuple[PainReport, ...] = ()
    holds: bool = False
    half_speed: bool = False
    drop: Decimal = Decimal(0)

    @property
    def forbids(self) -> bool:
        """True when the exercise is locked."""
        return any(one.mass is None for one in self.ceilings)


def pain_line(inputs: Inputs, asked: Asked, past: tuple[Performance, ...]) -> PainLine:
    """Return what pain allows of this exercise today."""
    today, exercise = inputs.moment.today, inputs.exercise
    reports = sorted(
        (one for one in inputs.lifter.pain if one.on <= today and bears_on(one, exercise)),
        key=lambda one: (one.on, one.at, one.row_id),
    )
    locked = [one for one in reports if locks(one, exercise)]
    if locked:
        return _locked(locked)
    flare = next((one for one in reversed(reports) if _flared(one, reports)), None)
    held = _held(inputs, past, asked, reports)
    found = None if flare is None else _after_flare(inputs, asked, past, flare, reports)
    if found is None:
        return held
    if found.holds or not held.holds:
        return found
    both = (*found.ceilings, *held.ceilings)
    return PainLine(both, (*found.used, *held.used), holds=True, half_speed=True)


def before_fewer_reps(past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return what counts for what comes next: sessions that pain had eased by reps, and that were done, are no miss.

    Neither are they one of two that earn a raise. Our proposal, as for what a coach has eased.
    """
    return tuple([one for one in past if not one.by_fewer_reps]) or past


def _locked(locked: list[PainReport]) -> PainLine:
    def weight(report: PainReport) -> tuple[bool, bool]:
        return report.spreading, report.sudden

    worst = max(locked, key=weight)
    code = ReasonCode.PAIN_LOCKED
    if worst.spreading:
        code = ReasonCode.PAIN_SPREADING
    elif worst.sudden:
        code = ReasonCode.PAIN_SUDDEN
    return PainLine((Ceiling(reason=_reason(code, worst), mass=None),), tuple(locked), holds=True)


def _flared(report: PainReport, reports: list[PainReport]) -> bool:
    """Return whether a report counts as 4 and over; a morning 2 or more above before the session is a band higher."""
    if flares(report):
        return True
    if report.felt is not Felt.MORNING or band(report) is not Band.LOW:
        return False
    day_before = report.on - timedelta(days=1)
    before = [
        one.score or 0
        for one in reports
        if one.site is report.site and one.felt is Felt.BEFORE and one.on in (day_before, report.on)
    ]
    return bool(before) and (report.score or 0) >= min(before) + 2


def _after_flare(
    inputs: Inputs, asked: Asked, past: tuple[Performance, ...], flare: PainReport, reports: list[PainReport]
) -> PainLine | None:
    """Return what a flare still asks for; None when it is over."""
    own = _is_own(flare, inputs, past) or not past
    back_on = _back_on(past, flare, reports)
    if back_on is not None:
        if inputs.moment.today > back_on + BACK_DAYS or not own:
            return None
        free = _pain_free(past, flare, reports)
        mass = _share(free, BACK_MOST)
        facts = {"percent": percent(BACK_MOST), "until": (back_on + BACK_DAYS).isoformat()}
        told = _reason(ReasonCode.PAIN_WAY_BACK, flare, **facts, **_load_fact(asked, mass))
        over = _ceiling(told, None, past) if mass is None else Ceiling(reason=told, mass=mass)
        return PainLine((over,), (flare,), half_speed=True)
    if flare.released_at is not None and grave(flare):
        mass = _share(_pain_free(past, flare, reports) if past else asked.written, BACK_LEAST)
        told = _reason(
            ReasonCode.PAIN_RELEASED, flare, percent=percent(BACK_LEAST), **_load_fact(asked, mass)
        )
        return PainLine((_ceiling(told, mass, past),), (flare,), holds=True, drop=1 - BACK_LEAST)
    if not own:
        told = _reason(ReasonCode.PAIN_NO_RAISE, flare)
        return PainLine((_ceiling(told, past[-1].load, past),), (flare,), holds=True)
    drop = inputs.policy.pain_drop
    hurt = next((one.load for one in reversed(past) if one.exposure.on <= flare.on), None)
    mass = _share(hurt if past else asked.written, 1 - drop)
    told = _reason(ReasonCode.PAIN_DROP, flare, percent=percent(drop), **_load_fact(asked, mass))
    return PainLine((_ceiling(told, mass, past),), (flare,), holds=True, drop=drop)


def _is_own(flare: PainReport, inputs: Inputs, past: tuple[Performance, ...]) -> bool:
    """Return whether it hurt in this exercise, or on a day it was done and nobody said in which.

    A lock is everybody's own: after a release each exercise that was locked comes back by steps.
    """
    if grave(flare) or flare.exercise == inputs.exercise.key:
        return True
    return flare.exercise is None and any(one.exposure.on == flare.on for one in past)


def _back_on(past: tuple[Performance, ...], flare: PainReport, reports: list[PainReport]) -> date | None:
    """Return the date of the second calm session running after a flare; None while there is none."""
    running = 0
    for one in past:
        if one.exposure.on <= flare.on:
            continue
        running = running + 1 if _is_calm(one.exposure.on, reports) else 0
        if running == CALM_SESSIONS:
            return one.exposure.on
    return None


def _is_calm(on: date, reports: list[PainReport]) -> bool:
    """Return whether a session hurt at 2 or less, and the next morning no more than the session."""
    day = [one for one in reports if one.on == on and one.felt is not Felt.MORNING]
    morning = [one for one in reports if one.on == on + timedelta(days=1) and one.felt is Felt.MORNING]
    if any(one.score is None or one.score > CALM_SCORE or flares(one) for one in (*day, *morning)):
        return False
    worst = max((one.score or 0 for one in day), default=0)
    return all((one.score or 0) <= worst for one in morning)


def _pain_free(past: tuple[Performance, ...], flare: PainReport, reports: list[PainReport]) -> Mass | None:
    """Return the load of the last session before a flare that was done without pain; else the load it hurt at."""
    before = [one for one in past if one.exposure.on <= flare.on]
    for one in reversed(before):
        on = one.exposure.on
        hurt = any(report.score != 0 and on <= report.on <= on + timedelta(days=1) for report in reports)
        if not hurt and one.verdict is Verdict.DONE:
            return one.load
    return before[-1].load if before else None


def _held(inputs: Inputs, past: tuple[Performance, ...], asked: Asked, reports: list[PainReport]) -> PainLine:
    """Return the hold that pain of 1-3 asks for, until two sessions were done after it, or the coach lets it go on."""
    orders = standing_on(inputs.orders, inputs.moment.today)
    holding = [
        one
        for one in reports
        if band(one) is Band.LOW
        and not goes_on(one, inputs.go_aheads, inputs.lifter.pain)
        and not ordered_over(one, orders, inputs.exercise)
    ]
    low = holding[-1] if holding else None
    if low is None:
        return PainLine()
    still = HELD_SESSIONS - sum(one.exposure.on > low.on for one in past)
    if still <= 0:
        return PainLine()
    told = _reason(ReasonCode.PAIN_HOLD, low, sessions=str(still))
    mass = past[-1].load if past else asked.written
    return PainLine((_ceiling(told, mass, past),), (low,), holds=True)


def _ceiling(told: Reason, mass: Mass | None, past: tuple[Performance, ...]) -> Ceiling:
    """Return a ceiling that is never over the load now."""
    now = past[-1].load if past else None
    masses = [one for one in (mass, now) if one is not None]
    return Ceiling(reason=told, mass=min(masses) if masses else ZERO)


def _share(mass: Mass | None, share: Decimal) -> Mass | None:
    return None if mass is None else eased(mass, share)


def _load_fact(asked: Asked, mass: Mass | None) -> dict[str, str]:
    return {} if mass is None or mass == ZERO else {"load": load_text(mass, asked.exercise)}


def _reason(code: ReasonCode, report: PainReport, **facts: str) -> Reason:
    """Return a reason with what every reason of pain carries: site, date, and score if it was given."""
    side = {"L": "left ", "R": "right "}.get(report.side or "", "")
    known = {"site": f"{side}{report.site.value}"}
    if code is not ReasonCode.PAIN_WAY_BACK:
        known["date"] = report.on.isoformat()
        if report.score is not None:
            known["score"] = str(report.score)
    return Reason(code=code, facts={**known, **facts})
