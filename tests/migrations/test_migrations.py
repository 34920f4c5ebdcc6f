import threading
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.operations import Operations
from alembic.runtime.migration import MigrationContext
from sqlalchemy import Connection, Engine, insert, inspect, select, text

from bot.store.engine import make_engine
from bot.store.migrate import (
    BrokenReferences,
    NewerSchema,
    _migrating,
    current,
    downgrade,
    head,
    is_newer,
    upgrade,
)
from bot.store.tables import account, chat, coach, metadata

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
tables = metadata.tables


def described(connection: Connection) -> dict[str, dict[str, Any]]:
    """What the database says of every table, by names alone where order means nothing."""
    found = inspect(connection)
    return {
        table: {
            "columns": {each["name"]: _column(each) for each in found.get_columns(table)},
            "primary key": found.get_pk_constraint(table),
            "foreign keys": _by_name(found.get_foreign_keys(table)),
            "unique": _by_name(found.get_unique_constraints(table)),
            "checks": _by_name(found.get_check_constraints(table)),
            "indexes": _by_name(found.get_indexes(table)),
        }
        for table in found.get_table_names()
        if table != "alembic_version"
    }


def _column(found: Any) -> dict[str, Any]:
    # SQLite gives a default back in the brackets that it was written with.
    return {
        **found,
        "type": str(found["type"]),
        "default": (found["default"] or "").removeprefix("(").removesuffix(")") or None,
    }


def _by_name(found: Any) -> dict[str, str]:
    return {each["name"]: _plain(each) for each in found}


def _plain(value: Any) -> str:
    if isinstance(value, dict):
        return str({key: _plain(each) for key, each in sorted(value.items())})
    return str(value)


def names(engine: Engine) -> set[str]:
    with engine.connect() as connection:
        return set(inspect(connection).get_table_names())


def test_the_migrations_build_the_tables_that_the_program_knows(empty: Engine) -> None:
    upgrade(empty)
    with empty.connect() as connection:
        by_migrations = described(connection)
    downgrade(empty)

    metadata.create_all(empty)
    with empty.connect() as connection:
        by_tables = described(connection)

    assert by_migrations == by_tables


def test_no_id_comes_again_after_its_row_is_deleted(empty: Engine) -> None:
    upgrade(empty)
    made = {"coach_id": 1, "name": "Slipway", "created_at": NOW}
    block = tables["block"]
    with empty.begin() as connection:
        connection.execute(insert(coach).values(id=1, name="Orla", zone="Europe/Dublin", created_at=NOW))
        first = connection.execute(insert(block).values(made)).inserted_primary_key[0]
        connection.execute(block.delete())
        second = connection.execute(insert(block).values(made)).inserted_primary_key[0]

    assert second > first


def test_every_id_of_sqlite_is_declared_so(tmp_path: Path) -> None:
    engine = make_engine(f"sqlite:///{tmp_path / 'declared.db'}")
    upgrade(engine)
    with engine.connect() as connection:
        free = connection.exec_driver_sql(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND sql LIKE '%id INTEGER NOT NULL,%' "
            "AND sql LIKE '%PRIMARY KEY (id)%'"
        ).all()
    engine.dispose()

    assert free == []


def test_the_comparison_sees_a_column_that_is_missing(empty: Engine) -> None:
    upgrade(empty)
    with empty.begin() as connection:
        connection.execute(text("ALTER TABLE coach DROP COLUMN country"))
    with empty.connect() as connection:
        found = compare_metadata(MigrationContext.configure(connection), metadata)

    assert [(each[0], each[3].name) for each in found] == [("add_column", "country")]


def test_nothing_is_left_to_generate(empty: Engine) -> None:
    upgrade(empty)
    with empty.connect() as connection:
        found = compare_metadata(
            MigrationContext.configure(connection, opts={"compare_type": True}), metadata
        )

    assert found == []


def test_down_to_nothing_and_up_again(empty: Engine) -> None:
    upgrade(empty)
    downgrade(empty)
    left = names(empty)
    gone = current(empty)
    upgrade(empty)

    assert left == {"alembic_version"}
    assert gone is None
    assert names(empty) == {*metadata.tables, "alembic_version"}
    assert current(empty) == head()


