"""Somebody's data as a zip: everything as JSON, each table as csv, and an index that says what is what."""

import csv
import io
import json
import zipfile
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from bot.files.spreadsheet_values import guarded
from bot.files.texts import one_line

Tables = Sequence[tuple[str, Sequence[Mapping[str, Any]]]]
INDEX, ALL = "index.txt", "data.json"
EPOCH = (1980, 1, 1, 0, 0, 0)
"""Date of the files in the zip, the earliest that there is: the same data make the same bytes."""


def archive(tables: Tables, index: str) -> bytes:
    """Return a zip of tables.

    Args:
        tables: Name and rows; every row of a table has the same columns.
        index: What each file is, for whoever opens the zip.
    """
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        _add(packed, INDEX, index.encode("utf-8"))
        data = {name: [_plain(row) for row in rows] for name, rows in tables}
        _add(packed, ALL, json.dumps(data, ensure_ascii=False, indent=1).encode("utf-8"))
        for name, rows in tables:
            _add(packed, f"{name}.csv", _csv(rows))
    return stream.getvalue()


def _add(packed: zipfile.ZipFile, name: str, content: bytes) -> None:
    entry = zipfile.ZipInfo(name, date_time=EPOCH)
    entry.compress_type = zipfile.ZIP_DEFLATED
    packed.writestr(entry, content)


def _plain(row: Mapping[str, Any]) -> dict[str, Any]:
    return {name: _value(value) for name, value in row.items()}


def _value(value: Any) -> Any:
    """Return a value as JSON has it; exact decimals and dates are text."""
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    return None if isinstance(value, bytes) else value


def _csv(rows: Sequence[Mapping[str, Any]]) -> bytes:
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(rows[0])
    writer.writerows(_cells(row.values()) for row in rows)
    return stream.getvalue().encode("utf-8-sig")


def _cells(values: Iterable[Any]) -> list[str]:
    return [_cell(_value(value)) for value in values]


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return str(value)
    return guarded(one_line(value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)))
