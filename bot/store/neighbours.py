"""The right to serve a database on PostgreSQL beside other processes: every one of them holds one lock, shared.

Whatever needs the database for itself (`restore`, `move`) asks for the same lock alone, with
`bot.store.engine.take_lock`, and is refused while anybody serves. On SQLite one process serves.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, NullPool, create_engine, make_url, text
from sqlalchemy.exc import DBAPIError

from bot.store.engine import LOCK_KEY, AlreadyRunning, make_engine, passing, take_lock
from bot.store.migrate import NewerSchema, current, head, knows

WAIT_S = 10.0
"""How long a start waits for another's to bring the database to its schema. Our proposal. [s]"""

OWN = 2

_HOLDERS = text(
    "SELECT count(*) FROM pg_locks JOIN pg_database ON pg_database.oid = pg_locks.database"
    " WHERE locktype = 'advisory' AND datname = current_database()"
    " AND classid = 0 AND objid = :key AND objsubid = 1 AND granted"
)

ALIVE_AFTER = ("tcp_keepalives_idle = 10", "tcp_keepalives_interval = 5", "tcp_keepalives_count = 2")
"""Has the server notice within 20 s that the machine at the other end is gone, and its locks with it. Our proposal."""


class OthersOlder(Exception):
    """Other processes serve the database at an older schema than this program's."""

    def __str__(self) -> str:
        return (
            "Other processes serve this database with an older version of Plimsoll. Stop them all, and start them "
            "again with this version."
        )


def is_shared(url: str) -> bool:
    """Return whether several processes may serve the database at `url`."""
    return make_url(url).get_backend_name() == "postgresql"


@contextmanager
def hold(url: str, prepare: Callable[[], None]) -> Iterator[None]:
    """Hold the right to serve the database at `url`: alone on SQLite, beside others on PostgreSQL.

    Args:
        url: The database.
        prepare: Brings it to this program's schema; run only while nobody else serves.

    Raises:
        AlreadyRunning: Somebody needs the database alone, or serves it from SQLite.
        OthersOlder: Others serve it at an older schema.
        NewerSchema: A later version wrote it.
    """
    if not is_shared(url):
        with take_lock(url):
            prepare()
            yield
        return
    engine = create_engine(url, poolclass=NullPool, isolation_level="AUTOCOMMIT", hide_parameters=True)
    try:
        with engine.connect() as connection:
            for each in ALIVE_AFTER:
                connection.execute(text(f"SET {each}"))
            if connection.scalar(text("SELECT pg_try_advisory_lock(:key)"), {"key": LOCK_KEY}):
                prepare()
                connection.execute(text("SELECT pg_advisory_lock_shared(:key)"), {"key": LOCK_KEY})
                connection.execute(text("SELECT pg_advisory_unlock(:key)"), {"key": LOCK_KEY})
            else:
                _share(connection)
                _check_schema(url)
            yield
    finally:
        engine.dispose()


def others_serve(connection: Connection) -> bool:
    """Return whether others serve the database beside the process that asks."""
    # A process that serves holds the lock twice: here, and on its tether.
    return int(connection.scalar(_HOLDERS, {"key": LOCK_KEY}) or 0) > OWN


def _share(connection: Connection) -> None:
    connection.execute(text(f"SET lock_timeout = {round(WAIT_S * 1000)}"))
    try:
        connection.execute(text("SELECT pg_advisory_lock_shared(:key)"), {"key": LOCK_KEY})
    except DBAPIError as error:
        if passing(error):
            raise AlreadyRunning from error
        raise


def _check_schema(url: str) -> None:
    engine = make_engine(url)
    try:
        revision = current(engine)
    finally:
        engine.dispose()
    if revision == head():
        return
    raise OthersOlder if knows(revision) else NewerSchema(str(revision))
