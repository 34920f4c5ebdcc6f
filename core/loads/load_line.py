"""The load line: every ceiling on today's load, in order of authority, and the lowest of them.

The order: stop sign and health gate, a clinician's limits, pain, the coach's order, comeback, deload, a session that
takes in a lift of another day, caps, and what the log asks for.
The coach may always lower; nothing here lets a load over any ceiling. Our proposal after a practising coach's review.
"""

from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from typing import NamedTuple

from core.loads.asked import ZERO, Asked, eased, load_text, percent, system_mass
from core.loads.comeback import Comeback
from core.loads.health_line import HealthLine, health_ceilings
from core.loads.limit_line import limit_ceilings
from core.loads.order import CoachOrder
from core.loads.order_line import order_ceiling
from core.loads.ordered_load import order_ceilings
from core.loads.outcome import Ceiling, Reason
from core.loads.own_line import of_these_reps
from core.loads.pain_line import PainLine
from core.loads.past import Inputs
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, reason
from core.loads.reasons import ReasonCode
from core.programme.lighter_weeks import DELOAD_LOAD, deload_sets
from core.units import Mass

FOUR_WEEKS = timedelta(days=28)
ONE_WEEK = timedelta(days=6)
"""Days from which a load counts as that of a week ago. Our proposal: a day of slack, as for what rises once a week."""


@dataclass(frozen=True, slots=True)
class Standing:
    """All that bears on today beside the log.

    Attributes:
        pain: What pain allows.
        back: The way back from a break, if in one.
        deload: True in a lighter week, planned or by order.
        health: What health allows.
        order: The coach's order to ease, if one stands.
        merged: True in a session that takes in a lift of another day.
        kept: True where the coach wants nothing to rise.
        mass: The load that the coach has ordered, if she has.
        lightened: True where the lighter week is one by her order alone.
        full: True in a planned lighter week that she has taken out.
    """

    pain: PainLine
    back: Comeback | None
    deload: bool
    health: HealthLine
    order: CoachOrder | None = None
    merged: bool = False
    kept: bool = False
    mass: Mass | None = None
    lightened: bool = False
    full: bool = False

    @property
    def holds(self) -> bool:
        """True when nothing may rise over what was done before."""
        planned = self.deload or self.merged or self.order is not None or self.kept or self.full
        return self.pain.holds or self.health.holds or self.back is not None or planned


def ceilings(
    inputs: Inputs,
    asked: Asked,
    past: tuple[Performance, ...],
    found: Proposal,
    standing: Standing,
    beside: Ceiling | None = None,
) -> tuple[Ceiling, ...]:
    """Return every ceiling that stands today, in order of authority; the log's own proposal is the last.

    The plan is not frozen, and neither health, a limit nor pain forbids all of it. `beside` is a ceiling that follows
    from the way up.
    """
    listed = [*health_ceilings(inputs, asked, found, standing.health), *limit_ceilings(inputs, asked)]
    listed += standing.pain.ceilings
    over_order = len(listed)
    listed += order_ceilings(inputs, asked, found.base, standing.mass)
    if standing.full:
        listed.append(_full(asked, found))
    if standing.lightened:
        listed.append(_deload(asked, inputs, found, ReasonCode.COACH_LIGHTER))
    back = standing.back
    if back is not None:
        listed.append(_comeback_ceiling(asked, back, found))
    if standing.deload and not standing.lightened:
        listed.append(_deload(asked, inputs, found, ReasonCode.DELOAD))
    if standing.merged and found.base is not None:
        listed.append(Ceiling(reason=merged_reason(asked, found.base), mass=found.base))
    if beside is not None:
        listed.append(beside)
    if found.base is not None:
        listed.append(_session_cap(asked, found, found.base, standing))
        own = of_these_reps(asked, past)
        if asked.cap_week is not None:
            half = 2 if standing.pain.half_speed else 1
            week = _Stretch(ONE_WEEK, asked.cap_week / half, ReasonCode.CAP_WEEK, found.earned and half == 1)
            listed.append(_cap_since(inputs, asked, own, found, week))
        four_weeks = _Stretch(FOUR_WEEKS, asked.cap_four_weeks, ReasonCode.CAP_FOUR_WEEKS, found.earned)
        listed.append(_cap_since(inputs, asked, own, found, four_weeks))
    listed.append(Ceiling(reason=found.reasons[0], mass=found.load))
    if standing.order is not None:
        lowest = min(one.mass for one in listed if one.mass is not None)
        listed.insert(over_order, order_ceiling(asked, standing.order, lowest))
    return tuple(listed)


