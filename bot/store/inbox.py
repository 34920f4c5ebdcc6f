"""Updates as they came: kept before anything else, worked on in order, a chat at a time."""

from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import (
    BigInteger,
    ColumnElement,
    Connection,
    and_,
    bindparam,
    exists,
    func,
    or_,
    select,
    update,
)
from sqlalchemy.dialects import postgresql, sqlite

from bot.store.rows import given, one, rows_of, settable, this
from bot.store.tables import inbox
from bot.store.types import UtcDateTime


@dataclass(frozen=True, slots=True)
class NewUpdate:
    """An update to be kept.

    Attributes:
        update_id: The platform's id; the same one again is the same update.
        chat_id: Chat it came from.
        user_id: Who sent it.
        kind: What kind of update.
        urgency: 2 for a stop sign, 0 otherwise.
        payload: The update as JSON.
        state: "new", or "quarantined" when nobody can be answered.
        received_at: Instant it was fetched.
    """

    update_id: int
    chat_id: int | None
    user_id: int | None
    kind: str
    urgency: int
    payload: str
    state: str
    received_at: datetime


@dataclass(frozen=True, slots=True)
class InboxRow:
    """An update as kept."""

    update_id: int
    chat_id: int | None
    user_id: int | None
    kind: str
    urgency: int
    attempts: int
    payload: str | None


_NOW = bindparam("now", type_=UtcDateTime())
_CHAT = func.coalesce(inbox.c.chat_id, -inbox.c.update_id)


def _workable() -> tuple[ColumnElement[bool], ...]:
    # Walked along ix_inbox_head, so that settled rows are never looked at; the probe goes along ix_inbox_open.
    ahead = inbox.alias()
    waits = exists().where(
        ahead.c.state == "new",
        ahead.c.chat_id == inbox.c.chat_id,
        ahead.c.not_before > _NOW,
        or_(
            ahead.c.urgency > inbox.c.urgency,
            and_(ahead.c.urgency == inbox.c.urgency, ahead.c.update_id < inbox.c.update_id),
        ),
    )
    due = or_(inbox.c.not_before.is_(None), inbox.c.not_before <= _NOW)
    return inbox.c.state == "new", due, ~waits


_TURN = (inbox.c.urgency.desc(), inbox.c.update_id)
_FREE = (*_workable(), _CHAT.not_in(bindparam("busy", expanding=True)))
_HEADS = rows_of(InboxRow, inbox).where(*_FREE).order_by(*_TURN).limit(bindparam("most"))
_CHATS = select(_CHAT).where(*_FREE).order_by(*_TURN).limit(bindparam("most"))
_HEAD_OF = (
    rows_of(InboxRow, inbox)
    .where(
        *_workable(),
        or_(
            inbox.c.chat_id == bindparam("chat", type_=BigInteger),
            and_(inbox.c.chat_id.is_(None), inbox.c.update_id == -bindparam("chat", type_=BigInteger)),
        ),
    )
    .order_by(*_TURN)
    .limit(1)
)
_OPEN = select(func.count()).select_from(inbox).where(*_workable())
_NEXT_DUE = select(func.min(inbox.c.not_before)).where(inbox.c.state == "new", inbox.c.not_before > _NOW)
_CLAIM = (
    rows_of(InboxRow, inbox)
    .where(given(inbox.c.update_id), inbox.c.state == "new")
    .with_for_update(skip_locked=True)
)
_SET = update(inbox).where(this(inbox.c.update_id))


@lru_cache
def _adding(dialect: str) -> Any:
    build = postgresql.insert if dialect == "postgresql" else sqlite.insert
    return (
        build(inbox).on_conflict_do_nothing(index_elements=[inbox.c.update_id]).returning(inbox.c.update_id)
    )


def chat_of(row: InboxRow) -> int:
    """Return under which number a row's chat is busy; a row without one is a chat of its own."""
    return row.chat_id if row.chat_id is not None else -row.update_id


