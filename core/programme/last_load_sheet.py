"""The sheet of last loads: a header, and a row for each client and exercise."""

from collections.abc import Mapping, Sequence

from core.programme import session_sheet
from core.programme.catalogue import CATALOGUE, named, suggestions
from core.programme.count_cells import count_of
from core.programme.date_cells import date_in
from core.programme.exercises import Exercise, Implement
from core.programme.folding import words_of
from core.programme.grammar import squeezed, text_in, typed
from core.programme.last_loads import (
    CLIENT,
    COLUMNS,
    DATE,
    EXERCISE,
    LOAD,
    MOST_REPS,
    NEEDED,
    REPS,
    UNIT,
    LastLoad,
    LastLoadRow,
    LastLoadsFile,
)
from core.programme.load_cells import load_in
from core.programme.prescription import Load, LoadKind
from core.programme.problems import Code, Place, Problem, problem
from core.programme.session_sheet import fill
from core.programme.sheets import Cell, Sheet, UnreadError, row_number
from core.programme.table import CellByCell, Row, columns_in
from core.programme.tabs import BESIDE
from core.programme.written_names import WrittenNames
from core.units import Unit

HEADINGS = WrittenNames(
    COLUMNS,
    {
        CLIENT: ("Name", "Athlete", "Who", "Person", "Trainee", "Member", "Client name"),
        EXERCISE: ("Movement", "Lift", "Exercise name"),
        LOAD: (
            *("Weight", "Working weight", "Resistance", "Last load", "Last weight"),
            *(f"{word} {unit}" for word in ("Load", "Weight") for unit in ("kg", "lb")),
        ),
        REPS: ("Rep", "Repetitions", "Reps done", "Last reps"),
        DATE: ("When", "Last date", "Done on", "Last done", "On"),
        UNIT: ("Load unit", "Unit of load", "kg or lb"),
    },
)
"""Headings of the table, with other words for them."""

NAMED_ENOUGH = 2
"""Headings beside the client's that a row needs to be taken for the header. Our proposal: no block's table has one for
clients."""
LONGEST_CLIENT = 80
"""Longest name of a client. [characters] As an invitation has it."""

_UNITS = {"kg": Unit.KG, "kilo": Unit.KG, "lb": Unit.LB, "pound": Unit.LB}
_OTHERWISE = {
    Code.LOAD_WITHOUT_UNIT: Code.LAST_LOAD_UNIT,
    **dict.fromkeys(
        (
            Code.LOAD_UNREADABLE,
            Code.LOAD_OR_PERCENT,
            Code.LOAD_DOWN,
            Code.PERCENT_OF,
            Code.PERCENT_OUTSIDE,
            Code.PERCENT_ON_BODYWEIGHT,
        ),
        Code.LAST_LOAD_UNREADABLE,
    ),
}
"""Problems of a block's load whose words speak of a block, and what they are here."""


def last_loads_in(
    sheets: Sequence[Sheet], catalogue: Mapping[str, Exercise] = CATALOGUE
) -> LastLoadsFile | None:
    """Return the last loads of a file with every problem of it; None where no sheet is a table of them.

    Args:
        sheets: Of one file, in its order.
        catalogue: Exercises that may be named.
    """
    headers = {sheet.name: _header_index(sheet) for sheet in sheets}
    if all(at is None for at in headers.values()):
        return None
    rows: list[LastLoadRow] = []
    problems: list[Problem] = []
    for sheet in sheets:
        at = headers[sheet.name]
        if at is not None:
            rows += _rows_of(sheet, at, catalogue, problems)
        elif sheet.rows and BESIDE.named(sheet.name) is None:
            problems.append(problem(Code.LAST_SHEET_UNREAD, Place(sheet=sheet.name), name=sheet.name))
    return LastLoadsFile(rows=tuple(rows), problems=tuple(problems))


def _header_index(sheet: Sheet) -> int | None:
    """Return which of the rows is the header of last loads; None where none is, as in a block's table."""
    for index, row in enumerate(sheet.rows):
        named_here = {HEADINGS.named(cell.text) for cell in row.values()} - {None}
        of_block = {session_sheet.HEADINGS.named(cell.text) for cell in row.values()}
        if of_block & {session_sheet.DAY, session_sheet.ORDER}:
            return None
        if CLIENT in named_here and len(named_here & set(NEEDED)) > NAMED_ENOUGH:
            return index
    return None


