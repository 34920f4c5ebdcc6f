import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import httpx
import pytest
from house.tree import ROOT
from typer.testing import CliRunner

from bot.cli.app import app

BROKEN = ROOT / "demo_scenario" / "blocks" / "broken.xlsx"
ENDED_WITHIN_S = 3


def test_a_block_with_problems_is_refused_with_all_of_them() -> None:
    checked = CliRunner().invoke(app, ["block", "check", str(BROKEN)])
    tried = CliRunner().invoke(app, ["try", "--block", str(BROKEN)])

    assert (checked.exit_code, tried.exit_code) == (1, 2)
    assert tried.stderr == checked.stderr
    assert "to mend. Nothing is stored." in tried.stderr


def test_a_folder_with_something_in_it_is_not_taken(tmp_path: Path) -> None:
    (tmp_path / "mine").write_text("mine", encoding="utf-8")

    tried = CliRunner().invoke(app, ["try", "--keep", str(tmp_path)])

    assert tried.exit_code == 2
    assert tried.stderr == f"{tmp_path} is there and is not an empty folder. Give another to keep it in.\n"
    assert [each.name for each in tmp_path.iterdir()] == ["mine"]
    below = CliRunner().invoke(app, ["try", "--keep", str(tmp_path / "mine" / "below")])
    assert below.exit_code == 2
    assert below.stderr == f"Cannot keep it in {tmp_path / 'mine' / 'below'}: Not a directory.\n"


def test_a_port_that_is_taken_is_said() -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        tried = CliRunner().invoke(app, ["try", "--port", str(port)])

    assert tried.exit_code == 2
    assert tried.stderr == f"Port {port} is taken or not allowed. Give another, or leave --port out.\n"


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_at_once_in_the_middle_of_the_story(number: signal.Signals, tmp_path: Path) -> None:
    kept = tmp_path / "kept"
    keeping = number is signal.SIGTERM
    program = subprocess.Popen(  # noqa: S603  (this very Python)
        [
            sys.executable,
            "-c",
            "from bot.cli import app; app()",
            "try",
            *(["--keep", str(kept)] if keeping else []),
        ],
        cwd=ROOT,
        env=os.environ | {"TMPDIR": str(tmp_path), "PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    assert program.stdout is not None
    address, database, _ = (program.stdout.readline() for _ in range(3))
    folder = Path(database.split(": ")[1].rpartition(" (")[0]).parent
    with httpx.Client(trust_env=False, follow_redirects=True, timeout=60) as client:
        home = str(client.get(address.split(": ")[1].strip()).url)
        with client.stream("GET", f"{home}feed") as feed:
            lines = feed.iter_lines()
            while '"moving": true' not in next(lines):
                pass
            told_at = time.monotonic()
            program.send_signal(number)
            output, _ = program.communicate(timeout=60)
            took_s = time.monotonic() - told_at

    assert (program.returncode, output) == (0, "")
    assert took_s < ENDED_WITHIN_S
    assert folder.exists() is keeping
    assert not keeping or folder == kept.resolve()
