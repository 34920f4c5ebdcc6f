from alembic import command
from filling import fill, held, tables_in
from sqlalchemy import Engine

from bot.store.migrate import _migrating, current, head, upgrade
from bot.store.tables import metadata

OLDER = "0003"
"""The first schema that people were given with versions of a block, cues and last loads in it."""


def test_every_row_of_an_older_schema_is_kept_and_can_be_read(empty: Engine) -> None:
    with _migrating(empty) as (_, config):
        command.upgrade(config, OLDER)
    with empty.begin() as connection:
        tables = tables_in(connection)
        fill(connection, tables)
    with empty.connect() as connection:
        before = held(connection, tables)
    upgrade(empty)
    with empty.connect() as connection:
        after = held(connection, tables)
        read = held(connection, metadata.sorted_tables)

    assert current(empty) == head()
    assert before == after
    assert {name: len(rows) for name, rows in read.items()} == {
        name: 3 if name in before else 0 for name in metadata.tables
    }
    assert (
        {"cue", "last_load", "week_change", "logged_set", "outbox"} <= before.keys() < metadata.tables.keys()
    )
