from datetime import datetime
from io import BytesIO

import pytest
from openpyxl import Workbook, load_workbook

from bot.files.block_file import read_block
from bot.render.problems import problems_text
from core.programme.block import Block, Weekday
from core.programme.prescription import Load
from core.programme.rows import BlockFile
from tests.bot.files.story_blocks import FILES, FOLDER


def story_block(name: str) -> Block:
    result = read_block((FOLDER / name).read_bytes(), name)
    assert isinstance(result, BlockFile)
    assert result.warnings == ()
    return result.block


def plain(value: object) -> object:
    """A date comes back from a file with a midnight that it was not written with."""
    return value.date() if isinstance(value, datetime) else value


def shown(book: Workbook) -> dict[str, list[list[object]]]:
    return {
        sheet.title: [[plain(cell.value) for cell in row] for row in sheet.iter_rows()]
        for sheet in book.worksheets
    }


@pytest.mark.parametrize("name", FILES)
def test_each_file_in_the_repository_holds_what_its_builder_writes(name: str) -> None:
    kept = load_workbook(BytesIO((FOLDER / name).read_bytes()))

    assert shown(kept) == shown(FILES[name]())


def test_the_block_for_the_gym_has_four_days_an_easier_week_and_then_fewer_reps() -> None:
    block = story_block("harbour-strength.xlsx")
    lower = block.days[0]

    assert (block.name, block.weeks, block.week_starts) == ("Harbour strength", 6, Weekday.MON)
    assert [day.name for day in block.days] == ["Lower A", "Push", "Lower B", "Pull"]
    assert [asked.order for asked in lower.in_week(4)] == ["A", "B1", "B2", "C", "D"]
    thrusts = [lower.in_week(week)[0].dose for week in (1, 3, 4, 5, 6)]
    assert [f"{dose.reps} {dose.load}" for dose in thrusts] == [
        "8 90 kg",
        "8 90 kg",
        "8 82.5 kg",
        "6 100 kg",
        "6 100 kg",
    ]
    assert lower.in_week(1)[1].dose.each_side
    assert lower.in_week(1)[3].dose.load == Load.bodyweight(Load.of(10).mass)
    assert lower.in_week(1)[4].dose.load == Load.find()
    assert block.days[1].in_week(1)[0].instead == ("dumbbell-bench-press", "push-up")
    assert block.days[3].in_week(1)[0].rest_s == 150


def test_the_block_for_home_counts_bare_numbers_in_pounds() -> None:
    block = story_block("home-dumbbells.xlsx")
    first = block.days[0].in_week(1)

    assert (block.week_starts, len(block.days)) == (Weekday.SUN, 3)
    assert first[0].dose.load == Load.of(40, "lb")
    assert str(first[3].dose.seconds) == "20-30"