def merged_reason(asked: Asked, base: Mass) -> Reason:
    """Return that nothing rises in a session that takes in a lift of another day, nor from one."""
    return reason(ReasonCode.MERGED, load=load_text(base, asked.exercise))


def comeback_reason(asked: Asked, back: Comeback) -> Reason:
    """Return what a way back asks for today."""
    facts = {"days": str(back.days), "load": load_text(back.good, asked.exercise)}
    if back.coach:
        return reason(ReasonCode.COMEBACK_COACH, percent=percent(back.share), **facts)
    if not back.row.sets:
        return reason(ReasonCode.COMEBACK_HOLD, **facts)
    steps = {"step": str(back.step + 1), "steps": str(len(back.row.loads))}
    return reason(ReasonCode.COMEBACK, percent=percent(back.share), **facts, **steps)


def _comeback_ceiling(asked: Asked, back: Comeback, found: Proposal) -> Ceiling:
    # After a few days only: what was last on the bar, whether or not all of it was done.
    mass = eased(back.good, back.share) if back.row.sets else found.base
    return Ceiling(reason=comeback_reason(asked, back), mass=mass)


def _deload(asked: Asked, inputs: Inputs, found: Proposal, code: ReasonCode) -> Ceiling:
    usual = found.base if found.base is not None else found.load
    lifted = code is ReasonCode.DELOAD or usual != ZERO
    facts = {"percent": percent(DELOAD_LOAD)} if lifted else {}
    facts |= {"sets": str(deload_sets(inputs.dose.sets))}
    known = {} if asked.loadless else {"load": load_text(usual, asked.exercise)}
    return Ceiling(reason=reason(code, **facts, **known), mass=eased(usual, DELOAD_LOAD))


def _full(asked: Asked, found: Proposal) -> Ceiling:
    usual = found.base if found.base is not None else found.load
    known = {} if asked.loadless else {"load": load_text(usual, asked.exercise)}
    return Ceiling(reason=reason(ReasonCode.COACH_FULL, **known), mass=usual)


def _session_cap(asked: Asked, found: Proposal, base: Mass, standing: Standing) -> Ceiling:
    """Return the most that the load may rise to at once; it yields to a step that reps have earned.

    On a way back it is counted from the load before the break, which was lifted already.
    """
    half = 2 if standing.pain.half_speed else 1
    known = base if standing.back is None else max(base, standing.back.good)
    most = asked.most_at_once(known, half)
    next_step = asked.ladder.over(base)
    if found.earned and half == 1 and next_step is not None:
        most = max(most, min(found.load, next_step))
    step = asked.ladder.over(most)
    facts = {"load": load_text(base, asked.exercise), "cap": load_text(most, asked.exercise)}
    if step is not None:
        jump = (step - base).ratio(system_mass(base, asked.exercise))
        facts |= {"next": load_text(step, asked.exercise), "percent": percent(jump)}
    return Ceiling(reason=reason(ReasonCode.CAP, **facts), mass=most)


class _Stretch(NamedTuple):
    """So many days, how much a load may rise in them [fraction], and whether a step that was earned is let through."""

    days: timedelta
    fraction: Decimal
    code: ReasonCode
    earned: bool


def _cap_since(
    inputs: Inputs, asked: Asked, past: tuple[Performance, ...], found: Proposal, stretch: _Stretch
) -> Ceiling:
    """Return the most that the load may have risen to in a stretch of days; never under the load now.

    Counted from the best load done by then, or the first known since. One step that is over the cap by itself
    and was earned is let through: else a coarse kit would stand still for ever.
    """
    start = inputs.moment.today - stretch.days
    older = [one for one in past if one.exposure.on <= start]
    known = [one for one in older if one.verdict is Verdict.DONE] or older or [past[0]]
    from_ = max(known, key=lambda one: one.load)
    low, base = from_.load, found.base or past[-1].load
    most = low + system_mass(low, asked.exercise) * stretch.fraction
    step = asked.ladder.over(low)
    if stretch.earned and step is not None:
        most = max(most, step)
    most = max(most, base)
    told = reason(
        stretch.code,
        load=load_text(base, asked.exercise),
        percent=percent(stretch.fraction),
        cap=load_text(most, asked.exercise),
        date=max(from_.exposure.on, start).isoformat(),
    )
    return Ceiling(reason=told, mass=most)
