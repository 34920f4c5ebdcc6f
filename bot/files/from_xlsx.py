"""A workbook's sheets from xlsx: limits first, then the cells.

Nothing in the file is run: a formula is kept as typed, and is a problem that says to paste its value.
"""

import re
import warnings
from collections.abc import Iterator
from datetime import date, time, timedelta
from decimal import Decimal
from io import BytesIO
from typing import TYPE_CHECKING

from bot.files.spreadsheet_values import unguarded
from bot.files.texts import one_line
from bot.files.workbook_limits import archive_problem, sheets_problem, size_problem
from core.programme.exercise_sheet import TABS as OWN_EXERCISES
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of
from core.programme.tabs import BESIDE, TABS
from core.units import plain

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell.cell import Cell as FileCell
    from openpyxl.cell.cell import MergedCell
    from openpyxl.worksheet.worksheet import Worksheet

_SAID_BY_FORMAT = re.compile(r'"([^"]*)"')


def sheets_in_xlsx(content: bytes, name: str) -> tuple[Sheet, ...] | Problem:
    """Return the sheets of a workbook, or why it is not read.

    Args:
        content: The file; whoever calls has seen that it is an archive, and not too large.
        name: What its sender calls it.
    """
    refused = archive_problem(content, name)
    if refused is not None:
        return refused
    try:
        workbook = _opened(content)
    except Exception:  # noqa: BLE001 - a broken file breaks openpyxl in many ways; all mean the same to its sender
        return problem(Code.FILE_DAMAGED, Place(), name=name)
    return sheets_problem(workbook) or _sheets(workbook)


def _opened(content: bytes) -> "Workbook":
    from openpyxl import load_workbook

    with warnings.catch_warnings():
        # openpyxl warns of every part that it leaves out; none of them is read here.
        warnings.simplefilter("ignore")
        return load_workbook(BytesIO(content), data_only=False, keep_links=False)


def _sheets(workbook: "Workbook") -> tuple[Sheet, ...] | Problem:
    """Return every sheet; those that nobody will read only as used or not, of whatever size they are."""
    both = {TABS.named(tab.title) for tab in workbook.worksheets} >= {*TABS.ours}
    sheets = []
    for tab in workbook.worksheets:
        named = TABS.named(tab.title) is not None or OWN_EXERCISES.named(tab.title) is not None
        too_much = size_problem(tab)
        if named and too_much is not None:
            return too_much
        # The table may stand on a sheet by any name; where both have theirs, nothing else is looked at.
        read = named or (not both and too_much is None and BESIDE.named(tab.title) is None)
        sheets.append(_sheet(tab) if read else _unread(tab))
    return tuple(sheets)


def _unread(tab: "Worksheet") -> Sheet:
    used = tab.max_row > 1 or tab.max_column > 1 or tab["A1"].value is not None
    return Sheet(tab.title, ({1: Cell(1, 1, CellKind.TEXT, "-")},) if used else ())


def _sheet(tab: "Worksheet") -> Sheet:
    merges = tuple(
        Merge(merged.min_row, merged.max_row, merged.min_col, merged.max_col)
        for merged in tab.merged_cells.ranges
    )
    hidden = tuple(sorted(number for number, row in tab.row_dimensions.items() if row.hidden))
    rows = rows_of(_cells(tab))
    return Sheet(tab.title, rows, tuple(sorted(merges, key=lambda one: one.first_row)), hidden)


def _cells(tab: "Worksheet") -> Iterator[Cell]:
    for number, row in enumerate(tab.iter_rows(), 1):
        for column, found in enumerate(row, 1):
            if found.value is not None:
                kind, text = _kind_and_text(found)
                if text:
                    link = found.hyperlink.target if found.hyperlink is not None else None
                    yield Cell(number, column, kind, text, link)


def _kind_and_text(found: "FileCell | MergedCell") -> tuple[CellKind, str]:
    value = found.value
    if found.data_type == "f":
        return CellKind.FORMULA, value if isinstance(value, str) else getattr(value, "text", "a data table")
    if found.data_type == "e":
        return CellKind.ERROR, str(value)
    if isinstance(value, (date, time, timedelta)):
        return _moment(value)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return _number(Decimal(repr(value)), found.number_format)
    return CellKind.TEXT, unguarded(one_line(str(value)))


def _number(value: Decimal, shown_as: str) -> tuple[CellKind, str]:
    """Return a number as it is shown where its format adds a word or a percent sign to it: `80 kg`, `75 %`."""
    if shown_as == "General":
        return CellKind.NUMBER, plain(value)
    first = shown_as.split(";", maxsplit=1)[0]
    added = one_line("".join(_SAID_BY_FORMAT.findall(first)))
    if added:
        return CellKind.TEXT, f"{plain(value)} {added}"
    if "%" in first:
        return CellKind.TEXT, f"{plain(value * 100)} %"
    return CellKind.NUMBER, plain(value)


def _moment(value: date | time | timedelta) -> tuple[CellKind, str]:
    """Return what the spreadsheet made a date or a time of; a `datetime` is a date too."""
    if isinstance(value, date):
        return CellKind.DATE, value.isoformat()[:10]
    if isinstance(value, time):
        return CellKind.TIME, f"{value.hour}:{value.minute:02}:{value.second:02}"
    minutes, seconds = divmod(round(value.total_seconds()), 60)
    return CellKind.TIME, f"{minutes // 60}:{minutes % 60:02}:{seconds:02}"
