"""Tables as a spreadsheet: numbers are numbers, dates are dates, and what somebody typed is never run."""

from datetime import date
from decimal import Decimal
from io import BytesIO

import pytest
from offices import OFFICES, opened_and_saved
from openpyxl import load_workbook

from bot.files.report_xlsx import Table, tables_xlsx

EVIL = ("=1+1", "+1", "-1", "@SUM(A1)", '=HYPERLINK("http://example.org")', "#N/A", "8-10", "0110")


@pytest.mark.parametrize("office", OFFICES)
def test_what_was_typed_stays_text(office: str) -> None:
    made = tables_xlsx([Table("Said", ("What",), [(each,) for each in EVIL])])

    book = load_workbook(BytesIO(opened_and_saved(office, {"a.xlsx": made})["a.xlsx"]))

    cells = [row[0] for row in book["Said"].iter_rows(min_row=2)]
    assert [str(each.value) for each in cells] == list(EVIL)
    assert {each.data_type for each in cells} == {"s"}


def test_numbers_and_dates_are_such_and_nothing_is_an_empty_cell() -> None:
    rows = [(1, Decimal("92.5"), date(2026, 4, 7), None, "a\nb", "x" * 80)]
    made = tables_xlsx([Table("N" * 40, ("A", "B", "C", "D", "E", "F"), rows)])

    (tab,) = load_workbook(BytesIO(made)).worksheets

    assert tab.title == "N" * 31
    assert [tab.cell(2, column).value for column in range(1, 5)][:2] == [1, 92.5]
    assert tab["C2"].value.date() == date(2026, 4, 7)
    assert (tab["D2"].value, tab["E2"].value) == (None, "a b")
    assert tab.freeze_panes == "A2"
    assert tab.column_dimensions["F"].width == 60


def test_the_same_tables_are_the_same_bytes() -> None:
    tables = [Table("A", ("B",), [(1,)])]

    assert tables_xlsx(tables) == tables_xlsx(tables)
