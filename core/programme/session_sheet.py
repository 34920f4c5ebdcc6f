"""The sheet `Sessions`: a header, and a row for each prescription."""

import re
from dataclasses import replace

from core.programme.block import weeks_text
from core.programme.block_sheet import day_key
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, CellKind, Merge, Sheet, row_number
from core.programme.table import Row, columns_in, unnamed_columns
from core.programme.written_names import WrittenNames

SHEET = "Sessions"
DAY, ORDER, EXERCISE, WEEKS, SETS, REPS, LOAD = "Day", "Order", "Exercise", "Weeks", "Sets", "Reps", "Load"
LEFT, REST, TEMPO, CUE, INSTEAD, LINK = "Reps left", "Rest", "Tempo", "Cue", "Instead", "Link"
WAY = "Way up"
COLUMNS = (DAY, ORDER, EXERCISE, WEEKS, SETS, REPS, LOAD, LEFT, REST, TEMPO, CUE, INSTEAD, LINK, WAY)
"""Headings as they are to be written, in any order."""
NEEDED = (DAY, ORDER, EXERCISE, SETS, REPS)
"""Columns that no row can do without."""

HEADINGS = WrittenNames(
    COLUMNS,
    {
        DAY: ("Session", "Training day", "Session day", "Workout"),
        ORDER: ("No.", "Nr.", "Number", "#", "Position"),
        EXERCISE: ("Movement", "Lift", "Exercise name", "Drill"),
        WEEKS: ("Week", "Wk", "In weeks", "Week numbers"),
        SETS: ("Set", "Number of sets", "Working sets", "Work sets"),
        REPS: ("Rep", "Repetitions", "Reps or time", "Reps per set", "Reps a set"),
        LOAD: ("Weight", "Working weight", "Resistance"),
        LEFT: ("RIR", "In reserve", "Reps in reserve", "RPE"),
        REST: ("Rest between sets", "Rest time"),
        TEMPO: ("Cadence",),
        WAY: ("Progression", "Progress", "How to progress", "Next step"),
        CUE: ("Notes", "Note", "Coaching cue", "Coaching note", "Comment", "Remark", "Coaching point"),
        INSTEAD: ("Alternative", "Swap", "Substitute", "Substitution", "Alternative exercise"),
        LINK: ("Video", "Clip", "Video link", "URL", "Film", "Demo"),
    },
)
"""Headings of the table, with the trade's other words for them."""

_EFFORT = "RPE"
_BARE_NUMBER = re.compile(r"\d{1,2}(?:[.,]\d)?(?: ?[-–] ?\d{1,2}(?:[.,]\d)?)?")

_NAMED_ENOUGH = 3
"""Headings that a row needs to be taken for the header. A title may stand over it."""


def session_rows(sheet: Sheet, problems: list[Problem]) -> tuple[Row, ...]:
    """Return the rows under the header; what is wrong with the header is added to `problems`.

    No row is returned where a needed column is missing, since each row would only repeat it.
    """
    if not sheet.rows:
        problems.append(problem(Code.NO_ROWS, Place(sheet=sheet.name or None)))
        return ()
    at = header_index(sheet) or 0
    columns = columns_in(sheet, sheet.rows[at], HEADINGS, problems)
    problems += unnamed_columns(sheet, sheet.rows[at])
    missing = [heading for heading in NEEDED if heading not in columns]
    problems.extend(
        problem(
            Code.COLUMN_MISSING,
            Place(sheet=sheet.name or None, row=row_number(sheet.rows[at])),
            column=heading,
        )
        for heading in missing
    )
    if missing:
        return ()
    below = [row for row in _days_filled(sheet, at, columns, problems) if not _is_header(row, columns)]
    if not below:
        problems.append(problem(Code.NO_ROWS, Place(sheet=sheet.name or None)))
    hidden = [row_number(row) for row in below if row_number(row) in sheet.hidden_rows]
    if hidden:
        problems.append(problem(Code.ROWS_HIDDEN, Place(sheet=sheet.name or None), rows=weeks_text(hidden)))
    heading = sheet.rows[at][columns[LEFT]].text if LEFT in columns else LEFT
    return tuple(_row(sheet, cells, columns, heading) for cells in below)


def under(heading: str, text: str) -> str:
    """Return the text of a cell with what its heading says of it: under RPE a bare 8 is `RPE 8`, and no 8 left."""
    effort = heading.strip().upper() == _EFFORT
    return f"{_EFFORT} {text}" if effort and _BARE_NUMBER.fullmatch(text) else text


def _row(sheet: Sheet, cells: dict[int, Cell], columns: dict[str, int], left: str) -> Row:
    """Return a row; `left` is the heading that is written over what is left."""
    named = {heading: cells[column] for heading, column in columns.items() if column in cells}
    if LEFT in named and (said := under(left, named[LEFT].text)) != named[LEFT].text:
        named[LEFT] = replace(named[LEFT], kind=CellKind.TEXT, text=said)
    return Row(sheet, row_number(cells), columns, named)


def header_index(sheet: Sheet) -> int | None:
    """Return which of the rows is the header; None when none has enough headings."""
    for index, row in enumerate(sheet.rows):
        named = {HEADINGS.named(cell.text) for cell in row.values()} - {None}
        if len(named) >= _NAMED_ENOUGH:
            return index
    return None


def _is_header(row: dict[int, Cell], columns: dict[str, int]) -> bool:
    """True when a row is the header once more, as at the head of a printed page."""
    said = {column: HEADINGS.named(cell.text) for column, cell in row.items()}
    return len(said) >= _NAMED_ENOUGH and all(
        heading is not None and columns.get(heading) == column for column, heading in said.items()
    )


def _days_filled(
    sheet: Sheet, at: int, columns: dict[str, int], problems: list[Problem]
) -> list[dict[int, Cell]]:
    """Return the rows under the header with a day that was merged over several written into each.

    A merged day can only mean one thing; any other merged cells are a problem.
    """
    rows = [dict(row) for row in sheet.rows[at + 1 :]]
    header_row = row_number(sheet.rows[at])
    for merge in sheet.merges:
        if merge.last_row <= header_row:
            continue
        if not merge.first_column == merge.last_column == columns[DAY]:
            heading = next((name for name, number in columns.items() if number == merge.first_column), None)
            cell = merge.address.split(":")[0]
            place = Place(sheet=sheet.name or None, row=merge.first_row, column=heading, cell=cell)
            problems.append(problem(Code.MERGED, place, cells=merge.address))
            continue
        fill(rows, merge)
    return [dict(sorted(row.items())) for row in rows]


def fill(rows: list[dict[int, Cell]], merge: Merge) -> None:
    """Write what stands in cells that were merged down a column into each of them."""
    column = merge.first_column
    inside = [row for row in rows if merge.first_row <= row_number(row) <= merge.last_row]
    first = next((row[column] for row in inside if column in row), None)
    if first is None:
        return
    for row in inside:
        row[column] = Cell(row_number(row), column, first.kind, first.text)


def rows_by_day(rows: tuple[Row, ...]) -> set[str]:
    """Return the keys of the days that any row names, whatever else is wrong with it."""
    return {day_key(row.cells[DAY].text) for row in rows if DAY in row.cells}
