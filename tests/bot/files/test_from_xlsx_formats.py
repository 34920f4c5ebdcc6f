"""What a number's format adds to it, rows that are not shown, and sheets by other names."""

import pytest
from openpyxl import Workbook

from bot.files.block_file import read_block
from bot.files.from_xlsx import sheets_in_xlsx
from bot.files.workbook_limits import MOST_ROWS
from core.programme.rows import BlockFile
from core.programme.sheets import CellKind
from tests.bot.files.block_workbook import head_of, saved, workbook

HEAD = head_of("Slipway", 3, "Push")
ROW = ("Push", "A", "Bench press", None, 3, 8, 80)

FORMATS = [
    ("General", 80, CellKind.NUMBER, "80"),
    ("0.00", 62.5, CellKind.NUMBER, "62.5"),
    ('0" kg"', 80, CellKind.TEXT, "80 kg"),
    ('0.0 "lb";[Red]-0.0 "lb"', 62.5, CellKind.TEXT, "62.5 lb"),
    ('0" "', 80, CellKind.NUMBER, "80"),
    ("0%", 0.75, CellKind.TEXT, "75 %"),
    ("0.0%", 0.825, CellKind.TEXT, "82.5 %"),
]


@pytest.mark.parametrize(("shown_as", "value", "kind", "text"), FORMATS)
def test_a_number_is_read_with_what_its_format_says(
    shown_as: str, value: float, kind: CellKind, text: str
) -> None:
    book = workbook(HEAD, [ROW])
    cell = book["Sessions"]["G2"]
    cell.value, cell.number_format = value, shown_as
    found = sheets_in_xlsx(saved(book), "block.xlsx")

    assert isinstance(found, tuple)
    read = found[1].rows[1][7]
    assert (read.kind, read.text) == (kind, text)


def test_an_apostrophe_that_kept_a_date_from_becoming_one_is_no_part_of_the_text() -> None:
    book = workbook(HEAD, [ROW[:6]])
    book["Sessions"]["F2"].value = "'8-10"
    result = read_block(saved(book), "block.xlsx")

    assert isinstance(result, BlockFile)
    assert str(result.block.days[0].lines[0].prescription.dose.reps) == "8-10"


def test_a_row_that_is_not_shown_is_read_and_said() -> None:
    book = workbook(HEAD, [(*ROW[:6], "80 kg"), ("Push", "B", "Barbell row", None, 3, 8)])
    book["Sessions"].row_dimensions[3].hidden = True
    result = read_block(saved(book), "block.xlsx")

    assert isinstance(result, BlockFile)
    assert len(result.block.days[0].lines) == 2
    assert [found.facts for found in result.warnings if found.code == "rows_hidden"] == [{"rows": "3"}]


def renamed(block: str, sessions: str) -> Workbook:
    book = workbook(HEAD, [(*ROW[:6], "80 kg"), ("Push", "B", "Barbell row", None, 3, 8)])
    book["Block"].title, book["Sessions"].title = block, sessions
    return book


@pytest.mark.parametrize(("block", "sessions"), [("block ", "WORKOUTS"), ("Training block", "Sheet2")])
def test_sheets_by_other_names_are_found(block: str, sessions: str) -> None:
    result = read_block(saved(renamed(block, sessions)), "block.xlsx")

    assert isinstance(result, BlockFile)
    assert [found for found in result.warnings if found.place.sheet] == []


def test_a_sheet_that_may_hold_the_table_and_is_too_large_is_not_looked_into() -> None:
    book = renamed("Block", "Sheet2")
    book["Sheet2"].cell(MOST_ROWS + 1, 1).value = "far"
    result = read_block(saved(book), "block.xlsx")

    assert isinstance(result, list)
    assert [found.code for found in result] == ["sheet_missing", "sheet_not_read"]
