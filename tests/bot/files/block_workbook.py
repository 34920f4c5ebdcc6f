"""Blocks written to xlsx as a coach would type them; a helper of tests, and the inverse of reading."""

from collections.abc import Mapping, Sequence
from io import BytesIO

from openpyxl import Workbook

from core.programme.block import Block, Line
from core.programme.block_sheet import DAYS, FIRST_DAY, NAME, UNIT, WEEKS
from core.programme.catalogue import CATALOGUE
from core.programme.session_sheet import COLUMNS

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

Value = object
Rows = Sequence[Sequence[Value]]


def workbook(
    head: Mapping[str, Value], rows: Rows, columns: Sequence[str] = COLUMNS, **others: Rows
) -> Workbook:
    """Return a workbook with the sheets Block and Sessions, and others by name."""
    book = Workbook()
    block = book.active
    block.title = "Block"
    for label, value in head.items():
        block.append([label, value])
    sessions = book.create_sheet("Sessions")
    sessions.append(list(columns))
    for row in rows:
        sessions.append(list(row))
    for title, lines in others.items():
        sheet = book.create_sheet(title)
        for line in lines:
            sheet.append(list(line))
    return book


def saved(book: Workbook) -> bytes:
    """Return the bytes of a workbook."""
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def written(block: Block) -> bytes:
    """Return a block as an xlsx file."""
    head = {
        NAME: block.name,
        WEEKS: block.weeks,
        FIRST_DAY: WEEKDAYS[block.week_starts],
        DAYS: ", ".join(day.name for day in block.days),
    }
    rows = [_row(day.name, line) for day in block.days for line in day.lines]
    return saved(workbook(head, rows))


def head_of(
    name: str, weeks: Value, days: str, first: str = "Monday", unit: str | None = None
) -> dict[str, Value]:
    """Return what stands in the sheet Block."""
    head: dict[str, Value] = {NAME: name, WEEKS: weeks, FIRST_DAY: first, DAYS: days}
    return head if unit is None else {**head, UNIT: unit}


def _row(day: str, line: Line) -> list[Value]:
    asked = line.prescription
    dose = asked.dose
    count = f"{dose.seconds} s" if dose.seconds is not None else str(dose.reps)
    return [
        day,
        asked.order,
        CATALOGUE[asked.exercise].name,
        ", ".join(str(week) for week in sorted(line.weeks)),
        dose.sets,
        f"{count} a side" if dose.each_side else count,
        None if dose.load is None else str(dose.load),
        dose.left,
        None if asked.rest_s is None else f"{asked.rest_s} s",
        asked.tempo,
        asked.cue,
        "; ".join(CATALOGUE[key].name for key in asked.instead),
        asked.link,
    ]
