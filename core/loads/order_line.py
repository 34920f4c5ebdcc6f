"""What a coach's order to ease makes of a load and of sets, and of the session after it.

Lighter than everything else that stands, never heavier. Our proposal after a practising coach's review.
"""

from dataclasses import replace
from decimal import Decimal

from core.loads.asked import ZERO, Asked, eased, load_text
from core.loads.order import FEWER_SETS, CoachOrder
from core.loads.outcome import Ceiling
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, reason
from core.loads.reasons import ReasonCode
from core.units import Mass


def order_ceiling(asked: Asked, order: CoachOrder, others: Mass) -> Ceiling:
    """Return the ceiling that an order to ease sets under all the others.

    Where there is no load, or the kit has nothing as light as that, only sets are fewer.
    """
    mass = eased(others, 1 - Decimal(order.percent) / 100)
    if asked.ladder.at_or_under(mass) is None:
        mass = asked.ladder.at_or_under(others) or mass
    facts = {"sets": str(FEWER_SETS)}
    if ZERO != mass < others:
        facts |= {"percent": str(order.percent), "load": load_text(mass, asked.exercise)}
    return Ceiling(reason=reason(ReasonCode.COACH_EASED, **facts), mass=mass)


def eased_sets(sets: int) -> int:
    """Return the sets of an eased session; at least 1."""
    return max(1, sets - FEWER_SETS)


def before_ease(past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return what counts for the next load: sessions that were eased and done are no step down.

    One that was eased and still not done counts like any other.
    """
    kept = [one for one in past if not (one.exposure.eased and one.verdict is Verdict.DONE)]
    return tuple(kept) or past


def after_ease(asked: Asked, past: tuple[Performance, ...], found: Proposal) -> Proposal:
    """Return the proposal after a session that was eased and done: the load from before, and nothing over it."""
    last = past[-1]
    if found.base is None or not last.exposure.eased or last.verdict is not Verdict.DONE:
        return found
    if found.load < found.base or found.base <= last.load:
        return found
    told = reason(ReasonCode.EASE_OVER, load=load_text(found.base, asked.exercise))
    return replace(found, load=found.base, target=found.same, reasons=(told,), earned=False, bridge=False)
