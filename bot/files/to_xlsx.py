"""A block's sheets as an xlsx file that is pleasant to open on a phone and on a laptop.

What a person wrote stays text: nothing that begins like a formula is one, and nothing becomes a date. The same sheets
are the same bytes at any time. The library takes a third of a second to load: it is imported where it writes.
"""

import re
import textwrap
import zipfile
from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING

from bot.files.spreadsheet_values import guarded, unguarded
from bot.files.texts import one_line
from core.programme import session_sheet as table
from core.programme.sheets import Cell, CellKind, Sheet, letters, row_number
from core.units import plain

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell as FileCell
    from openpyxl.cell.cell import MergedCell
    from openpyxl.styles import Font
    from openpyxl.worksheet.worksheet import Worksheet

WIDTHS = {
    table.DAY: 14,
    table.ORDER: 7,
    table.EXERCISE: 26,
    table.WEEKS: 9,
    table.SETS: 18,
    table.REPS: 13,
    table.LOAD: 15,
    table.LEFT: 10,
    table.REST: 9,
    table.TEMPO: 8,
    table.WAY: 22,
    table.CUE: 34,
    table.INSTEAD: 30,
    table.LINK: 24,
}
"""Width of each column. [characters]"""
OTHER_WIDTH, LABEL_WIDTH, VALUE_WIDTH = 24, 24, 22
AS_TEXT = "@"
"""The number format that leaves a cell as it is typed."""

_MADE_ON = "2000-01-01T00:00:00Z"
_ZIP_TIME = (1980, 1, 1, 0, 0, 0)
_STAMP = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*")
_LONG = frozenset({table.WAY, table.CUE, table.INSTEAD})
_LINE_HEIGHT = 15
"""Height of a line of text. [pt]"""


@cache
def bold() -> "Font":
    """Return the letters of headings."""
    from openpyxl.styles import Font

    return Font(name="Calibri", size=11, bold=True)


def to_xlsx(sheets: Sequence[Sheet]) -> bytes:
    """Return sheets as a file."""
    return packed(workbook_of(sheets))


def workbook_of(sheets: Sequence[Sheet]) -> "Workbook":
    """Return sheets as a workbook, each cell where it stands."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for sheet in sheets:
        tab = book.create_sheet(sheet.name or None)
        for row in sheet.rows:
            for cell in row.values():
                write(tab, cell)
        dress(tab, sheet)
    return book


def write(tab: "Worksheet", cell: Cell) -> None:
    """Write one cell; whatever is not a plain number is text."""
    made = tab.cell(cell.row, cell.column)
    text = one_line(cell.text)
    number = _number(text) if cell.kind is CellKind.NUMBER else None
    if number is not None:
        made.value = number
        return
    made.value = text if unguarded(text) == text else f"'{text}"
    # The library makes a formula of a leading "=" and an error of "#N/A"; both are what somebody typed.
    made.data_type = "s"
    made.number_format = AS_TEXT
    made.quotePrefix = guarded(text) != text
    if cell.link is not None:
        made.hyperlink = cell.link


def _number(text: str) -> Decimal | None:
    """Return a number that is read back as the same text; None for `0110` and for more digits than a file keeps."""
    value = Decimal(text)
    return value if text.isascii() and plain(Decimal(repr(float(value)))) == text else None


def dress(tab: "Worksheet", sheet: Sheet) -> None:
    """Make a sheet pleasant to look at."""
    at = table.header_index(sheet)
    set_page(tab)
    if at is None:
        _dress_lines(tab)
        return
    for row in tab.iter_rows(max_row=row_number(sheet.rows[at]) - 1, max_col=1):
        row[0].font = bold()
    _dress_table(tab, sheet.rows[at])


def _dress_lines(tab: "Worksheet") -> None:
    from openpyxl.styles import Alignment

    tab.column_dimensions["A"].width = LABEL_WIDTH
    for column in range(2, max(tab.max_column, 2) + 1):
        tab.column_dimensions[letters(column)].width = VALUE_WIDTH
    for row in tab.iter_rows(max_col=1):
        row[0].font = bold()
    for row in tab.iter_rows(min_col=2):
        for cell in row:
            cell.alignment = Alignment(horizontal="left")


def set_page(tab: "Worksheet") -> None:
    """Have a sheet printed across the width of a page."""
    from openpyxl.worksheet.properties import PageSetupProperties

    tab.page_setup.orientation = "landscape"
    tab.page_setup.fitToHeight = 0
    tab.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)


def wrap(tab: "Worksheet", row: int, columns: Iterable[int]) -> None:
    """Break the texts of some cells of a row into lines, and make the row as high as they need.

    Not every spreadsheet makes a row higher by itself when it opens a file.
    """
    from openpyxl.styles import Alignment

    lines = 1
    for column in columns:
        cell = tab.cell(row, column)
        cell.alignment = Alignment(wrap_text=True, vertical="top")
        width = tab.column_dimensions[letters(column)].width
        lines = max(lines, len(textwrap.wrap(str(cell.value or ""), max(int(width) - 1, 1))))
    if lines > 1:
        tab.row_dimensions[row].height = lines * _LINE_HEIGHT


def _dress_table(tab: "Worksheet", header: dict[int, Cell]) -> None:
    number = row_number(header)
    for column, cell in header.items():
        heading = table.HEADINGS.named(cell.text)
        dress_heading(tab.cell(number, column))
        dimension = tab.column_dimensions[letters(column)]
        dimension.width = WIDTHS.get(heading or "", OTHER_WIDTH)
        # For what is typed later: a spreadsheet makes dates and times of `8-10` and `2:30`.
        dimension.number_format = AS_TEXT
    long = [column for column, cell in header.items() if table.HEADINGS.named(cell.text) in _LONG]
    for row in range(number + 1, tab.max_row + 1):
        wrap(tab, row, long)
    tab.freeze_panes = f"A{number + 1}"
    tab.print_title_rows = f"{number}:{number}"


def dress_heading(cell: "FileCell | MergedCell") -> None:
    """Make a heading stand out."""
    from openpyxl.styles import Alignment, Border, PatternFill, Side

    cell.font = bold()
    cell.fill = PatternFill("solid", fgColor="FFE7ECEF")
    cell.border = Border(bottom=Side("thin", color="FF8A979E"))
    cell.alignment = Alignment(vertical="center")


def packed(book: "Workbook") -> bytes:
    """Return a workbook's bytes, without the time at which it was made."""
    book.properties.creator = "Plimsoll"
    stream, again = BytesIO(), BytesIO()
    book.save(stream)
    with zipfile.ZipFile(stream) as made, zipfile.ZipFile(again, "w", zipfile.ZIP_DEFLATED) as archive:
        for part in made.infolist():
            content = made.read(part)
            if part.filename == "docProps/core.xml":
                content = _STAMP.sub(rb"\g<1>" + _MADE_ON.encode(), content)
            entry = zipfile.ZipInfo(part.filename, _ZIP_TIME)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, content)
    return again.getvalue()
