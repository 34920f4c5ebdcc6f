"""`/week`: the sessions of this week on the client's own calendar, each with how it stands."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Effect, Person
from bot.render import week as say
from bot.store.units import Unit
from bot.usecases.join import answer
from bot.usecases.move_views import moved_to, taken_in
from bot.usecases.other_training_button import with_button
from bot.usecases.today import CLOSED, OUT, client_of, name_of
from core.checkin.training_log import Session
from core.local_time import local_date


@dataclass(frozen=True, slots=True)
class Week:
    """`/week`."""


def week(command: Week, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the sessions from Monday to Sunday."""
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    monday = today - timedelta(days=today.weekday())
    sunday = monday + timedelta(days=6)
    found = unit.sessions.of_client(client.id, (*OUT, *CLOSED, "planned"))
    lines = [_line(each, unit) for each in reversed(found) if monday <= each.local_on <= sunday]
    message = say.week(lines, monday, sunday, zone, frozen=client.frozen_at is not None)
    return [answer(person, "week", with_button(message, client, person, unit, now))]


def _line(session: Session, unit: Unit) -> say.Line:
    lift = taken_in(session, unit)
    return say.Line(
        session.local_on,
        name_of(session, unit),
        session.state,
        session.due_at,
        to=moved_to(session, unit),
        with_lift=lift.lift if lift else "",
    )
