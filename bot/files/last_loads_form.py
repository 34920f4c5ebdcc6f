"""The form for last loads: headings with notes, lists of clients and of exercises, and how to fill it in."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from bot.files.template import WRITE, choose, comment, how_to
from bot.files.template_words import Note
from bot.files.to_xlsx import AS_TEXT, bold, dress_heading, packed, set_page, workbook_of
from core.programme.exercises import Exercise, Implement
from core.programme.last_loads import CLIENT, DATE, EXERCISE, LOAD, REPS, SHEET, UNIT
from core.programme.sheets import letters
from core.programme.tabs import CLIENTS, EXERCISES, HOW_TO

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

ROWS_WITH_LISTS = 1000
"""Rows in which lists can be chosen from."""
AS_DATE = "yyyy-mm-dd"
"""How dates are shown, so that nobody takes the day for the month."""

HEADINGS: Mapping[str, tuple[Note, int]] = {
    CLIENT: (
        Note("Choose from the list, or type the name as I know it. Whom you have invited is known too."),
        22,
    ),
    EXERCISE: (Note("Choose from the list, or type the name; other usual names are known too."), 30),
    LOAD: (
        Note(
            "What was lifted last, counted as the exercise is: in all, a hand, or beside bodyweight.",
            ("80 kg", "62,5 kg", "135 lb", "16 kg a hand", "bw", "bw+5 kg", "bw-20 kg"),
        ),
        16,
    ),
    REPS: (Note("How many reps with it in one set, from 1 to 100; on one-sided work of a side.", ("8",)), 8),
    DATE: (
        Note("When it was. The longer ago, the lighter it begins again.", ("2026-04-14", "14 April 2026")),
        14,
    ),
    UNIT: (Note("Only where Load has none. It may be left out.", ("kg", "lb")), 8),
}
"""Notes on the headings, and how wide the columns are. [characters]"""

STEPS = (
    f"One sheet is read: {SHEET}, with a row for each client and exercise. Order of columns and rows is free.",
    (
        "Send the file to the bot. It names everything that it cannot read, with row and column, and keeps nothing "
        "until all is readable and you have said Keep."
    ),
    (
        "An exercise that a client has never logged here begins from its last load: no load has to be found, shares "
        "of a maximum are known, and after a long time without it begins lighter."
    ),
    "What a client logs herself counts from then on. A newer sheet replaces what an older one said.",
    "For somebody who is invited and has not joined yet the loads wait until she has.",
)
"""How to fill it in."""


def last_loads_form(clients: Sequence[str], catalogue: Mapping[str, Exercise]) -> bytes:
    """Return the form; the same bytes for the same names.

    Args:
        clients: Names of the coach's clients, and of those whom she has invited.
        catalogue: Exercises that may be named.
    """
    book = workbook_of(())
    tab = book.create_sheet(SHEET)
    _headings(tab)
    how_to(book.create_sheet(HOW_TO), _how_to_rows())
    exercises = sorted(
        (one.name for one in catalogue.values() if _has_load(one)), key=lambda name: name.casefold()
    )
    _names(book.create_sheet(CLIENTS), CLIENT, clients)
    _names(book.create_sheet(EXERCISES), EXERCISE, exercises)
    _offer(tab, CLIENT, f"'{CLIENTS}'!$A$2:$A${max(len(clients), 1) + 1}")
    _offer(tab, EXERCISE, f"'{EXERCISES}'!$A$2:$A${len(exercises) + 1}")
    _offer(tab, UNIT, '"kg,lb"')
    return packed(book)


def _has_load(one: Exercise) -> bool:
    return not (one.timed or one.retired or one.implement is Implement.BAND)


def _headings(tab: "Worksheet") -> None:
    set_page(tab)
    for column, (heading, (note, width)) in enumerate(HEADINGS.items(), 1):
        cell = tab.cell(1, column, heading)
        dress_heading(cell)
        cell.comment = comment(note)
        dimension = tab.column_dimensions[letters(column)]
        dimension.width = width
        # For what is typed later: without it a spreadsheet shows dates in the machine's own way.
        dimension.number_format = AS_DATE if heading == DATE else "General" if heading == REPS else AS_TEXT
    tab.freeze_panes = "A2"
    tab.print_title_rows = "1:1"


def _how_to_rows() -> Iterator[tuple[str, str, str]]:
    yield HOW_TO, "", ""
    for number, step in enumerate(STEPS, 1):
        yield f"{number}.", step, ""
    yield "", "", ""
    yield f"Column of {SHEET}", "What it is", WRITE
    for heading, (note, _) in HEADINGS.items():
        yield heading, note.says, "; ".join(note.examples)


def _names(tab: "Worksheet", heading: str, names: Iterable[str]) -> None:
    tab.append([heading])
    tab.cell(1, 1).font = bold()
    for row, name in enumerate(names, 2):
        cell = tab.cell(row, 1, name)
        # A name that begins like a formula is a name all the same.
        cell.data_type = "s"
    tab.column_dimensions["A"].width = 32
    tab.freeze_panes = "A2"


def _offer(tab: "Worksheet", heading: str, source: str) -> None:
    column = letters(list(HEADINGS).index(heading) + 1)
    choose(tab, f"{column}2:{column}{ROWS_WITH_LISTS + 1}", source)
