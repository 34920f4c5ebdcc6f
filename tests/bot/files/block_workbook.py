"""Blocks written to xlsx as a coach would type them; a helper of tests, and the inverse of reading."""

from collections.abc import Mapping, Sequence
from io import BytesIO

from openpyxl import Workbook

from bot.files.to_xlsx import to_xlsx
from core.programme.block import Block
from core.programme.block_sheet import DAYS, FIRST_DAY, NAME, UNIT, WEEKS
from core.programme.session_sheet import COLUMNS, WAY
from core.programme.writing import sheets_of

HEADINGS = tuple(heading for heading in COLUMNS if heading != WAY)
"""Columns that the files of the story have."""

Value = object
Rows = Sequence[Sequence[Value]]


def workbook(
    head: Mapping[str, Value], rows: Rows, columns: Sequence[str] = HEADINGS, **others: Rows
) -> Workbook:
    """Return a workbook with the sheets Block and Sessions, and others by name."""
    book = Workbook()
    block = book.active
    block.title = "Block"
    for label, value in head.items():
        block.append([label, value])
    sessions = book.create_sheet("Sessions")
    sessions.append(list(columns))
    for row in rows:
        sessions.append(list(row))
    for title, lines in others.items():
        sheet = book.create_sheet(title)
        for line in lines:
            sheet.append(list(line))
    return book


def saved(book: Workbook) -> bytes:
    """Return the bytes of a workbook."""
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def written(block: Block) -> bytes:
    """Return a block as an xlsx file."""
    return to_xlsx(sheets_of(block))


def head_of(
    name: str, weeks: Value, days: str, first: str = "Monday", unit: str | None = None
) -> dict[str, Value]:
    """Return what stands in the sheet Block."""
    head: dict[str, Value] = {NAME: name, WEEKS: weeks, FIRST_DAY: first, DAYS: days}
    return head if unit is None else {**head, UNIT: unit}