BROKEN = (
    (
        "Block, row 3, First day of the week (B3): "
        '"Someday" is not a day of the week. Write Monday, for instance.'
    ),
    ('Block, row 4, Session days (B4): The day "Pull" has no row in Sessions.'),
    (
        "Block, row 5 (A5): "
        '"Coach" is not known here. Known: Name, Weeks, First day of the week, Session days, '
        "Unit, Phases, Deload weeks, Testing weeks, Targets, Prep."
    ),
    (
        "Sessions, row 1 (N1): "
        '"Mood" is not a column I know. Rename it or take it out. Known: Day, Order, Exercise, '
        "Weeks, Sets, Reps, Load, Reps left, Rest, Tempo, Cue, Instead, Link, Way up."
    ),
    (
        "Sessions, row 2, Reps (F2): "
        '"8-10" became a date (2026-08-10). Type \'8-10 with an apostrophe in front, or format the'
        " column as text and type it again."
    ),
    ("Sessions, row 2, Rest (I2): I2:I3 are merged. Unmerge them and write the value in each row."),
    ('Sessions, row 3, Exercise (C3): "Hip thurst" is not in the catalogue. Did you mean Hip thrust?'),
    (
        "Sessions, row 3, Load (G3): "
        "90 has no unit. Write 90 kg or 90 lb, or add a line Unit to the sheet Block."
    ),
    ('Sessions, row 3 (O3): "later" stands in a column without a heading. Name the column or empty it.'),
    (
        "Sessions, row 4, Order (B4): "
        "B of Lower A is already in row 3, week 1-2. Give it another letter or other weeks."
    ),
    (
        "Sessions, row 4, Load (G4): "
        "Back extension moves bodyweight. Write what is added to it, bw+5 kg, or taken off, bw-20"
        " kg, and not 10 kg alone."
    ),
    (
        "Sessions, row 5, Weeks (D5): "
        "The spreadsheet made the number 1.3 of what was typed. Format the column as text and "
        "type the weeks again, such as 1, 3."
    ),
    ("Sessions, row 5, Reps (F5): Plank is counted in seconds. If 30 means seconds, write the unit: 30 s."),
    ('Sessions, row 6, Day (A6): "Lower C" is not one of the session days: Lower A, Push, Pull.'),
    (
        'Sessions, row 6, Sets (E6): "three" is not sets from 1 to 20. '
        "Write 3, 3 ascending, 1 + 2 descending, 1 rest-pause, or 4 cluster."
    ),
    (
        "Sessions, row 6, Reps (F6): "
        '"8 or so" cannot be read as reps or time. '
        "Write 8, 8-10, 8 or more, to 2 left, 10 a side, 30 s or 40 m."
    ),
    ("Sessions, row 8, Weeks (D8): Outside the block, which has 4 weeks: 5-6."),
    ('Sessions, row 8, Reps (F8): "10-8" runs from more to fewer. Write 8-10.'),
    (
        "Sessions, row 8, Load (G8): "
        "=5*12 is a formula, and formulas are not run. Copy it and paste the value."
    ),
    ('Sessions, row 8, Reps left (H8): "7" is not reps left. Write 2, 1-2, or RPE 8.'),
    ("Sessions, row 8, Rest (I8): 90 has no unit. Write seconds or minutes with it: 90 s, 2 min."),
    (
        "Sessions, row 8, Tempo (J8): "
        '"1-2-3-4-5" is not a tempo. Write 3 or 4 digits without dashes, slow lowering first, X '
        "for fast: 3110, 30X1."
    ),
    (
        "Sessions, row 9, Reps (F9): "
        "Dumbbell bench press is counted in reps, and 30 s is a time. Write 8 or 8-10."
    ),
    (
        "Sessions, row 9, Load (G9): "
        'Dumbbell bench press is counted per hand, and "40 kg total" is not. Write the load per '
        "hand."
    ),
    (
        "Sessions, row 9, Rest (I9): "
        "The spreadsheet made the time 0:02:00 of what was typed. Format the column as text and "
        "type it again, a rest as 90 s or 2 min."
    ),
    ("Sessions, row 10, Order (B10): Nothing is written here."),
    (
        "Sessions, row 10, Load (G10): "
        "Pull-up moves bodyweight. Write what is added to it, bw+5 kg, or taken off, bw-20 kg, "
        "and not 10 kg alone."
    ),
    ("Sessions, row 10, Cue (K10): 219 characters; up to 200 fit on a card."),
    ('Sessions, row 10, Instead (L10): "Pulldwon" is not in the catalogue. Did you mean Pulldown?'),
    ('Ideas: The sheet "Ideas" was not read; only Block and Sessions are.'),
)
"""Where, then what, a line for each problem."""


def test_the_broken_file_gives_this_list_of_problems() -> None:
    result = read_block((FOLDER / "broken.xlsx").read_bytes(), "broken.xlsx")

    assert isinstance(result, list)
    assert problems_text(result, limit=100).splitlines() == list(BROKEN)
