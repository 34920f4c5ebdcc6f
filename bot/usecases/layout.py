"""Laying out sessions: what a block asks for, on a client's own dates."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Effect, Person
from bot.store.blocks import running_short
from bot.store.units import Unit
from core.local_time import instant_of, local_date
from core.programme.block import Weekday
from core.programme.calendar import sessions_between

__all__ = ["LayOut", "laid_out", "lay_out", "running_short"]

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


def lay_out(client_id: int, unit: Unit, now: datetime) -> int:
    """Lay out what is not there yet of a client's next 14 days; return how many sessions were added.

    Twice on a day changes nothing: a session is laid once for its week and day of the block.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    client = unit.clients.get(client_id)
    running = unit.blocks.running(client_id)
    if client.state != "active" or running is None or not (client.zone and client.hour and client.days):
        return 0
    today = local_date(now, client.zone)
    until = today + AHEAD
    planned = sessions_between(
        unit.blocks.version(running.version_id),
        running.starts_on,
        [Weekday(day) for day in client.days],
        today,
        until,
    )
    added = 0
    for day in planned:
        due_at = instant_of(day.on, client.hour, client.zone)
        added += unit.sessions.lay(client_id, running.id, day.week_no, day.day_key, day.on, due_at)
    unit.blocks.laid(running.id, until)
    return added
