"""The clock of a client who travels: that of where she is while she is away, and her own again after it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from bot.messages import Effect, Level, Person, Tell
from bot.render import away as say
from bot.store.aways import Away, Clocks
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import daily_card
from bot.usecases.replanning import planned_anew
from core.errors import TooFewTrainingDays
from core.local_time import instant_of

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class TurnClock:
    """A client's clock may have to be turned for an absence."""

    away_id: int


@dataclass(frozen=True, slots=True)
class Turning:
    """When a clock is turned.

    Attributes:
        first_on: First date by the new clock.
        earliest: The day before is over by one of the two clocks.
        latest: It is over by the old clock: nothing of it can still come.
    """

    first_on: date
    earliest: datetime
    latest: datetime


def turning(first_on: date, old: str, new: str) -> Turning:
    """Return when a clock is turned so that no session comes twice on a date, and none is lost.

    Dates before `first_on` go by the old clock, those from it on by the new one. So it is turned once one of the two
    says that the day has come, and all that was planned before it has gone out; at the latest when the old one does.
    """
    midnights = instant_of(first_on, time(0), old), instant_of(first_on, time(0), new)
    return Turning(first_on, min(midnights), midnights[0])


def next_turn(clocks: Clocks) -> Turning:
    """Return the next turn of a clock for an absence."""
    if clocks.zone_before is None:
        return turning(clocks.from_on, clocks.zone_now, clocks.zone)
    last = clocks.until_on if clocks.ended_on is None else min(clocks.until_on, clocks.ended_on - ONE_DAY)
    return turning(last + ONE_DAY, clocks.zone, clocks.zone_before)


def turn(command: TurnClock, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Turn a client's clock where it is time: to that of an absence, or back to her own."""
    away = unit.aways.get(command.away_id)
    client = unit.clients.get(away.client_id)
    if away.zone is None or client.zone is None:
        return []
    if away.zone_before is None:
        standing = away.voided_at is None and away.last_on >= away.from_on
        due = turning(away.from_on, client.zone, away.zone)
        # Where the clock of another absence still holds, that one gives it back first.
        waits = away.ended_on is not None or unit.aways.whose_clock(client.id) is not None
        if not standing or waits or not _is_time(due, client, unit, now):
            return []
        unit.aways.change(away.id, zone_before=client.zone)
        return _turned(client, away.zone, unit, now)
    due = turning(away.last_on + ONE_DAY, away.zone, away.zone_before)
    if away.voided_at is None and not _is_time(due, client, unit, now):
        return []
    return turned_back(away, unit, now)


def turned_back(away: Away, unit: Unit, now: datetime) -> list[Effect]:
    """Give a client her own clock again; one that she has set herself meanwhile stays."""
    client = unit.clients.get(away.client_id)
    before = away.zone_before
    unit.aways.change(away.id, zone_before=None, ended_on=away.ended_on or away.until_on + ONE_DAY)
    if before is None or client.zone != away.zone:
        return []
    return _turned(client, before, unit, now)


def _is_time(due: Turning, client: Client, unit: Unit, now: datetime) -> bool:
    if now >= due.latest:
        return True
    planned = unit.sessions.of_client(client.id, ("planned",))
    return now >= due.earliest and all(each.local_on >= due.first_on for each in planned)


def _turned(client: Client, zone: str, unit: Unit, now: datetime) -> list[Effect]:
    """Set a clock; what is planned follows, what has gone out stays. What finds no day is told to the coach."""
    unit.clients.change(client.id, zone=zone)
    changed = unit.clients.get(client.id)
    try:
        plan = planned_anew(client.id, unit, now)
    except TooFewTrainingDays:
        return []  # Laid out when her coach has put that right; the clock goes by where she is.
    daily_card.planned_anew(changed, unit, now)
    if not plan.lost:
        return []
    told = say.lost_for_coach(client.name, zone, plan.lost)
    return [Tell(client.id, f"clock:{client.id}:{now.date().isoformat()}", 1, Level.TODAY, told)]
