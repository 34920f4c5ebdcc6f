import os
import sqlite3
import stat
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console
from sqlalchemy import insert, select, text

from bot.cli import keeping, serving
from bot.settings import read_settings
from bot.store.backup import backup, backups_in
from bot.store.engine import make_engine, take_lock
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.tables import chat, inbox

AT = datetime(2026, 4, 6, 7, tzinfo=UTC)


class Desk:
    """Where an operator types."""

    def __init__(self, folder: Path, url: str) -> None:
        self.folder, self.url = folder, url
        self.out, self.err = StringIO(), StringIO()
        self.consoles = Console(file=self.out, width=200), Console(file=self.err, width=200)

    def run(self, command: Callable[..., int], *arguments: object) -> int:
        return command(*arguments, *self.consoles)

    def change(self, *statements: object) -> None:
        engine = make_engine(self.url)
        with engine.begin() as connection:
            for each in statements:
                connection.execute(text(each) if isinstance(each, str) else each)  # type: ignore[call-overload]
        engine.dispose()

    def chats(self) -> list[int]:
        engine = make_engine(self.url)
        with engine.connect().execution_options(readonly=True) as connection:
            found = connection.execute(select(chat.c.chat_id).order_by(chat.c.chat_id)).scalars().all()
        engine.dispose()
        return list(found)

    def state(self, update_id: int) -> tuple[str, str | None]:
        engine = make_engine(self.url)
        with engine.connect().execution_options(readonly=True) as connection:
            query = select(inbox.c.state, inbox.c.reference).where(inbox.c.update_id == update_id)
            found = connection.execute(query).one()
        engine.dispose()
        return found.state, found.reference

    @property
    def aside(self) -> list[Path]:
        """What was kept of the database of before."""
        return sorted(each for each in self.folder.iterdir() if ".before-" in each.name)

    @property
    def beside(self) -> list[str]:
        """What lies in the folder of the database."""
        return sorted(each.name for each in self.folder.iterdir() if each.is_file())


