"""What waits and what is coming, whoever's it is: for whoever looks into a program that is tried out. It only reads."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection, case, select

from bot.store.outbox_row import COLUMNS, OutboxRow, row_of
from bot.store.rows import rows_of
from bot.store.tables import client, due_question, inbox, outbox, session

LISTED = 60
"""Most rows of a list. Our proposal: what somebody reads."""


@dataclass(frozen=True, slots=True)
class GoingOut:
    """One row of the queue of what goes out, and what became of it.

    Attributes:
        row: The row.
        state: Where it stands.
        sent_at: When it arrived; None before.
        cause: Why it did not, or was taken back.
    """

    row: OutboxRow
    state: str
    sent_at: datetime | None
    cause: str | None


@dataclass(frozen=True, slots=True)
class ComingIn:
    """One incoming message; of what it said nothing is kept once it is settled."""

    update_id: int
    chat_id: int | None
    kind: str
    urgency: int
    state: str
    attempts: int
    received_at: datetime
    done_at: datetime | None


@dataclass(frozen=True, slots=True)
class Coming:
    """A session of a client, on its date."""

    id: int
    coach_id: int
    client_id: int
    client: str
    zone: str | None
    local_on: date
    due_at: datetime
    state: str


@dataclass(frozen=True, slots=True)
class Question:
    """A question that falls due on a date."""

    client_id: int
    client: str
    zone: str | None
    kind: str
    due_at: datetime


def going_out(connection: Connection, chats: Collection[int]) -> list[GoingOut]:
    """Return the newest rows to some chats: what is not settled first, then the newest."""
    settled = case((outbox.c.state.in_(("queued", "sending")), 0), else_=1)
    states = (
        select(outbox.c.id, outbox.c.state, outbox.c.sent_at, outbox.c.cause)
        .where(outbox.c.chat_id.in_(list(chats)))
        .order_by(settled, outbox.c.id.desc())
        .limit(LISTED)
    )
    found = connection.execute(states).all()
    rows = select(*COLUMNS).where(outbox.c.id.in_([row.id for row in found]))
    by_id = {row.id: row_of(row) for row in connection.execute(rows)}
    return [GoingOut(by_id[row.id], row.state, row.sent_at, row.cause) for row in found]


def coming_in(connection: Connection, chats: Collection[int]) -> list[ComingIn]:
    """Return incoming messages of some chats that are not done, the oldest first."""
    query = (
        rows_of(ComingIn, inbox)
        .where(inbox.c.chat_id.in_(list(chats)), inbox.c.state != "done")
        .order_by(inbox.c.update_id)
        .limit(LISTED)
    )
    return [ComingIn(*row) for row in connection.execute(query)]


def coming_sessions(connection: Connection, until: datetime, states: Collection[str]) -> list[Coming]:
    """Return sessions in some states that are due up to an instant, the earliest first."""
    query = (
        select(
            session.c.id,
            session.c.coach_id,
            session.c.client_id,
            client.c.name,
            client.c.zone,
            session.c.local_on,
            session.c.due_at,
            session.c.state,
        )
        .join(client, client.c.id == session.c.client_id)
        .where(session.c.state.in_(list(states)), session.c.due_at <= until)
        .order_by(session.c.due_at, session.c.id)
        .limit(LISTED)
    )
    return [Coming(*row) for row in connection.execute(query)]


def coming_questions(connection: Connection, until: datetime) -> list[Question]:
    """Return questions that fall due up to an instant and have not gone out, the earliest first."""
    query = (
        select(
            due_question.c.client_id, client.c.name, client.c.zone, due_question.c.kind, due_question.c.due_at
        )
        .join(client, client.c.id == due_question.c.client_id)
        .where(
            due_question.c.sent_at.is_(None),
            due_question.c.dropped_at.is_(None),
            due_question.c.due_at <= until,
        )
        .order_by(due_question.c.due_at, due_question.c.id)
        .limit(LISTED)
    )
    return [Question(*row) for row in connection.execute(query)]
