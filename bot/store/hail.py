"""Processes on one PostgreSQL rouse one another: whoever adds a row to the inbox or the outbox says so as it commits.

A hail is a hint. It comes with the commit or not at all, it carries no words of anybody, and whoever misses one (its
connection was lost) looks by itself once it listens again.
"""

import contextlib
import os
import socket
import threading
from collections.abc import Callable
from typing import Any

from sqlalchemy import Connection, Engine, NullPool, create_engine, event, text
from sqlalchemy.exc import DBAPIError

CHANNEL = "plimsoll"
AGAIN_S = 1.0
"""After so long a lost connection is made anew. [s]"""
LOOK_S = 5.0
"""How often a listener that hears nothing sees whether it is to end, at the latest. [s]"""

INBOX, OUTBOX, HEARD = "inbox", "outbox", "heard"
"""What is hailed: rows of either table were added; the platform was heard."""

_ADDED = {"INSERT INTO inbox ": INBOX, "INSERT INTO outbox ": OUTBOX}
_KEY = "hails"

CONNECT = {
    "connect_timeout": 5,
    "keepalives_idle": 3,
    "keepalives_interval": 2,
    "keepalives_count": 2,
    "tcp_user_timeout": 6000,
}
"""Has a connection that leads nowhere be known for one within 8 s. [s]; the last [ms]. Our proposal."""


def hail_from(engine: Engine, origin: str) -> None:
    """Have each transaction on an engine that adds rows say so when it commits, once for each kind.

    Args:
        engine: On PostgreSQL.
        origin: Word of this process alone, so that it need not hear itself.
    """

    def notice(connection: Connection, _cursor: object, statement: str, *_: object) -> None:
        for begins, kind in _ADDED.items():
            if statement.startswith(begins):
                connection.info.setdefault(_KEY, set()).add(kind)

    def say(connection: Connection) -> None:
        for kind in sorted(connection.info.pop(_KEY, ())):
            # Past the library's own execution: this is the end of a transaction, not a statement of its own.
            raw_of(connection).execute("SELECT pg_notify(%s, %s)", (CHANNEL, f"{origin} {kind}"))

    def forget(connection: Connection) -> None:
        if not connection.invalidated:
            connection.info.pop(_KEY, None)

    event.listen(engine, "before_cursor_execute", notice)
    event.listen(engine, "commit", say)
    event.listen(engine, "rollback", forget)


def hail(connection: Connection, origin: str, kind: str) -> None:
    """Say something to the other processes, once the transaction commits."""
    connection.execute(text("SELECT pg_notify(:to, :what)"), {"to": CHANNEL, "what": f"{origin} {kind}"})


def lone_engine(url: str) -> Engine:
    """Return an engine for a connection that is kept by itself, each statement of it a transaction."""
    return create_engine(
        url, poolclass=NullPool, isolation_level="AUTOCOMMIT", hide_parameters=True, connect_args=CONNECT
    )


class Ear:
    """Listens for hails of other processes, in a thread of its own, until it is closed.

    Args:
        url: The database.
        origin: Word of this process, whose own hails are passed over.
        heard: Called in that thread with what was hailed; with None after it was deaf for a while.
    """

    def __init__(self, url: str, origin: str, heard: Callable[[str | None], None]) -> None:
        self._engine = lone_engine(url)
        self._origin = origin
        self._heard = heard
        self._closed = threading.Event()
        self._open: Any = None
        self._thread = threading.Thread(target=self._listen_on, name="ear", daemon=True)

    def start(self) -> None:
        """Begin to listen."""
        self._thread.start()

    def close(self) -> None:
        """Listen no more."""
        self._closed.set()
        cut(self._open)
        if self._thread.ident is not None:
            self._thread.join(LOOK_S)
        self._engine.dispose()

    def _listen_on(self) -> None:
        # Raw errors of the driver too, which only those who have PostgreSQL can name.
        away = (DBAPIError, OSError, self._engine.dialect.loaded_dbapi.Error)
        while not self._closed.is_set():
            # The server may be away for any reason: whoever misses a hail looks by itself once it listens again.
            with contextlib.suppress(*away), self._engine.connect() as connection:
                try:
                    self._listen(raw_of(connection))
                finally:
                    connection.invalidate()
            self._open = None
            self._closed.wait(AGAIN_S)

    def _listen(self, raw: Any) -> None:
        self._open = raw
        raw.execute(f"LISTEN {CHANNEL}")
        self._heard(None)
        while not self._closed.is_set():
            for each in raw.notifies(timeout=LOOK_S):
                origin, _, kind = each.payload.partition(" ")
                if origin != self._origin:
                    self._heard(kind)


def raw_of(connection: Connection) -> Any:
    """Return the driver's own connection."""
    return connection.connection.driver_connection


def cut(raw: Any) -> None:
    """Shut a connection from outside, so that a thread which waits on it in vain goes on with an error."""
    # A copy of the handle: the connection closes its own.
    with contextlib.suppress(Exception), socket.socket(fileno=os.dup(raw.pgconn.socket)) as handle:
        handle.shutdown(socket.SHUT_RDWR)
