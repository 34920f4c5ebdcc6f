"""The season, played once as anybody plays it: every alert, order, rule, referral and report happens in it."""

import json
import os
import sqlite3
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from scenario.season_features import ALERTS, EDDA, FEATURES, JORUN, ORDERS

from bot.inbound.app import COMMANDS
from bot.render.alerts import MATTERS
from bot.render.command_names import COMMAND_NAMES
from bot.usecases import alert_buttons
from bot.usecases.alerting import FOR_DIGEST
from core.checkin.order_words import Ordered

ROOT = Path(__file__).parents[2]
KINDS = {
    *(f"{kind}:" for kind in MATTERS),
    *(alert_buttons.PAIN, alert_buttons.STOP, alert_buttons.MISSES, alert_buttons.TALK, alert_buttons.ILL),
    *(*alert_buttons.LIFTS, *alert_buttons.WAITING, *FOR_DIGEST),
    "unreachable:",
}
"""How the keys of a coach's matters begin."""
Message = dict[str, Any]


@dataclass(frozen=True)
class Season:
    """What the play left behind."""

    messages: tuple[Message, ...]
    printed: str
    folder: Path

    def texts(self, chat: int, sender: str = "bot") -> list[str]:
        return [each["text"] for each in self.messages if each["chat"] == chat and each["from"] == sender]

    def rows(self, query: str) -> list[tuple[Any, ...]]:
        with sqlite3.connect(self.folder / "plimsoll.db") as database:
            return database.execute(query).fetchall()


@pytest.fixture(scope="module")
def season(tmp_path_factory: pytest.TempPathFactory) -> Season:
    """The season, played by a process of its own."""
    folder = tmp_path_factory.mktemp("season")
    played = subprocess.run(  # noqa: S603  (this interpreter, on our own code)
        [sys.executable, "-c", "from bot.cli import app; app()", "demo", "--season", "--out", str(folder)],
        cwd=ROOT,
        env=os.environ | {"COLUMNS": "120"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=300,
        check=False,
    )
    assert played.returncode == 0, played.stdout + played.stderr
    assert "usecase_failed" not in played.stderr
    said = (folder / "messages.jsonl").read_text(encoding="utf-8")
    return Season(tuple(json.loads(line) for line in said.splitlines()), played.stdout, folder)


def test_every_feature_of_the_coachs_side_is_played(season: Season) -> None:
    said = {chat: "\n".join(season.texts(chat)) for chat in {each.chat for each in FEATURES}}

    assert [each for each in FEATURES if each.words not in said[each.chat]] == []


def test_the_words_of_a_feature_are_of_that_feature_alone() -> None:
    assert len({(each.chat, each.words) for each in FEATURES}) == len(FEATURES)
    assert len({each.name for each in FEATURES}) == len(FEATURES)


def test_every_kind_of_alert_has_its_feature_and_was_kept(season: Season) -> None:
    kept = {key.partition(":")[0] + ":" for (key,) in season.rows("SELECT key FROM alert WHERE level > 0")}

    assert set(ALERTS) == KINDS
    assert KINDS - kept == set()


def test_every_kind_of_order_has_its_feature() -> None:
    assert set(ORDERS) == set(Ordered)


def test_every_command_of_a_coach_is_used(season: Season) -> None:
    typed = {text[1:].split()[0] for text in season.texts(EDDA, "person") if text.startswith("/")}
    hers = {name for name, each in COMMAND_NAMES.items() if each.coach is not None}

    assert (hers & {name for name, _ in COMMANDS}) - typed == set()


def test_an_alert_unseen_comes_after_15_and_60_minutes_and_then_to_the_second_person(season: Season) -> None:
    told = [
        (each["chat"], each["at"][11:16])
        for each in season.messages
        if each["kind"] == "text"
        if "Klara: stop sign.\nWrote: " in each["text"] or "Klara: a stop sign." in each["text"]
    ]

    assert told == [(EDDA, "11:00"), (EDDA, "11:15"), (EDDA, "12:00"), (JORUN, "12:15")]


def test_the_reports_are_files_and_the_end_is_printed(season: Season) -> None:
    files = {path.name: path.read_bytes()[:4] for path in (season.folder / "files").iterdir()}

    assert {name: files.get(name) for name in REPORTS} == REPORTS
    assert (season.folder / "digest.png").read_bytes().startswith(b"\x89PNG")
    assert (season.folder / "season.png").read_bytes().startswith(b"\x89PNG")
    for words in ("What reached her at once", "Her digest", "To whom she had named", "Why a load"):
        assert words in season.printed
    assert str(season.folder / "files") in season.printed


REPORTS = {
    "pia-orchard-base.pdf": b"%PDF",
    "pia-orchard-base.xlsx": b"PK\x03\x04",
    "sven-orchard-base.pdf": b"%PDF",
    "pia-orchard-strong.pdf": b"%PDF",
    "pia-orchard-strong.xlsx": b"PK\x03\x04",
    "pia-log.xlsx": b"PK\x03\x04",
    "summary-2026-09-02.pdf": b"%PDF",
}


def test_there_is_a_digest_for_each_week_with_its_picture(season: Season) -> None:
    sundays = [f"2026-{day}T16:00" for day in ("08-30", "09-06", "09-13", "09-20", "09-27", "10-04", "10-11")]
    sent = [each for each in season.messages if each["chat"] == EDDA and each["from"] == "bot"]

    assert [each["at"][:16] for each in sent if "Sessions kept of due\n" in each["text"]] == sundays
    pictures = [each for each in sent if each["kind"] == "photo" and "kept of due, by client" in each["text"]]
    assert [each["at"][:16] for each in pictures] == sundays
