"""The sheet `Sessions`: a header, and a row for each prescription."""

from dataclasses import dataclass

from core.programme.block_sheet import day_key
from core.programme.folding import folded
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, Merge, Sheet, letters, row_number

SHEET = "Sessions"
DAY, ORDER, EXERCISE, WEEKS, SETS, REPS, LOAD = "Day", "Order", "Exercise", "Weeks", "Sets", "Reps", "Load"
LEFT, REST, TEMPO, CUE, INSTEAD, LINK = "Reps left", "Rest", "Tempo", "Cue", "Instead", "Link"
COLUMNS = (DAY, ORDER, EXERCISE, WEEKS, SETS, REPS, LOAD, LEFT, REST, TEMPO, CUE, INSTEAD, LINK)
"""Headings as they are to be written, in any order."""
NEEDED = (DAY, ORDER, EXERCISE, SETS, REPS)
"""Columns that no row can do without."""

_NAMED_ENOUGH = 3
"""Headings that a row needs to be taken for the header. A title may stand over it."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row under the header.

    Attributes:
        sheet: Sheet it stands on.
        number: As the spreadsheet numbers it.
        columns: Number of each column by heading.
        cells: What it holds, by heading.
    """

    sheet: Sheet
    number: int
    columns: dict[str, int]
    cells: dict[str, Cell]

    def place(self, heading: str) -> Place:
        """Return where the cell under `heading` stands, empty or not."""
        address = f"{letters(self.columns[heading])}{self.number}"
        return Place(sheet=self.sheet.name, row=self.number, column=heading, cell=address)


def session_rows(sheet: Sheet, problems: list[Problem]) -> tuple[Row, ...]:
    """Return the rows under the header; what is wrong with the header is added to `problems`.

    No row is returned where a needed column is missing, since each row would only repeat it.
    """
    if not sheet.rows:
        problems.append(problem(Code.NO_ROWS, Place(sheet=sheet.name)))
        return ()
    at = _header_index(sheet)
    columns = _columns(sheet, at, problems)
    missing = [heading for heading in NEEDED if heading not in columns]
    problems.extend(
        problem(Code.COLUMN_MISSING, Place(sheet=sheet.name, row=row_number(sheet.rows[at])), column=heading)
        for heading in missing
    )
    if missing:
        return ()
    below = _days_filled(sheet, at, columns, problems)
    if not below:
        problems.append(problem(Code.NO_ROWS, Place(sheet=sheet.name)))
    return tuple(_row(sheet, cells, columns) for cells in below)


def _row(sheet: Sheet, cells: dict[int, Cell], columns: dict[str, int]) -> Row:
    named = {heading: cells[column] for heading, column in columns.items() if column in cells}
    return Row(sheet, row_number(cells), columns, named)


def _header_index(sheet: Sheet) -> int:
    known = {folded(heading) for heading in COLUMNS}
    for index, row in enumerate(sheet.rows):
        if len(known & {folded(cell.text) for cell in row.values()}) >= _NAMED_ENOUGH:
            return index
    return 0


def _columns(sheet: Sheet, at: int, problems: list[Problem]) -> dict[str, int]:
    known = {folded(heading): heading for heading in COLUMNS}
    columns: dict[str, int] = {}
    header = sheet.rows[at]
    for column, cell in header.items():
        heading = known.get(folded(cell.text))
        if heading is None:
            facts = {"written": cell.text, "known": ", ".join(COLUMNS)}
            problems.append(problem(Code.COLUMN_UNKNOWN, sheet.place(cell), **facts))
        elif heading in columns:
            problems.append(problem(Code.COLUMN_TWICE, sheet.place(cell, heading), written=cell.text))
        else:
            columns[heading] = column
    strays: dict[int, Cell] = {}
    for row in sheet.rows[at + 1 :]:
        for column, cell in row.items():
            if column not in header:
                strays.setdefault(column, cell)
    problems.extend(
        problem(Code.COLUMN_UNNAMED, sheet.place(cell), written=cell.text) for cell in strays.values()
    )
    return columns


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
            place = Place(sheet=sheet.name, row=merge.first_row, column=heading, cell=cell)
            problems.append(problem(Code.MERGED, place, cells=merge.address))
            continue
        _fill(rows, merge)
    return [dict(sorted(row.items())) for row in rows]


def _fill(rows: list[dict[int, Cell]], merge: Merge) -> None:
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
