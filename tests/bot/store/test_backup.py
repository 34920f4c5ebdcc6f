import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from databases import SqliteFiles
from sqlalchemy import insert, select

from bot.store.backup import NotBackedUp, backup
from bot.store.engine import make_engine
from bot.store.tables import chat


@pytest.fixture
def url(tmp_path: Path, sqlite_files: SqliteFiles) -> str:
    return sqlite_files.copy(tmp_path / "plimsoll.db")


def test_a_backup_holds_what_was_committed_while_the_program_runs(url: str, tmp_path: Path) -> None:
    engine = make_engine(url)
    with engine.begin() as connection:
        connection.execute(insert(chat).values(chat_id=1))
    with engine.connect() as writing:
        writing.execute(insert(chat).values(chat_id=2))
        backup(url, tmp_path / "copy.db")
        writing.commit()
    engine.dispose()

    copy = make_engine(f"sqlite:///{tmp_path / 'copy.db'}")
    with copy.connect().execution_options(readonly=True) as connection:
        assert connection.execute(select(chat.c.chat_id)).scalars().all() == [1]
    copy.dispose()


def test_a_backup_is_one_file(url: str, tmp_path: Path) -> None:
    folder = tmp_path / "backups"
    folder.mkdir()
    backup(url, folder / "copy.db")

    assert [path.name for path in folder.iterdir()] == ["copy.db"]


def test_a_backup_never_overwrites(url: str, tmp_path: Path) -> None:
    (tmp_path / "copy.db").write_text("somebody's")

    with pytest.raises(NotBackedUp) as refusal:
        backup(url, tmp_path / "copy.db")

    assert refusal.value.cause == "target_exists"
    assert (tmp_path / "copy.db").read_text() == "somebody's"


def test_a_damaged_database_is_said_to_be_damaged_and_leaves_no_copy(url: str, tmp_path: Path) -> None:
    path = tmp_path / "plimsoll.db"
    with path.open("r+b") as file:
        file.seek(path.stat().st_size // 2)
        file.write(b"\xff" * 20_000)

    with pytest.raises(NotBackedUp) as refusal:
        backup(url, tmp_path / "copy.db")

    assert refusal.value.cause == "damaged"
    assert sorted(each.name for each in tmp_path.iterdir() if "copy" in each.name) == []


def test_a_copy_that_holds_what_the_tables_forbid_is_no_backup(url: str, tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "plimsoll.db")) as database:
        database.execute("PRAGMA ignore_check_constraints=ON")
        database.execute(
            "INSERT INTO inbox (update_id, kind, state, received_at) VALUES (1, 'message', 'lost at sea', '2026-04-06')"
        )
        database.commit()

    with pytest.raises(NotBackedUp) as refusal:
        backup(url, tmp_path / "copy.db")

    assert refusal.value.cause == "damaged"
    assert sorted(each.name for each in tmp_path.iterdir() if "copy" in each.name) == []


def test_what_is_no_database_is_said_to_be_damaged(tmp_path: Path) -> None:
    (tmp_path / "plimsoll.db").write_text("not a database, and longer than a header of one would be " * 20)

    with pytest.raises(NotBackedUp) as refusal:
        backup(f"sqlite:///{tmp_path / 'plimsoll.db'}", tmp_path / "copy.db")

    assert refusal.value.cause == "damaged"


@pytest.mark.parametrize(
    ("address", "cause"),
    [
        ("sqlite://", "not_sqlite"),
        ("postgresql://nobody@/nothing", "not_sqlite"),
        ("sqlite:////nowhere/at/all.db", "nothing_there"),
    ],
)
def test_what_cannot_be_copied_is_refused(address: str, cause: str, tmp_path: Path) -> None:
    with pytest.raises(NotBackedUp) as refusal:
        backup(address, tmp_path / "copy.db")

    assert refusal.value.cause == cause
    assert not (tmp_path / "copy.db").exists()
