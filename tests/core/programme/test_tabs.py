from collections.abc import Sequence

import pytest

from core.programme.problems import Place, Problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of
from core.programme.tabs import EXERCISES, HOW_TO, tabs_in

LINES = (("Name", "Slipway"), ("Weeks", "4"), ("First day", "Mon"), ("Days", "Push", "Pull"))
HEADER = ("Day", "Order", "Exercise", "Sets", "Reps")
TABLE = (HEADER, ("Push", "A", "Push-up", "3", "8"), ("Pull", "A", "Pull-up", "3", "8"))
NOTES = (("tide tables",),)


def sheet(name: str, rows: Sequence[Sequence[str]], **more: tuple[object, ...]) -> Sheet:
    cells = (
        Cell(row, column, CellKind.TEXT, text)
        for row, texts in enumerate(rows, 1)
        for column, text in enumerate(texts, 1)
        if text
    )
    return Sheet(name, rows_of(cells), **more)


TOGETHER = (*LINES, (), *TABLE)
READ = [
    ("by their names", [("Block", LINES), ("Sessions", TABLE)]),
    ("by other words", [("Training block", LINES), ("Workouts", TABLE)]),
    ("the table under any name", [("Block", LINES), ("Sheet2", TABLE)]),
    ("both on one sheet", [("Sheet1", TOGETHER)]),
    ("both on the sheet of the table", [("Sessions", TOGETHER)]),
    ("both on the sheet of the block", [("Block", TOGETHER)]),
    ("both without a sheet, as in csv", [("", TOGETHER)]),
    (
        "beside the template's own",
        [("Block", LINES), ("Sessions", TABLE), (HOW_TO, NOTES), (EXERCISES, NOTES)],
    ),
    ("with a title over the lines", [("Block", (("Autumn",), *LINES)), ("Sessions", TABLE)]),
    ("with labels in another column", [("Block", [("", *line) for line in LINES]), ("Sessions", TABLE)]),
    (
        "with a gap between label and value",
        [("Block", [(line[0], "", *line[1:]) for line in LINES]), ("Sessions", TABLE)],
    ),
    ("with the header again", [("Block", LINES), ("Sessions", (*TABLE[:2], HEADER, TABLE[2]))]),
]


@pytest.mark.parametrize("tabs", [row[1] for row in READ], ids=[row[0] for row in READ])
def test_the_block_is_found(tabs: list[tuple[str, Sequence[Sequence[str]]]]) -> None:
    result = block_from_sheets([sheet(name, rows) for name, rows in tabs])

    assert isinstance(result, BlockFile), result
    assert [found for found in result.warnings if found.place.sheet] == []
    assert [(day.name, len(day.lines)) for day in result.block.days] == [("Push", 1), ("Pull", 1)]


def told(*sheets: Sheet) -> list[tuple[str, str | None, str | None]]:
    return [
        (found.code, found.place.sheet, found.facts.get("suggestions")) for found in tabs_in(sheets).problems
    ]


NOT_READ = [
    ("two tables", [("Block", LINES), ("Autumn", TABLE), ("Spring", TABLE)], "Sessions", None),
    (
        "a near name among two tables",
        [("Block", LINES), ("Sesions", TABLE), ("Old", TABLE)],
        "Sessions",
        "Sesions",
    ),
    ("no table", [("Block", LINES), ("Sheet2", NOTES)], "Sessions", None),
    ("no lines", [("Bolck", NOTES), ("Sessions", TABLE)], "Block", "Bolck"),
]


@pytest.mark.parametrize(
    ("tabs", "missing", "near"), [row[1:] for row in NOT_READ], ids=[row[0] for row in NOT_READ]
)
def test_a_sheet_that_is_not_clear_is_named_and_never_guessed(
    tabs: list[tuple[str, Sequence[Sequence[str]]]], missing: str, near: str | None
) -> None:
    assert told(*(sheet(name, rows) for name, rows in tabs))[0] == ("sheet_missing", missing, near or "")


def test_a_file_without_sheets_and_without_a_table_is_told_so_once() -> None:
    assert told(sheet("", NOTES)) == [("table_missing", None, None)]
    assert told(sheet("", ())) == [("table_missing", None, None)]


def test_what_is_merged_over_the_lines_and_in_the_table_stays_apart() -> None:
    both = sheet("Sheet1", TOGETHER, merges=(Merge(1, 1, 2, 3), Merge(7, 8, 1, 1)))
    tabs = tabs_in([both])

    assert tabs.block is not None
    assert tabs.sessions is not None
    assert (tabs.block.merges, tabs.sessions.merges) == ((Merge(1, 1, 2, 3),), (Merge(7, 8, 1, 1),))


def test_hidden_rows_are_read_and_said() -> None:
    result = block_from_sheets([sheet("Block", LINES), sheet("Sessions", TABLE, hidden_rows=(3, 9))])

    assert isinstance(result, BlockFile)
    assert len(result.block.days[1].lines) == 1
    assert [found for found in result.warnings if found.place.sheet] == [
        Problem(code="rows_hidden", place=Place(sheet="Sessions"), facts={"rows": "3"}, severity="warning")
    ]


EFFORTS = [
    ("RPE", "8", (2, None, "RPE 8")),
    ("rpe", "7-8", (2, 3, "RPE 7-8")),
    ("RPE", "RPE 8", (2, None, "RPE 8")),
    ("RIR", "2", (2, None, None)),
]


@pytest.mark.parametrize(("heading", "text", "expected"), EFFORTS)
def test_a_bare_number_under_rpe_is_no_number_of_reps_left(
    heading: str, text: str, expected: tuple[int, int | None, str | None]
) -> None:
    table = ((*HEADER, heading), ("Push", "A", "Push-up", "3", "8", text), ("Pull", "A", "Pull-up", "3", "8"))
    result = block_from_sheets([sheet("Block", LINES), sheet("Sessions", table)])

    assert isinstance(result, BlockFile), result
    dose = result.block.days[0].lines[0].prescription.dose
    assert (dose.left, dose.left_high, None if dose.rpe is None else str(dose.rpe)) == expected


def test_days_in_cells_of_their_own_are_told_each_at_its_cell() -> None:
    lines = (*LINES[:3], ("Days", "Push", "…", "Push"))
    result = block_from_sheets([sheet("Block", lines), sheet("Sessions", TABLE[:2])])

    assert isinstance(result, list)
    assert [(found.code, found.place.cell) for found in result] == [
        ("day_unreadable", "C4"),
        ("day_twice", "D4"),
    ]


def test_a_day_that_is_a_formula_is_a_problem_and_the_others_are_read() -> None:
    block = sheet("Block", LINES)
    formula = Cell(4, 4, CellKind.FORMULA, "=A1")
    days = {**block.rows[3], 4: formula}
    result = block_from_sheets([Sheet("Block", (*block.rows[:3], days)), sheet("Sessions", TABLE)])

    assert isinstance(result, list)
    assert [(found.code, found.place.cell) for found in result] == [("formula", "D4")]
