import itertools
import os
import sqlite3
import subprocess
import sys
import textwrap
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from rows import each_row
from sqlalchemy import Engine, insert, select, text, update
from sqlalchemy.exc import DBAPIError, IntegrityError, InterfaceError, OperationalError, ProgrammingError
from sqlalchemy.exc import TimeoutError as NoConnectionFree

from bot.store.engine import AlreadyRunning, make_engine, passing, take_lock
from bot.store.tables import account, chat


def test_a_row_that_refers_to_nothing_is_refused_and_that_is_no_passing_fault(engine: Engine) -> None:
    orphan = insert(account).values(user_id=1, chat_id=1, coach_id=999, role="coach")
    with engine.connect() as connection, pytest.raises(IntegrityError) as refusal:
        connection.execute(orphan)

    assert not passing(refusal.value)


def test_an_error_quotes_no_value(engine: Engine) -> None:
    orphan = insert(account).values(user_id=987654321, chat_id=1, coach_id=999, role="coach")
    with engine.connect() as connection, pytest.raises(IntegrityError) as refusal:
        connection.execute(orphan)

    assert "987654321" not in str(refusal.value)


def count_up(engine: Engine) -> int:
    """Read a number and write the next one; returns how often somebody else was in the way."""
    for tries in itertools.count():
        try:
            with engine.begin() as connection:
                n = connection.execute(text("SELECT n FROM tally")).scalar_one()
                connection.execute(text("UPDATE tally SET n = :n"), {"n": n + 1})
        except DBAPIError as error:
            if not passing(error):
                raise
        else:
            return tries
    raise AssertionError


def test_many_writers_lose_no_change(engine: Engine) -> None:
    with engine.begin() as connection:
        connection.execute(text("CREATE TABLE tally (n INTEGER)"))
        connection.execute(text("INSERT INTO tally VALUES (0)"))
    with ThreadPoolExecutor(4) as pool:
        tries = list(pool.map(count_up, [engine] * 40))

    with engine.connect() as connection:
        assert connection.execute(text("SELECT n FROM tally")).scalar_one() == 40
    # On SQLite writers wait in line from the start: none has to begin again.
    assert engine.dialect.name == "postgresql" or sum(tries) == 0


def test_a_reader_waits_for_no_writer_and_sees_one_moment(engine: Engine) -> None:
    with engine.connect() as writing, engine.connect().execution_options(readonly=True) as reading:
        writing.execute(insert(chat).values(chat_id=1))
        before = reading.execute(select(chat.c.chat_id)).all()
        writing.commit()
        during = reading.execute(select(chat.c.chat_id)).all()
        reading.rollback()
        after = reading.execute(select(chat.c.chat_id)).scalars().all()

    assert (before, during, after) == ([], [], [1])


def lose_an_update(engine: Engine) -> None:
    """Change a row that another transaction has changed meanwhile."""
    with engine.connect() as first, engine.connect() as second:
        if engine.dialect.name == "sqlite":
            second.connection.cursor().execute("PRAGMA busy_timeout=1")
        first.execute(update(chat).values(chat_id=2))
        # SQLite stops here: a second writer cannot even begin.
        second.execute(select(chat.c.chat_id)).all()
        first.commit()
        second.execute(update(chat).values(chat_id=3))


def test_a_lost_update_is_a_passing_fault(engine: Engine) -> None:
    with engine.begin() as connection:
        connection.execute(insert(chat).values(chat_id=1))
    with pytest.raises(DBAPIError) as fault:
        lose_an_update(engine)

    assert passing(fault.value)


def test_sqlite_keeps_every_commit_through_a_loss_of_power(tmp_path: Path) -> None:
    engine = make_engine(f"sqlite:///{tmp_path / 'plimsoll.db'}")
    with engine.connect() as connection:
        asked = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar_one()
            for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        }
    engine.dispose()

    assert asked == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 15_000}


def test_a_lost_connection_is_a_passing_fault(tmp_path: Path) -> None:
    unreachable = make_engine(f"postgresql://postgres@/postgres?host={tmp_path}")
    with pytest.raises(OperationalError) as fault:
        unreachable.connect()

    assert passing(fault.value)


class Refusal(Exception):
    def __init__(self, sqlstate: str | None) -> None:
        self.sqlstate = sqlstate


def by_sqlite(code: int) -> DBAPIError:
    cause = sqlite3.OperationalError("words")
    cause.sqlite_errorcode = code
    return OperationalError("SELECT", {}, cause)


@each_row(
    ("error", "expected"),
    [
        (by_sqlite(sqlite3.SQLITE_BUSY), True),
        (by_sqlite(sqlite3.SQLITE_BUSY_SNAPSHOT), True),
        (by_sqlite(sqlite3.SQLITE_FULL), True),
        (by_sqlite(sqlite3.SQLITE_CONSTRAINT_UNIQUE), False),
        (by_sqlite(sqlite3.SQLITE_CORRUPT), False),
        (by_sqlite(sqlite3.SQLITE_ERROR), False),
        (OperationalError("SELECT", {}, sqlite3.OperationalError("no code")), False),
        (OperationalError("SELECT", {}, Refusal("40001")), True),
        (OperationalError("SELECT", {}, Refusal("40P01")), True),
        (OperationalError("SELECT", {}, Refusal("08006")), True),
        (OperationalError("SELECT", {}, Refusal("57P01")), True),
        (OperationalError("SELECT", {}, Refusal("57014")), False),
        (OperationalError("SELECT", {}, Refusal("53300")), True),
        (IntegrityError("INSERT", {}, Refusal("23505")), False),
        (ProgrammingError("SELECT", {}, Refusal("42P01")), False),
        (InterfaceError("SELECT", {}, Refusal(None)), False),
        (InterfaceError("SELECT", {}, Refusal(None), connection_invalidated=True), True),
        (NoConnectionFree("none came free"), True),
        (ValueError("a bug"), False),
    ],
)
def test_what_may_be_gone_at_the_next_try(error: Exception, expected: bool) -> None:
    assert passing(error) is expected


def test_one_program_at_a_time_serves_a_database(database_url: str) -> None:
    with take_lock(database_url), pytest.raises(AlreadyRunning), take_lock(database_url):
        pass

    with take_lock(database_url):
        pass


def test_the_refusal_names_the_process_that_is_in_the_way(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'plimsoll.db'}"
    with take_lock(url), pytest.raises(AlreadyRunning) as refusal, take_lock(url):
        pass

    assert str(refusal.value) == (
        f"Plimsoll is already running on this database (process {os.getpid()}). Stop it, and start again."
    )


def test_a_program_that_was_killed_is_not_in_the_way(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'plimsoll.db'}"
    program = textwrap.dedent(
        f"""
        from bot.store.engine import take_lock
        with take_lock({url!r}):
            print("holding", flush=True)
            input()
        """
    )
    other = subprocess.Popen(  # noqa: S603  (this very Python)
        [sys.executable, "-c", program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    with other:
        assert other.stdout is not None
        assert other.stdout.readline() == "holding\n"
        with pytest.raises(AlreadyRunning) as refusal, take_lock(url):
            pass
        other.kill()
        other.wait()

    assert refusal.value.holder == str(other.pid)
    with take_lock(url):
        pass


def test_a_database_in_memory_needs_no_lock() -> None:
    with take_lock("sqlite://"), take_lock("sqlite://"):
        pass
