"""Tables as an xlsx file: a report of a block, a training log. What a person wrote stays text, and is never run."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from bot.files.texts import one_line
from bot.files.to_xlsx import AS_TEXT, dress_heading, packed, set_page
from core.programme.sheets import letters

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell as FileCell
    from openpyxl.cell.cell import MergedCell

WIDEST, NARROWEST = 60, 8
"""Widths of columns. [characters]"""
LONGEST_NAME = 31
"""Longest name of a sheet that a spreadsheet takes. [characters]"""

CellValue = str | int | Decimal | date | None
"""What a cell may hold; a text that looks like a formula is a text."""


@dataclass(frozen=True, slots=True)
class Table:
    """A sheet.

    Attributes:
        name: Of the sheet, 1-31 characters.
        heads: Headings.
        rows: As many cells each as there are headings, or fewer.
    """

    name: str
    heads: tuple[str, ...]
    rows: Sequence[Sequence[CellValue]]


def tables_xlsx(tables: Sequence[Table]) -> bytes:
    """Return tables as a file, a sheet each; the same tables are the same bytes at any time."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for table in tables:
        tab = book.create_sheet(table.name[:LONGEST_NAME])
        set_page(tab)
        for column, head in enumerate(table.heads, 1):
            tab.cell(1, column, head)
            dress_heading(tab.cell(1, column))
        for number, row in enumerate(table.rows, 2):
            for column, value in enumerate(row, 1):
                _write(tab.cell(number, column), value)
        for column in range(1, len(table.heads) + 1):
            cells = (str(tab.cell(number, column).value or "") for number in range(1, tab.max_row + 1))
            width = max(len(each) for each in cells) + 2
            tab.column_dimensions[letters(column)].width = min(max(width, NARROWEST), WIDEST)
        tab.freeze_panes = "A2"
        tab.print_title_rows = "1:1"
    return packed(book)


def _write(cell: "FileCell | MergedCell", value: CellValue) -> None:
    """Write one cell; numbers and dates as such, and all else as text that is never run."""
    from openpyxl.styles import Alignment

    if value is None:
        return
    if isinstance(value, str):
        cell.value = one_line(value)
        # The library makes a formula of a leading "=" and an error of "#N/A"; both are what somebody typed.
        cell.data_type = "s"
        cell.number_format = AS_TEXT
        cell.quotePrefix = True
        cell.alignment = Alignment(wrap_text=len(value) > WIDEST, vertical="top")
        return
    cell.value = value
    if isinstance(value, date):
        cell.number_format = "yyyy-mm-dd"