class Inbox:
    """Updates of every tenant."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def add(self, rows: Sequence[NewUpdate]) -> list[int]:
        """Keep updates; returns the ids of those that were new."""
        if not rows:
            return []
        statement = _adding(self.connection.dialect.name)
        kept = (self.connection.execute(statement, _storable(row)).scalar() for row in rows)
        return sorted(each for each in kept if each is not None)

    def heads(self, now: datetime, busy_chats: Collection[int], most: int) -> list[InboxRow]:
        """Return up to so many rows to work on, the next one first.

        In a chat the oldest goes first, save that an urgent one overtakes; across chats the most urgent, then the
        oldest. A row that waits (`not_before`) makes those wait that come after it in its chat. A row without a
        chat is a chat of its own, busy under its negative id.
        """
        asked = {"now": now, "busy": list(busy_chats), "most": most}
        return [InboxRow(*row) for row in self.connection.execute(_HEADS, asked)]

    def chats(self, now: datetime, busy_chats: Collection[int], most: int) -> list[int]:
        """Return chats that have a row to work on, in the order of `heads`; one may come more than once.

        Args:
            now: The instant.
            busy_chats: Which are left out.
            most: How many at most.
        """
        asked = {"now": now, "busy": list(busy_chats), "most": most}
        return list(self.connection.execute(_CHATS, asked).scalars())

    def head_of(self, chat: int, now: datetime) -> InboxRow | None:
        """Return the row of a chat to work on next."""
        return one(InboxRow, self.connection.execute(_HEAD_OF, {"now": now, "chat": chat}).first())

    def claim(self, update_id: int) -> InboxRow | None:
        """Return the row if it is still to be worked on and nobody else works on it."""
        return one(InboxRow, self.connection.execute(_CLAIM, {"update_id": update_id}).first())

    def _set(self, update_id: int, **values: object) -> None:
        self.connection.execute(_SET, {"this_update_id": update_id, **settable(inbox, values)})

    def is_open(self, update_id: int) -> bool:
        """Return whether an update is still to be worked on."""
        query = select(inbox.c.update_id).where(inbox.c.update_id == update_id, inbox.c.state == "new")
        return self.connection.execute(query).first() is not None

    def done(self, update_id: int, now: datetime) -> None:
        """Settle a row; what it said is no longer needed."""
        self._set(update_id, state="done", done_at=now, payload=None)

    def postpone(self, update_id: int, not_before: datetime) -> None:
        """Take a row up again later."""
        self._set(update_id, not_before=not_before)

    def count_attempt(self, update_id: int) -> int:
        """Count a failed attempt and return how many there are."""
        done = self.connection.execute(
            update(inbox)
            .where(inbox.c.update_id == update_id)
            .values(attempts=inbox.c.attempts + 1)
            .returning(inbox.c.attempts)
        )
        return int(done.scalar_one())

    def fail(self, update_id: int, reference: str, now: datetime) -> None:
        """Give a row up, with its payload kept under a reference."""
        self._set(update_id, state="failed", reference=reference, done_at=now)

    def by_reference(self, reference: str) -> InboxRow | None:
        """Return the failed row of a reference."""
        query = rows_of(InboxRow, inbox).where(inbox.c.reference == reference, inbox.c.state == "failed")
        return one(InboxRow, self.connection.execute(query).first())

    def reopen(self, update_id: int) -> None:
        """Have a failed row worked on again."""
        self._set(update_id, state="new", attempts=0, not_before=None, reference=None, done_at=None)

    def open_count(self, now: datetime) -> int:
        """Return how many rows could be worked on now."""
        return int(self.connection.execute(_OPEN, {"now": now}).scalar_one())

    def next_due(self, now: datetime) -> datetime | None:
        """Return when the next waiting row may be taken up."""
        found: datetime | None = self.connection.execute(_NEXT_DUE, {"now": now}).scalar()
        return found

    def drop_payloads(self, before: datetime) -> int:
        """Forget what failed and quarantined rows of before said; returns how many."""
        done = self.connection.execute(
            update(inbox)
            .where(
                inbox.c.state.in_(("failed", "quarantined")),
                inbox.c.received_at < before,
                inbox.c.payload.is_not(None),
            )
            .values(payload=None)
        )
        return done.rowcount


def _storable(row: NewUpdate) -> dict[str, object]:
    # Half of a surrogate pair is legal in JSON and in no database; its escape says the same.
    return asdict(row) | {"payload": row.payload.encode("utf-8", "backslashreplace").decode()}
