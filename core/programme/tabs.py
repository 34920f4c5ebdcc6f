"""Which sheet of a file is which: the block's lines, the table of sessions, and what is not read.

Both may stand on one sheet, the lines above the table, as they do in a csv file.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.programme import block_sheet, session_sheet
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Sheet, row_number
from core.programme.written_names import WrittenNames

TABS = WrittenNames(
    (block_sheet.SHEET, session_sheet.SHEET),
    {
        block_sheet.SHEET: ("Training block", "Block info", "About the block", "Programme", "Program"),
        session_sheet.SHEET: ("Training sessions", "Training", "Workouts", "Session days", "Days"),
    },
)
"""Sheets that are read."""

NO_NAME = ""
"""Name of the only sheet of a file whose format has none, such as csv."""

HOW_TO, EXERCISES, CLIENTS = "How to fill this in", "Exercise names", "Client names"
BESIDE = WrittenNames((HOW_TO, EXERCISES, CLIENTS), {})
"""Sheets of the forms that teach and are not read."""


@dataclass(frozen=True, slots=True)
class Tabs:
    """The sheets of a file by what they are for.

    Attributes:
        block: Lines of the block; None when there is no such sheet.
        sessions: The table; None when there is none.
        problems: What is wrong with the sheets as a whole.
    """

    block: Sheet | None
    sessions: Sheet | None
    problems: tuple[Problem, ...]


def tabs_in(sheets: Sequence[Sheet]) -> Tabs:
    """Return which sheet is which."""
    # A table that is called Block is still a table.
    lines = [sheet for sheet in sheets if session_sheet.header_index(sheet) is None]
    block, sessions = _called(lines, block_sheet.SHEET), _called(sheets, session_sheet.SHEET)
    others = [sheet for sheet in sheets if sheet not in (block, sessions) and _may_hold(sheet)]
    if sessions is None:
        tables = [sheet for sheet in others if session_sheet.header_index(sheet) is not None]
        sessions = tables[0] if len(tables) == 1 else None
    if sessions is None and any(sheet.name == NO_NAME for sheet in sheets):
        return Tabs(None, None, (problem(Code.TABLE_MISSING, Place()),))
    read = {sheet.name for sheet in (block, sessions) if sheet is not None}
    if block is None and sessions is not None and (others == [sessions] or _labels_above(sessions)):
        block, sessions = _parted(sessions)
    missing = [
        _missing(name, sheets)
        for name, found in ((block_sheet.SHEET, block), (session_sheet.SHEET, sessions))
        if found is None
    ]
    unread = [
        problem(Code.SHEET_NOT_READ, Place(sheet=sheet.name), name=sheet.name)
        for sheet in others
        if sheet.name not in read
    ]
    return Tabs(block, sessions, (*missing, *unread))


def _called(sheets: Sequence[Sheet], name: str) -> Sheet | None:
    """Return the sheet of this name; one that is called so outright before one by another word for it."""
    named = [sheet for sheet in sheets if TABS.named(sheet.name) == name]
    return min(named, key=lambda sheet: sheet.name.casefold() != name.casefold(), default=None)


def _may_hold(sheet: Sheet) -> bool:
    return bool(sheet.rows) and BESIDE.named(sheet.name) is None


def _missing(name: str, sheets: Sequence[Sheet]) -> Problem:
    near = [sheet.name for sheet in sheets if name in TABS.near(sheet.name).split("; ")]
    near = [sheet for sheet in near if TABS.named(sheet) is None]
    found = ", ".join(sheet.name for sheet in sheets)
    return problem(
        Code.SHEET_MISSING, Place(sheet=name), sheet=name, found=found, suggestions="; ".join(near)
    )


def _labels_above(sheet: Sheet) -> bool:
    above = sheet.rows[: session_sheet.header_index(sheet) or 0]
    return any(block_sheet.LINES.named(cell.text) for row in above for cell in row.values())


def _parted(sheet: Sheet) -> tuple[Sheet, Sheet]:
    """Return the lines above a table and the table, where both stand on one sheet."""
    at = session_sheet.header_index(sheet) or 0
    first = row_number(sheet.rows[at]) if sheet.rows else 1
    above = tuple(merge for merge in sheet.merges if merge.first_row < first)
    below = tuple(merge for merge in sheet.merges if merge.first_row >= first)
    return (
        replace(sheet, rows=sheet.rows[:at], merges=above),
        replace(sheet, rows=sheet.rows[at:], merges=below),
    )
