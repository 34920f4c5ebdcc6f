"""What every repository is: one connection, one tenant, rows as frozen dataclasses."""

from collections.abc import Callable, Mapping
from dataclasses import fields
from typing import Any, TypeVar

from sqlalchemy import Column, ColumnElement, Connection, CursorResult, Row, Select, Table, bindparam, select

T = TypeVar("T")


class Rows:
    """Rows of one coach, inside one transaction."""

    def __init__(self, connection: Connection, coach_id: int) -> None:
        self.connection = connection
        self.coach_id = coach_id


def given(column: Column[Any]) -> ColumnElement[bool]:
    """Return that a column is what is given under its name when the statement is executed.

    So a statement that is asked often is built once: building one costs more than what the database does with it.
    """
    return column == bindparam(column.name)


def made_row(done: CursorResult[Any]) -> int:
    """Return the id that an INSERT of one row has made.

    Raises:
        LookupError: It has made none.
    """
    made = done.inserted_primary_key
    if made is None:
        raise LookupError("no row was made")
    return int(made[0])


def this(column: Column[Any]) -> ColumnElement[bool]:
    """Return that a column is what is given as `this_` and its name, for a change that is built once.

    A parameter under a column's own name is a value that it is set to, so that one that it is found by has another.
    """
    return column == bindparam(f"this_{column.name}")


def settable(table: Table, values: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return values for a change that was built once, which would pass over what is no column.

    Raises:
        KeyError: One of them is none.
    """
    for name in values:
        if name not in table.c:
            raise KeyError(name)
    return values


def not_by(column: ColumnElement[int]) -> ColumnElement[int]:
    """Return a column for a comparison that rows are not looked up by: of one coach there are very many.

    Without statistics SQLite takes her index before that of a client or an item, and reads all that she has.
    """
    return column + 0


_COLUMNS: dict[tuple[type, Table], tuple[ColumnElement[Any], ...]] = {}


def rows_of(kind: type[Any], table: Table) -> Select[Any]:
    """Select the columns that `kind`, a dataclass, has fields for."""
    columns = _COLUMNS.get((kind, table))
    if columns is None:
        columns = _COLUMNS[kind, table] = tuple(table.c[field.name] for field in fields(kind))
    return select(*columns)


def one(kind: Callable[..., T], row: Row[Any] | None) -> T | None:
    """Build a value from a row of `rows_of(kind, …)`."""
    return None if row is None else kind(*row)
