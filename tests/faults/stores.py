"""Where a played week keeps its rows, and how that is broken: a file of SQLite, or a database of PostgreSQL."""

import contextlib
import sqlite3
import threading
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path

from databases import ABSENT, Cluster, PostgresServer, cluster, postgres_binaries
from faults.calendars import Calendar
from faults.crew import settle_down
from faults.people import CREWS
from sqlalchemy import NullPool, create_engine, make_url, text
from sqlalchemy.exc import SQLAlchemyError

from bot.store.engine import make_engine
from bot.store.migrate import upgrade
from bot.store.tether import LEAD_KEY
from bot.store.units import Units

FAST, CRASH, ENDED, LOCKED = (
    "PostgreSQL restarted",
    "PostgreSQL crashed and started",
    "its connections ended",
    "the database locked",
)
SERVER_KINDS = (FAST, CRASH, ENDED)
"""What else can be done to PostgreSQL."""
LOCKED_S = (0.7, 3.0)
"""How long the database is locked, by who is named in the plan. [s]"""
ROWS = "SELECT id FROM client ORDER BY id FOR UPDATE"
LOCKS = (
    ("LOCK TABLE inbox, outbox IN ACCESS EXCLUSIVE MODE",),
    ("LOCK TABLE outbox IN EXCLUSIVE MODE",),
    (ROWS, "SELECT id FROM outbox WHERE state = 'queued' ORDER BY id FOR UPDATE"),
)
"""What is locked on PostgreSQL, by who is named in the plan."""


def join(engine_url: str, calendar: Calendar) -> None:
    """Have everybody join and wait for the first session."""
    engine = make_engine(engine_url)
    upgrade(engine)
    settle_down(Units(engine), CREWS, now=calendar.eve, zones=calendar.zones, weekdays=calendar.weekdays)
    engine.dispose()


class Store(ABC):
    """The database of one week.

    Attributes:
        url: For the harness to look with.
    """

    def __init__(self, url: str) -> None:
        self.url = url

    def url_for(self, _: str) -> str:
        """The URL for a process of this name."""
        return self.url

    def leader(self) -> str | None:
        """Name of the process that leads, where it can be told."""
        return None

    def hold(self, chat_id: int, over: threading.Event) -> None:
        """Hold its lock until it is over or the time for it is."""
        with self._held(chat_id):
            over.wait(LOCKED_S[chat_id % 2])

    @abstractmethod
    @contextmanager
    def _held(self, chat_id: int) -> Iterator[None]:
        """Hold its lock, where it can be had at once."""
        yield

    def broken(self, kind: str) -> None:
        """Break it, and have it be whole again."""
        raise LookupError(kind)


class FileStore(Store):
    """A file of SQLite."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"sqlite:///{path}")
        self.path = path

    @contextmanager
    def _held(self, _: int) -> Iterator[None]:
        with closing(sqlite3.connect(self.path, isolation_level=None, timeout=0.2)) as holder:
            with contextlib.suppress(sqlite3.OperationalError):
                holder.execute("BEGIN IMMEDIATE")
            yield


class ServerStore(Store):
    """A database on PostgreSQL."""

    def __init__(self, url: str, server: Cluster) -> None:
        super().__init__(url)
        self._server = server
        self._restarting = threading.Lock()
        self._engine = create_engine(url, poolclass=NullPool, isolation_level="AUTOCOMMIT")

    def url_for(self, name: str) -> str:
        found = make_url(self.url).update_query_dict({"application_name": name})
        return found.render_as_string(hide_password=False)

    def _asked(self, query: str, **facts: object) -> Sequence[object]:
        try:
            with self._engine.connect() as connection:
                return connection.execute(text(query), facts).scalars().all()
        except SQLAlchemyError:
            return []

    def leader(self) -> str | None:
        held = (
            "SELECT application_name FROM pg_locks JOIN pg_stat_activity USING (pid)"
            " WHERE locktype = 'advisory' AND objid = :key AND granted AND datname = current_database()"
        )
        return next((str(each) for each in self._asked(held, key=LEAD_KEY)), None)

    @contextmanager
    def _held(self, chat_id: int) -> Iterator[None]:
        holder = None
        try:
            with contextlib.suppress(SQLAlchemyError):
                holder = create_engine(self.url, poolclass=NullPool).connect()
                holder.execute(text("SET LOCAL lock_timeout = '500ms'"))
                for each in LOCKS[chat_id % 3]:
                    holder.execute(text(each))
            yield
        finally:
            if holder is not None:
                with contextlib.suppress(SQLAlchemyError):
                    holder.close()

    def broken(self, kind: str) -> None:
        with self._restarting:
            if kind == ENDED:
                self._asked(
                    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                    " WHERE datname = current_database() AND pid <> pg_backend_pid()"
                )
                return
            self._server.stop("fast" if kind == FAST else "immediate")
            self._server.start()


class Shelf(ABC):
    """Makes the database of each week, from one in which everybody waits."""

    kinds: tuple[str, ...] = ()

    @abstractmethod
    @contextmanager
    def week(self, folder: Path, calendar: Calendar) -> Iterator[Store]:
        """A database for a week."""
        yield Store("")  # type: ignore[abstract]


class FileShelf(Shelf):
    """On SQLite."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._joined: set[str] = set()

    @contextmanager
    def week(self, folder: Path, calendar: Calendar) -> Iterator[Store]:
        joined = self.folder / f"{calendar.name}.db"
        if calendar.name not in self._joined:
            join(f"sqlite:///{joined}", calendar)
            self._joined.add(calendar.name)
        (folder / "plimsoll.db").write_bytes(joined.read_bytes())
        yield FileStore(folder / "plimsoll.db")


class ServerShelf(Shelf):
    """On PostgreSQL."""

    kinds = SERVER_KINDS

    def __init__(self, server: PostgresServer, own: Cluster, stack: contextlib.ExitStack) -> None:
        self._server, self._own, self._stack = server, own, stack
        self._joined: dict[str, str] = {}

    @contextmanager
    def week(self, _: Path, calendar: Calendar) -> Iterator[Store]:
        if calendar.name not in self._joined:
            url = self._stack.enter_context(self._server.database())
            join(url, calendar)
            self._joined[calendar.name] = url
        with self._server.database(like=self._joined[calendar.name]) as url:
            # A copy takes over how far a sequence was written ahead, and not the writing: after a crash it would give
            # numbers anew. From the next checkpoint on it writes ahead by itself.
            self._server.checkpoint()
            yield ServerStore(url, self._own)


@contextmanager
def file_shelf(folder: Path) -> Iterator[Shelf]:
    yield FileShelf(folder)


@contextmanager
def server_shelf(_: Path) -> Iterator[Shelf]:
    """On a PostgreSQL of one's own, which can be stopped."""
    binaries = postgres_binaries()
    if binaries is None:
        raise RuntimeError(ABSENT)
    with cluster(binaries, keeps_commits=True) as own:
        server = PostgresServer(own.url)
        try:
            with contextlib.ExitStack() as stack:
                yield ServerShelf(server, own, stack)
        finally:
            server.close()


SHELVES: dict[str, Callable[[Path], contextlib.AbstractContextManager[Shelf]]] = {
    "sqlite": file_shelf,
    "postgres": server_shelf,
}