def test_the_last_attempt_of_a_day_stays_when_moved_sessions_are_taken_back(empty: Engine) -> None:
    upgrade(empty)
    day = {
        "coach_id": 1,
        "client_id": 1,
        "assignment_id": 1,
        "week_no": 1,
        "due_at": NOW,
        "local_on": NOW.date(),
    }
    sessions = [
        {"id": 1, "day_key": "lower", "attempt": 1, "state": "moved", "moved_to": 2},
        {"id": 2, "day_key": "lower", "attempt": 2, "state": "done", "moved_to": None},
        {"id": 3, "day_key": "upper", "attempt": 1, "state": "moved", "moved_to": 2},
    ]
    item_of = {"coach_id": 1, "position": 0, "exercise": "back-squat", "prescription": {}, "given": {}}
    with empty.begin() as connection:
        fill = connection.execute
        fill(insert(coach).values(id=1, name="Orla", zone="Europe/Dublin", created_at=NOW))
        fill(insert(tables["client"]).values(id=1, coach_id=1, name="Ben", state="active", created_at=NOW))
        fill(insert(tables["block"]).values(id=1, coach_id=1, name="Slipway", created_at=NOW))
        version = {"block_id": 1, "no": 1, "spec": {}, "sha256": "0", "created_at": NOW}
        fill(insert(tables["block_version"]).values(id=1, coach_id=1, **version))
        run = {"client_id": 1, "version_id": 1, "starts_on": NOW.date(), "created_at": NOW}
        fill(insert(tables["assignment"]).values(id=1, coach_id=1, **run))
        fill(insert(tables["session"]), [{**day, **each} for each in sessions])
        fill(insert(tables["item"]), [{**item_of, "id": each, "session_id": each} for each in (1, 2, 3)])
        fill(
            insert(tables["logged_set"]).values(
                item_id=1, set_no=1, basis="total", entry=1, at=NOW, coach_id=1
            )
        )

    downgrade(empty, "0001")
    with empty.connect() as connection:
        kept = connection.execute(text("SELECT id, state FROM session ORDER BY id")).all()
        items = connection.execute(text("SELECT session_id FROM item ORDER BY id")).scalars().all()
    upgrade(empty)
    with empty.connect() as connection:
        attempts = connection.execute(text("SELECT attempt FROM session")).scalars().all()

    assert [tuple(each) for each in kept] == [(2, "done"), (3, "left_out")]
    assert items == [2, 3]
    assert attempts == [1, 1]


def test_a_second_upgrade_changes_nothing(empty: Engine) -> None:
    upgrade(empty)
    with empty.begin() as connection:
        connection.execute(insert(chat).values(chat_id=7))
    upgrade(empty)

    with empty.connect() as connection:
        assert connection.execute(select(chat.c.chat_id)).scalars().all() == [7]


def test_programs_that_start_at_once_upgrade_once(empty: Engine) -> None:
    failed: list[BaseException] = []

    def start() -> None:
        try:
            upgrade(empty)
        except BaseException as error:  # noqa: BLE001
            failed.append(error)

    threads = [threading.Thread(target=start) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert failed == []
    assert current(empty) == head()


def test_a_database_of_a_later_program_is_refused_and_left_alone(empty: Engine) -> None:
    upgrade(empty)
    with empty.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))

    with pytest.raises(NewerSchema) as refusal:
        upgrade(empty)

    assert is_newer(empty)
    assert current(empty) == "9999"
    assert str(refusal.value) == (
        "The database has schema 9999, which this version of Plimsoll does not know: a later version has written "
        "it. Install that version, or use a backup from before."
    )


def test_an_empty_and_a_current_database_are_not_newer(empty: Engine) -> None:
    before = is_newer(empty)
    upgrade(empty)

    assert (before, is_newer(empty)) == (False, False)


def test_references_are_checked_again_after_the_upgrade(empty: Engine) -> None:
    upgrade(empty)
    orphan = insert(metadata.tables["account"]).values(user_id=1, chat_id=1, coach_id=999, role="coach")
    with empty.connect() as connection, pytest.raises(Exception, match=r"(?i)foreign key"):
        connection.execute(orphan)


def test_sqlite_rolls_back_an_upgrade_that_leaves_references_to_nothing(tmp_path: Path) -> None:
    engine = make_engine(f"sqlite:///{tmp_path / 'orphans.db'}")
    with engine.connect() as connection:
        connection.connection.cursor().executescript(
            "PRAGMA foreign_keys=OFF;"
            "CREATE TABLE parent (id INTEGER PRIMARY KEY);"
            "CREATE TABLE child (id INTEGER PRIMARY KEY, parent_id INTEGER REFERENCES parent (id));"
            "INSERT INTO child VALUES (1, 2);"
            "PRAGMA foreign_keys=ON;"
        )

    with pytest.raises(BrokenReferences) as refusal:
        upgrade(engine)

    assert refusal.value.tables == ["child"]
    assert names(engine) == {"parent", "child"}
    engine.dispose()


def test_a_table_made_anew_by_a_migration_keeps_the_rows_that_refer_to_it(tmp_path: Path) -> None:
    engine = make_engine(f"sqlite:///{tmp_path / 'filled.db'}")
    upgrade(engine)
    with engine.begin() as connection:
        connection.execute(insert(coach).values(id=1, name="Orla", zone="Europe/Dublin", created_at=NOW))
        connection.execute(insert(account).values(user_id=5, chat_id=5, coach_id=1, role="coach"))

    with _migrating(engine) as (connection, _):
        operations = Operations(MigrationContext.configure(connection))
        with operations.batch_alter_table("coach", recreate="always") as table:
            table.alter_column("name", nullable=True)

    with engine.connect() as connection:
        kept = connection.execute(select(account.c.coach_id)).scalars().all()
        checked = connection.exec_driver_sql("PRAGMA foreign_keys").scalar_one()
    engine.dispose()

    assert (kept, checked) == ([1], 1)
