"""What an illness, a pregnancy or a birth allows today: nothing, a lighter first session, no raise, a start as new.

Our proposal after a practising coach's review; nothing here releases anybody, and silence never does.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import ROUND_FLOOR, Decimal

from core.loads.asked import ZERO, Asked, amount, eased, load_text, percent
from core.loads.health import Illness, IllnessKind
from core.loads.outcome import Ceiling, Reason
from core.loads.past import Inputs
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, reason
from core.loads.reasons import ReasonCode
from core.programme.prescription import Load

YEAR = timedelta(days=365)
"""How long a birth bears on training. Our proposal: 12 months."""
ILL_BACK = timedelta(days=28)
"""Days after an illness in which the first session of an exercise is the lighter one, and after a stop sign in which
nothing rises in it; after that it is a break. Our proposal."""
ILL_SETS = Decimal("0.5")
"""Share of the sets in the first session after an illness. [fraction] Our proposal."""


@dataclass(frozen=True, slots=True)
class HealthLine:
    """What health allows of an exercise today, where it allows one at all.

    Attributes:
        pregnant: True in a pregnancy: nothing rises by itself.
        cold: True with a head cold: nothing rises.
        taken_up: True in the first session after the coach released a stop sign: nothing rises.
        back: The illness after which this is the first session.
        easy: True on a day of a head cold that was to be an easy one.
    """

    pregnant: bool = False
    cold: bool = False
    back: Illness | None = None
    easy: bool = False
    taken_up: bool = False

    @property
    def holds(self) -> bool:
        """True when nothing may rise over what was done before."""
        return self.pregnant or self.cold or self.taken_up or self.is_light

    @property
    def is_light(self) -> bool:
        """True when the session is a lighter one, with half the sets."""
        return self.easy or self.back is not None


def health_stop(inputs: Inputs) -> Reason | None:
    """Return why nothing is trained today; None where it is."""
    today, birth = inputs.moment.today, inputs.lifter.birth
    standing = [one for one in inputs.lifter.ill if one.since <= today]
    if any(one.kind is IllnessKind.CLINICIAN and _back_on(one, inputs, today) is None for one in standing):
        return reason(ReasonCode.ILL_CLINICIAN)
    ill = [one for one in standing if one.kind is IllnessKind.GENERAL]
    waiting = [one for one in ill if _back_on(one, inputs, today) is None]
    if waiting:
        known = [one.free_on for one in waiting if one.free_on is not None]
        days = str(inputs.policy.ill_wait)
        if len(known) < len(waiting):
            return reason(ReasonCode.ILL, days=days)
        until = max(known) + timedelta(days=inputs.policy.ill_wait)
        return reason(ReasonCode.ILL, days=days, date=until.isoformat())
    if birth is not None and is_after_birth(inputs):
        released = birth.released_on
        return reason(ReasonCode.BIRTH_HELD) if released is None or released > today else None
    return None


def is_after_birth(inputs: Inputs) -> bool:
    """Return whether a birth still bears on training; one without a date does from the coach's release on."""
    birth = inputs.lifter.birth
    if birth is None:
        return False
    since = birth.on or birth.released_on
    return since is None or inputs.moment.today < since + YEAR


def _back_on(one: Illness, inputs: Inputs, today: date) -> date | None:
    """Return the day from which training goes on after an illness; None while it does not."""
    if one.kind is IllnessKind.CLINICIAN:
        back = one.released_on
    else:
        back = None if one.free_on is None else one.free_on + timedelta(days=inputs.policy.ill_wait)
    return back if back is not None and back <= today else None


def started_anew(inputs: Inputs) -> Inputs:
    """Return `inputs` after a birth as those of somebody new: nothing from before the release counts."""
    birth = inputs.lifter.birth
    if birth is None or birth.released_on is None or not is_after_birth(inputs):
        return inputs
    start = birth.released_on
    kept = tuple(one for one in inputs.history if one.on >= start)
    trained = inputs.last_trained
    return inputs.model_copy(
        update={
            "history": kept,
            "lifter": inputs.lifter.model_copy(update={"new": True}),
            "last_trained": trained if trained is not None and trained >= start else None,
        }
    )


def found_anew(inputs: Inputs, asked: Asked) -> Load | None:
    """Return the load to begin with: after a birth one that is looked for, up to what is written at most."""
    written = amount(inputs.dose.load, inputs.exercise)
    if is_after_birth(inputs) and not asked.loadless and written is not None and written > ZERO:
        return Load.find()
    return inputs.dose.load


