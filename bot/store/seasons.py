"""What stands in a season beside its blocks: holidays and events of one client or of all; and what was run when."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import insert, or_, update

from bot.store.presence import holds_nothing
from bot.store.rows import Rows, one, rows_of
from bot.store.tables import assignment, season_entry


@dataclass(frozen=True, slots=True)
class SeasonEntry:
    """A holiday or an event.

    Attributes:
        id: Its row.
        client_id: Whose; None for everybody's.
        kind: "holiday" or "event".
        name: What it is, 1-60 characters, as typed.
        from_on: First day.
        until_on: Last day; that of an event is its first.
        at: When it was put.
        voided_at: When it was taken out; None while it stands.
    """

    id: int
    client_id: int | None
    kind: str
    name: str
    from_on: date
    until_on: date
    at: datetime
    voided_at: datetime | None


@dataclass(frozen=True, slots=True)
class Ran:
    """A block that a client was put on, from when, and when that was ended; None while it runs."""

    id: int
    client_id: int
    version_id: int
    starts_on: date
    laid_until: date | None
    ended_at: datetime | None


class Seasons(Rows):
    """Holidays and events of one coach: added and voided."""

    def add(
        self, client_id: int | None, kind: str, name: str, from_on: date, until_on: date, now: datetime
    ) -> int:
        """Keep an entry and return its row."""
        made = self.connection.execute(
            insert(season_entry)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                kind=kind,
                name=name,
                from_on=from_on,
                until_on=until_on,
                at=now,
            )
            .returning(season_entry.c.id)
        )
        return int(made.scalar_one())

    def get(self, entry_id: int) -> SeasonEntry | None:
        """Return one entry; None when it is not of this coach."""
        query = rows_of(SeasonEntry, season_entry).where(
            season_entry.c.id == entry_id, season_entry.c.coach_id == self.coach_id
        )
        return one(SeasonEntry, self.connection.execute(query).first())

    def standing(self, first: date, client_id: int | None = None) -> list[SeasonEntry]:
        """Return entries that last until a date or longer, soonest first: of all, or a client's with everybody's."""
        if holds_nothing(self, season_entry):
            return []
        whose: tuple[Any, ...] = ()
        if client_id is not None:
            whose = (or_(season_entry.c.client_id == client_id, season_entry.c.client_id.is_(None)),)
        query = (
            rows_of(SeasonEntry, season_entry)
            .where(
                season_entry.c.coach_id == self.coach_id,
                season_entry.c.voided_at.is_(None),
                season_entry.c.until_on >= first,
                *whose,
            )
            .order_by(season_entry.c.from_on, season_entry.c.id)
        )
        return [SeasonEntry(*row) for row in self.connection.execute(query)]

    def stands(self, entry_id: int, voided_at: datetime | None) -> None:
        """Take an entry out at an instant; with None put it back."""
        self.connection.execute(
            update(season_entry)
            .where(season_entry.c.id == entry_id, season_entry.c.coach_id == self.coach_id)
            .values(voided_at=voided_at)
        )

    def ran(self, client_id: int | None = None) -> list[Ran]:
        """Return all that was ever run, in the order in which it began: by one client or by all."""
        whose = () if client_id is None else (assignment.c.client_id == client_id,)
        query = (
            rows_of(Ran, assignment)
            .where(assignment.c.coach_id == self.coach_id, *whose)
            .order_by(assignment.c.starts_on, assignment.c.id)
        )
        return [Ran(*row) for row in self.connection.execute(query)]
