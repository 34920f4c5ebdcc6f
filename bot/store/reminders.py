"""A coach's reminders to herself, of a client or of nobody. What falls due is a column: twice changes nothing."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select, update

from bot.store.rows import Rows, one, rows_of
from bot.store.tables import reminder


@dataclass(frozen=True, slots=True)
class Reminder:
    """A reminder.

    Attributes:
        id: Its row.
        client_id: Whom it is about; None for nobody.
        text: What, 1-300 characters, as typed.
        due_at: Not before.
        at: When it was put.
        told_at: When the coach was told; None before, and again when it was put off.
        done_at: When it was done; None while it is not.
    """

    id: int
    client_id: int | None
    text: str
    due_at: datetime
    at: datetime
    told_at: datetime | None = None
    done_at: datetime | None = None


class Reminders(Rows):
    """Reminders of one coach."""

    def add(self, client_id: int | None, text: str, due_at: datetime, now: datetime) -> int:
        """Keep a reminder and return its row."""
        made = self.connection.execute(
            insert(reminder)
            .values(coach_id=self.coach_id, client_id=client_id, text=text, due_at=due_at, at=now)
            .returning(reminder.c.id)
        )
        return int(made.scalar_one())

    def get(self, reminder_id: int) -> Reminder | None:
        """Return one reminder of this coach; None when it is not hers."""
        query = rows_of(Reminder, reminder).where(
            reminder.c.id == reminder_id, reminder.c.coach_id == self.coach_id
        )
        return one(Reminder, self.connection.execute(query).first())

    def open(self) -> list[Reminder]:
        """Return what is not done, the earliest due first."""
        query = (
            rows_of(Reminder, reminder)
            .where(reminder.c.coach_id == self.coach_id, reminder.c.done_at.is_(None))
            .order_by(reminder.c.due_at, reminder.c.id)
        )
        return [Reminder(*row) for row in self.connection.execute(query)]

    def told(self, reminder_id: int, now: datetime) -> None:
        """Note that the coach was told."""
        self._change(reminder_id, told_at=now)

    def put_off(self, reminder_id: int, due_at: datetime) -> None:
        """Have it fall due later, and be told then."""
        self._change(reminder_id, due_at=due_at, told_at=None, done_at=None)

    def done(self, reminder_id: int, now: datetime | None) -> None:
        """Note that it is done; None takes that back."""
        self._change(reminder_id, done_at=now)

    def _change(self, reminder_id: int, **values: Any) -> None:
        self.connection.execute(
            update(reminder)
            .where(reminder.c.id == reminder_id, reminder.c.coach_id == self.coach_id)
            .values(**values)
        )


_WAITING = (reminder.c.told_at.is_(None), reminder.c.done_at.is_(None))


def reminders_due_anywhere(connection: Connection, now: datetime, limit: int) -> list[tuple[int, int]]:
    """Return (coach, reminder) of reminders that are due and untold, the longest due first."""
    query = (
        select(reminder.c.coach_id, reminder.c.id)
        .where(*_WAITING, reminder.c.due_at <= now)
        .order_by(reminder.c.due_at, reminder.c.id)
        .limit(limit)
    )
    return [(row.coach_id, row.id) for row in connection.execute(query)]


def next_reminder_due(connection: Connection) -> datetime | None:
    """Return when the next reminder is due."""
    found: datetime | None = connection.execute(
        select(reminder.c.due_at).where(*_WAITING).order_by(reminder.c.due_at).limit(1)
    ).scalar()
    return found
