"""Coming back after a break: how long it was, and what is said of it before the first session."""

from datetime import date

from bot.render.coming_back import comeback_words
from bot.store.people import Client
from bot.store.units import Unit
from core.checkin.training_log import Session
from core.loads.looking_back import TRAINED_BEARS
from core.loads.reasons import ReasonCode

OLDER = "60+"
LIGHTER = (ReasonCode.COMEBACK, ReasonCode.COMEBACK_COACH)


def days_without(client_id: int, until: date, unit: Unit) -> int:
    """Return the days from a client's last training to a date; 0 where she has not trained in weeks past. [days]"""
    trained = unit.sessions.trained_on(client_id, until - TRAINED_BEARS, until)
    return (until - trained[-1]).days if trained else 0


def comeback_note(session: Session, unit: Unit) -> str | None:
    """Return what a card says of a break; None where no lift of it is lighter for one."""
    rows = [item.decision_id for item in unit.sessions.items(session.id) if item.decision_id]
    told = {one.code for decision in unit.decisions.values(rows).values() for one in decision.reasons}
    if not told.intersection(LIGHTER):
        return None
    client = unit.clients.get(session.client_id)
    return said_of_break(client, session.local_on, unit) or None


def said_of_break(client: Client, until: date, unit: Unit) -> str:
    """Return what is said of the break that a date ends; empty where nothing is lighter for it."""
    return comeback_words(days_without(client.id, until, unit), older=client.age_band == OLDER)
