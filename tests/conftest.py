import logging
import os
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from browsers import BROWSER_ABSENT, CHROMIUM, REQUIRES_BROWSER
from coverage import Coverage
from databases import ABSENT, HAS_POSTGRES, REQUIRES_POSTGRES, PostgresServer, SqliteFiles, postgres_server
from examples import IN_CI
from hypothesis import HealthCheck, settings
from offices import OFFICE_ABSENT, REQUIRES_OFFICE, SOFFICE
from sqlalchemy import Engine, event
from statements import SharedWords
from xdist.scheduler import LoadFileScheduling

from bot.logs import ClosedList
from bot.store import engine as engines
from bot.store.engine import make_engine
from bot.store.units import Units

# How long an example takes is no property. In CI the same examples come every time, so that a red run can be repeated;
# on a developer's machine they are new ones. Few are enough where all tests run once for each mutant.
settings.register_profile("here", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("ci", settings.get_profile("here"), derandomize=True, max_examples=100 // IN_CI)
settings.register_profile("few", settings.get_profile("ci"), max_examples=12, database=None)
settings.load_profile("ci" if os.environ.get("CI") else "here")


UNTRACED = ("browser", "scenario", "faults", "usecases")
"""Folders of tests of the whole program; and of use-cases, which the talks go through as well."""
WALKS = frozenset({"test_any_talk", "test_left_and_taken_up", "test_bare_numbers", "test_two_coaches"})
"""Tests that go through everything there is, step by step."""


LONG = WALKS | {"test_talks", "test_rounds", "test_rehearsing", "test_to_files", "test_coach_tools"}
"""Modules that take long, beside those of the whole program."""


class OnePlay(LoadFileScheduling):
    """Where tests run side by side: those of a file together, and all that look at the same play of the story."""

    def _split_scope(self, nodeid: str) -> str:
        file = super()._split_scope(nodeid)
        if file.startswith("tests/browser/"):
            return "tests/browser"
        return "tests/scenario/test_story.py" if file == "tests/scenario/test_counts.py" else file


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> OnePlay:
    return OnePlay(config, log)


def pytest_sessionstart(session: pytest.Session) -> None:
    if REQUIRES_POSTGRES and not HAS_POSTGRES:
        raise pytest.UsageError(ABSENT)
    if REQUIRES_OFFICE and not SOFFICE:
        raise pytest.UsageError(OFFICE_ABSENT)
    if REQUIRES_BROWSER and not CHROMIUM:
        raise pytest.UsageError(BROWSER_ABSENT)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest first: where tests run side by side, nobody waits for them at the end."""
    first = {"faults": 1, "scenario": 0, "browser": 0}
    items.sort(key=lambda item: 1 if item.path.stem in LONG else first.get(item.path.parent.name, 2))


def _is_untraced(item: pytest.Item) -> bool:
    asked = {mark.name for mark in item.iter_markers()} & {"traced", "untraced"}
    if asked:
        return "untraced" in asked
    of_chance = getattr(getattr(item, "obj", None), "is_hypothesis_test", False)
    return of_chance or item.path.parent.name in UNTRACED or item.path.stem in WALKS


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    """Trace no tests to which it costs much, their set-up neither; others cover what they run.

    Tracing makes pure code three to five times as slow: properties and long tables are where that goes.
    """
    if not _is_untraced(item):
        return (yield)
    # Side by side two trace: one that each worker begins with, whose data nobody asks for, and which goes on as soon
    # as the other is stopped.
    stopped: list[Coverage] = []
    while traced := Coverage.current():
        traced.stop()
        stopped.append(traced)
    try:
        return (yield)
    finally:
        for each in reversed(stopped):
            each.start()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    reports = [*terminalreporter.getreports("passed"), *terminalreporter.getreports("failed")]
    ran = sum("[postgresql" in report.nodeid for report in reports)
    if HAS_POSTGRES:
        terminalreporter.write_line(f"PostgreSQL: {ran} tests ran on it")
    else:
        terminalreporter.write_line(f"PostgreSQL: no test ran on it. {ABSENT}")
    if not SOFFICE:
        terminalreporter.write_line(f"LibreOffice: no test ran on it. {OFFICE_ABSENT}")
    if not CHROMIUM:
        terminalreporter.write_line(f"Chromium: no test ran in it. {BROWSER_ABSENT}")


class _Checked(logging.Handler):
    def emit(self, record: logging.LogRecord) -> None:
        """Only what the filter says counts."""


@pytest.fixture(autouse=True, scope="session")
def _log_fields_are_checked() -> Iterator[None]:
    """A log line with a field off the list fails the test that makes it."""
    handler = _Checked()
    handler.addFilter(ClosedList(strict=True))
    root, ours = logging.getLogger(), logging.getLogger("bot")
    root.addHandler(handler)
    ours.setLevel(logging.DEBUG)
    yield
    root.removeHandler(handler)
    ours.setLevel(logging.NOTSET)


@pytest.fixture(autouse=True, scope="session")
def _statements_are_shared() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(engines, "create_engine", SharedWords().create_engine)
        yield


@pytest.fixture(scope="session")
def sqlite_files(tmp_path_factory: pytest.TempPathFactory) -> SqliteFiles:
    return SqliteFiles(tmp_path_factory.mktemp("sqlite"))


@pytest.fixture(scope="session")
def postgres() -> Iterator[PostgresServer]:
    with postgres_server() as server:
        yield server


@pytest.fixture
def database_url(sqlite_files: SqliteFiles, tmp_path: Path) -> str:
    """A migrated database of one's own; the store's tests get it on every kind of database."""
    return sqlite_files.copy(tmp_path / "plimsoll.db")


@pytest.fixture
def engine(database_url: str) -> Iterator[Engine]:
    engine = make_engine(database_url)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _not_to_the_disk)
    yield engine
    engine.dispose()


def _not_to_the_disk(connection: sqlite3.Connection, _: object) -> None:
    """Nobody pulls the plug on these databases: whether a commit waits for the disk is the matter of other tests."""
    connection.execute("PRAGMA synchronous=OFF")


@pytest.fixture
def units(engine: Engine) -> Units:
    return Units(engine)
