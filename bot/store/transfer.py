"""Everything from one database to an empty one of the other kind, SQLite or PostgreSQL: whole, compared, or not at all.

The target gets its schema and its rows in one transaction, which also compares them with the source: a process that is
killed half way leaves it as empty as it was.
"""

import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path

from sqlalchemy import Connection, Engine, Table, exists, insert, inspect, make_url, select, text
from sqlalchemy.exc import ArgumentError, DBAPIError, StatementError

from bot.store.backup import PRIVATE, NotBackedUp, database_file
from bot.store.condition import Standing, condition_of
from bot.store.engine import BUSY_TIMEOUT_S, make_engine, passing, take_lock
from bot.store.id_marks import id_marks, set_id_marks
from bot.store.migrate import BrokenReferences, building
from bot.store.row_digests import as_written, batches, digests
from bot.store.tables import metadata

SOURCE, TARGET = "source", "target"

_DRIVERS = {"sqlite": "sqlite", "postgresql": "postgresql", "postgresql+psycopg": "postgresql"}
_READY = {
    SOURCE: {Standing.AT_HEAD},
    TARGET: {Standing.AT_HEAD, Standing.EMPTY, Standing.ABSENT},
}

Doing = Callable[[str, Table], None]
"""Is told what is done next, "copying" or "comparing", and with which table."""


class NotTransferred(Exception):
    """Nothing was moved: the source is as it was, and the target as empty as it was.

    Attributes:
        cause: "address", "same_kind", "no_folder", "unwritable", "standing", "not_empty", "unfit", "differs", "broken",
            or "in_doubt", when nobody knows whether the last word reached the target: it is whole there, or empty.
        where: The side ("source" or "target"), or the table.
        standing: How the database of that side is, when that is the cause.
    """

    def __init__(self, cause: str, where: str = "", standing: Standing | None = None) -> None:
        super().__init__(cause, where)
        self.cause = cause
        self.where = where
        self.standing = standing


@dataclass(frozen=True, slots=True)
class Transferred:
    """What was moved and compared.

    Attributes:
        tables: How many tables there are.
        rows: How many rows they hold.
    """

    tables: int
    rows: int


def transfer(source: str, target: str, doing: Doing = lambda _what, _table: None) -> Transferred:
    """Copy all that the database at `source` holds into the empty one at `target`, and compare them row by row.

    Both are locked as by a running program, and nobody else writes into either meanwhile. Where the target goes on,
    no id that the source ever gave comes again.

    Raises:
        NotTransferred: Something stands against it, or went wrong; nothing was changed.
        AlreadyRunning: A program serves one of them.
    """
    kinds = [_kind(side, url) for side, url in ((SOURCE, source), (TARGET, target))]
    if kinds[0] == kinds[1]:
        raise NotTransferred("same_kind", kinds[0])
    with ExitStack() as held:
        for side, url in ((SOURCE, source), (TARGET, target)):
            _look(side, url)
            _take(held, side, url)
        with _new_file(target), _engine(source) as from_, _engine(target) as to:
            return _transferred(from_, to, doing)


def _kind(side: str, url: str) -> str:
    try:
        kind = _DRIVERS[make_url(url).drivername]
        if kind == "sqlite":
            database_file(url)  # not one in memory, which nobody else can see
    except (ArgumentError, ValueError, KeyError, NotBackedUp) as error:
        raise NotTransferred("address", side) from error
    return kind


def _look(side: str, url: str) -> None:
    standing = condition_of(url).standing
    if standing not in _READY[side]:
        raise NotTransferred("standing", side, standing)


def _take(held: ExitStack, side: str, url: str) -> None:
    try:
        held.enter_context(take_lock(url))
    except FileNotFoundError as error:
        raise NotTransferred("no_folder", side) from error
    except OSError as error:
        raise NotTransferred("unwritable", side) from error
    except DBAPIError as error:
        raise NotTransferred("standing", side, Standing.UNREACHABLE) from error


