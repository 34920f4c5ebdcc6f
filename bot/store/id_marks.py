"""The greatest id that each table has ever given, whether or not its row is still there: it never comes again."""

from sqlalchemy import Connection, Table, func, select, text

from bot.store.tables import metadata

_SEQUENCE = text("SELECT pg_get_serial_sequence(:name, 'id')")


def id_marks(connection: Connection) -> dict[str, int]:
    """Return by table the greatest id that was ever given; 0 where none was.

    Only tables that count up their ids by themselves are in it.
    """
    return {table.name: max(_given(table, connection), _greatest(table, connection)) for table in _counting()}


def set_id_marks(connection: Connection, marks: dict[str, int]) -> None:
    """Have each table go on after the greatest id that was ever given."""
    for table in _counting():
        if marks[table.name]:
            _set(table, marks[table.name], connection)


def _counting() -> list[Table]:
    return [table for table in metadata.sorted_tables if "id" in table.c]


def _greatest(table: Table, connection: Connection) -> int:
    # Whoever gave an id by hand did not move the count.
    return connection.scalar(select(func.max(table.c.id))) or 0


def _given(table: Table, connection: Connection) -> int:
    if connection.dialect.name == "sqlite":
        kept = text("SELECT seq FROM sqlite_sequence WHERE name = :name")
        return connection.scalar(kept, {"name": table.name}) or 0
    # A sequence that was never asked stands one before what it will give.
    sequence = _sequence(table, connection)
    standing = f"SELECT last_value - CASE WHEN is_called THEN 0 ELSE 1 END FROM {sequence}"  # noqa: S608
    return int(connection.execute(text(standing)).scalar_one())


def _sequence(table: Table, connection: Connection) -> str:
    """Return the name of a table's sequence, as PostgreSQL quotes it."""
    quoted = connection.dialect.identifier_preparer.format_table(table)
    return str(connection.execute(_SEQUENCE, {"name": quoted}).scalar_one())


def _set(table: Table, mark: int, connection: Connection) -> None:
    if connection.dialect.name == "sqlite":
        connection.execute(text("DELETE FROM sqlite_sequence WHERE name = :name"), {"name": table.name})
        entered = text("INSERT INTO sqlite_sequence (name, seq) VALUES (:name, :mark)")
        connection.execute(entered, {"name": table.name, "mark": mark})
        return
    raised = text("SELECT setval(CAST(:sequence AS regclass), :mark)")
    connection.execute(raised, {"sequence": _sequence(table, connection), "mark": mark})
