"""`/today`: the card of today's session once more, before its hour too, or what comes next and when."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from bot.messages import Effect, Message, Person, Send
from bot.render import today as say
from bot.render.helping import for_coach
from bot.render.illness import held_today
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import absence, join, strangers
from bot.usecases.last_night import is_of_last_night
from bot.usecases.move_views import moved_to
from bot.usecases.other_training_button import with_button
from bot.usecases.sending import sent
from bot.usecases.session_view import show
from core.checkin.training_log import Session
from core.local_time import local_date

OUT = ("started", "asking", "sent")
RUNNING = ("started", "asking")
CLOSED = ("done", "partial", "left_out", "missed", "unsent", "held", "moved")


@dataclass(frozen=True, slots=True)
class Today:
    """`/today`."""


def today(command: Today, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show today's session where it stands; send it where it is planned and its hour has not come.

    What was begun before midnight and is still going on comes first, until the night is over.
    """
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    if client.frozen_at is not None:
        return [join.answer(person, "today", say.held())]
    on = local_date(now, client.zone or "UTC")
    ill = absence.illness_on(client.id, on, unit)
    if ill is not None:
        goes_on = None if ill.free_on is None else absence.back_on(ill.free_on, unit.rules.policy(client.id))
        return [join.answer(person, "today", held_today(goes_on))]
    out = sorted(
        unit.sessions.of_client(client.id, OUT), key=lambda each: (each.local_on != on, each.state == "sent")
    )
    zone, policy = client.zone or "UTC", unit.rules.policy(client.id)
    running = (each for each in out if each.state in RUNNING)
    late = next(
        (each for each in running if is_of_last_night(each, now, zone, policy)),
        None,
    )
    if late is not None:
        return show(late.id, unit, moved=True)
    planned = _planned_on(on, client, unit)
    if out and (out[0].local_on == on or planned is None):
        return show(out[0].id, unit, moved=True)
    if planned is not None:
        return _sent_now(planned, client, unit, now)
    coming = with_button(_what_comes(on, client, unit), client, person, unit, now)
    return [join.answer(person, "today", coming)]


def client_of(person: Person, unit: Unit, now: datetime) -> tuple[Client | None, Sequence[Effect]]:
    """Return the client who asks; with None, what anybody else is answered: a coach, a stranger, one who joins."""
    if person.role == "coach":
        return None, [join.answer(person, "help", for_coach())]
    if person.role != "client" or person.client_id is None:
        return None, strangers.answered(person, unit, now)
    client = unit.clients.get(person.client_id)
    if client.state not in ("active", "paused"):
        return None, join.start(join.Start(None), person, unit, now)
    return client, []


def _planned_on(on: date, client: Client, unit: Unit) -> Session | None:
    planned = unit.sessions.of_client(client.id, ("planned",))
    return next((each for each in planned if each.local_on == on), None)


def _sent_now(planned: Session, client: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    account = unit.accounts.of_client(client.id)
    if account is None:
        raise LookupError(f"client {client.id} speaks without an account")
    effects = sent(planned, client, account, unit, now)
    return [
        replace(each, message=replace(each.message, silent=True)) if isinstance(each, Send) else each
        for each in effects
    ]


def _what_comes(on: date, client: Client, unit: Unit) -> Message:
    closed = [each for each in unit.sessions.of_client(client.id, CLOSED) if each.local_on == on]
    following = unit.sessions.next_planned(client.id)
    coming = say.Coming(
        closed=name_of(closed[0], unit) if closed else None,
        state=closed[0].state if closed else None,
        following=name_of(following, unit) if following else None,
        due_at=following.due_at if following else None,
        zone=client.zone or "UTC",
        to=moved_to(closed[0], unit) if closed else None,
    )
    return say.what_comes(coming)


def name_of(session: Session, unit: Unit) -> str:
    """Return what the coach calls the day of a session."""
    return unit.versions.day_name(session)
