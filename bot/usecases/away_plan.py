"""What is planned follows a client's absences: left out without training, at the place of the absence with it."""

from datetime import date, datetime

from bot.store.aways import Away
from bot.store.people import Client
from bot.store.units import Unit
from core.checkin.training_log import Session
from core.local_time import instant_of, local_date

AWAY = "away"
"""Why such a session was left out."""


def follow_aways(client: Client, unit: Unit, now: datetime) -> None:
    """Have what is planned follow the absences that stand now. Twice changes nothing.

    By the calendar, what falls into an absence without training is left out, which is no miss; it comes back where the
    absence is taken back or ended, if its hour is still to come. Next in line, the dates pass over the absence.
    """
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    aways = unit.aways.standing(client.id, today)
    for each in unit.sessions.of_client(client.id, ("planned",)):
        covering = _covering(each.local_on, aways)
        if covering is not None and not covering.training:
            unit.sessions.change(each.id, state="left_out", left_reason=AWAY, closed_at=now, place=None)
        else:
            place = covering.place if covering is not None else None
            if each.place != place:
                unit.sessions.change(each.id, place=place)
    for each in unit.sessions.of_client(client.id, ("left_out",)):
        if _only_away(each) and each.local_on >= today:
            _come_back(each, client, aways, unit, now)


def without_training(client_id: int, first: date, unit: Unit) -> list[Away]:
    """Return the absences without training that last until a date or longer."""
    return [each for each in unit.aways.standing(client_id, first) if not each.training]


def _covering(on: date, aways: list[Away]) -> Away | None:
    return next((each for each in aways if each.covers(on)), None)


def _only_away(session: Session) -> bool:
    """Return whether a session was left out for an absence alone, and its card never came."""
    return session.left_reason == AWAY and session.sent_at is None


def _come_back(session: Session, client: Client, aways: list[Away], unit: Unit, now: datetime) -> None:
    covering = _covering(session.local_on, aways)
    taken = covering is not None and not covering.training
    running = unit.blocks.running(client.id)
    if taken or client.hour is None or running is None or running.id != session.assignment_id:
        return
    due_at = instant_of(session.local_on, client.hour, client.zone or "UTC")
    if due_at > now and unit.moves.later(session) is None:
        place = covering.place if covering is not None else None
        unit.sessions.change(
            session.id, state="planned", left_reason=None, closed_at=None, due_at=due_at, place=place
        )
