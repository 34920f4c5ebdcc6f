"""What pain takes back of a card that is out: nothing on it may rise at a place that hurts.

A card is decided when it goes out. What is said to hurt after that takes back what it had raised and what was not begun
yet; in the morning, before a session, it takes back all that the place asks for.
"""

from datetime import datetime

from bot.messages import Effect
from bot.render.health_said import HELD_FOR_HEALTH
from bot.render.pain_alert import HELD_NOW
from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.decisions import decide, dose_for, given_dose
from bot.usecases.kit_known import kit_today
from bot.usecases.merging import moment_of
from bot.usecases.session_view import show
from core.checkin.pain import Felt, PainReport, bears_on
from core.checkin.training_log import Item, Session
from core.loads.asked import amount
from core.loads.decision import Decision, Kind
from core.programme.exercises import Exercise
from core.programme.prescription import Dose

STOPPED = (Kind.PAUSE, Kind.SWAP)


def held(kept: BodyReport, report: PainReport, unit: Unit, now: datetime) -> list[Effect]:
    """Decide anew for what a place loads on a card that is out, and show the card where something is less now.

    The exercise that it hurts in is left to what was said of it: lighter, one try.
    """
    session = unit.sessions.open_one(kept.client_id)
    if session is None or session.state not in ("sent", "started") or report.score == 0:
        return []
    changed = [
        item
        for item in unit.sessions.items(session.id)
        if item.state == "open"
        and item.id != kept.item_id
        and bears_on(report, unit.exercises.get(item.exercise))
        and _is_at_stake(item, session, report, unit)
        and lessened(item, session, unit, now)
    ]
    return show(session.id, unit, note=HELD_NOW) if changed else []


def eased_by_health(client: Client, unit: Unit, now: datetime) -> list[Effect]:
    """Decide anew for all that is still open on a card that is out, after what she said of her health; show it.

    Never more than the card has: what was raised on it is taken back, and more reps are left.
    """
    effects: list[Effect] = []
    for session in unit.sessions.of_client(client.id, ("sent", "started")):
        still = [item for item in unit.sessions.items(session.id) if item.state == "open"]
        if [item for item in still if lessened(item, session, unit, now, cause=None)]:
            effects += show(session.id, unit, moved=True, note=HELD_FOR_HEALTH)
    return effects


def _is_at_stake(item: Item, session: Session, report: PainReport, unit: Unit) -> bool:
    before = unit.decisions.get(item.decision_id).value if item.decision_id else None
    fresh = report.felt is Felt.MORNING and session.state == "sent"
    return before is not None and (fresh or before.kind is Kind.RAISE)


def lessened(item: Item, session: Session, unit: Unit, now: datetime, *, cause: str | None = "pain") -> bool:
    """Give less of an exercise, where the rules now say less; never more than the card has.

    Args:
        item: An open one of a session whose card is out.
        session: That session.
        unit: Open transaction.
        now: Instant.
        cause: Why it is left out where nothing of it is given any more; None where that is no cause of hers.

    Returns:
        Whether less is given now.
    """
    client = unit.clients.get(session.client_id)
    exercise = unit.exercises.get(item.exercise)
    dose, moment = dose_for(exercise, item.prescription), moment_of(session, unit)
    kit = kit_today(session, client, unit)
    row, decision = decide(client, item.exercise, dose, moment, "card", unit, now, card_is_out=True, kit=kit)
    given = given_dose(dose, decision)
    if not _is_less(decision, given, item.given, exercise):
        return False
    unit.decisions.for_item(row, item.id)
    stopped = {"state": "skipped", "cause": cause} if decision.kind in STOPPED else {}
    unit.sessions.change_item(item.id, decision_id=row, given=given, **stopped)
    return True


def _is_less(decision: Decision, given: Dose, before: Dose, exercise: Exercise) -> bool:
    if decision.kind in STOPPED:
        return True
    now, then = (amount(each.load, exercise) for each in (given, before))
    if now is None or then is None or now > then:
        return False
    return given != before
