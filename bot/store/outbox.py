"""Everything that goes out, one row a call, of every tenant: who is next, and what became of it.

A row is claimed, and the claim committed, before the platform is called; a row that is still `sending` when a
process starts is one that a dead process left behind, and nobody knows whether it arrived.
"""

from collections.abc import Collection
from dataclasses import replace
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, case, func, or_, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.messages import Lane, Send
from bot.store.outbox_row import COLUMNS, OutboxRow, body_of, message_of, row_of
from bot.store.outbox_turns import EXPIRE, NEXT, NEXT_SAFE, OPEN, PAUSED, PLANNED
from bot.store.tables import forwarded, outbox, picture

__all__ = ["RANK", "SENDS", "Outbox", "OutboxRow", "adding", "body_of", "message_of"]

RANK = {Lane.SAFETY: 0, Lane.TALK: 1, Lane.BULK: 2}

SENDS = ("send", "move")
"""What makes a new message, so that nobody can tell afterwards whether a call that broke off made one."""

CANCELLED = "cancelled"
"""Cause left on a row that is in flight: should it come back undelivered, it is not sent again."""

CAUSE_SIZE = 200
LISTED = 200


def adding(connection: Connection, table: Any) -> Any:
    """Return an INSERT of the database's own kind, which knows ON CONFLICT."""
    return (postgresql if connection.dialect.name == "postgresql" else sqlite).insert(table)