def health_line(inputs: Inputs, past: tuple[Performance, ...]) -> HealthLine:
    """Return what health allows of this exercise today, nothing of it being stopped."""
    today = inputs.moment.today
    cold = any(
        one.kind is IllnessKind.COLD and one.since <= today and (one.free_on is None or today < one.free_on)
        for one in inputs.lifter.ill
    )
    backs = [
        (back, one)
        for one in inputs.lifter.ill
        if one.kind is not IllnessKind.COLD and (back := _back_on(one, inputs, today)) is not None
    ]
    fresh = [
        (back, one)
        for back, one in backs
        if today < back + ILL_BACK and not any(each.exposure.on >= back for each in past)
    ]
    newest = max(fresh, key=lambda pair: pair[0])[1] if fresh else None
    done_today = any(each.exposure.on == today for each in past)
    easy = not done_today and any(
        one.kind is IllnessKind.COLD and one.easy_on == today for one in inputs.lifter.ill
    )
    pregnant, taken_up = inputs.lifter.pregnant, _is_taken_up(inputs, past)
    return HealthLine(pregnant=pregnant, cold=cold, back=newest, easy=easy, taken_up=taken_up)


def _is_taken_up(inputs: Inputs, past: tuple[Performance, ...]) -> bool:
    """Return whether this is the first session of an exercise after a stop sign was released."""
    released, today = inputs.lifter.taken_up_on, inputs.moment.today
    if released is None or not released <= today < released + ILL_BACK:
        return False
    # A session of the very day of the release may have been before it, so it does not count as one since.
    return not any(each.exposure.on > released for each in past)


def health_ceilings(inputs: Inputs, asked: Asked, found: Proposal, health: HealthLine) -> tuple[Ceiling, ...]:
    """Return the ceilings that health sets, each with its reason."""
    listed: list[Ceiling] = []
    usual = found.base if found.base is not None else found.load
    if health.pregnant:
        listed.append(Ceiling(reason=reason(ReasonCode.PREGNANT), mass=usual))
    if health.taken_up and not health.is_light:
        listed.append(Ceiling(reason=reason(ReasonCode.TAKEN_UP), mass=usual))
    if health.cold and not health.is_light:
        listed.append(Ceiling(reason=reason(ReasonCode.ILL_COLD), mass=usual))
    if health.is_light:
        mass = eased(usual, 1 - inputs.policy.ill_drop)
        facts = {"percent": percent(inputs.policy.ill_drop), "sets": str(half_sets(inputs.dose.sets))}
        if mass != ZERO and not asked.loadless:
            facts["load"] = load_text(mass, asked.exercise)
        code = ReasonCode.ILL_EASY if health.back is None else ReasonCode.ILL_BACK
        listed.append(Ceiling(reason=reason(code, **facts), mass=mass))
    return tuple(listed)


def half_sets(sets: int) -> int:
    """Return the sets of a lighter session, the first after an illness or an easy day: half, at least one. [sets]"""
    return max(1, int((sets * ILL_SETS).to_integral_value(ROUND_FLOOR)))


def before_illness(inputs: Inputs, past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return what counts for the next load: a lighter first session after an illness, done, is no step down."""
    if not inputs.lifter.ill:
        return past
    return tuple(one for one in past if not _is_light(inputs, past, one))


def after_illness(inputs: Inputs, asked: Asked, past: tuple[Performance, ...], found: Proposal) -> Proposal:
    """Return the proposal after the lighter session: the load from before it, and nothing over it."""
    last = past[-1]
    if found.base is None or not _is_light(inputs, past, last):
        return found
    if found.load < found.base:
        return found
    told = reason(ReasonCode.ILL_OVER, load=load_text(found.base, asked.exercise))
    return replace(found, load=found.base, target=found.same, reasons=(told,), earned=False, bridge=False)


def _is_light(inputs: Inputs, past: tuple[Performance, ...], one: Performance) -> bool:
    """Return whether an exposure was lighter than the one before for an illness, and all done.

    The first after one, or the easy day of a head cold.
    """
    before = [each for each in past if each.exposure.on < one.exposure.on] if inputs.lifter.ill else []
    if not before or one.verdict is not Verdict.DONE or one.load >= before[-1].load:
        return False
    for ill in inputs.lifter.ill:
        if ill.kind is IllnessKind.COLD and ill.easy_on == one.exposure.on:
            return True
        back = None if ill.kind is IllnessKind.COLD else _back_on(ill, inputs, one.exposure.on)
        if back is not None and before[-1].exposure.on < back and one.exposure.on < back + ILL_BACK:
            return True
    return False