@contextmanager
def _new_file(target: str) -> Iterator[None]:
    """Make the file of a new database on SQLite, for its owner alone; it goes again when nothing gets into it."""
    path = Path(str(make_url(target).database))
    if _kind(TARGET, target) != "sqlite" or path.exists():
        yield
        return
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, PRIVATE))
    except OSError as error:
        raise NotTransferred("unwritable", TARGET) from error
    try:
        yield
    except BaseException as error:
        if not (isinstance(error, NotTransferred) and error.cause == "in_doubt"):
            path.unlink(missing_ok=True)
        raise


@contextmanager
def _engine(url: str) -> Iterator[Engine]:
    engine = make_engine(url)
    try:
        yield engine
    finally:
        engine.dispose()


def _transferred(source: Engine, target: Engine, doing: Doing) -> Transferred:
    is_whole = False
    _refuse_strange(target)
    try:
        with _held(source) as reading, building(target) as writing:
            done = _filled(reading, writing, doing)
            is_whole = True
    except BrokenReferences as broken:
        raise NotTransferred("unfit", broken.tables[0]) from broken
    except DBAPIError as error:
        raise NotTransferred("in_doubt" if is_whole and error.connection_invalidated else "broken") from error
    return done


@contextmanager
def _held(engine: Engine) -> Iterator[Connection]:
    """Begin a transaction that reads, and beside which nobody writes: what came later would stay behind."""
    with engine.connect().execution_options(postgresql_readonly=True) as connection:
        _lock_tables(connection)  # SQLite's transactions keep others from writing as it is
        yield connection


def _lock_tables(connection: Connection) -> None:
    if connection.dialect.name != "postgresql":
        return
    named = ", ".join(map(connection.dialect.identifier_preparer.format_table, metadata.sorted_tables))
    connection.execute(text(f"SET LOCAL lock_timeout = '{BUSY_TIMEOUT_S}s'"))
    # Before the first look at a row, so that what is seen is what was there when the lock was had.
    connection.execute(text(f"LOCK TABLE {named} IN SHARE ROW EXCLUSIVE MODE"))


def _filled(reading: Connection, writing: Connection, doing: Doing) -> Transferred:
    _lock_tables(writing)
    _refuse_filled(writing)
    rows = 0
    for table in metadata.sorted_tables:
        doing("copying", table)
        with _told_of(table):
            rows += _copied(table, reading, writing)
    before, own = id_marks(reading), id_marks(writing)
    marks = {name: max(before[name], own[name]) for name in before}
    set_id_marks(writing, marks)
    for table in metadata.sorted_tables:
        doing("comparing", table)
        with _told_of(table):
            _compare(table, reading, writing)
    for name, mark in id_marks(writing).items():
        if mark != marks[name]:
            raise NotTransferred("differs", name)
    return Transferred(len(metadata.sorted_tables), rows)


def _refuse_strange(engine: Engine) -> None:
    """Leave a database alone that is somebody else's."""
    with engine.connect() as connection:
        found = set(inspect(connection).get_table_names())
    strange = found - {*metadata.tables, "alembic_version"} if "alembic_version" in found else found
    if strange:
        raise NotTransferred("not_empty", min(strange))


def _refuse_filled(connection: Connection) -> None:
    for table in metadata.sorted_tables:
        if connection.scalar(select(exists().select_from(table))):
            raise NotTransferred("not_empty", table.name)


@contextmanager
def _told_of(table: Table) -> Iterator[None]:
    """Say of which table a row cannot be read, or does not fit into the other kind of database."""
    try:
        yield
    except StatementError as error:
        if isinstance(error, DBAPIError) and passing(error):
            raise
        raise NotTransferred("unfit", table.name) from error
    except (ArithmeticError, TypeError, ValueError) as error:
        raise NotTransferred("unfit", table.name) from error


def _copied(table: Table, reading: Connection, writing: Connection) -> int:
    into = insert(as_written(table, writing.dialect.name))
    count = 0
    for rows in batches(table, reading):
        writing.execute(into, rows)
        count += len(rows)
    return count


def _compare(table: Table, one: Connection, other: Connection) -> None:
    for digest, same in zip_longest(digests(table, one), digests(table, other)):
        if digest != same:
            raise NotTransferred("differs", table.name)
