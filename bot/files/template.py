"""The empty form of a block: an xlsx that teaches itself, with examples, lists to choose from and notes."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from bot.files.template_words import COLUMNS, EXAMPLE_LINES, EXAMPLE_ROWS, LINES, STEPS, Note
from bot.files.to_xlsx import bold, packed, set_page, workbook_of, wrap
from core.programme import block_sheet, session_sheet
from core.programme.catalogue import CATALOGUE
from core.programme.drills import DRILLS
from core.programme.exercises import Exercise
from core.programme.sheets import Cell, CellKind, Sheet, letters, rows_of
from core.programme.tabs import EXERCISES, HOW_TO
from core.programme.ways_up import WORDS

if TYPE_CHECKING:
    from openpyxl.comments import Comment
    from openpyxl.worksheet.worksheet import Worksheet

ROWS_WITH_LISTS = 500
"""Rows of the table in which lists can be chosen from."""
WRITE = "Write, for example"
_NOTE_WIDTH, _NOTE_HEIGHT = 300, 130
_FIRST_ROW, _WAYS_COLUMN, _DRILLS_COLUMN = 2, 5, 6


def template(catalogue: Mapping[str, Exercise] = CATALOGUE) -> bytes:
    """Return the file; the same bytes every time.

    Args:
        catalogue: Exercises that may be chosen.
    """
    book = workbook_of(example_sheets())
    block, sessions = book[block_sheet.SHEET], book[session_sheet.SHEET]
    _note_lines(block)
    _note_headings(sessions)
    how_to(book.create_sheet(HOW_TO), _how_to_rows())
    last = _exercise_names(book.create_sheet(EXERCISES), catalogue)
    _lists_of_block(block)
    _lists_of_sessions(sessions, last)
    return packed(book)


def example_sheets() -> tuple[Sheet, Sheet]:
    """Return the two sheets that are read, filled with an example."""
    return (
        _sheet(block_sheet.SHEET, EXAMPLE_LINES),
        _sheet(session_sheet.SHEET, (tuple(COLUMNS), *EXAMPLE_ROWS)),
    )


def _sheet(name: str, rows: Sequence[Sequence[str]]) -> Sheet:
    cells = [
        Cell(number, column, CellKind.NUMBER if text.isdecimal() else CellKind.TEXT, text)
        for number, row in enumerate(rows, 1)
        for column, text in enumerate(row, 1)
        if text
    ]
    return Sheet(name, rows_of(cells))


def _note_lines(tab: "Worksheet") -> None:
    for row, (label, *_) in enumerate(EXAMPLE_LINES, 1):
        tab.cell(row, 1).comment = comment(LINES[label])


def _note_headings(tab: "Worksheet") -> None:
    for column, note in enumerate(COLUMNS.values(), 1):
        tab.cell(1, column).comment = comment(note)


def comment(note: Note) -> "Comment":
    """Return a note that opens beside a cell."""
    from openpyxl.comments import Comment

    return Comment(note.text, "Plimsoll", height=_NOTE_HEIGHT, width=_NOTE_WIDTH)


def how_to(tab: "Worksheet", rows: Iterable[tuple[str, str, str]]) -> None:
    """Write the sheet that says how a form is filled in."""
    for letter, width in zip("ABC", (24, 76, 50), strict=True):
        tab.column_dimensions[letter].width = width
    for row, texts in enumerate(rows, 1):
        for column, text in enumerate(texts, 1):
            tab.cell(row, column, text or None)
        wrap(tab, row, (1, 2, 3))
        tab.cell(row, 1).font = bold()
        if texts[2] == WRITE:
            tab.cell(row, 2).font = tab.cell(row, 3).font = bold()
    set_page(tab)


def _how_to_rows() -> Iterator[tuple[str, str, str]]:
    yield HOW_TO, "", ""
    for number, step in enumerate(STEPS, 1):
        yield f"{number}.", step, ""
    yield "", "", ""
    yield "Line of Block", "What it is", WRITE
    for label, note in LINES.items():
        yield label, note.says, "; ".join(note.examples)
    yield "", "", ""
    yield "Column of Sessions", "What it is", WRITE
    for heading, note in COLUMNS.items():
        yield heading, note.says, "; ".join(note.examples)


def _exercise_names(tab: "Worksheet", catalogue: Mapping[str, Exercise]) -> int:
    """Write the exercises by name, beside them ways up and prep drills; returns the row of the last exercise."""
    exercises = sorted(
        (one for one in catalogue.values() if not one.retired), key=lambda one: one.name.casefold()
    )
    tab.append(
        ["Exercise", "Pattern", "Its load is counted", "Also written", session_sheet.WAY, "Prep drill"]
    )
    for one in exercises:
        counted = "by time" if one.timed else "by reps"
        tab.append([one.name, one.pattern.value, f"{one.basis.value}, {counted}", "; ".join(one.aliases)])
    for row, words in enumerate(WORDS.values(), _FIRST_ROW):
        tab.cell(row, _WAYS_COLUMN, words)
    for row, drill in enumerate(DRILLS.values(), _FIRST_ROW):
        tab.cell(row, _DRILLS_COLUMN, drill.name)
    for cell in tab[1]:
        cell.font = bold()
    for column, width in zip("ABCDEF", (32, 18, 22, 60, 28, 28), strict=True):
        tab.column_dimensions[column].width = width
    tab.freeze_panes = "A2"
    return len(exercises) + 1


def _lists_of_block(tab: "Worksheet") -> None:
    from openpyxl.worksheet.datavalidation import DataValidation

    at = {label: row for row, (label, *_) in enumerate(EXAMPLE_LINES, 1)}
    weekdays = ",".join(words.capitalize() for words in block_sheet.WEEKDAYS)
    choose(tab, f"B{at[block_sheet.FIRST_DAY]}", f'"{weekdays}"')
    choose(tab, f"B{at[block_sheet.UNIT]}", '"kg,lb"')
    weeks = DataValidation("whole", operator="between", formula1="1", formula2="52", allow_blank=True)
    weeks.error, weeks.errorTitle = "A whole number from 1 to 52.", block_sheet.WEEKS
    weeks.showErrorMessage = True
    weeks.add(f"B{at[block_sheet.WEEKS]}")
    tab.add_data_validation(weeks)


def _lists_of_sessions(tab: "Worksheet", last_exercise: int) -> None:
    ways = letters(_WAYS_COLUMN)
    last = ROWS_WITH_LISTS + _FIRST_ROW - 1
    days = next(row for row, (label, *_) in enumerate(EXAMPLE_LINES, 1) if label == block_sheet.DAYS)
    end = letters(1 + block_sheet.MOST_DAYS)
    for heading, source in (
        (session_sheet.DAY, f"{block_sheet.SHEET}!$B${days}:${end}${days}"),
        (session_sheet.EXERCISE, f"'{EXERCISES}'!$A${_FIRST_ROW}:$A${last_exercise}"),
        (session_sheet.WAY, f"'{EXERCISES}'!${ways}${_FIRST_ROW}:${ways}${len(WORDS) + 1}"),
    ):
        column = letters(list(COLUMNS).index(heading) + 1)
        choose(tab, f"{column}{_FIRST_ROW}:{column}{last}", source)


def choose(tab: "Worksheet", cells: str, source: str) -> None:
    """Offer a list; anything else may be typed, since the reader knows more names than the list has."""
    from openpyxl.worksheet.datavalidation import DataValidation

    offered = DataValidation("list", formula1=source, allow_blank=True)
    offered.showErrorMessage = False
    offered.add(cells)
    tab.add_data_validation(offered)