@pytest.fixture
def desk(tmp_path: Path, database_url: str, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", database_url)
    (tmp_path / "backups").mkdir()
    monkeypatch.setenv("PLIMSOLL_BACKUP_DIR", str(tmp_path / "backups"))
    return Desk(tmp_path, database_url)


def test_what_was_backed_up_comes_back_and_what_was_there_is_kept(desk: Desk) -> None:
    desk.change(insert(chat).values(chat_id=1))
    assert desk.run(keeping.backup_now, None) == 0
    copy = backups_in(desk.folder / "backups")[0]
    desk.change(insert(chat).values(chat_id=2))

    assert desk.run(keeping.restore_from, copy) == 0

    assert desk.chats() == [1]
    aside = desk.aside[0]
    assert Desk(desk.folder, f"sqlite:///{aside}").chats() == [1, 2]
    assert str(copy) in desk.out.getvalue()
    assert str(aside) in desk.out.getvalue()
    assert copy.exists()


def test_a_log_that_was_not_folded_in_is_kept_with_what_was_there(desk: Desk) -> None:
    backup(desk.url, desk.folder / "copy.db")
    path = desk.folder / "plimsoll.db"
    engine = make_engine(desk.url)
    with engine.begin() as connection:
        connection.execute(insert(chat).values(chat_id=2))
    kept = {ending: Path(f"{path}{ending}").read_bytes() for ending in ("", "-wal")}
    engine.dispose()
    for ending, content in kept.items():  # as after a crash
        Path(f"{path}{ending}").write_bytes(content)

    assert desk.run(keeping.restore_from, desk.folder / "copy.db") == 0

    assert desk.chats() == []
    assert Desk(desk.folder, f"sqlite:///{desk.aside[0]}").chats() == [2]


def test_a_damaged_database_is_kept_aside_as_it_is(desk: Desk) -> None:
    backup(desk.url, desk.folder / "copy.db")
    path = desk.folder / "plimsoll.db"
    path.write_bytes(b"flooded " * 2000)
    Path(f"{path}-wal").write_bytes(b"flooded too")

    assert desk.run(keeping.restore_from, desk.folder / "copy.db") == 0

    assert desk.chats() == []
    assert [each.read_bytes()[:11] for each in desk.aside] == [b"flooded flo", b"flooded too"]


def test_a_backup_is_put_where_there_is_no_database(desk: Desk) -> None:
    backup(desk.url, desk.folder / "copy.db")
    (desk.folder / "plimsoll.db").unlink()

    assert desk.run(keeping.restore_from, desk.folder / "copy.db") == 0
    assert desk.chats() == []
    assert "is kept" not in desk.out.getvalue()


def test_an_owner_and_a_mode_stay_with_the_database(desk: Desk) -> None:
    backup(desk.url, desk.folder / "copy.db")
    (desk.folder / "plimsoll.db").chmod(0o640)
    desk.run(keeping.restore_from, desk.folder / "copy.db")

    assert stat.S_IMODE((desk.folder / "plimsoll.db").stat().st_mode) == 0o640


def test_nothing_is_put_back_while_the_program_runs(desk: Desk) -> None:
    backup(desk.url, desk.folder / "copy.db")
    desk.change(insert(chat).values(chat_id=2))
    with take_lock(desk.url):
        status = desk.run(keeping.restore_from, desk.folder / "copy.db")

    assert status == 2
    assert f"process {os.getpid()}" in desk.err.getvalue()
    assert desk.chats() == [2]


def _torn(path: Path) -> None:
    with path.open("r+b") as file:
        file.seek(path.stat().st_size // 2)
        file.write(b"\xff" * 20_000)


def _changed(statement: str) -> Callable[[Path], None]:
    def change(path: Path) -> None:
        with closing(sqlite3.connect(path)) as database:
            database.execute(statement)
            database.commit()

    return change


def _somebody_elses(path: Path) -> None:
    path.unlink()
    _changed("CREATE TABLE boats (name TEXT)")(path)


@pytest.mark.parametrize(
    ("spoil", "status", "said"),
    [
        (_torn, 1, "The backup is damaged."),
        (lambda path: path.write_bytes(b"a letter " * 500), 1, "The backup is damaged."),
        (lambda path: path.write_bytes(b""), 1, "The file is no backup of Plimsoll."),
        (_somebody_elses, 1, "The file is no backup of Plimsoll."),
        (_changed("DELETE FROM alembic_version"), 1, "The file is no backup of Plimsoll."),
        (_changed("UPDATE alembic_version SET version_num = 'zz99'"), 2, "The database has schema zz99"),
        (Path.unlink, 1, "There is no such file."),
    ],
)
def test_what_is_no_good_backup_is_refused_and_changes_nothing(
    desk: Desk, spoil: Callable[[Path], object], status: int, said: str
) -> None:
    backup(desk.url, desk.folder / "copy.db")
    desk.change(insert(chat).values(chat_id=2))
    spoil(desk.folder / "copy.db")
    before = [name for name in desk.beside if name != "copy.db"]

    assert desk.run(keeping.restore_from, desk.folder / "copy.db") == status

    assert desk.err.getvalue().startswith(said)
    assert desk.chats() == [2]
    assert {name for name in desk.beside if name != "copy.db"} - {"plimsoll.db.lock.pid"} == set(before)


def test_the_database_is_not_put_in_place_of_itself(desk: Desk) -> None:
    assert desk.run(keeping.restore_from, desk.folder / "plimsoll.db") == 1
    assert desk.err.getvalue() == "That file is the database itself. Nothing was changed.\n"


def test_an_older_schema_is_brought_up_at_the_next_start(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    backup(desk.url, desk.folder / "copy.db")
    monkeypatch.setattr(keeping, "head", lambda: "0099")

    assert desk.run(keeping.restore_from, desk.folder / "copy.db") == 0
    assert "The next start brings it to this program's schema." in desk.out.getvalue()


def test_a_backup_can_go_to_another_folder_and_deletes_nothing_there(desk: Desk) -> None:
    there = desk.folder / "stick"
    there.mkdir()
    names = [f"plimsoll-2026040{day}-030000.db" for day in range(1, 10)]
    for name in names:
        (there / name).write_bytes(b"")

    assert desk.run(keeping.backup_now, there) == 0
    assert len(backups_in(there)) == 10
    assert backups_in(desk.folder / "backups") == []


def test_a_backup_in_the_folder_of_the_settings_forgets_the_oldest(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PLIMSOLL_BACKUPS_KEPT", "2")
    for day in range(1, 5):
        (desk.folder / "backups" / f"plimsoll-2026040{day}-030000.db").write_bytes(b"")
    desk.run(keeping.backup_now, None)

    assert [each.name for each in backups_in(desk.folder / "backups")][1:] == ["plimsoll-20260404-030000.db"]


def test_a_good_backup_settles_that_the_last_one_failed(desk: Desk) -> None:
    heartbeat = Heartbeat(desk.url)
    heartbeat.set(Mark.BACKUP_FAILED, AT)
    desk.run(keeping.backup_now, None)

    assert heartbeat.at(Mark.BACKUP_FAILED) is None


@pytest.mark.parametrize(
    ("environ", "status", "said"),
    [
        ({"PLIMSOLL_BACKUP_DIR": ""}, 2, "Say where to"),
        ({"PLIMSOLL_BACKUP_DIR": "/nowhere/at/all"}, 1, "There is no such folder."),
        ({"PLIMSOLL_DATABASE_URL": "sqlite:///other.db"}, 1, "There is no database yet"),
        ({"PLIMSOLL_DATABASE_URL": "postgresql://nobody@/x"}, 2, "This is for SQLite in a file."),
        ({"PLIMSOLL_TICKS": "1"}, 2, "PLIMSOLL_TICKS is not a setting."),
    ],
)
def test_a_backup_that_cannot_be_made_is_told(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, environ: dict[str, str], status: int, said: str
) -> None:
    for name, value in environ.items():
        monkeypatch.setenv(name, value)

    assert desk.run(keeping.backup_now, None) == status
    assert desk.err.getvalue().startswith(said)


@pytest.mark.parametrize("command", [keeping.backup_now, keeping.restore_from])
def test_postgresql_has_programs_of_its_own(
    desk: Desk, monkeypatch: pytest.MonkeyPatch, command: Callable[..., int]
) -> None:
    monkeypatch.setenv("PLIMSOLL_DATABASE_URL", "postgresql://nobody@/x")

    assert desk.run(command, desk.folder / "copy.db") == 2
    assert "pg_dump" in desk.err.getvalue()
    assert "pg_restore" in desk.err.getvalue()


FAILED = {"kind": "message", "state": "failed", "received_at": AT}


def test_a_failed_message_is_taken_up_again(desk: Desk) -> None:
    desk.change(insert(inbox).values(update_id=7, payload="{}", reference="abcd2345", attempts=3, **FAILED))

    assert desk.run(keeping.replay, "abcd2345") == 0
    assert desk.state(7) == ("new", None)


@pytest.mark.parametrize(
    ("reference", "said"),
    [
        ("zzzz9999", "The program failed on no message"),
        ("abcd2345", "The words of this message are no longer kept"),
    ],
)
def test_what_cannot_be_taken_up_again_is_told(desk: Desk, reference: str, said: str) -> None:
    desk.change(insert(inbox).values(update_id=7, payload=None, reference="abcd2345", **FAILED))

    assert desk.run(keeping.replay, reference) == 1
    assert desk.err.getvalue().startswith(said)
    assert desk.state(7) == ("failed", "abcd2345")


def test_no_command_works_on_a_newer_schema(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serving, "configure", lambda _: None)
    desk.change("UPDATE alembic_version SET version_num = 'zz99'")
    before = (desk.folder / "plimsoll.db").read_bytes()
    statuses = [
        serving.serve(read_settings(os.environ, token_needed=False), desk.consoles[1]),
        desk.run(serving.migrate),
        desk.run(serving.add_coach, "Orla Quill", "Europe/Lisbon"),
        desk.run(keeping.replay, "abcd2345"),
    ]

    assert statuses == [2, 2, 2, 2]
    assert desk.err.getvalue().count("The database has schema zz99") == 4
    assert desk.out.getvalue() == ""
    assert (desk.folder / "plimsoll.db").read_bytes() == before


def test_the_program_itself_refuses_a_newer_schema(desk: Desk) -> None:
    desk.change("UPDATE alembic_version SET version_num = 'zz99'")
    done = subprocess.run(
        [sys.executable, "-c", "from bot.cli import app; app()", "serve"],
        cwd=desk.folder,
        env={
            "PYTHONPATH": os.pathsep.join(filter(None, sys.path)),
            "PATH": os.environ["PATH"],
            "PLIMSOLL_TOKEN": "4100:anchor-watch",
            "PLIMSOLL_DATABASE_URL": desk.url,
            "PLIMSOLL_API_URL": "http://127.0.0.1:9",
        },
        capture_output=True,
        text=True,
        timeout=180,
        check=False,
    )

    assert done.returncode == 2
    assert "schema zz99" in done.stderr
    assert "Traceback" not in done.stderr
