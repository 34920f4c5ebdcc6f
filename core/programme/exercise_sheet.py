"""The sheet `My exercises`: its headings, and its rows. A row for each exercise that a coach adds to ours."""

from collections.abc import Sequence

from core.programme import session_sheet
from core.programme.block import weeks_text
from core.programme.folding import words_of
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, Sheet, row_number
from core.programme.table import Row, columns_in, unnamed_columns
from core.programme.written_names import WrittenNames

SHEET = "My exercises"
NAME = "Exercise"
ALSO = "Other names"
PATTERN = "Pattern"
COUNTED = "Load counted"
IMPLEMENT = "Lifted with"
EACH_SIDE = "A side at a time"
TIMED = "Timed"
MAIN = "Main lift"
MUSCLES = "Muscles"
HELPING = "Helping muscles"
SITES = "Loads"
SAFETIES = "Needs safeties"
NEEDS = "Needs"
EQUALS = "Equals"
STEP = "Step"
CUE = "Cue"
CLIP = "Clip"
COLUMNS = (
    *(NAME, ALSO, PATTERN, COUNTED, IMPLEMENT, EACH_SIDE, TIMED, MAIN, MUSCLES, HELPING),
    *(SITES, SAFETIES, NEEDS, EQUALS, STEP, CUE, CLIP),
)
"""Headings as they are to be written, in any order."""
NEEDED = (NAME, PATTERN, COUNTED, IMPLEMENT)
"""Columns that no row can do without."""

TABS = WrittenNames((SHEET,), {SHEET: ("Own exercises", "My own exercises", "Our exercises")})
"""What the sheet is called."""

HEADINGS = WrittenNames(
    COLUMNS,
    {
        NAME: ("Name", "Movement", "Lift", "Exercise name"),
        ALSO: ("Other name", "Also written", "Also called", "Aliases", "Alias"),
        PATTERN: ("Movement pattern",),
        COUNTED: ("Load is counted", "Its load is counted", "Counted", "Load counted as"),
        IMPLEMENT: ("Implement", "Equipment", "Done with", "With"),
        EACH_SIDE: ("Each side", "Per side", "One side at a time", "Unilateral"),
        TIMED: ("By time", "In seconds", "Counted in seconds"),
        MAIN: ("Main",),
        MUSCLES: ("Muscle", "Main muscles", "Muscles trained"),
        HELPING: ("Helpers", "Secondary muscles", "Muscles that help"),
        SITES: ("Sites", "Loads sites", "Sites loaded", "Joints"),
        SAFETIES: ("Safeties", "Safety arms", "Needs a spotter"),
        NEEDS: ("Stations", "Also needs"),
        EQUALS: ("Equal", "Alternatives", "Instead"),
        STEP: ("Usual step", "Step up", "Increment"),
        CUE: ("Coaching cue", "Coaching point", "Note", "Notes"),
        CLIP: ("Video", "Film", "Link", "URL", "Demo"),
    },
)
"""Headings of the table, with the trade's other words for them."""

EXAMPLE = "example"
"""How the name of a row begins that only shows how it is done; it is not read."""
_BESIDE_PATTERN = 2
"""Headings beside the pattern that a row needs to be taken for the header."""


def is_exercise_table(sheet: Sheet) -> bool:
    """Return whether a sheet is a table of a coach's exercises, by its name or by its headings."""
    return TABS.named(sheet.name) is not None or (
        _header_index(sheet) is not None and not _is_session_table(sheet)
    )


def exercise_rows(sheet: Sheet, problems: list[Problem]) -> tuple[Row, ...]:
    """Return the rows under the header but for examples; what is wrong with the header is added to `problems`.

    No row is returned where a needed column is missing, since each would only repeat it.
    """
    here = Place(sheet=sheet.name or None)
    at = _header_index(sheet) or 0
    if not sheet.rows:
        problems.append(problem(Code.OWN_NO_ROWS, here))
        return ()
    header = sheet.rows[at]
    columns = columns_in(sheet, header, HEADINGS, problems)
    problems += unnamed_columns(sheet, header)
    missing = [heading for heading in NEEDED if heading not in columns]
    place = Place(sheet=sheet.name or None, row=row_number(header))
    problems.extend(problem(Code.COLUMN_MISSING, place, column=heading) for heading in missing)
    if missing:
        return ()
    _merged(sheet, header, problems)
    rows = [_row(sheet, cells, columns) for cells in sheet.rows[at + 1 :]]
    read = tuple(row for row in rows if row.cells and not _is_example(row))
    if not read:
        problems.append(problem(Code.OWN_NO_ROWS, here))
    hidden = [row.number for row in read if row.number in sheet.hidden_rows]
    if hidden:
        problems.append(problem(Code.ROWS_HIDDEN, here, rows=weeks_text(hidden)))
    return read


def _header_index(sheet: Sheet) -> int | None:
    for index, row in enumerate(sheet.rows):
        named = {HEADINGS.named(cell.text) for cell in row.values()} - {None}
        if PATTERN in named and len(named) > _BESIDE_PATTERN:
            return index
    return None


def _is_session_table(sheet: Sheet) -> bool:
    at = session_sheet.header_index(sheet)
    named = (
        {session_sheet.HEADINGS.named(cell.text) for cell in sheet.rows[at].values()}
        if at is not None
        else {}
    )
    return session_sheet.DAY in named or session_sheet.ORDER in named


def _merged(sheet: Sheet, header: dict[int, Cell], problems: list[Problem]) -> None:
    for merge in sheet.merges:
        if merge.last_row > row_number(header):
            place = Place(sheet=sheet.name or None, row=merge.first_row, cell=merge.address.split(":")[0])
            problems.append(problem(Code.MERGED, place, cells=merge.address))


def _row(sheet: Sheet, cells: dict[int, Cell], columns: dict[str, int]) -> Row:
    named = {heading: cells[column] for heading, column in columns.items() if column in cells}
    return Row(sheet, row_number(cells), columns, named)


def _is_example(row: Row) -> bool:
    """True for a row that only shows how it is done, and for the header once more, as on a printed page."""
    words: Sequence[str] = words_of(row.cells[NAME].text)[:1] if NAME in row.cells else ()
    again = all(HEADINGS.named(cell.text) == heading for heading, cell in row.cells.items())
    return tuple(words) == (EXAMPLE,) or again
