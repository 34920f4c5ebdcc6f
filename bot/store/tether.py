"""A process's hold on the locks that processes on one PostgreSQL share: who serves, who leads, whose chat is whose.

All of them hang on one connection of its own, and are gone with it: at once when the process dies, and after
`timeout_s` when it hangs or is cut off, since the server ends a connection on which nobody says anything.
"""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, text

from bot.store.engine import LOCK_KEY, AlreadyRunning
from bot.store.hail import cut, lone_engine, raw_of
from bot.store.inbox import Inbox, InboxRow, chat_of

LEAD_KEY = 0x706C696F
"""Key of the lock that the one leading process holds."""

CHAT_TAG = 0x706 << 52
"""High bits of the keys of chats. An id of a chat has at most 52 significant bits (source: the Bot API)."""

LOOKED_AT = 16
"""Rows looked at together for a chat that is free. Our proposal."""
REMEMBERED = 1000
"""Chats of which it is remembered what was worked on last."""

TIMEOUT_FROM = 140000
"""Version of the server from which it ends a connection that says nothing."""

_ASKED = text("SELECT pg_try_advisory_lock(:key)")
_SHARED = text("SELECT pg_try_advisory_lock_shared(:key)")
_LET_GO = text("SELECT pg_advisory_unlock(key) FROM unnest(CAST(:keys AS bigint[])) AS key")
_PING = text("SELECT 1")
_LEADS = text(
    "SELECT EXISTS (SELECT FROM pg_locks JOIN pg_database ON pg_database.oid = pg_locks.database"
    " WHERE locktype = 'advisory' AND datname = current_database()"
    " AND classid = 0 AND objid = :key AND objsubid = 1 AND granted AND pid = :pid)"
)


@dataclass(frozen=True, slots=True)
class Spans:
    """When a process that says nothing is taken for lost. All our proposal, so that another leads within 15 s.

    Attributes:
        ping_s: Between two pings; whoever stands by asks for the lead as often. [s]
        safe_s: A process leads for so long from its last good ping, and no longer; less than `timeout_s`. [s]
        timeout_s: The server ends a connection that says nothing for so long. [s]
        transaction_s: It ends a transaction in which nothing is said for so long. [s]
        again_s: What is held elsewhere is looked at again after so long; a lost connection is made anew. [s]
        alone_s: Somebody may need the database alone for so long, as a start does that brings it to its schema, before
            those that lost their connection end. [s]
    """

    ping_s: float = 2.5
    safe_s: float = 6.0
    timeout_s: float = 9.0
    transaction_s: float = 10.0
    again_s: float = 1.0
    alone_s: float = 10.0


@dataclass(frozen=True, slots=True)
class Taken:
    """What is to be worked on next.

    Attributes:
        row: The row, whose chat is now this process's; None when there is none.
        due: When time alone makes another row workable; None when it never will, or where there is a row.
        left_out: Whether there are rows that wait for another process.
    """

    row: InboxRow | None
    due: datetime | None
    left_out: bool


class Untied(Exception):
    """The connection is not there now."""


