"""Many clients beside one: her rows copied, so that the cost of a step can be seen to follow what changed."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from typing import Any

from sqlalchemy import Engine, Table, event, func, insert, select

from bot.store import tables

COPIED = (
    "assignment",
    "kit",
    "consent",
    "session",
    "item",
    "logged_set",
    "alert",
    "body_report",
    "forwarded",
)
"""Tables whose rows of a client are copied, those that others point to first."""
POINTS = {"assignment_id": "assignment", "session_id": "session", "item_id": "item"}
SLICE = 2000


def multiply(engine: Engine, client_id: int, times: int) -> None:
    """Have a client's coach have so many more of the same: with her sessions, sets, pain, videos and open matters.

    Their matters are due far from now, and their keys are their own.
    """
    with engine.begin() as connection:
        mine = connection.execute(select(tables.client).where(tables.client.c.id == client_id)).one()
        rows = [{**_without_id(mine), "name": f"Client {number}"} for number in range(times)]
        made = _added(connection, tables.client, rows)
        before: dict[str, list[Any]] = {}
        places: dict[str, dict[int, int]] = {}
        first: dict[str, int] = {}
        for name in COPIED:
            table = tables.metadata.tables[name]
            before[name] = _of(connection, table, client_id, before)
            places[name] = {row.id: place for place, row in enumerate(before[name])}
            copies = [
                _copy(row, number, copy_id, before, places, first)
                for number, copy_id in enumerate(made)
                for row in before[name]
            ]
            added = _added(connection, table, copies)
            first[name] = added[0] if added else 0


def _of(connection: Any, table: Table, client_id: int, before: dict[str, list[Any]]) -> list[Any]:
    if "client_id" in table.c:
        which = table.c.client_id == client_id
    elif table.name == "item":
        which = table.c.session_id.in_([row.id for row in before["session"]])
    else:
        which = table.c.item_id.in_([row.id for row in before["item"]])
    return list(connection.execute(select(table).where(which).order_by(table.c.id)).all())


def _copy(
    row: Any,
    number: int,
    copy_id: int,
    before: dict[str, list[Any]],
    places: dict[str, dict[int, int]],
    first: dict[str, int],
) -> dict[str, Any]:
    values = _without_id(row)
    if "client_id" in values:
        values["client_id"] = copy_id
    for column, table in POINTS.items():
        pointed = values.get(column)
        if pointed is not None and pointed in places.get(table, {}):
            values[column] = first[table] + number * len(before[table]) + places[table][pointed]
    for column in ("key", "outbox_key"):
        if column in values:
            values[column] = f"{values[column]}:copy {copy_id}"
    if values.get("due_at") is not None:
        values["due_at"] += timedelta(days=400)
    return values


def _without_id(row: Any) -> dict[str, Any]:
    return {name: value for name, value in row._mapping.items() if name != "id"}


def _added(connection: Any, table: Table, rows: list[dict[str, Any]]) -> range:
    """Add rows whose ids rise one by one, and return these."""
    top = connection.execute(select(func.coalesce(func.max(table.c.id), 0))).scalar_one()
    for begin in range(0, len(rows), SLICE):
        numbered = [
            {**row, "id": top + 1 + begin + place} for place, row in enumerate(rows[begin : begin + SLICE])
        ]
        connection.execute(insert(table), numbered)
    return range(top + 1, top + 1 + len(rows))


@contextmanager
def counted(engine: Engine) -> Iterator[list[str]]:
    """Gather the statements that are run meanwhile."""
    found: list[str] = []

    def note(_: Any, __: Any, statement: str, *___: Any) -> None:
        found.append(statement)

    event.listen(engine, "before_cursor_execute", note)
    try:
        yield found
    finally:
        event.remove(engine, "before_cursor_execute", note)
