"""How long a long block takes to be read and checked, beside the library's bare reading of the same file."""

import time
from collections.abc import Callable
from io import BytesIO

import pytest
from openpyxl import load_workbook

from bot.files.block_file import read_block
from bot.files.to_csv import to_csv
from bot.files.to_xlsx import to_xlsx
from bot.files.to_yaml import to_yaml
from core.programme.rows import BlockFile
from core.programme.sheets import Cell, CellKind, Sheet, rows_of

pytestmark = pytest.mark.benchmark

WEEKS, DAYS = 12, 5
LONGEST_S = 0.5
EXERCISES = (
    "Hip thrust",
    "Bench press",
    "Back squat",
    "Barbell row",
    "Leg curl",
    "Lateral raise",
    "Curl",
    "Back extension",
)
COLUMNS = (
    "Day",
    "Order",
    "Exercise",
    "Weeks",
    "Sets",
    "Reps",
    "Load",
    "Reps left",
    "Rest",
    "Tempo",
    "Cue",
    "Instead",
)


def sheet(name: str, rows: list[tuple[str, ...]]) -> Sheet:
    cells = (
        Cell(row, column, CellKind.NUMBER if text.isdecimal() else CellKind.TEXT, text)
        for row, texts in enumerate(rows, 1)
        for column, text in enumerate(texts, 1)
        if text
    )
    return Sheet(name, rows_of(cells))


def long_block() -> tuple[Sheet, Sheet]:
    """Twelve weeks of five days of eight exercises, each week written out: the longest way to write it."""
    names = [f"Day {number}" for number in range(1, DAYS + 1)]
    lines = [("Name", "Long"), ("Weeks", str(WEEKS)), ("First day", "Monday"), ("Session days", *names)]
    rows = [
        (
            day,
            letter,
            exercise,
            str(week),
            "4",
            "8-10",
            load_of(exercise, week),
            "2",
            "2 min",
            "3110",
            "Slowly down.",
            "",
        )
        for day in names
        for letter, exercise in zip("ABCDEFGH", EXERCISES, strict=True)
        for week in range(1, WEEKS + 1)
    ]
    return sheet("Block", lines), sheet("Sessions", [COLUMNS, *rows])


def load_of(exercise: str, week: int) -> str:
    return "bw+10 kg" if exercise == "Back extension" else f"{60 + week} kg"


def best_of(tries: int, act: Callable[[], object]) -> float:
    """The shortest of some tries. [s]"""
    taken = []
    for _ in range(tries):
        begun = time.perf_counter()
        act()
        taken.append(time.perf_counter() - begun)
    return min(taken)


def test_a_long_block_is_read_and_checked_soon(capsys: pytest.CaptureFixture[str]) -> None:
    sheets = long_block()
    files = {"xlsx": to_xlsx(sheets), "csv": to_csv(sheets), "yaml": to_yaml(sheets)}
    blocks = {form: read_block(content, f"long.{form}") for form, content in files.items()}
    took = {
        form: best_of(5, lambda content=content: read_block(content, "long"))
        for form, content in files.items()
    }
    bare = best_of(5, lambda: load_workbook(BytesIO(files["xlsx"])))

    lines = [
        f"{WEEKS} weeks, {DAYS} days, {len(sheets[1].rows) - 1} rows, best of 5:",
        *(f"  {form:4} read and checked {seconds * 1000:6.0f} ms" for form, seconds in took.items()),
        f"  xlsx by the library alone {bare * 1000:4.0f} ms; ours is {took['xlsx'] / bare:.1f} times that",
    ]
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201
    assert all(isinstance(block, BlockFile) for block in blocks.values())
    assert {form: seconds < LONGEST_S for form, seconds in took.items()} == dict.fromkeys(files, True)
