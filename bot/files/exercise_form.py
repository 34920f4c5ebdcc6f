"""The form of a coach's own exercises: hers as they are, an example, lists to choose from and notes."""

from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from typing import TYPE_CHECKING

from bot.files.exercise_form_words import COLUMNS, EXAMPLE, STEPS
from bot.files.template import ROWS_WITH_LISTS, WRITE, choose, comment, how_to
from bot.files.to_xlsx import bold, packed, workbook_of
from core.programme import exercise_sheet as table
from core.programme.exercise_reading import is_own
from core.programme.exercise_writing import exercise_sheet
from core.programme.exercises import Basis, Exercise, Implement, Pattern, Site, Station
from core.programme.muscles import Muscle
from core.programme.sheets import letters
from core.programme.tabs import EXERCISES, HOW_TO

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

_LISTS: Mapping[str, type[StrEnum]] = {
    table.PATTERN: Pattern,
    table.COUNTED: Basis,
    table.IMPLEMENT: Implement,
    table.MUSCLES: Muscle,
    table.HELPING: Muscle,
    table.SITES: Site,
    table.NEEDS: Station,
}
"""What can be chosen under a heading; several are typed with commas between them."""
_YES_OR_NO = (table.EACH_SIDE, table.TIMED, table.MAIN, table.SAFETIES)
_WIDTHS = {table.NAME: 34, table.CUE: 40, table.EQUALS: 34, table.ALSO: 28, table.SITES: 34}
_NARROW = 16
_FIRST_ROW = 2


def exercise_form(catalogue: Mapping[str, Exercise]) -> bytes:
    """Return the file; the same bytes every time.

    Args:
        catalogue: Exercises that the coach may name; her own stand in the form.
    """
    from openpyxl.styles import Font

    own = [one for one in catalogue.values() if is_own(one) and not one.retired]
    book = workbook_of([exercise_sheet(own, catalogue, EXAMPLE)])
    tab = book[table.SHEET]
    for column, heading in enumerate(table.COLUMNS, 1):
        tab.cell(1, column).comment = comment(COLUMNS[heading])
        tab.cell(_FIRST_ROW, column).font = Font(italic=True, color="FF6B7780")
        tab.column_dimensions[letters(column)].width = _WIDTHS.get(heading, _NARROW)
    how_to(book.create_sheet(HOW_TO), _how_to_rows())
    lists = book.create_sheet(EXERCISES)
    names = sorted((one.name for one in catalogue.values() if not one.retired), key=str.casefold)
    kinds = dict.fromkeys(_LISTS.values())
    columns = [("Exercise", names), *((_title(kind), [one.value for one in kind]) for kind in kinds)]
    for column, (title, words) in enumerate(columns, 1):
        _listed(lists, column, title, words)
    places = {kind: (column, len(kind)) for column, kind in enumerate(kinds, 2)}
    for heading, kind in _LISTS.items():
        _offer(tab, heading, *places[kind])
    _offer(tab, table.EQUALS, 1, len(names))
    for heading in _YES_OR_NO:
        choose(tab, _cells(heading), '"yes,no"')
    return packed(book)


def _title(kind: type[StrEnum]) -> str:
    return next(heading for heading, one in _LISTS.items() if one is kind)


def _listed(tab: "Worksheet", column: int, title: str, words: Sequence[str]) -> None:
    tab.cell(1, column, title).font = bold()
    for row, word in enumerate(words, _FIRST_ROW):
        tab.cell(row, column, word)
    tab.column_dimensions[letters(column)].width = 32 if column == 1 else 20
    tab.freeze_panes = "A2"


def _offer(tab: "Worksheet", heading: str, column: int, count: int) -> None:
    place = letters(column)
    choose(tab, _cells(heading), f"'{EXERCISES}'!${place}${_FIRST_ROW}:${place}${_FIRST_ROW + count - 1}")


def _cells(heading: str) -> str:
    column = letters(table.COLUMNS.index(heading) + 1)
    return f"{column}{_FIRST_ROW}:{column}{ROWS_WITH_LISTS + _FIRST_ROW - 1}"


def _how_to_rows() -> Iterator[tuple[str, str, str]]:
    yield HOW_TO, "", ""
    for number, step in enumerate(STEPS, 1):
        yield f"{number}.", step, ""
    yield "", "", ""
    yield "Column of My exercises", "What it is", WRITE
    for heading, note in COLUMNS.items():
        yield heading, note.says, "; ".join(note.examples)
