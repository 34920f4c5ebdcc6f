"""The load line: every ceiling on today's load, in order of authority, and the lowest of them.

The order: stop sign and health gate, pain, the coach's order, comeback, deload, a session that takes in a lift of
another day, caps, and what the log asks for.
The coach may always lower; nothing here lets a load over any ceiling. Our proposal after a practising coach's review.
"""

from dataclasses import dataclass
from datetime import timedelta

from core.loads.asked import Asked, eased, load_text, percent, system_mass
from core.loads.comeback import Comeback
from core.loads.order import CoachOrder
from core.loads.order_line import order_ceiling
from core.loads.outcome import Ceiling, Reason
from core.loads.pain_line import PainLine
from core.loads.past import Inputs
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, reason
from core.loads.reasons import ReasonCode
from core.programme.lighter_weeks import DELOAD_LOAD, deload_sets
from core.units import Mass

FOUR_WEEKS = timedelta(days=28)


@dataclass(frozen=True, slots=True)
class Standing:
    """All that bears on today beside the log.

    Attributes:
        pain: What pain allows.
        back: The way back from a break, if in one.
        deload: True in a planned lighter week.
        order: The coach's order to ease, if one stands.
        merged: True in a session that takes in a lift of another day.
    """

    pain: PainLine
    back: Comeback | None
    deload: bool
    order: CoachOrder | None = None
    merged: bool = False

    @property
    def holds(self) -> bool:
        """True when nothing may rise over what was done before."""
        planned = self.deload or self.merged
        return self.pain.holds or self.back is not None or planned or self.order is not None


def ceilings(
    inputs: Inputs, asked: Asked, past: tuple[Performance, ...], found: Proposal, standing: Standing
) -> tuple[Ceiling, ...]:
    """Return every ceiling that stands today, in order of authority; the log's own proposal is the last.

    The plan is not frozen and pain forbids nothing.
    """
    listed = list(standing.pain.ceilings)
    back = standing.back
    if back is not None:
        listed.append(_comeback_ceiling(asked, back, found))
    if standing.deload:
        usual = found.base if found.base is not None else found.load
        listed.append(Ceiling(reason=_deload(asked, inputs, usual), mass=eased(usual, DELOAD_LOAD)))
    if standing.merged and found.base is not None:
        listed.append(Ceiling(reason=merged_reason(asked, found.base), mass=found.base))
    if found.base is not None:
        listed.append(_session_cap(asked, found, found.base, standing))
        listed.append(_four_weeks_cap(inputs, asked, past, found, found.base))
    listed.append(Ceiling(reason=found.reasons[0], mass=found.load))
    if standing.order is not None:
        lowest = min(one.mass for one in listed if one.mass is not None)
        listed.insert(len(standing.pain.ceilings), order_ceiling(asked, standing.order, lowest))
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


def _deload(asked: Asked, inputs: Inputs, usual: Mass) -> Reason:
    facts = {"percent": percent(DELOAD_LOAD), "sets": str(deload_sets(inputs.dose.sets))}
    known = {} if asked.loadless else {"load": load_text(usual, asked.exercise)}
    return reason(ReasonCode.DELOAD, **facts, **known)


def _session_cap(asked: Asked, found: Proposal, base: Mass, standing: Standing) -> Ceiling:
    """Return the most that the load may rise to at once; it yields to a step that reps have earned.

    On a way back it is counted from the load before the break, which was lifted already.
    """
    half = 2 if standing.pain.half_speed else 1
    known = base if standing.back is None else max(base, standing.back.good)
    most = asked.most_at_once(known, half)
    if found.earned and half == 1:
        most = max(most, found.load)
    step = asked.ladder.over(most)
    facts = {"load": load_text(base, asked.exercise), "cap": load_text(most, asked.exercise)}
    if step is not None:
        jump = (step - base).ratio(system_mass(base, asked.exercise))
        facts |= {"next": load_text(step, asked.exercise), "percent": percent(jump)}
    return Ceiling(reason=reason(ReasonCode.CAP, **facts), mass=most)


def _four_weeks_cap(
    inputs: Inputs, asked: Asked, past: tuple[Performance, ...], found: Proposal, base: Mass
) -> Ceiling:
    """Return the most that the load may have risen to in four weeks; never under the load now.

    Counted from the best load done by then, or the first known since. One step that is over the cap by itself
    and was earned is let through: else a coarse kit would stand still for ever.
    """
    start = inputs.moment.today - FOUR_WEEKS
    older = [one for one in past if one.exposure.on <= start]
    known = [one for one in older if one.verdict is Verdict.DONE] or older or [past[0]]
    from_ = max(known, key=lambda one: one.load)
    low = from_.load
    most = low + system_mass(low, asked.exercise) * asked.cap_four_weeks
    step = asked.ladder.over(low)
    if found.earned and step is not None:
        most = max(most, step)
    most = max(most, base)
    told = reason(
        ReasonCode.CAP_FOUR_WEEKS,
        load=load_text(base, asked.exercise),
        percent=percent(asked.cap_four_weeks),
        cap=load_text(most, asked.exercise),
        date=max(from_.exposure.on, start).isoformat(),
    )
    return Ceiling(reason=told, mass=most)
