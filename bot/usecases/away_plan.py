"""What is planned follows a client's absences and holidays: left out without training, at its place with it."""

from datetime import date, datetime

from bot.store.aways import Away
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.time_off import AWAY, HOLIDAY, TimeOff, tell_ahead, time_off
from core.checkin.training_log import Session
from core.local_time import instant_of, local_date

OFF = (AWAY, HOLIDAY)
"""Why such a session was left out."""


def follow_time_off(client: Client, unit: Unit, now: datetime) -> None:
    """Have what is planned follow the absences and holidays that stand now. Twice changes nothing.

    By the calendar, what falls into an absence without training or a holiday is left out, which is no miss; it comes
    back where that is taken back or ended, if its hour is still to come. Next in line, the dates pass over it.
    """
    today = local_date(now, client.zone or "UTC")
    aways, off = unit.aways.standing(client.id, today), time_off(client.id, today, unit)
    for each in unit.sessions.of_client(client.id, ("planned",)):
        why = _why(each.local_on, off)
        if why is not None:
            unit.sessions.change(each.id, state="left_out", left_reason=why, closed_at=now, place=None)
        elif each.place != (place := _place(each.local_on, aways)):
            unit.sessions.change(each.id, place=place)
    for each in unit.sessions.of_client(client.id, ("left_out",)):
        if _only_off(each) and each.local_on >= today:
            why = _why(each.local_on, off)
            if why is None:
                _come_back(each, client, aways, unit, now)
            elif why != each.left_reason:
                unit.sessions.change(each.id, left_reason=why)
    tell_ahead(client, unit, now)


def _why(on: date, off: list[TimeOff]) -> str | None:
    return next((each.why for each in off if each.covers(on)), None)


def _place(on: date, aways: list[Away]) -> str | None:
    return next((each.place for each in aways if each.covers(on)), None)


def _only_off(session: Session) -> bool:
    """Return whether a session was left out for an absence or a holiday alone, and its card never came."""
    return session.left_reason in OFF and session.sent_at is None


def _come_back(session: Session, client: Client, aways: list[Away], unit: Unit, now: datetime) -> None:
    running = unit.blocks.running(client.id)
    if client.hour is None or running is None or running.id != session.assignment_id:
        return
    due_at = instant_of(session.local_on, client.hour, client.zone or "UTC")
    if due_at > now and unit.moves.later(session) is None:
        place = _place(session.local_on, aways)
        unit.sessions.change(
            session.id, state="planned", left_reason=None, closed_at=None, due_at=due_at, place=place
        )