class Outbox:
    """The queue of what goes out, of all tenants."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def put(self, coach_id: int | None, effect: Send, now: datetime) -> int | None:
        """Queue a message; None when its key was there already."""
        return self.add(
            coach_id,
            effect.chat_id,
            effect.key,
            now,
            body=body_of(effect.message),
            lane=effect.lane,
            due_at=effect.due_at,
            not_after=effect.not_after,
            client_id=effect.client_id,
            unasked=effect.unasked,
        )

    def add(
        self,
        coach_id: int | None,
        chat_id: int,
        key: str,
        now: datetime,
        *,
        op: str = "send",
        body: dict[str, Any] | None = None,
        lane: Lane = Lane.TALK,
        due_at: datetime | None = None,
        **values: Any,
    ) -> int | None:
        """Queue any call; None when its key was there already. Keys are kept apart by tenant."""
        row = {
            "coach_id": coach_id,
            "chat_id": chat_id,
            "key": f"{coach_id or 0}:{key}",
            "op": op,
            "body": body,
            "lane": lane.value,
            "rank": RANK[lane],
            "due_at": max(due_at or now, now),
            "state": "queued",
            "created_at": now,
        }
        query = adding(self.connection, outbox).values(row | values)
        query = query.on_conflict_do_nothing(index_elements=["key"]).returning(outbox.c.id)
        made: int | None = self.connection.execute(query).scalar()
        return made

    def cancel(self, client_id: int) -> None:
        """Cancel what is queued for a client, safety excepted; what is in flight is not sent again."""
        self._cancel(outbox.c.client_id == client_id, outbox.c.rank > RANK[Lane.SAFETY])

    def withdraw(self, coach_id: int, begins: str) -> None:
        """Take back what is queued for a coach's people under keys that begin so; as `cancel`, but for one matter."""
        self._cancel(outbox.c.key.startswith(f"{coach_id}:{begins}", autoescape=True))

    def is_waiting(self, coach_id: int, key: str) -> bool:
        """Return whether a message of a coach's is queued and not on its way yet."""
        query = select(outbox.c.id).where(outbox.c.key == f"{coach_id}:{key}", outbox.c.state == "queued")
        return self.connection.execute(query).first() is not None

    def cancel_chat(self, chat_id: int) -> None:
        """Cancel everything that is queued for a chat which cannot be reached."""
        self._cancel(outbox.c.chat_id == chat_id)

    def _cancel(self, *which: ColumnElement[bool]) -> None:
        for state, values in (("queued", {"state": CANCELLED}), ("sending", {"cause": CANCELLED})):
            self.connection.execute(update(outbox).where(outbox.c.state == state, *which).values(values))

    def unasked_since(self, chat_id: int, since: datetime, until: datetime) -> int:
        """Return how many messages that nobody asked for went out to a chat, or will, in [since, until)."""
        query = select(func.count()).where(
            outbox.c.chat_id == chat_id,
            outbox.c.unasked,
            outbox.c.due_at >= since,
            outbox.c.due_at < until,
            outbox.c.state.not_in(("cancelled", "expired", "dead")),
        )
        return int(self.connection.execute(query).scalar_one())

    def was_planned(self, row_id: int) -> bool:
        """Return whether nobody waits for a row: it was not asked for, or was queued for later."""
        later = (outbox.c.due_at > outbox.c.created_at) & (outbox.c.attempts == 0)
        found = select(outbox.c.id).where(outbox.c.id == row_id, or_(outbox.c.unasked, later))
        return self.connection.execute(found).first() is not None

    def hold(self, row_id: int, until: datetime) -> None:
        """Have a queued row wait, as if it had been queued for then: it holds up nothing that comes after it."""
        held = update(outbox).where(outbox.c.id == row_id, outbox.c.state == "queued")
        self.connection.execute(held.values(due_at=until, attempts=0))

    def next_row(
        self, now: datetime, busy_chats: Collection[int] = (), lanes: Collection[Lane] = tuple(Lane)
    ) -> OutboxRow | None:
        """Return the row to send next: safety, then talk, then bulk; among equals what was due first.

        In a chat rows go by id: one that is in flight, due or tried before holds the later ones, one that is only
        planned for later does not. Safety waits for nothing but the platform's own pause of its chat.
        `busy_chats` does not hold it either.
        """
        for lane in sorted(lanes, key=RANK.__getitem__):
            facts = {"now": now, "rank": RANK[lane]}
            if lane is Lane.SAFETY:
                found = self.connection.execute(NEXT_SAFE, facts).first()
            else:
                found = self.connection.execute(NEXT, facts | {"busy": list(busy_chats)}).first()
            if found is not None:
                return row_of(found)
        return None

    def safety_waits(self, chat_id: int, now: datetime) -> bool:
        """Return whether safety is queued for a chat that nobody has begun to send, though the platform takes it."""
        query = NEXT_SAFE.where(outbox.c.chat_id == chat_id, outbox.c.attempts == 0)
        return self.connection.execute(query, {"now": now, "rank": RANK[Lane.SAFETY]}).first() is not None

    def claim(self, row_id: int, owner: str, now: datetime) -> bool:
        """Take a queued row for one call; False when it is no longer queued. Commit before calling."""
        values = {
            "state": "sending",
            "attempts": outbox.c.attempts + 1,
            "claimed_by": owner,
            "claimed_at": now,
        }
        claimed = update(outbox).where(outbox.c.id == row_id, outbox.c.state == "queued")
        return self.connection.execute(claimed.values(**values, cause=None)).rowcount == 1

    def get(self, row_id: int) -> OutboxRow:
        """Return one row.

        Raises:
            NoResultFound: There is none.
        """
        return row_of(self.connection.execute(select(*COLUMNS).where(outbox.c.id == row_id)).one())

    def aim(self, row: OutboxRow, op: str, message_id: int | None) -> OutboxRow:
        """Say what a claimed row does to which message, as its card stands now."""
        self._settle(row, {"op": op, "message_id": message_id})
        return replace(row, op=op, message_id=message_id)

    def unclaim(self, row: OutboxRow) -> None:
        """Give back a claimed row for which nobody was called."""
        self._settle(row, self._back("queued", None) | {"attempts": outbox.c.attempts - 1})

    def sent(self, row: OutboxRow, message_id: int | None, now: datetime, file_id: str | None = None) -> None:
        """It arrived: as this message, and the platform knows its file by this id."""
        self._settle(row, {"state": "sent", "message_id": message_id, "sent_at": now, "cause": None})
        if row.op in SENDS:
            self.connection.execute(
                update(forwarded)
                .where(forwarded.c.coach_id == row.coach_id, forwarded.c.outbox_key == row.key)
                .values(message_id=message_id)
            )
        if file_id is not None:
            self.set_file(row, file_id)

    def set_file(self, row: OutboxRow, file_id: str | None) -> None:
        """Keep the platform's id of a picture of ours, or forget one that it no longer knows."""
        if row.body is not None and row.body.picture_id is not None:
            mine = picture.c.id == row.body.picture_id, picture.c.coach_id == row.coach_id
            self.connection.execute(update(picture).where(*mine).values(file_id=file_id))

    def picture(self, row: OutboxRow) -> tuple[str | None, bytes, str] | None:
        """Return the platform's id, the bytes and the name of the picture of ours that goes with a message."""
        if row.body is None or row.body.picture_id is None:
            return None
        query = select(picture.c.file_id, picture.c.bytes, picture.c.name)
        query = query.where(picture.c.id == row.body.picture_id, picture.c.coach_id == row.coach_id)
        found = self.connection.execute(query).first()
        return None if found is None else (found.file_id, found.bytes, found.name)

    def again(self, row: OutboxRow, due_at: datetime, cause: str, *, plain: int | None = None) -> None:
        """It did not arrive: try again then, unless it was cancelled meanwhile."""
        values = self._back("queued", cause) | {"due_at": due_at}
        if plain is not None and row.body is not None:
            values["body"] = body_of(row.body, revision=row.revision, plain=plain)
        self._settle(row, values)

    def in_doubt(self, row: OutboxRow, due_at: datetime, cause: str) -> bool:
        """Nobody knows whether it arrived: once more, and then never again. True when it is given up.

        What only edits can be done over and over, so there it is no doubt.
        """
        if row.op not in SENDS:
            self.again(row, due_at, cause)
            return False
        last = row.doubts > 0
        values = self._back("doubtful" if last else "queued", cause)
        self._settle(row, values | {"due_at": due_at, "doubts": row.doubts + 1})
        return last

    def dead(self, row: OutboxRow, cause: str) -> None:
        """It will never arrive."""
        self._settle(row, {"state": "dead", "cause": cause[:CAUSE_SIZE]})

    def supersede(self, row: OutboxRow) -> None:
        """A later row says it better."""
        self._settle(row, {"state": CANCELLED, "cause": "superseded"})

    def follow(self, old_chat_id: int, new_chat_id: int) -> None:
        """A chat has another number now: send what is open there."""
        open_there = outbox.c.chat_id == old_chat_id, outbox.c.state.in_(["queued", "sending"])
        self.connection.execute(update(outbox).where(*open_there).values(chat_id=new_chat_id))

    def _back(self, state: str, cause: str | None) -> dict[str, Any]:
        was_cancelled = outbox.c.cause == CANCELLED
        text = None if cause is None else cause[:CAUSE_SIZE]
        return {
            "state": case((was_cancelled, CANCELLED), else_=state),
            "cause": case((was_cancelled, CANCELLED), else_=text),
        }

    def _settle(self, row: OutboxRow, values: dict[str, Any]) -> None:
        # Whoever was taken for dead, and comes back, must not settle what another has claimed since.
        mine = outbox.c.id == row.id, outbox.c.state == "sending", outbox.c.claimed_by == row.claimed_by
        self.connection.execute(update(outbox).where(*mine).values(values))

    def expire(self, now: datetime) -> list[OutboxRow]:
        """Give up what is too late to send, and return it."""
        late = self.connection.execute(EXPIRE, {"now": now})
        return sorted(map(row_of, late), key=lambda row: row.id)

    def rescue(self, owner: str | None, now: datetime) -> list[OutboxRow]:
        """Put in doubt what dead processes left in flight, and return what is given up for it.

        Args:
            owner: What the dead ones' names began with; None for all.
            now: It is tried again at once.
        """
        query = select(*COLUMNS).where(outbox.c.state == "sending").order_by(outbox.c.id)
        if owner is not None:
            query = query.where(outbox.c.claimed_by.startswith(owner, autoescape=True))
        left = [row_of(found) for found in self.connection.execute(query)]
        # Its hour stays what it was: by it a message is too late for the night (`bot.usecases.unasked.was_held`).
        return [row for row in left if self.in_doubt(row, min(row.due_at, now), "process ended")]

    def next_due(self, now: datetime) -> datetime | None:
        """Return when time alone will make another row claimable; None when it never will."""
        found = [self.connection.execute(query, {"now": now}).scalar() for query in (PLANNED, PAUSED)]
        return min((when for when in found if when is not None), default=None)

    def open_count(self, now: datetime) -> int:
        """Return how many rows are in flight or due."""
        return sum(int(self.connection.execute(query, {"now": now}).scalar_one()) for query in OPEN)

    def doubtful_rows(self, coach_id: int | None = None) -> list[OutboxRow]:
        """Return what nobody knows to have arrived, newest first; of one coach or of all."""
        return self._listed("doubtful", coach_id)

    def dead_rows(self, coach_id: int | None = None) -> list[OutboxRow]:
        """Return what never arrived, newest first; of one coach or of all."""
        return self._listed("dead", coach_id)

    def _listed(self, state: str, coach_id: int | None) -> list[OutboxRow]:
        query = select(*COLUMNS).where(outbox.c.state == state, outbox.c.op.in_(SENDS))
        if coach_id is not None:
            query = query.where(outbox.c.coach_id == coach_id)
        found = self.connection.execute(query.order_by(outbox.c.id.desc()).limit(LISTED))
        return [row_of(each) for each in found]
