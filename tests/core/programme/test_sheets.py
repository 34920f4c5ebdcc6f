import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils import get_column_letter

from core.programme.sheets import Cell, CellKind, Merge, letters, row_number, rows_of


@given(st.integers(1, 16384))
def test_letters_of_a_column_are_those_of_spreadsheets(column: int) -> None:
    assert letters(column) == get_column_letter(column)


@pytest.mark.parametrize(("row", "column", "address"), [(7, 6, "F7"), (1, 27, "AA1")])
def test_a_cell_knows_its_address(row: int, column: int, address: str) -> None:
    assert Cell(row, column, CellKind.TEXT, "x").address == address


def test_merged_cells_know_their_address() -> None:
    assert Merge(2, 5, 1, 3).address == "A2:C5"


def test_cells_are_put_in_rows_and_columns() -> None:
    cells = [Cell(3, 2, CellKind.TEXT, "c"), Cell(1, 4, CellKind.TEXT, "b"), Cell(1, 2, CellKind.TEXT, "a")]
    rows = rows_of(cells)

    assert [[cell.text for cell in row.values()] for row in rows] == [["a", "b"], ["c"]]
    assert [row_number(row) for row in rows] == [1, 3]
