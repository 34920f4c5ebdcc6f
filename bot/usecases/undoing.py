"""Taking back what was done last in a session, also after it has closed."""

from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render import sessions_said as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import marks
from bot.usecases.last_night import is_of_last_night
from bot.usecases.moving import can_be_taken_back
from bot.usecases.records import settled
from bot.usecases.records import taken_back as bests_taken_back
from bot.usecases.replanning import taken_back
from bot.usecases.session_view import show
from core.checkin.pain import Band, band
from core.checkin.training_log import Session
from core.local_time import local_date
from core.policy import Policy

CLOSED = ("done", "partial", "left_out", "moved")


def undo(session: Session, unit: Unit, now: datetime, *, moved: bool = False) -> list[Effect]:
    """Take back what was done last: sets logged together, or an exercise left out. A closed session opens again."""
    if session.state in ("left_out", "moved"):
        return _taken_up(session, unit, now, moved=moved)
    touched = marks.newest_skips(session.id, unit)
    if not touched:
        entry = unit.sets.last_entry(session.id)
        unit.sets.void([each.id for each in entry], "client", now)
        touched = {each.item_id for each in entry}
    if not touched:
        return show(session.id, unit, note=say.nothing_to_undo(), moved=moved)
    for item_id in touched:
        unit.sessions.change_item(item_id, state="open", cause=None, left_last=None)
        marks.forget(item_id, session.id, unit)
    if session.state == "sent":  # made shorter, and not begun
        return show(session.id, unit, screen="overview", note=say.TAKEN_BACK, moved=moved)
    first = next(each.id for each in unit.sessions.items(session.id) if each.id in touched)
    unit.sessions.change(session.id, state="started", closed_at=None, cursor_item_id=first)
    if session.closed_at is None:
        return show(session.id, unit, screen="item", note=say.TAKEN_BACK, moved=moved)
    # What is open again counts for nothing until it is closed anew.
    settled(session.client_id, {each.exercise for each in unit.sessions.items(session.id)}, unit, now)
    note = "\n".join([say.OPEN_AGAIN, *bests_taken_back(session.client_id, unit, now)])
    return show(session.id, unit, screen="item", note=note, moved=moved)


def _taken_up(session: Session, unit: Unit, now: datetime, *, moved: bool) -> list[Effect]:
    taken_back(session, unit, now)
    return show(session.id, unit, screen="overview", note=say.TAKEN_UP, moved=moved)


def undo_closed(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take back the last thing of today's session after it has closed; what pain has ended stays closed."""
    update_id = person.arrival.update_id if person.arrival else 0
    key = f"reply:{update_id}:undo"
    found = _newest_of_today(client, unit, now)
    if found is None or not can_be_taken_back(found, unit):
        return [Send(person.chat_id, say.nothing_open_to_undo(), key=key)]
    if ended_by_pain(found, unit):
        return [Send(person.chat_id, say.stays_closed(), key=key)]
    return undo(found, unit, now, moved=True)


def _newest_of_today(client: Client, unit: Unit, now: datetime) -> Session | None:
    """Return today's session that was closed last; one that had no card, left out by an absence, is none."""
    zone = client.zone or "UTC"
    return next(
        (
            each
            for each in unit.sessions.of_client(client.id, CLOSED)
            if _is_of_today(each, now, zone, unit.rules.policy(client.id))
            and unit.prompts.newest("session", each.id) is not None
        ),
        None,
    )


def _is_of_today(session: Session, now: datetime, zone: str, policy: Policy) -> bool:
    """Return whether a session is today's; one that was done past midnight is its day's until the night is over."""
    done = session.state in ("done", "partial")
    return session.local_on == local_date(now, zone) or (
        done and is_of_last_night(session, now, zone, policy)
    )


def ended_by_pain(session: Session, unit: Unit) -> bool:
    """Return whether pain has ended a session: 7 and over, or sudden."""
    reports = unit.body.since(session.client_id, session.local_on)
    return any(
        each.session_id == session.id and band(each.as_pain()) is Band.HIGH
        for each in reports
        if each.released_at is None
    )
