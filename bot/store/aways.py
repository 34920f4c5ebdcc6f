"""When clients are away: from when until when, training there or not, where, and whose clock holds meanwhile."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from sqlalchemy import Connection, insert, select, update

from bot.store.presence import holds_nothing
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import away, client

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Away:
    """One absence.

    Attributes:
        from_on: First day, on the client's own calendar.
        until_on: Last day, as it was said.
        training: True where she trains there.
        place: Place of her kit there; None where she does not train, or where nobody said.
        zone: Clock that holds meanwhile; None where hers stays.
        zone_before: Her own clock, while that of the absence holds; None before and after.
        at: When it was said.
        ended_on: First day back, where she came back sooner, or the clock was set back; None before.
        voided_at: When it was taken back, or another came in its place.
    """

    id: int
    client_id: int
    from_on: date
    until_on: date
    training: bool
    place: str | None
    zone: str | None
    zone_before: str | None
    at: datetime
    ended_on: date | None
    voided_at: datetime | None

    @property
    def last_on(self) -> date:
        """The last day of it; the day before `from_on` where she never left."""
        return self.until_on if self.ended_on is None else min(self.until_on, self.ended_on - ONE_DAY)

    def covers(self, on: date) -> bool:
        """Return whether a date lies in it."""
        return self.from_on <= on <= self.last_on


@dataclass(frozen=True, slots=True)
class Clocks:
    """An absence with a clock of its own, and the clock that its client has now."""

    coach_id: int
    away_id: int
    client_id: int
    from_on: date
    until_on: date
    ended_on: date | None
    zone: str
    zone_before: str | None
    zone_now: str


class Aways(Rows):
    """Absences of one coach's clients: added and voided."""

    def add(
        self,
        client_id: int,
        first: date,
        last: date,
        now: datetime,
        *,
        training: bool,
        place: str | None = None,
        zone: str | None = None,
    ) -> int:
        """Keep an absence and return its row."""
        made = self.connection.execute(
            insert(away)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                from_on=first,
                until_on=last,
                training=training,
                place=place,
                zone=zone,
                at=now,
            )
            .returning(away.c.id)
        )
        return int(made.scalar_one())

    def get(self, away_id: int) -> Away:
        """Return one absence.

        Raises:
            LookupError: It is not of this coach's clients.
        """
        found = one(Away, self.connection.execute(self._of(away.c.id == away_id)).first())
        if found is None:
            raise LookupError(f"no absence {away_id} here")
        return found

    def standing(self, client_id: int, since: date) -> list[Away]:
        """Return a client's absences that last until a date or longer, soonest first."""
        if holds_nothing(self, away, client_id):
            return []
        query = self._of(
            away.c.client_id == client_id, away.c.voided_at.is_(None), away.c.until_on >= since
        ).order_by(away.c.from_on, away.c.id)
        found = (Away(*row) for row in self.connection.execute(query))
        return [each for each in found if each.last_on >= max(since, each.from_on)]

    def on(self, client_id: int, day: date) -> Away | None:
        """Return the absence that a date lies in; None where it lies in none."""
        return next((each for each in self.standing(client_id, day) if each.covers(day)), None)

    def whose_clock(self, client_id: int) -> Away | None:
        """Return the absence whose clock a client has now; None where she has her own."""
        query = self._of(away.c.client_id == client_id, away.c.zone_before.is_not(None))
        return one(Away, self.connection.execute(query.order_by(away.c.id).limit(1)).first())

    def change(self, away_id: int, **values: Any) -> None:
        """Set columns of one absence."""
        self.connection.execute(
            update(away).where(away.c.id == away_id, away.c.coach_id == self.coach_id).values(**values)
        )

    def _of(self, *which: Any) -> Any:
        return rows_of(Away, away).where(away.c.coach_id == self.coach_id, *which)


def clocks_anywhere(connection: Connection) -> list[Clocks]:
    """Return the absences whose clock is still to be set, or to be set back."""
    query = (
        select(
            away.c.coach_id,
            away.c.id,
            away.c.client_id,
            away.c.from_on,
            away.c.until_on,
            away.c.ended_on,
            away.c.zone,
            away.c.zone_before,
            client.c.zone,
        )
        .join(client, client.c.id == away.c.client_id)
        .where(
            away.c.zone.is_not(None),
            client.c.zone.is_not(None),
            away.c.zone_before.is_not(None) | (away.c.ended_on.is_(None) & away.c.voided_at.is_(None)),
        )
        .order_by(away.c.id)
    )
    return [Clocks(*row) for row in connection.execute(query)]
