"""What a coach has agreed with a client: until when, or for how many sessions. Hers alone."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, func, insert, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import contract, session

DONE = ("done", "partial")
"""States of a session that was trained and is counted."""


@dataclass(frozen=True, slots=True)
class Contract:
    """A contract.

    Attributes:
        id: Its row.
        client_id: With whom.
        since_on: First day whose sessions count, on the client's own calendar.
        until_on: Last day; None where it is for sessions.
        sessions: How many; None where it is until a day.
        due_at: When the coach is told that it ends; None while nothing is near.
        told_at: When she was told.
    """

    id: int
    client_id: int
    since_on: date
    until_on: date | None
    sessions: int | None
    due_at: datetime | None
    told_at: datetime | None


class Contracts(Rows):
    """Contracts of one coach's clients. A new one takes the place of the old, which is kept."""

    def put(
        self,
        client_id: int,
        since_on: date,
        now: datetime,
        *,
        until_on: date | None = None,
        sessions: int | None = None,
        due_at: datetime | None = None,
    ) -> int:
        """Keep a contract in the place of the one that stands, and return its row."""
        self.end(client_id, now)
        made = self.connection.execute(
            insert(contract)
            .values(
                coach_id=self.coach_id,
                client_id=client_id,
                since_on=since_on,
                until_on=until_on,
                sessions=sessions,
                due_at=due_at,
                at=now,
            )
            .returning(contract.c.id)
        )
        return int(made.scalar_one())

    def standing(self, client_id: int) -> Contract | None:
        """Return the contract that stands with a client."""
        return self._first(contract.c.client_id == client_id, contract.c.ended_at.is_(None))

    def get(self, contract_id: int) -> Contract | None:
        """Return one contract that stands; None when it does not, or is not hers."""
        return self._first(contract.c.id == contract_id, contract.c.ended_at.is_(None))

    def end(self, client_id: int, now: datetime) -> None:
        """End the contract that stands."""
        self.connection.execute(
            update(contract)
            .where(
                contract.c.coach_id == self.coach_id,
                contract.c.client_id == client_id,
                contract.c.ended_at.is_(None),
            )
            .values(ended_at=now)
        )

    def falls_due(self, contract_id: int, at: datetime | None) -> None:
        """Say when the coach is to be told."""
        self._change(contract_id, due_at=at)

    def told(self, contract_id: int, now: datetime) -> None:
        """Note that she was told."""
        self._change(contract_id, told_at=now)

    def done_since(self, client_id: int, since_on: date) -> int:
        """Return how many sessions a client has done from a day on. [sessions]"""
        query = select(func.count(session.c.id)).where(
            session.c.coach_id == self.coach_id,
            session.c.client_id == client_id,
            session.c.local_on >= since_on,
            session.c.state.in_(DONE),
        )
        return int(self.connection.execute(query).scalar_one())

    def _change(self, contract_id: int, **values: Any) -> None:
        self.connection.execute(
            update(contract)
            .where(contract.c.id == contract_id, contract.c.coach_id == self.coach_id)
            .values(**values)
        )

    def _first(self, *which: Any) -> Contract | None:
        query = rows_of(Contract, contract).where(contract.c.coach_id == self.coach_id, *which)
        return one(Contract, self.connection.execute(query.order_by(contract.c.id.desc()).limit(1)).first())


_WAITING = (contract.c.told_at.is_(None), contract.c.ended_at.is_(None))


def contracts_due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, contract) of contracts whose end is near and untold, the longest due first."""
    query = (
        select(contract.c.coach_id, contract.c.id)
        .where(*_WAITING, contract.c.due_at <= now)
        .order_by(contract.c.due_at, contract.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def next_contract_due(connection: Connection) -> datetime | None:
    """Return when the next contract's end is to be told."""
    found: datetime | None = connection.execute(
        select(contract.c.due_at)
        .where(*_WAITING, contract.c.due_at.is_not(None))
        .order_by(contract.c.due_at)
        .limit(1)
    ).scalar()
    return found
