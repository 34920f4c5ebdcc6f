"""Days on which no card comes: absences without training that a client says, holidays that her coach gives."""

from datetime import date, datetime, timedelta
from typing import NamedTuple

from bot.store.people import Client
from bot.store.units import Unit
from core.local_time import instant_of, local_date

AWAY = "away"
HOLIDAY = "holiday"
"""Why a session of such a day was left out."""
TOLD_FROM = timedelta(days=3)
"""From how long before a holiday its client is told of it. [days] Our proposal."""
ONE_DAY = timedelta(days=1)


class TimeOff(NamedTuple):
    """Days in a row without a card.

    Attributes:
        first: First day.
        last: Last day.
        why: `AWAY` or `HOLIDAY`.
        entry: Row of the holiday; None for an absence.
    """

    first: date
    last: date
    why: str
    entry: int | None = None

    def covers(self, on: date) -> bool:
        """Return whether a date lies in it."""
        return self.first <= on <= self.last


def time_off(client_id: int, since: date, unit: Unit) -> list[TimeOff]:
    """Return a client's days without a card that last until a date or longer: her own first, then holidays."""
    away = [
        TimeOff(each.from_on, each.last_on, AWAY)
        for each in unit.aways.standing(client_id, since)
        if not each.training
    ]
    return [*away, *holidays(client_id, since, unit)]


def holidays(client_id: int, since: date, unit: Unit) -> list[TimeOff]:
    """Return the holidays of a client, and those of everybody, that last until a date or longer, soonest first."""
    return [
        TimeOff(each.from_on, each.until_on, HOLIDAY, each.id)
        for each in unit.seasons.standing(since, client_id)
        if each.kind == HOLIDAY
    ]


def why_off(client_id: int, on: date, unit: Unit) -> str | None:
    """Return why a client gets no card on a date: `AWAY` or `HOLIDAY`; None where she does."""
    return next((each.why for each in time_off(client_id, on, unit) if each.covers(on)), None)


def tell_ahead(client: Client, unit: Unit, now: datetime) -> None:
    """Have a client told of each holiday on one of the days before it, or when it has begun. Twice changes nothing.

    More than one day, since a day that has brought enough leaves it out; what was told is not told again.
    """
    zone, policy = client.zone or "UTC", unit.rules.policy(client.id)
    today = local_date(now, zone)
    for each in holidays(client.id, today, unit):
        begins = [each.first - ONE_DAY * ahead for ahead in range(TOLD_FROM.days, -1, -1)]
        for on in [day for day in begins if day >= today] or [today, today + ONE_DAY]:
            if on <= each.last:
                hour = policy.week_asked_at if on < each.first else policy.quiet_to
                due_at = max(instant_of(on, hour, zone), now)
                unit.due_questions.plan(client.id, HOLIDAY, on, due_at, now)
