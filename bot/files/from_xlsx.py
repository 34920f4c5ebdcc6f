"""A coach's block from an xlsx file: limits first, then the cells, then the grammar.

Nothing in the file is run: a formula is a problem that says to paste its value.
"""

import warnings
from collections.abc import Iterator, Mapping
from datetime import date, time, timedelta
from decimal import Decimal
from io import BytesIO
from typing import TYPE_CHECKING

from openpyxl import load_workbook

from bot.files.workbook_limits import limit_problem, open_problem
from core.programme import block_sheet, session_sheet
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.folding import folded
from core.programme.problems import Code, Place, Problem, problem
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of
from core.units import plain

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell as FileCell
    from openpyxl.cell.cell import MergedCell
    from openpyxl.worksheet.worksheet import Worksheet

_READ = frozenset({folded(block_sheet.SHEET), folded(session_sheet.SHEET)})


def read_block(
    content: bytes, name: str, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> BlockFile | list[Problem]:
    """Return the block in a file, or every problem of it.

    Args:
        content: The file.
        name: What its sender calls it.
        catalogue: Exercises that may be named.
    """
    refused = open_problem(content, name)
    if refused is not None:
        return [refused]
    try:
        workbook = _opened(content)
    except Exception:  # noqa: BLE001 - a broken file breaks openpyxl in many ways; all mean the same to its sender
        return [problem(Code.FILE_DAMAGED, Place(), name=name)]
    too_much = limit_problem(workbook)
    if too_much is not None:
        return [too_much]
    return block_from_sheets([_sheet(tab) for tab in workbook.worksheets], catalogue)


def _opened(content: bytes) -> "Workbook":
    with warnings.catch_warnings():
        # openpyxl warns of every part that it leaves out; none of them is read here.
        warnings.simplefilter("ignore")
        return load_workbook(BytesIO(content), data_only=False, keep_links=False)


def _sheet(tab: "Worksheet") -> Sheet:
    if folded(tab.title) not in _READ:
        used = tab.max_row > 1 or tab.max_column > 1 or tab["A1"].value is not None
        return Sheet(tab.title, ({1: Cell(1, 1, CellKind.TEXT, "-")},) if used else ())
    merges = tuple(
        Merge(merged.min_row, merged.max_row, merged.min_col, merged.max_col)
        for merged in tab.merged_cells.ranges
    )
    return Sheet(tab.title, rows_of(_cells(tab)), tuple(sorted(merges, key=lambda one: one.first_row)))


def _cells(tab: "Worksheet") -> Iterator[Cell]:
    for row in tab.iter_rows():
        for file_cell in row:
            cell = _cell(file_cell)
            if cell is not None:
                yield cell


def _cell(found: "FileCell | MergedCell") -> Cell | None:
    """Return a cell as a plain value; None when it holds nothing that can be seen."""
    if found.value is None:
        return None
    kind, text = _kind_and_text(found)
    if not text:
        return None
    link = found.hyperlink.target if found.hyperlink is not None else None
    return Cell(found.row, found.column, kind, text, link)


def _kind_and_text(found: "FileCell | MergedCell") -> tuple[CellKind, str]:
    value = found.value
    if found.data_type == "f":
        return CellKind.FORMULA, value if isinstance(value, str) else getattr(value, "text", "a data table")
    if found.data_type == "e":
        return CellKind.ERROR, str(value)
    if isinstance(value, (date, time, timedelta)):
        return _moment(value)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return CellKind.NUMBER, plain(Decimal(repr(value)))
    return CellKind.TEXT, " ".join(str(value).split())


def _moment(value: date | time | timedelta) -> tuple[CellKind, str]:
    """Return what the spreadsheet made a date or a time of; a `datetime` is a date too."""
    if isinstance(value, date):
        return CellKind.DATE, value.isoformat()[:10]
    if isinstance(value, time):
        return CellKind.TIME, f"{value.hour}:{value.minute:02}:{value.second:02}"
    minutes, seconds = divmod(round(value.total_seconds()), 60)
    return CellKind.TIME, f"{minutes // 60}:{minutes % 60:02}:{seconds:02}"
