"""What a start loads: nobody waits, and no memory is held, for what is not needed yet."""

import os
import subprocess
import sys

import pytest
from house.tree import ROOT

PICTURES = {"PIL", "fontTools", "matplotlib"}
SPREADSHEETS = {"openpyxl"}
MAPS = {"timezonefinder"}
SERVICE = {"alembic", "apscheduler", "sqlalchemy", "telegram", "uvicorn"}
LATE = PICTURES | SPREADSHEETS | MAPS

COMMANDS = (
    "from typer.testing import CliRunner; from bot.cli.app import app; done = CliRunner().invoke(app, {})"
)
LOADED = "import sys; print(done.exit_code, *{each.partition('.')[0] for each in sys.modules})"


def loaded_by(*lines: str) -> tuple[str, set[str]]:
    """How a program of these lines ended, and the libraries that it had loaded then."""
    done = subprocess.run(  # noqa: S603  (this very Python)
        [sys.executable, "-c", "; ".join(lines)],
        cwd=ROOT / "tests",
        env={
            "PATH": os.environ["PATH"],
            "PYTHONPATH": str(ROOT),
            "PLIMSOLL_TOKEN": "4100:story",
            "PLIMSOLL_TICK_S": "0",
        },
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    status, *libraries = done.stdout.split()
    return status, set(libraries)


@pytest.mark.parametrize(
    ("typed", "status"),
    [(["--help"], "0"), (["read", "5x5 80"], "0"), (["serve"], "2")],
    ids=["help", "a reply read", "a bad setting refused"],
)
def test_what_needs_no_bot_loads_none(typed: list[str], status: str) -> None:
    ended, libraries = loaded_by(COMMANDS.format(typed), LOADED)

    assert ended == status
    assert "typer" in libraries
    assert libraries & (LATE | SERVICE | {"numpy"}) == set()


def test_the_running_program_loads_pictures_spreadsheets_and_maps_when_they_are_needed() -> None:
    _, libraries = loaded_by(
        "import bot.cli.serving, sys", "print(0, *{e.partition('.')[0] for e in sys.modules})"
    )

    assert libraries >= {"telegram", "sqlalchemy"}
    assert libraries & LATE == set()
