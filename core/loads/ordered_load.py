"""What a coach's orders make of what the log asks for: a load of hers, nothing heavier, a raise that waits for her.

Each is a ceiling among the others; the lowest wins. A load of hers that is heavier takes the place of what the log asks
for, and then stays under pain, limits, a break, caps and the kit like everything else. Our proposal after a practising
coach's review.
"""

from dataclasses import replace

from core.loads.asked import ZERO, Asked, load_text, percent, system_mass
from core.loads.order import CoachOrder, OrderKind, newest, standing_on
from core.loads.outcome import Ceiling, Reason
from core.loads.past import Inputs
from core.loads.proposals import Proposal, reason
from core.loads.reasons import ReasonCode
from core.programme.prescription import Load
from core.units import Mass

HER_OWN = frozenset(
    {
        ReasonCode.COACH_LOAD,
        ReasonCode.RAISE_WRITTEN,
        ReasonCode.RAISE_STEP,
        ReasonCode.AS_WRITTEN,
        ReasonCode.PERCENT,
        ReasonCode.EASE_OVER,
        ReasonCode.ILL_OVER,
        ReasonCode.COMEBACK,
        ReasonCode.MERGED,
    }
)
"""What raises without asking: what she wrote or ordered herself, and a load from before that comes back."""


def order_in_force(inputs: Inputs, kind: OrderKind) -> CoachOrder | None:
    """Return the order of a kind that holds today and is about this exercise, the one given last."""
    return newest(standing_on(inputs.orders, inputs.moment.today), kind, inputs.exercise)


def ordered_mass(inputs: Inputs, asked: Asked) -> Mass | None:
    """Return the load that the coach has ordered, or the next lighter that the kit makes; None where there is none.

    Where the exercise has nothing to load, or the kit nothing as light, there is none: nothing is given heavier.
    """
    order = order_in_force(inputs, OrderKind.LOAD)
    if order is None or order.mass is None or asked.loadless:
        return None
    return asked.ladder.at_or_under(order.mass) or order.mass


def with_order(
    asked: Asked, found: Proposal, mass: Mass | None, *, held: bool, hurts: bool = False
) -> Proposal:
    """Return what is proposed once the coach has ordered a load.

    Args:
        asked: Today's task.
        found: What the log asks for, or the block where there is no log.
        mass: Her load; None where she ordered none.
        held: True where something holds: with no log, her load is then only a ceiling.
        hurts: True where pain holds: her load is then only a ceiling, whatever the log asks for.
    """
    if mass is None or mass == found.load:
        return found
    if mass > found.load and (hurts or (found.base is None and held)):
        return found
    target = found.same if mass == found.base else asked.span.low
    told = reason(ReasonCode.COACH_LOAD, load=load_text(mass, asked.exercise))
    return replace(found, load=mass, target=target, reasons=(told,), earned=False, bridge=False, over=())


def order_ceilings(inputs: Inputs, asked: Asked, base: Mass | None, mass: Mass | None) -> tuple[Ceiling, ...]:
    """Return the ceilings that her orders set beside one to ease: her load, and the load now where nothing rises."""
    found = []
    if mass is not None:
        told = reason(ReasonCode.COACH_LOAD, load=load_text(mass, asked.exercise))
        found.append(Ceiling(reason=told, mass=mass))
    hold = order_in_force(inputs, OrderKind.HOLD)
    if hold is not None and base is not None:
        until = {} if hold.until is None else {"until": hold.until.isoformat()}
        told = reason(ReasonCode.COACH_HELD, load=load_text(base, asked.exercise), **until)
        found.append(Ceiling(reason=told, mass=base))
    return tuple(found)


def load_in(text: str) -> Load:
    """Return the load that a reason writes as a fact: `92.5 kg`, `bw+5 kg`, `bw`."""
    body = text.startswith("bw")
    number, _, unit = text.removeprefix("bw").partition(" ")
    if not number:
        return Load.bodyweight()
    return Load.bodyweight(Mass.of(number, unit)) if body else Load.of(number, unit)


def waiting(inputs: Inputs, asked: Asked, found: Proposal, load: Mass) -> Reason | None:
    """Return that a raise waits for the coach; None where it is no raise, under her size, her own, or agreed to."""
    most, base = inputs.policy.raise_asks_over, found.base
    if most is None or base is None or load <= base or found.reasons[0].code in HER_OWN:
        return None
    share = (load - base).ratio(system_mass(base, asked.exercise))
    words = (order_in_force(inputs, kind) for kind in (OrderKind.AGREED, OrderKind.LOAD))
    if share <= most or any(one is not None and load <= (one.mass or ZERO) for one in words):
        return None
    facts = {"load": load_text(base, asked.exercise), "next": load_text(load, asked.exercise)}
    return reason(ReasonCode.RAISE_WAITS, percent=percent(share), **facts)
