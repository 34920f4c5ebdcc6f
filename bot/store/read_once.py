"""What a transaction has read is not read again in it, until a table that it came from is written.

A tap asks for the same client, kit and reports dozens of times, since each rule asks for itself. Nobody else's writing
can be missed: a transaction sees one snapshot. Its own is noticed at the connection, by the tables that a statement
names, so that no repository says what it reads or changes.
"""

import re
from collections import defaultdict
from collections.abc import Callable, Hashable
from functools import lru_cache, wraps
from typing import Any, Concatenate, ParamSpec, Protocol, TypeVar

from sqlalchemy import Connection, Engine, event

from bot.store.tables import metadata

_KEY = "read once"
"""Under this a connection keeps the memory of its transaction."""

_WRITES = re.compile(r'(?:INSERT INTO|UPDATE|DELETE FROM) "?\w+')

P = ParamSpec("P")
T = TypeVar("T")


class Reads(Protocol):
    """A repository."""

    connection: Connection


R = TypeVar("R", bound=Reads)


class Memory:
    """What one transaction has read, and of which tables."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, tuple[Any, frozenset[str]]] = {}
        self._of_table: defaultdict[str, set[Hashable]] = defaultdict(set)
        self._reading: list[set[str]] = []
        self._empty: defaultdict[str, set[Hashable]] = defaultdict(set)

    def note_empty(self, table: str, whose: Hashable) -> None:
        """Note that a table holds nothing of somebody, until it is written."""
        self._empty[table].add(whose)

    def is_empty(self, table: str, whose: Hashable) -> bool:
        """Return whether a table is known to hold nothing of somebody; what is being read rests on the table then."""
        if whose not in self._empty.get(table, ()):
            return False
        if self._reading:
            self._reading[-1].add(table)
        return True

    def recall(self, key: Hashable, read: Callable[[], T]) -> T:
        """Return what is kept under a key; where nothing is, read it and keep it."""
        known = self._kept.get(key)
        if known is None:
            known = self._read(key, read)
        value, tables = known
        if self._reading:  # what is being read around this rests on it
            self._reading[-1] |= tables
        return value.copy() if isinstance(value, list | dict | set) else value  # type: ignore[return-value]

    def _read(self, key: Hashable, read: Callable[[], Any]) -> tuple[Any, frozenset[str]]:
        self._reading.append(set())
        try:
            value = read()
        finally:
            tables = frozenset(self._reading.pop())
        return self.keep(key, value, tables)

    def keep(self, key: Hashable, value: Any, tables: frozenset[str]) -> tuple[Any, frozenset[str]]:
        """Keep what was read under a key, until one of the tables that it came from is written."""
        self._kept[key] = value, tables
        for table in tables:
            self._of_table[table].add(key)
        return value, tables

    def notice(self, statement: str) -> None:
        """Note which tables are read, or forget what came from those that are written."""
        if statement.startswith(("SELECT", "WITH")):
            if self._reading:
                self._reading[-1] |= tables_in(statement)
            return
        for table in written_by(statement):
            self._empty.pop(table, None)
            for key in self._of_table.pop(table, ()):
                self._kept.pop(key, None)


def read_once(read: Callable[Concatenate[R, P], T]) -> Callable[Concatenate[R, P], T]:
    """Have a method of a repository read once in a transaction for the same arguments; it must only read.

    A list, dict or set is copied for each who asks; what is in it is shared, and not to be changed.
    """

    @wraps(read)
    def recalled(self: R, /, *args: P.args, **kwargs: P.kwargs) -> T:
        memory = memory_of(self.connection)
        if memory is None:
            return read(self, *args, **kwargs)
        asked = (*map(_hashable, args), *((name, _hashable(value)) for name, value in kwargs.items()))
        key = (read, getattr(self, "coach_id", None), asked)
        return memory.recall(key, lambda: read(self, *args, **kwargs))

    return recalled


def memory_of(connection: Connection) -> Memory | None:
    """Return what the open transaction of a connection has read; None where it keeps nothing."""
    memory: Memory | None = connection.info.get(_KEY)
    return memory


def read_ahead(method: Callable[..., T], of: Reads, value: T, *args: Any, tables: frozenset[str]) -> None:
    """Keep what a method under `read_once` would read for its positional arguments, which was read with more."""
    memory = memory_of(of.connection)
    if memory is not None:
        read: Any = getattr(method, "__wrapped__", method)
        memory.keep((read, getattr(of, "coach_id", None), tuple(map(_hashable, args))), value, tables)


def _hashable(value: Any) -> Hashable:
    return value if isinstance(value, Hashable) else tuple(value)


def remember(engine: Engine) -> None:
    """Give each transaction on an engine a memory of its own, from its first statement to its end."""
    event.listen(engine, "begin", _begin)
    event.listen(engine, "before_cursor_execute", _notice)
    event.listen(engine, "commit", _end)
    event.listen(engine, "rollback", _end)
    event.listen(engine, "rollback_savepoint", _end_in_part)


def _begin(connection: Connection) -> None:
    connection.info[_KEY] = Memory()


def _end(connection: Connection) -> None:
    if not connection.invalidated:  # one that was lost has taken its memory along, and cannot be asked
        connection.info.pop(_KEY, None)


def _end_in_part(connection: Connection, _name: str, _context: None) -> None:
    connection.info[_KEY] = Memory()


def _notice(
    connection: Connection, _cursor: object, statement: str, _values: object, _context: object, _many: bool
) -> None:
    memory = memory_of(connection)
    if memory is not None:
        memory.notice(statement)


@lru_cache(maxsize=4096)
def tables_in(statement: str) -> frozenset[str]:
    """Return the tables that a statement names; a column of a table's name counts as one, and only costs time."""
    return frozenset(re.findall(r"\w+", statement)) & metadata.tables.keys()


@lru_cache(maxsize=4096)
def written_by(statement: str) -> frozenset[str]:
    """Return the tables that a statement may change: the one that it is about, else all that it names."""
    return tables_in(found[0]) if (found := _WRITES.match(statement)) else tables_in(statement)
