"""Rows as any kind of database holds them: JSON as it is written, and a digest of all that a row holds."""

import hashlib
import json
from collections.abc import Iterator
from datetime import UTC, date, datetime, time
from decimal import Decimal
from functools import cache
from typing import Any

from sqlalchemy import JSON, Column, ColumnElement, Connection, MetaData, Table, Text, cast, select
from sqlalchemy.dialects.postgresql import JSONB
from sqlalchemy.sql.elements import BindParameter
from sqlalchemy.types import TypeDecorator, TypeEngine

BATCH = 200
"""Rows that are in memory at once; a picture is one."""


class _JsonbAsText(TypeDecorator[str]):
    """JSONB, written and read as text."""

    impl = Text
    cache_ok = True

    def bind_expression(self, bindparam: BindParameter[str]) -> ColumnElement[Any]:
        """Have the database read the text."""
        return cast(bindparam, JSONB)

    def column_expression(self, column: ColumnElement[Any]) -> ColumnElement[str]:
        """Have the database write the text."""
        return cast(column, Text)


@cache
def as_written(table: Table, dialect: str) -> Table:
    """Return a table with its JSON as text: what SQL calls NULL and JSON null stay apart, and numbers keep all digits.

    Args:
        table: As the program knows it.
        dialect: "sqlite" or "postgresql".
    """
    text: TypeEngine[str] = _JsonbAsText() if dialect == "postgresql" else Text()
    columns = [
        Column(
            each.name,
            text if isinstance(each.type, JSON) else each.type,
            primary_key=each.primary_key,
            autoincrement=False,
        )
        for each in table.columns
    ]
    return Table(table.name, MetaData(), *columns)


def batches(table: Table, connection: Connection) -> Iterator[list[dict[str, Any]]]:
    """Yield all rows of a table as they are written, in the order of the key, some at a time."""
    written = as_written(table, connection.dialect.name)
    query = select(written).order_by(*written.primary_key)
    with connection.execute(query, execution_options={"yield_per": BATCH}) as found:
        for part in found.mappings().partitions():
            yield [dict(row) for row in part]


def digests(table: Table, connection: Connection) -> Iterator[str]:
    """Yield a digest of each row of a table, in the order of the key.

    Two rows have the same one when they hold the same: decimals to the digit, instants to the microsecond, JSON
    whatever its spaces and the order of its keys.
    """
    in_json = {each.name for each in table.columns if isinstance(each.type, JSON)}
    for part in batches(table, connection):
        for row in part:
            yield _digest([_parsed(row[name]) if name in in_json else row[name] for name in sorted(row)])


def _parsed(written: str | None) -> Any:
    if written is None:
        return None
    return ["json", json.loads(written, parse_float=Decimal, parse_int=Decimal)]


def _digest(values: list[Any]) -> str:
    return hashlib.sha256(json.dumps(_plain(values)).encode("ascii")).hexdigest()


def _plain(value: Any) -> Any:
    """Return a value as lists and texts that say what kind it is of, so that 1, "1" and true are three things."""
    match value:
        case dict():
            return ["object", *([key, _plain(value[key])] for key in sorted(value))]
        case list():
            return ["list", *map(_plain, value)]
        case None | bool() | str():
            return value
        case int():
            return ["int", str(value)]
        case Decimal():
            return ["number", _number(value)]
        case bytes():
            return ["bytes", hashlib.sha256(value).hexdigest()]
        case datetime():
            return ["instant", value.astimezone(UTC).isoformat()]
        case date() | time():
            return ["clock", value.isoformat()]
    raise TypeError(f"no digest of a {type(value).__name__}")


def _number(number: Decimal) -> str:
    """Return a number to its last digit, written one way: 92.50 and 92.5 are one number."""
    if not number.is_finite():
        raise ValueError("no finite number")
    sign, digits, exponent = number.as_tuple()
    text = "".join(map(str, digits)).lstrip("0")
    kept = text.rstrip("0")
    return f"{'-' * sign}{kept}e{int(exponent) + len(text) - len(kept)}" if kept else "0"
