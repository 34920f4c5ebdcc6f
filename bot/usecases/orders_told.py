"""A coach told that pain holds a load that she ordered, when the card goes out."""

from bot.messages import Effect, Level, Tell
from bot.render import orders_said as say
from bot.render.ordering import order_line
from bot.render.reasons import reason_line
from bot.store.people import Client
from bot.store.units import Unit
from core.checkin.training_log import Session
from core.loads.asked import load_text
from core.loads.order import OrderKind
from core.loads.reasons import ReasonCode

PAIN = frozenset(
    {
        ReasonCode.PAIN_LOCKED,
        ReasonCode.PAIN_SUDDEN,
        ReasonCode.PAIN_SPREADING,
        ReasonCode.PAIN_NO_FINDING,
        ReasonCode.PAIN_DROP,
        ReasonCode.PAIN_RELEASED,
        ReasonCode.PAIN_NO_RAISE,
        ReasonCode.PAIN_WAY_BACK,
        ReasonCode.PAIN_HOLD,
    }
)


def held_back(session: Session, client: Client, unit: Unit) -> list[Effect]:
    """Return what a coach is told of loads that she ordered and that pain keeps lower: once an order and report."""
    effects: list[Effect] = []
    standing = [each for each in unit.orders.standing(client.id) if each.kind == OrderKind.LOAD]
    for item in unit.sessions.items(session.id):
        exercise = unit.exercises.get(item.exercise)
        hers = [
            each for each in standing if each.value.bears_on(exercise) and each.value.stands(session.local_on)
        ]
        if not hers or item.decision_id is None:
            continue
        decision, order = unit.decisions.get(item.decision_id).value, hers[-1]
        pain = next((one for one in decision.reasons if one.code in PAIN), None)
        given = decision.load.mass if decision.load is not None else None
        wanted = order.value.mass
        if pain is None or wanted is None or (given is not None and given >= wanted):
            continue
        load = say.NOTHING if given is None else load_text(given, exercise)
        told = order_line(order.value, unit.exercises.catalogue()).removesuffix(".")
        message = say.held_by_pain(client.name, told, load, reason_line(pain, coach=True))
        key = f"order:{order.id}:{decision.pain_used[-1] if decision.pain_used else 0}"
        effects.append(Tell(client.id, key=key, grown=1, level=Level.TODAY, message=message))
    return effects
