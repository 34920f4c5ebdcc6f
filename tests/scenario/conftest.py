"""The story, played twice at the same time: as anybody plays it, and in here, on PostgreSQL where there is one."""

import asyncio
import os
import subprocess
import sys
from pathlib import Path

import pytest
from databases import HAS_POSTGRES, PostgresServer
from scenario.plays import ROOT, Played, Story, play

Begun = Path | tuple[subprocess.Popen[str], Path]


DEMO_PLAYED = "TEST_DEMO_PLAYED"
"""Names a folder in which the README's command was followed, with what it said in the file `printed`."""


@pytest.fixture(scope="session")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Begun:
    """The play that was played before, or one by a process on SQLite, with another hash seed than this one's."""
    if already := os.environ.get(DEMO_PLAYED):
        return Path(already)
    folder = tmp_path_factory.mktemp("story")
    process = subprocess.Popen(  # noqa: S603  (this interpreter, on our own code)
        [sys.executable, "-c", "from bot.cli import app; app()", "demo", "--out", str(folder)],
        cwd=ROOT,
        env=os.environ | {"PYTHONHASHSEED": "4242", "COLUMNS": "120"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
    )
    return process, folder


@pytest.fixture(scope="session")
def story(begun: object, tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Story:
    if not HAS_POSTGRES:
        return asyncio.run(play(f"sqlite:///{tmp_path_factory.mktemp('here')}/story.db"))
    server: PostgresServer = request.getfixturevalue("postgres")
    with server.database() as url:
        return asyncio.run(play(url))


@pytest.fixture(scope="session")
def played(begun: Begun, story: Story) -> Played:
    if isinstance(begun, Path):
        out, printed = Path("plimsoll-demo"), (begun / "printed").read_text("utf-8")
        return Played((begun / out / "messages.jsonl").read_bytes(), printed, begun / out, out)
    process, folder = begun
    printed, _ = process.communicate(timeout=400)
    assert process.returncode == 0, printed
    return Played((folder / "messages.jsonl").read_bytes(), printed, folder, folder)