def _rows_of(
    sheet: Sheet, at: int, catalogue: Mapping[str, Exercise], problems: list[Problem]
) -> list[LastLoadRow]:
    """Return the rows under the header; none where a needed column is missing, since each would only repeat it."""
    header = sheet.rows[at]
    columns = columns_in(sheet, header, HEADINGS, problems, Code.LAST_COLUMN_UNREAD)
    place = Place(sheet=sheet.name or None, row=row_number(header))
    missing = [heading for heading in NEEDED if heading not in columns]
    problems += [problem(Code.COLUMN_MISSING, place, column=heading) for heading in missing]
    if missing:
        return []
    rows = [dict(row) for row in sheet.rows[at + 1 :]]
    for merge in sheet.merges:
        if merge.last_row <= row_number(header):
            continue
        if merge.first_column == merge.last_column == columns[CLIENT]:
            fill(rows, merge)
        else:
            where = Place(sheet=sheet.name or None, row=merge.first_row, cell=merge.address.split(":")[0])
            problems.append(problem(Code.MERGED, where, cells=merge.address))
    heading_unit = _UNITS.get(words_of(header[columns[LOAD]].text)[-1])
    found = []
    for cells in rows:
        held = {heading: cells[column] for heading, column in columns.items() if column in cells}
        if held and not all(HEADINGS.named(cell.text) == heading for heading, cell in held.items()):
            row = Row(sheet, row_number(cells), columns, held)
            found.append(_Reading(row, heading_unit, catalogue, problems).row_read())
    if not found:
        problems.append(problem(Code.LAST_NO_ROWS, Place(sheet=sheet.name or None)))
    return found


class _Reading(CellByCell):
    """Reads a row cell by cell and keeps the problems."""

    def __init__(
        self, row: Row, unit: Unit | None, catalogue: Mapping[str, Exercise], problems: list[Problem]
    ) -> None:
        super().__init__(row, problems)
        self.unit, self.catalogue = unit, catalogue

    def row_read(self) -> LastLoadRow:
        """The row, as far as it can be read."""
        client = self.needed(CLIENT, lambda cell: text_in(cell, LONGEST_CLIENT))
        exercise = self.needed(EXERCISE, self._exercise)
        unit = self.given(UNIT, _unit) or self.unit
        load = self.needed(LOAD, lambda cell: _load(cell, unit, exercise))
        reps = self.needed(REPS, _reps)
        on = self.needed(DATE, date_in)
        key = exercise.key if exercise is not None else None
        whole = None
        if key is not None and load is not None and reps is not None and on is not None:
            whole = LastLoad(exercise=key, load=load, reps=reps, on=on)
        places = {heading: self.row.place(heading) for heading in NEEDED}
        return LastLoadRow(client=client, exercise=key, on=on, load=whole, places=places)

    def _exercise(self, cell: Cell) -> Exercise:
        text = typed(cell)
        found = named(text, self.catalogue)
        if found is None:
            near = "; ".join(row.name for row in suggestions(text, catalogue=self.catalogue))
            raise UnreadError(Code.EXERCISE_UNKNOWN, written=text, suggestions=near)
        if found.timed or found.implement is Implement.BAND:
            raise UnreadError(Code.LAST_NO_LOAD, exercise=found.name)
        return found


def _unit(cell: Cell) -> Unit:
    words = words_of(typed(cell))
    unit = _UNITS.get(words[0]) if len(words) == 1 else None
    if unit is None:
        raise UnreadError(Code.UNIT_UNREADABLE, written=cell.text)
    return unit


def _load(cell: Cell, unit: Unit | None, exercise: Exercise | None) -> Load:
    try:
        load = load_in(cell, unit, exercise)
    except UnreadError as unread:
        if unread.code not in _OTHERWISE:
            raise
        raise UnreadError(_OTHERWISE[unread.code], written=cell.text) from None
    if load.kind not in (LoadKind.MASS, LoadKind.BODYWEIGHT):
        raise UnreadError(Code.LAST_LOAD_UNREADABLE, written=cell.text)
    return load


def _reps(cell: Cell) -> int:
    """Return one number of reps, whatever a spreadsheet or the writer has made of it besides."""
    try:
        count = count_of(squeezed(typed(cell)), cell.text)
    except UnreadError as unread:
        if unread.code in (Code.FORMULA, Code.CELL_ERROR):
            raise
        raise UnreadError(Code.LAST_REPS_UNREADABLE, written=cell.text) from None
    plain = count.span is not None and count.span.fixed and not (count.timed or count.metres or count.or_more)
    if count.span is None or not plain or count.span.low > MOST_REPS:
        raise UnreadError(Code.LAST_REPS_UNREADABLE, written=cell.text)
    return count.span.low