class Tether:
    """The connection and its locks. All but `cut` is called from one thread.

    Args:
        url: The database.
        spans: When it is taken for lost.
    """

    def __init__(self, url: str, spans: Spans) -> None:
        self._engine = lone_engine(url)
        self._spans = spans
        self._connection: Connection | None = None
        self._raw: Any = None
        self._given: dict[int, int] = {}
        self.pid: int | None = None
        """Number of the server's process at the other end; None while it is not tied."""
        self.leads = False
        """Whether the lock of whoever leads hangs on it, as far as it knows."""
        self.ends_by_itself = True
        """Whether the server ends it when nothing is said: a version that is too old does not."""

    def ping(self, *, wants: bool) -> bool:
        """Say that the process is alive, tying anew what was lost; returns whether it leads.

        Args:
            wants: Whether to ask for the lead.

        Raises:
            AlreadyRunning: Somebody needs the database alone.
            sqlalchemy.exc.DBAPIError: The server is away.
        """
        try:
            if self._connection is None:
                self._tie()
            if self.leads or not wants:
                self._tied.execute(_PING)
            else:
                self.leads = bool(self._tied.scalar(_ASKED, {"key": LEAD_KEY}))
        except BaseException:
            self.drop()
            raise
        return self.leads

    @property
    def _tied(self) -> Connection:
        if self._connection is None:
            raise Untied
        return self._connection

    def _tie(self) -> None:
        self._connection = connection = self._engine.connect()
        self._raw = raw_of(connection)
        version = int(connection.scalar(text("SHOW server_version_num")) or 0)
        self.ends_by_itself = version >= TIMEOUT_FROM
        if self.ends_by_itself:
            connection.execute(text(f"SET idle_session_timeout = {round(self._spans.timeout_s * 1000)}"))
        # Nothing that is asked here ever waits for anybody.
        connection.execute(text(f"SET statement_timeout = {round(self._spans.safe_s * 1000)}"))
        if not connection.scalar(_SHARED, {"key": LOCK_KEY}):
            raise AlreadyRunning
        self.pid = connection.scalar(text("SELECT pg_backend_pid()"))

    def drop(self) -> None:
        """Let go of the connection, and of all that hangs on it."""
        connection, self._connection, self._raw = self._connection, None, None
        self.leads, self.pid = False, None
        self._given.clear()
        if connection is not None:
            connection.invalidate()
            connection.close()

    def cut(self) -> None:
        """Shut the connection from another thread, so that whoever waits on it in vain goes on with an error."""
        cut(self._raw)

    def close(self) -> None:
        """Let go for good."""
        self.drop()
        self._engine.dispose()

    def holds_lead(self, connection: Connection) -> bool:
        """Return whether the server says that this process leads, asked in any transaction."""
        return bool(connection.scalar(_LEADS, {"key": LEAD_KEY, "pid": self.pid}))

    def take(self, now: datetime, busy: Collection[int], ended: Collection[int]) -> Taken:
        """Take the next row of a chat that no process works on, and the chat's lock with it.

        A chat is locked before its first row is read, and each statement sees what is committed by then: so the row
        is the first of its chat, and whoever worked on the one before has ended.

        Args:
            now: The instant.
            busy: Chats that this process works on.
            ended: Chats that it no longer works on; their locks are let go first.

        Raises:
            Untied: The connection is not there now.
            sqlalchemy.exc.DBAPIError: It is lost.
        """
        try:
            return self._take(now, busy, ended)
        except Untied:
            raise
        except BaseException:
            self.drop()
            raise

    def _take(self, now: datetime, busy: Collection[int], ended: Collection[int]) -> Taken:
        self._let_go(ended)
        inbox, seen = Inbox(self._tied), set(busy)
        left_out = False
        while True:
            found = inbox.chats(now, seen, LOOKED_AT)
            for chat in dict.fromkeys(found):
                row = self._of(inbox, chat, now) if self._tied.scalar(_ASKED, {"key": key_of(chat)}) else None
                if row is not None:
                    return Taken(row, None, left_out)
                left_out = True
            seen.update(found)
            if len(found) < LOOKED_AT:
                return Taken(None, inbox.next_due(now), left_out)

    def _of(self, inbox: Inbox, chat: int, now: datetime) -> InboxRow | None:
        """Return the first row of a chat that was locked just now; without one, the lock is let go."""
        row = inbox.head_of(chat, now)
        # The same row again was not settled: a process that lost its locks may still hold it, and must end first.
        again = row is not None and self._given.get(chat) == row.update_id
        if row is None or (again and inbox.claim(row.update_id) is None):
            self._let_go([chat])
            return None
        if len(self._given) >= REMEMBERED:
            self._given.clear()
        self._given[chat_of(row)] = row.update_id
        return row

    def _let_go(self, chats: Collection[int]) -> None:
        if chats:
            self._tied.execute(_LET_GO, {"keys": [key_of(chat) for chat in chats]})


def key_of(chat: int) -> int:
    """Return the key of a chat's lock. Two chats on one key only wait for one another."""
    return CHAT_TAG | (chat & ((1 << 52) - 1))
