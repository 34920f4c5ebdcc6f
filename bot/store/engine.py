"""The connection to the database: SQLite in one file, or PostgreSQL."""

import fcntl
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import (
    Connection,
    Engine,
    NullPool,
    create_engine,
    event,
    make_url,
    text,
)
from sqlalchemy.exc import DBAPIError
from sqlalchemy.exc import TimeoutError as NoConnectionFree

from bot.store.hail import CONNECT
from bot.store.read_once import remember

BUSY_TIMEOUT_S = 15
"""How long a writer on SQLite waits for another one. [s]"""

LOCK_KEY = 0x706C696D
"""Key of the advisory lock on PostgreSQL that the one running program holds."""

# A key of 64 bits is shown in two halves; ours fits into the lower one.
_HELD = text(
    "SELECT EXISTS (SELECT FROM pg_locks JOIN pg_database ON pg_database.oid = pg_locks.database"
    " WHERE locktype = 'advisory' AND datname = current_database()"
    " AND classid = 0 AND objid = :key AND objsubid = 1 AND granted)"
)

_SQLITE_PASSING = frozenset(
    {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR}
)

# 08 connection lost, 25P03 nothing was said in a transaction for too long, 40 rolled back (serialization failure,
# deadlock), 53 out of memory, disk or connections,
# 55P03 lock not available, 57P0x the server is being shut down, has crashed or is starting.
_SQLSTATES_PASSING = ("08", "25P03", "40", "53", "55P03", "57P01", "57P02", "57P03")


class AlreadyRunning(Exception):
    """Another program serves this database.

    Attributes:
        holder: Its process id, where it is known.
    """

    def __init__(self, holder: str = "") -> None:
        super().__init__(holder)
        self.holder = holder

    def __str__(self) -> str:
        who = f" (process {self.holder})" if self.holder else ""
        return f"Plimsoll is already running on this database{who}. Stop it, and start again."


def make_engine(url: str, transaction_s: float | None = None) -> Engine:
    """Return an engine for `url`.

    On SQLite a transaction takes the write lock when it begins, unless the connection has the execution option
    `readonly`. On PostgreSQL transactions see one snapshot, so that a lost update becomes a passing fault.
    Errors never quote the values of a statement: they are clients' words.

    Args:
        url: The database.
        transaction_s: On PostgreSQL the server ends a transaction in which nothing is said for so long, and a
            connection that leads nowhere is given up: a process that hangs must not hold up others. [s]
    """
    parsed = make_url(url)
    if parsed.get_backend_name() != "sqlite":
        engine = create_engine(
            parsed,
            isolation_level="REPEATABLE READ",
            pool_pre_ping=True,
            hide_parameters=True,
            connect_args={} if transaction_s is None else CONNECT,
        )
        if transaction_s is not None:
            _let_nobody_wait(engine, transaction_s)
        remember(engine)
        return engine
    engine = create_engine(parsed, connect_args={"timeout": BUSY_TIMEOUT_S}, hide_parameters=True)
    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    remember(engine)
    return engine


def _let_nobody_wait(engine: Engine, transaction_s: float) -> None:
    def set_up(connection: Any, _record: Any) -> None:
        connection.execute(f"SET idle_in_transaction_session_timeout = {round(transaction_s * 1000)}")
        connection.commit()

    event.listen(engine, "connect", set_up)


def _set_up_sqlite(connection: Any, _record: Any) -> None:
    # The driver's own BEGIN comes too late for reads and is deferred for writes: we emit it ourselves.
    connection.isolation_level = None
    cursor = connection.cursor()
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "secure_delete=ON"):
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    readonly = bool(connection.get_execution_options().get("readonly"))
    if connection.info.get("readonly", False) is not readonly:
        connection.exec_driver_sql(f"PRAGMA query_only={int(readonly)}")
        connection.info["readonly"] = readonly
    connection.exec_driver_sql("BEGIN" if readonly else "BEGIN IMMEDIATE")


def forget_log(engine: Engine) -> None:
    """Write SQLite's log into the database and empty it, so that what was deleted is in neither."""
    if engine.dialect.name != "sqlite":
        return
    connection = engine.raw_connection()
    try:
        connection.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")
    finally:
        connection.close()


def passing(error: BaseException) -> bool:
    """Return whether `error` is a fault of the database that may be gone at the next try."""
    if isinstance(error, NoConnectionFree):
        return True
    if not isinstance(error, DBAPIError):
        return False
    if error.connection_invalidated:
        return True
    cause = error.orig
    if isinstance(cause, sqlite3.Error):
        # The low byte is the kind; the rest says which sort of it.
        return (getattr(cause, "sqlite_errorcode", None) or 0) & 0xFF in _SQLITE_PASSING
    state = getattr(cause, "sqlstate", None)
    if state is None:
        # The PostgreSQL driver gives no state when it could not reach the server at all.
        return type(cause).__name__ == "OperationalError"
    return str(state).startswith(_SQLSTATES_PASSING)


@contextmanager
def take_lock(url: str) -> Iterator[None]:
    """Hold the right to serve the database at `url`: one program at a time.

    Raises:
        AlreadyRunning: Another program holds it.
    """
    parsed = make_url(url)
    if parsed.get_backend_name() != "sqlite":
        with _advisory_lock(url):
            yield
    elif parsed.database in {None, "", ":memory:"}:
        yield  # nobody else can see it
    else:
        with _file_lock(_lock_path(str(parsed.database))):
            yield


def is_served(url: str) -> bool:
    """Return whether a program holds the right to serve the database at `url`, without taking it.

    Raises:
        sqlalchemy.exc.DBAPIError: PostgreSQL cannot be asked.
    """
    parsed = make_url(url)
    if parsed.get_backend_name() == "sqlite":
        return parsed.database not in {None, "", ":memory:"} and _is_locked(_lock_path(str(parsed.database)))
    engine = create_engine(url, poolclass=NullPool, isolation_level="AUTOCOMMIT")
    try:
        with engine.connect() as connection:
            held = connection.scalar(_HELD, {"key": LOCK_KEY})
    finally:
        engine.dispose()
    return bool(held)


def _lock_path(database: str) -> Path:
    return Path(f"{database}.lock.pid")


def _is_locked(path: Path) -> bool:
    # A shared lock, for an instant: two that only look never see each other.
    try:
        with path.open("rb") as file:
            fcntl.flock(file, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except FileNotFoundError:
        return False
    except BlockingIOError:
        return True
    return False


@contextmanager
def _file_lock(path: Path) -> Iterator[None]:
    # The file stays behind: who removed it could remove one that the next program has locked already.
    with path.open("a+", encoding="ascii") as file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            file.seek(0)
            raise AlreadyRunning(file.read().strip()) from error
        file.truncate(0)
        file.write(str(os.getpid()))
        file.flush()
        yield


@contextmanager
def _advisory_lock(url: str) -> Iterator[None]:
    # On a connection of its own, outside any transaction: the lock lives as long as the connection.
    engine = create_engine(url, poolclass=NullPool, isolation_level="AUTOCOMMIT")
    try:
        with engine.connect() as connection:
            if not connection.scalar(text("SELECT pg_try_advisory_lock(:key)"), {"key": LOCK_KEY}):
                raise AlreadyRunning
            yield
    finally:
        engine.dispose()
