"""Everything that goes out, one row a call, of every tenant: who is next, and what became of it.

A row is claimed, and the claim committed, before the platform is called; a row that is still `sending` when a
process starts is one that a dead process left behind, and nobody knows whether it arrived.
"""

import re
from collections.abc import Collection, Mapping
from datetime import datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, Update, case, func, or_, select, update
from sqlalchemy.dialects import postgresql, sqlite

from bot.messages import Lane, Send
from bot.store.outbox_changes import CANCELLED, IN_FLIGHT, OF_CHAT, OF_CLIENT, OF_KEYS, PASSED_ON, RANK, SENT
from bot.store.outbox_row import COLUMNS, OutboxRow, body_of, message_of, row_of
from bot.store.outbox_turns import AHEAD, CLAIM, EXPIRE, NEXT, OPEN, SAFETY_WAITS
from bot.store.rows import settable
from bot.store.tables import outbox, picture

__all__ = ["RANK", "SENDS", "Outbox", "OutboxRow", "adding", "body_of", "message_of"]

SENDS = ("send", "move")
"""What makes a new message, so that nobody can tell afterwards whether a call that broke off made one."""

CAUSE_SIZE = 200
LISTED = 200


def in_turn(row: OutboxRow) -> tuple[int, datetime, int]:
    """Return the place of a row among those that may go."""
    return RANK[row.lane], row.due_at, row.id


def adding(connection: Connection, table: Any) -> Any:
    """Return an INSERT of the database's own kind, which knows ON CONFLICT."""
    return adding_on(connection.dialect.name, table)


def adding_on(dialect: str, table: Any) -> Any:
    """Return an INSERT of a kind of database, for a statement that is built once for each."""
    return (postgresql if dialect == "postgresql" else sqlite).insert(table)


@lru_cache
def _queueing(dialect: str) -> Any:
    return adding_on(dialect, outbox).on_conflict_do_nothing(index_elements=["key"]).returning(outbox.c.id)


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
        made: int | None = self.connection.execute(
            _queueing(self.connection.dialect.name), {**row, **settable(outbox, values)}
        ).scalar()
        return made

    def cancel(self, client_id: int) -> None:
        """Cancel what is queued for a client, safety excepted; what is in flight is not sent again."""
        self._cancel(OF_CLIENT, {"this_client": client_id})

    def withdraw(self, coach_id: int, begins: str) -> None:
        """Take back what is queued for a coach's people under keys that begin so; as `cancel`, but for one matter."""
        literally = re.sub(r"[/%_]", r"/\g<0>", f"{coach_id}:{begins}")
        self._cancel(OF_KEYS, {"begins": f"{literally}%"})

    def is_waiting(self, coach_id: int, key: str) -> bool:
        """Return whether a message of a coach's is queued and not on its way yet."""
        query = select(outbox.c.id).where(outbox.c.key == f"{coach_id}:{key}", outbox.c.state == "queued")
        return self.connection.execute(query).first() is not None

    def cancel_chat(self, chat_id: int) -> None:
        """Cancel everything that is queued for a chat which cannot be reached."""
        self._cancel(OF_CHAT, {"this_chat": chat_id})

    def _cancel(self, which: tuple[Update, Update], facts: dict[str, Any]) -> None:
        for change in which:
            self.connection.execute(change, facts)

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

    def next_rows(
        self, now: datetime, most: Mapping[Lane, int], busy_chats: Collection[int] = ()
    ) -> list[OutboxRow]:
        """Return up to so many rows to send next of each lane: safety, then talk, then bulk; what was due first.

        In a chat rows go by id: one that is in flight, due or tried before holds the later ones, one that is only
        planned for later does not. Safety waits for nothing but the platform's own pause of its chat.
        `busy_chats` does not hold it either. Of those that come back with a safety row of their chat, the chat's
        others are held as soon as that one is claimed.
        """
        asked = {f"most_{rank}": max(0, most.get(lane, 0)) for lane, rank in RANK.items()}
        found = self.connection.execute(NEXT, {"now": now, "busy": list(busy_chats), **asked})
        return sorted(map(row_of, found), key=in_turn)

    def safety_waits(self, chat_id: int, now: datetime) -> bool:
        """Return whether safety is queued for a chat that nobody has begun to send, though the platform takes it."""
        return self.connection.execute(SAFETY_WAITS, {"now": now, "chat": chat_id}).first() is not None

    def next_row(
        self, now: datetime, busy_chats: Collection[int] = (), lanes: Collection[Lane] = tuple(Lane)
    ) -> OutboxRow | None:
        """Return the row to send next of some lanes."""
        return next(iter(self.next_rows(now, dict.fromkeys(lanes, 1), busy_chats)), None)

    def claim(self, row_id: int, owner: str, now: datetime) -> OutboxRow | None:
        """Take a queued row for one call; None when it is no longer queued. Commit before calling.

        What shows a card comes back pointed at the message that the card is now: what has none becomes a send.
        """
        facts = {"this_id": row_id, "by": owner, "now": now}
        found = self.connection.execute(CLAIM, facts).first()
        return None if found is None else row_of(found)

    def get(self, row_id: int) -> OutboxRow:
        """Return one row.

        Raises:
            NoResultFound: There is none.
        """
        return row_of(self.connection.execute(select(*COLUMNS).where(outbox.c.id == row_id)).one())

    def unclaim(self, row: OutboxRow) -> None:
        """Give back a claimed row for which nobody was called."""
        self._settle(row, self._back("queued", None) | {"attempts": outbox.c.attempts - 1})

    def sent(self, row: OutboxRow, message_id: int | None, now: datetime, file_id: str | None = None) -> None:
        """It arrived: as this message, and the platform knows its file by this id."""
        facts = {"this_id": row.id, "this_by": row.claimed_by, "message_id": message_id, "sent_at": now}
        self.connection.execute(SENT, facts)
        if row.op in SENDS and row.card_id is None:  # what is passed on is no card
            whose = {"this_coach": row.coach_id, "this_key": row.key, "message_id": message_id}
            self.connection.execute(PASSED_ON, whose)
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
        self.connection.execute(IN_FLIGHT.values(values), {"this_id": row.id, "this_by": row.claimed_by})

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

    def ahead(self, now: datetime) -> tuple[bool, datetime | None]:
        """Return whether anything is too late to send, and when time alone will make another row claimable.

        That is None when it never will.
        """
        late, *times = self.connection.execute(AHEAD, {"now": now}).one()
        return bool(late), min((when for when in times if when is not None), default=None)

    def open_count(self, now: datetime) -> int:
        """Return how many rows are in flight or due."""
        return sum(int(self.connection.execute(query, {"now": now}).scalar_one()) for query in OPEN)

    def doubtful_rows(self, coach_id: int | None = None) -> list[OutboxRow]:
        """Return what nobody knows to have arrived, newest first; of one coach or of all."""
        query = select(*COLUMNS).where(outbox.c.state == "doubtful", outbox.c.op.in_(SENDS))
        if coach_id is not None:
            query = query.where(outbox.c.coach_id == coach_id)
        return [
            row_of(each) for each in self.connection.execute(query.order_by(outbox.c.id.desc()).limit(LISTED))
        ]
