"""Rows in every table of a schema, made from what the tables say of themselves: full, sparse, and in between."""

import re
from collections.abc import Iterable
from datetime import date, datetime, time, timedelta, timezone
from decimal import Decimal
from typing import Any

from sqlalchemy import (
    JSON,
    BigInteger,
    CheckConstraint,
    Column,
    Connection,
    MetaData,
    Table,
    insert,
    inspect,
    null,
    select,
)

from bot.store.tables import metadata
from bot.store.types import ExactDecimal, UtcDateTime

WORDS = "Zsófia “lifts” 🏋 50 %, it's \\ two\nlines ß"
NESTED = {
    "b": [1, 2.5, 1e-7, 12345678901234567890, None, True, "1", {}],
    "a": {"ü": '🏋 \u2028 \\u0041 "quoted"', "": ""},
}
FULL, SPARSE, NULLED = range(3)
"""Kinds of rows: all that may stand in them; only what must; and with a null of JSON where another row has SQL's."""

DECIMALS = (Decimal("92.50"), Decimal("-0.000000000000000000000000001"), Decimal("1E+20"))
LONDON_SUMMER = timezone(timedelta(hours=1))
INSTANT = datetime(2026, 3, 29, 2, 30, 0, 123456, tzinfo=LONDON_SUMMER)


def tables_in(connection: Connection) -> list[Table]:
    """The tables that a database of any schema has, as far as the program knows them, parents first."""
    found = inspect(connection)
    there = {name: {each["name"] for each in found.get_columns(name)} for name in found.get_table_names()}
    return [
        Table(
            table.name,
            MetaData(),
            *(
                Column(each.name, each.type, primary_key=each.primary_key, nullable=each.nullable)
                for each in table.columns
                if each.name in there[table.name]
            ),
        )
        for table in metadata.sorted_tables
        if table.name in there
    ]


def fill(connection: Connection, tables: Iterable[Table], first: int = 1) -> None:
    """Put a row of each kind into each table, with ids from `first` on; each refers to its like."""
    for table in tables:
        known = metadata.tables[table.name]
        for kind in (FULL, SPARSE, NULLED):
            row = {each.name: _value(known.c[each.name], first + kind, kind) for each in table.columns}
            connection.execute(insert(table).values(row))


def held(connection: Connection, tables: Iterable[Table]) -> dict[str, list[Any]]:
    """All rows of some tables, as the program reads them; where SQL's null stands for JSON says so."""
    return {
        table.name: connection.execute(
            select(
                table, *(each.is_(None) for each in table.columns if isinstance(each.type, JSON))
            ).order_by(*table.primary_key)
        ).all()
        for table in tables
    }


def _value(column: Column[Any], number: int, kind: int) -> Any:
    if column.foreign_keys and not (kind == SPARSE and column.nullable):
        return number
    if column.nullable and kind == SPARSE:
        return null()
    allowed = _allowed(column)
    if allowed:
        return allowed[number % len(allowed)]
    if isinstance(column.type, JSON):
        return None if column.nullable and kind == NULLED else {**NESTED, "no": number}
    return _made(column, number, kind)


def _allowed(column: Column[Any]) -> list[str]:
    """What a check of the table lets in."""
    for check in column.table.constraints:
        if isinstance(check, CheckConstraint) and str(check.sqltext).startswith(f"{column.name} IN "):
            return re.findall(r"'(\w+)'", str(check.sqltext))
    return []


def _made(column: Column[Any], number: int, kind: int) -> Any:
    if isinstance(column.type, UtcDateTime):
        return INSTANT + timedelta(hours=number)
    if isinstance(column.type, ExactDecimal):
        return DECIMALS[kind]
    if column.type.python_type is int and not column.primary_key:
        return number + (7_000_000_000 if isinstance(column.type, BigInteger) else 0)
    made: dict[type, Any] = {
        int: number,
        str: f"{number} {WORDS}".ljust(getattr(column.type, "length", None) or 3000, "ß"),
        date: date(2026, 2, 28),
        time: time(7, 30, 15, 250000),
        bytes: bytes(range(256)) * 40,
        bool: kind == FULL,
    }
    value = made[column.type.python_type]
    return value[: getattr(column.type, "length", None)] if isinstance(value, str) else value


def grown(connection: Connection, name: str, number: int) -> int:
    """The id that a table gives next to a row of its own accord."""
    table = metadata.tables[name]
    row = {each.name: _value(each, number, FULL) for each in table.columns if each.name != "id"}
    return int(connection.execute(insert(table).values(row)).inserted_primary_key[0])
