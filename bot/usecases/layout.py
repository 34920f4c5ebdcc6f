"""Laying out sessions: what a block asks for, on a client's own dates."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.messages import Effect, Person
from bot.store.blocks import Assignment, running_short
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import week_clock
from bot.usecases.away_plan import follow_time_off
from bot.usecases.in_line import lay, style_of
from core.errors import TooFewTrainingDays
from core.local_time import instant_of, local_date
from core.programme.block import Weekday
from core.programme.replanning import Style
from core.programme.versions import planned_days

__all__ = ["LayOut", "carry_on", "laid_out", "lay_out", "play_out", "running_short"]

AHEAD = timedelta(days=14)
"""How far ahead sessions are laid out."""


@dataclass(frozen=True, slots=True)
class LayOut:
    """A client's sessions are to be laid out further ahead."""

    client_id: int


def laid_out(command: LayOut, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Lay out what fell due, two weeks ahead."""
    del person
    lay_out(command.client_id, unit, now)
    return []


def lay_out(client_id: int, unit: Unit, now: datetime, *, anew: bool = False) -> int:
    """Lay out what is not there yet of a client's next 14 days; return how many sessions were added.

    Twice on a day changes nothing: a session is laid once for its week and day of the block. Next in line, what
    waits gets its date anew.

    Args:
        client_id: Whose.
        unit: Open transaction.
        now: Instant.
        anew: True after a change of hour or clock.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    client = unit.clients.get(client_id)
    running = unit.blocks.running(client_id)
    if client.state != "active" or running is None or not (client.zone and client.hour and client.days):
        return 0
    until = local_date(now, client.zone) + AHEAD
    added = _laid_until(client, running, unit, now, until, anew=anew)
    unit.blocks.laid(running.id, until)
    follow_time_off(client, unit, now)
    week_clock.planned(client_id, unit, now)
    return added


def play_out(client: Client, until: date, unit: Unit, now: datetime) -> None:
    """Lay out what a client runs up to and with a date, and take back what lies after it: another block begins then."""
    running = unit.blocks.running(client.id)
    after = [each.id for each in unit.sessions.of_client(client.id, ("planned",)) if each.local_on > until]
    unit.sessions.drop(after, reason="coach")
    if running is not None and client.state == "active" and client.zone and client.hour and client.days:
        with suppress(TooFewTrainingDays):
            _laid_until(client, running, unit, now, until)


def _laid_until(
    client: Client, running: Assignment, unit: Unit, now: datetime, until: date, *, anew: bool = False
) -> int:
    """Lay out what is not there yet up to a date, for a client with clock, hour and days."""
    hour, zone = client.hour, client.zone or "UTC"
    if style_of(unit) is Style.IN_LINE or hour is None:
        return lay(client, running, unit, now, until, anew=anew)
    course = unit.versions.course(running)
    days = [Weekday(day) for day in client.days or ()]
    laid = {(each.week_no, each.day_key) for each in unit.moves.of_assignment(running.id)}
    added = 0
    for day in planned_days(course, days, local_date(now, zone), until):
        if any((day.week_no, old) in laid for old in course.other_keys(day.day_key, day.on)):
            continue  # the same day under the name that it had before
        due_at = instant_of(day.on, hour, zone)
        added += unit.sessions.lay(client.id, running.id, day.week_no, day.day_key, day.on, due_at)
    return added


def carry_on(client_id: int, unit: Unit, now: datetime) -> None:
    """Next in line, give what was not done its next turn. What a client did must not be lost over too few days."""
    if style_of(unit) is Style.IN_LINE:
        with suppress(TooFewTrainingDays):
            lay_out(client_id, unit, now)
