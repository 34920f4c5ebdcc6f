"""A client's data as rows to hand out, and all of it deleted.

Both go by the list of `bot.store.personal`, so that a new column cannot be forgotten.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from html import escape
from typing import Any

from sqlalchemy import Connection, delete, func, insert, null, or_, select, update

from bot.store.personal import COLUMNS, Whose, client_tables, rows_of_client
from bot.store.rows import Rows
from bot.store.tables import account, chat, client, erased, item, logged_set, outbox, picture, session

FORMER = "a former client"
"""What stands in place of a name that is forgotten."""
GONE_FROM = ("sent", "cancelled", "expired", "dead", "doubtful")
"""States of a message that nobody needs the words of any more."""


@dataclass(frozen=True, slots=True)
class Erased:
    """What stays of somebody who was forgotten: how much there was, and nothing of hers.

    Attributes:
        rows: Deleted. [rows]
        sessions: In which something was done. [sessions]
        sets: That stood. [sets]
    """

    rows: int
    sessions: int
    sets: int


class Erasing(Rows):
    """Whole clients of one coach."""

    def rows(self, client_id: int) -> Iterator[tuple[str, list[dict[str, Any]]]]:
        """Yield each table's rows of a client, the columns alone that are her data, in the order they were made."""
        for table in reversed(client_tables()):
            where = rows_of_client(table, self.coach_id, client_id)
            hers = [column for column in table.c if COLUMNS[table.name][column.name].whose is Whose.CLIENT]
            if where is None or not hers:
                continue
            query = select(*hers).where(where).order_by(*table.primary_key.columns)
            found = [dict(row) for row in self.connection.execute(query).mappings()]
            if found:
                yield table.name, found

    def erase(self, client_id: int, now: datetime) -> Erased:
        """Delete every row of a client, and her name where it stands in what her coach was sent.

        A count without any name stays. What is on its way to her coach about everybody goes out without her name.

        Raises:
            LookupError: She is no client of this coach.
        """
        name = self.connection.execute(
            select(client.c.name).where(client.c.id == client_id, client.c.coach_id == self.coach_id)
        ).scalar()
        if name is None:
            raise LookupError(f"no client {client_id} here")
        sessions, sets = self._done(client_id)
        deleted = 0
        for table in client_tables():
            where = rows_of_client(table, self.coach_id, client_id)
            if where is not None:
                deleted += self.connection.execute(delete(table).where(where)).rowcount
        self._unname(name)
        tally = Erased(deleted, sessions, sets)
        self.connection.execute(
            insert(erased).values(coach_id=self.coach_id, at=now, sessions=sessions, sets=sets)
        )
        return tally

    def _done(self, client_id: int) -> tuple[int, int]:
        query = (
            select(func.count(session.c.id.distinct()), func.count(logged_set.c.id))
            .join(item, item.c.session_id == session.c.id)
            .join(logged_set, logged_set.c.item_id == item.c.id)
            .where(
                session.c.coach_id == self.coach_id,
                session.c.client_id == client_id,
                logged_set.c.voided_at.is_(None),
            )
        )
        sessions, sets = self.connection.execute(query).one()
        return int(sessions), int(sets)

    def _unname(self, name: str) -> None:
        """Take a name out of what is about everybody: digests, rosters, and pictures of them."""
        everybody = outbox.c.coach_id == self.coach_id, outbox.c.client_id.is_(None)
        self.connection.execute(
            update(outbox).where(*everybody, outbox.c.state.in_(GONE_FROM)).values(body=null())
        )
        waiting = self.connection.execute(
            select(outbox.c.id, outbox.c.body).where(*everybody, outbox.c.body.is_not(None))
        ).all()
        needed = {row.body.get("picture_id") for row in waiting}
        for row in waiting:
            html = row.body["html"].replace(escape(name), FORMER).replace(escape(name, quote=False), FORMER)
            self.connection.execute(
                update(outbox).where(outbox.c.id == row.id).values(body={**row.body, "html": html})
            )
        drawn = picture.c.coach_id == self.coach_id, picture.c.client_id.is_(None)
        kept = [each for each in needed if each is not None]
        self.connection.execute(
            delete(picture).where(*drawn, or_(picture.c.id.not_in(kept), picture.c.id.is_(None)))
        )


def drop_of_nobody(connection: Connection) -> int:
    """Delete what was said to chats that belong to nobody, such as the last word to who was forgotten. [rows]"""
    gone = outbox.c.state.in_(GONE_FROM) & outbox.c.client_id.is_(None)
    nobodys = outbox.c.chat_id.not_in(select(account.c.chat_id))
    dropped = int(connection.execute(delete(outbox).where(gone, nobodys)).rowcount)
    # A stranger's chat is known as long as it limits how often she is answered.
    unknown = chat.c.chat_id.not_in(select(account.c.chat_id)) & chat.c.stranger_answered_at.is_(None)
    connection.execute(delete(chat).where(unknown, chat.c.chat_id.not_in(select(outbox.c.chat_id))))
    return dropped


def drop_words(connection: Connection, before: datetime) -> int:
    """Forget what messages said that arrived or were called off before an instant. [rows]"""
    over = outbox.c.state.in_(("sent", "cancelled", "expired")) & outbox.c.body.is_not(None)
    done = update(outbox).where(over, outbox.c.created_at < before).values(body=null())
    return int(connection.execute(done).rowcount)
