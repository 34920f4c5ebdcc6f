from datetime import date, time, timedelta

import pytest
from examples import examples
from hypothesis import HealthCheck, given
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula

from bot.files.block_file import read_block
from core.programme.block import Block
from core.programme.problems import FACTS
from core.programme.rows import BlockFile
from tests.bot.files.block_workbook import head_of, saved, workbook, written
from tests.core.programme.block_strategies import blocks

HEAD = head_of("Slipway", 3, "Push")


def read_row(*cells: object) -> BlockFile | list[tuple[str, str | None]]:
    """Read a file of one row: a block, or its problems with their cells."""
    result = read_block(saved(workbook(HEAD, [cells])), "slipway.xlsx")
    if isinstance(result, BlockFile):
        return result
    return [(found.code, found.place.cell) for found in result]


@examples(60, suppress_health_check=[HealthCheck.too_slow])
@given(blocks())
def test_a_block_written_to_a_file_is_read_back_equal(block: Block) -> None:
    result = read_block(written(block), "block.xlsx")

    assert isinstance(result, BlockFile)
    assert result.block == block


CELLS_OF_A_SPREADSHEET = [
    ("reps that became a date", {5: date(2026, 10, 8)}, [("became_date", "F2")]),
    ("a formula", {4: "=1+2"}, [("formula", "E2")]),
    ("an array formula", {6: ArrayFormula("G2", "=SUM(A1:A2)")}, [("formula", "G2")]),
    ("a data table", {6: DataTableFormula("G2", dt2D=False, r1="A1")}, [("formula", "G2")]),
    ("an error", {6: "#N/A"}, [("cell_error", "G2")]),
    ("a truth", {4: True}, [("sets_unreadable", "E2")]),
    ("a rest of two sensible readings", {8: time(0, 2)}, [("became_time", "I2")]),
    ("a time in another column", {5: time(8, 10)}, [("became_time", "F2")]),
    ("half a set", {4: 2.5}, [("sets_unreadable", "E2")]),
]


@pytest.mark.parametrize(
    ("changed", "expected"),
    [row[1:] for row in CELLS_OF_A_SPREADSHEET],
    ids=[row[0] for row in CELLS_OF_A_SPREADSHEET],
)
def test_what_a_spreadsheet_made_of_a_cell_is_a_problem_at_its_place(
    changed: dict[int, object], expected: list[tuple[str, str]]
) -> None:
    cells: list[object] = ["Push", "A", "Bench press", None, 3, "8", "60 kg", 2, "2 min"]
    for index, value in changed.items():
        cells[index] = value

    assert read_row(*cells) == expected


@pytest.mark.parametrize(
    ("rest", "seconds"), [(time(2, 30), 150), (time(0, 1, 30), 90), (timedelta(minutes=3), None)]
)
def test_a_rest_that_became_a_time_is_read_when_it_has_one_sensible_reading(
    rest: object, seconds: int | None
) -> None:
    result = read_row("Push", "A", "Bench press", None, 3, "8", "60 kg", 2, rest)

    if seconds is None:
        assert result == [("became_time", "I2")]
    else:
        assert isinstance(result, BlockFile)
        assert result.block.days[0].lines[0].prescription.rest_s == seconds


def test_numbers_stored_as_text_and_text_that_is_a_number_read_alike() -> None:
    as_text = read_row("Push", "A", "Bench press", "2", "3", "8", "62,5 kg", "2", "2 min", "3110")
    as_number = read_row("Push", "A", "Bench press", 2, 3.0, 8, "62.5 kg", 2, "2 min", 3110)

    assert isinstance(as_text, BlockFile)
    assert as_text == as_number


def test_the_address_behind_a_text_is_taken_for_a_link() -> None:
    book = workbook(HEAD, [("Push", "A", "Push-up", None, 3, 8)])
    cell = book["Sessions"]["M2"]
    cell.value, cell.hyperlink = "watch", "https://clips.example/push-up"
    result = read_block(saved(book), "slipway.xlsx")

    assert isinstance(result, BlockFile)
    assert result.block.days[0].lines[0].prescription.link == "https://clips.example/push-up"


def test_a_day_merged_over_its_rows_is_the_day_of_each() -> None:
    rows = [
        ("Push", "A", "Push-up", None, 3, 8),
        (None, "B", "Dip", None, 3, 8),
        (None, "C", "Plank", None, 3, "30 s"),
    ]
    book = workbook(HEAD, rows)
    book["Sessions"].merge_cells("A2:A4")
    result = read_block(saved(book), "slipway.xlsx")

    assert isinstance(result, BlockFile)
    assert [line.prescription.order for line in result.block.days[0].lines] == ["A", "B", "C"]


def test_blank_rows_and_spaces_alone_are_skipped() -> None:
    rows = [
        ("Push", "A", "Push-up", None, 3, 8),
        (),
        ("  ", None, "\u00a0"),
        ("Push", "B", "Dip", None, 3, 8),
    ]
    result = read_block(saved(workbook(HEAD, rows)), "slipway.xlsx")

    assert isinstance(result, BlockFile)
    assert len(result.block.days[0].lines) == 2


def test_an_empty_sheet_beside_is_not_spoken_of_and_a_full_one_is() -> None:
    row = ("Push", "A", "Push-up", None, 3, 8), ("Push", "B", "Pulldown", None, 3, 8)
    empty = read_block(saved(workbook(HEAD, row, Sheet3=())), "slipway.xlsx")
    full = read_block(saved(workbook(HEAD, row, Notes=(("tide tables",),))), "slipway.xlsx")

    assert isinstance(empty, BlockFile)
    assert isinstance(full, BlockFile)
    assert [found for found in empty.warnings if found.place.sheet] == []
    assert [found.code for found in full.warnings if found.place.sheet] == ["sheet_not_read"]
    assert full.warnings[0].facts.keys() == FACTS["sheet_not_read"]
