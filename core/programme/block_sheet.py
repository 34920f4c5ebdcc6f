"""The sheet `Block`: labels in one column, values in the next."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from core.programme.block import Weekday
from core.programme.folding import folded, words_of
from core.programme.grammar import squeezed, text_in, typed, whole_in
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, Sheet, UnreadError, row_number
from core.units import Unit

SHEET = "Block"
NAME, WEEKS, FIRST_DAY, DAYS, UNIT = "Name", "Weeks", "First day of the week", "Session days", "Unit"
LABELS = (NAME, WEEKS, FIRST_DAY, DAYS, UNIT)
"""Labels as they are to be written; `Unit` may be left out."""

LONGEST_NAME = 80
"""Longest name of a block. [characters] Our proposal: it stands on a card."""
LONGEST_DAY = 40
"""Longest name of a day. [characters] Our proposal: it stands on a card."""

_WEEKDAYS = {
    "monday": Weekday.MON,
    "tuesday": Weekday.TUE,
    "wednesday": Weekday.WED,
    "thursday": Weekday.THU,
    "friday": Weekday.FRI,
    "saturday": Weekday.SAT,
    "sunday": Weekday.SUN,
}
_UNITS = {"kg": Unit.KG, "kgs": Unit.KG, "lb": Unit.LB, "lbs": Unit.LB}

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Head:
    """What the sheet says; None or empty where it could not be read.

    Attributes:
        name: Of the block.
        weeks: Length.
        week_starts: First day of the week.
        days: Names by key, in order.
        unit: Of loads written without one.
        days_at: Where the days stand.
        problems: All that is wrong with the sheet.
    """

    name: str | None = None
    weeks: int | None = None
    week_starts: Weekday | None = None
    days: dict[str, str] = field(default_factory=dict)
    unit: Unit | None = None
    days_at: Place = field(default_factory=Place)
    problems: tuple[Problem, ...] = ()


def head_of(sheet: Sheet) -> Head:
    """Return what the sheet `Block` says, with every problem of it."""
    problems: list[Problem] = []
    values = _labelled(sheet, problems)

    def read(label: str, reader: Callable[[Cell], T]) -> T | None:
        cell = values.get(label)
        if cell is None:
            return None
        try:
            return reader(cell)
        except UnreadError as unread:
            problems.append(unread.at(sheet.place(cell, label)))
            return None

    days_at = sheet.place(values[DAYS], DAYS) if DAYS in values else Place(sheet=sheet.name)
    return Head(
        name=read(NAME, lambda cell: text_in(cell, LONGEST_NAME)),
        weeks=read(WEEKS, lambda cell: whole_in(cell, 1, 52, Code.LENGTH_UNREADABLE)),
        week_starts=read(FIRST_DAY, _weekday_in),
        days=read(DAYS, lambda cell: _days_in(cell, days_at, problems)) or {},
        unit=read(UNIT, _unit_in),
        days_at=days_at,
        problems=tuple(problems),
    )


def day_key(name: str) -> str:
    """Return the key of a day: `Lower A` gives `lower-a`; empty when the name has no letter or digit."""
    return "-".join(words_of(name))


def _labelled(sheet: Sheet, problems: list[Problem]) -> dict[str, Cell]:
    """Return the value of each known label that has one."""
    known = {folded(label): label for label in LABELS}
    seen: dict[str, int] = {}
    values: dict[str, Cell] = {}
    for row in sheet.rows:
        label, number = row.get(1), row_number(row)
        if label is None:
            problems.extend(_beside(sheet, row, first=2))
            continue
        name = known.get(folded(label.text))
        if name is None:
            place = sheet.place(label)
            problems.append(problem(Code.LABEL_UNKNOWN, place, written=label.text, known=", ".join(LABELS)))
            continue
        if name in seen:
            place = sheet.place(label, name)
            problems.append(problem(Code.LABEL_TWICE, place, written=label.text, first_row=seen[name]))
            continue
        seen[name] = number
        problems.extend(_beside(sheet, row, first=3))
        if 2 in row:
            values[name] = row[2]
        elif name != UNIT:
            place = Place(sheet=sheet.name, row=number, column=name, cell=f"B{number}")
            problems.append(problem(Code.CELL_EMPTY, place))
    missing = [label for label in LABELS if label not in seen and label != UNIT]
    problems.extend(problem(Code.LABEL_MISSING, Place(sheet=sheet.name), label=label) for label in missing)
    return values


def _beside(sheet: Sheet, row: dict[int, Cell], first: int) -> list[Problem]:
    """Return a problem for the first value at or right of column `first`, if any: nobody would read it."""
    stray = next((cell for column, cell in row.items() if column >= first), None)
    return [] if stray is None else [problem(Code.VALUE_BESIDE, sheet.place(stray), written=stray.text)]


def _weekday_in(cell: Cell) -> Weekday:
    text = squeezed(typed(cell)).rstrip(".")
    matches = [day for name, day in _WEEKDAYS.items() if len(text) >= 3 and name.startswith(text)]
    if len(matches) != 1:
        raise UnreadError(Code.WEEKDAY_UNREADABLE, written=cell.text)
    return matches[0]


def _unit_in(cell: Cell) -> Unit:
    unit = _UNITS.get(squeezed(typed(cell)))
    if unit is None:
        raise UnreadError(Code.UNIT_UNREADABLE, written=cell.text)
    return unit


def _days_in(cell: Cell, place: Place, problems: list[Problem]) -> dict[str, str]:
    days: dict[str, str] = {}
    names = [name.strip() for name in typed(cell).split(",")]
    for name in names:
        key = day_key(name)
        if not key:
            problems.append(problem(Code.DAY_UNREADABLE, place, written=name))
        elif len(name) > LONGEST_DAY:
            problems.append(problem(Code.TEXT_TOO_LONG, place, length=len(name), limit=LONGEST_DAY))
        elif key in days:
            problems.append(problem(Code.DAY_TWICE, place, day=name))
        else:
            days[key] = name
    if len(names) > 7:
        raise UnreadError(Code.TOO_MANY_DAYS, found=len(names))
    return days
