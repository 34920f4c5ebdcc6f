from datetime import UTC, date, datetime, time
from decimal import Decimal
from typing import Any

import pytest
from rows import each_row
from sqlalchemy import JSON, Column, Connection, Engine, Table, delete, func, insert, select, update

from bot.store.personal import COLUMNS, Whose, client_tables, rows_of_client
from bot.store.tables import metadata
from bot.store.types import ExactDecimal, UtcDateTime

AT = datetime(2026, 4, 6, 7, tzinfo=UTC)
CHOSEN: dict[str, Any] = {
    "account.role": "client",
    "client.state": "active",
    "session.state": "planned",
    "item.state": "open",
    "body_report.kind": "pain",
    "decision.made_for": "card",
    "invite.kind": "client",
    "inbox.state": "new",
    "outbox.op": "send",
    "outbox.state": "queued",
}
"""What the tables' checks let in."""


@each_row("table", metadata.sorted_tables)
def test_every_column_says_whose_data_it_is(table: Table) -> None:
    assert set(COLUMNS[table.name]) == {column.name for column in table.columns}


def test_no_table_is_listed_that_is_not_there() -> None:
    assert set(COLUMNS) == set(metadata.tables)


@pytest.mark.parametrize(
    "column",
    [
        "body_report.site",
        "body_report.score",
        "client.frozen_for",
        "decision.inputs",
        "inbox.payload",
        "outbox.body",
    ],
)
def test_what_a_client_says_about_her_body_is_about_health(column: str) -> None:
    table, _, name = column.partition(".")

    assert COLUMNS[table][name].whose is Whose.CLIENT
    assert COLUMNS[table][name].health


def test_only_clients_have_health_data() -> None:
    about_health = [each for columns in COLUMNS.values() for each in columns.values() if each.health]

    assert {each.whose for each in about_health} == {Whose.CLIENT}


def a_value(column: Column[Any], number: int) -> Any:
    if isinstance(column.type, UtcDateTime):
        return AT
    if isinstance(column.type, ExactDecimal):
        return Decimal(1)
    if isinstance(column.type, JSON):
        return {}
    kind = column.type.python_type
    if kind is str:
        return f"{number}"[: getattr(column.type, "length", None) or 40]
    made: dict[type, Any] = {int: number, date: date(2026, 4, 6), time: time(7), bytes: b"", bool: False}
    return made[kind]


def fill(connection: Connection, number: int) -> dict[str, int]:
    """A coach, a client of hers, and a row of that client in every table; returns the rows' ids."""
    ids: dict[str, int] = {}
    for table in metadata.sorted_tables:
        row: dict[str, Any] = {}
        for column in table.columns:
            if column.name == "id" and column.primary_key:
                continue
            if column.foreign_keys:
                row[column.name] = ids[next(iter(column.foreign_keys)).column.table.name]
            elif column.name == "client_id":
                row[column.name] = ids["client"]
            elif not column.nullable or column.name in {"chat_id", "client_id"}:
                row[column.name] = CHOSEN.get(f"{table.name}.{column.name}", a_value(column, number))
        made = connection.execute(insert(table).values(row))
        ids[table.name] = made.inserted_primary_key[0]
    return ids


def count(connection: Connection) -> dict[str, int]:
    return {
        table.name: connection.execute(select(func.count()).select_from(table)).scalar_one()
        for table in metadata.sorted_tables
    }


def test_deleting_by_the_list_takes_a_clients_rows_and_nobody_elses(engine: Engine) -> None:
    with engine.begin() as connection:
        hers = fill(connection, 1)
        fill(connection, 2)
        for table in client_tables():
            where = rows_of_client(table, hers["coach"], hers["client"])
            if where is not None:
                connection.execute(delete(table).where(where))
        left = count(connection)

    kept_twice = {*metadata.tables} - {table.name for table in client_tables()}
    assert left == {name: 2 if name in kept_twice else 1 for name in metadata.tables}


@pytest.mark.parametrize("name", ["outbox", "prompt", "card"])
def test_what_was_said_in_her_chat_is_hers_even_where_it_does_not_name_her(engine: Engine, name: str) -> None:
    table = metadata.tables[name]
    with engine.begin() as connection:
        hers, other = fill(connection, 1), fill(connection, 2)
        connection.execute(update(table).values(client_id=None))
        found = {
            each["client"]: connection.execute(
                select(table.c.chat_id).where(rows_of_client(table, each["coach"], each["client"]))
            )
            .scalars()
            .all()
            for each in (hers, other)
        }

    assert found == {hers["client"]: [1], other["client"]: [2]}


def test_another_coach_finds_no_row_of_the_client(engine: Engine) -> None:
    with engine.begin() as connection:
        hers, other = fill(connection, 1), fill(connection, 2)
        found = {
            table.name: connection.execute(select(func.count()).select_from(table).where(where)).scalar_one()
            for table in client_tables()
            if (where := rows_of_client(table, other["coach"], hers["client"])) is not None
        }

    assert set(found.values()) == {0}
