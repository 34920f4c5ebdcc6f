"""The sheet `Block`: labels in one column, values in the next."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

from core.programme.block import Weekday
from core.programme.folding import words_of
from core.programme.grammar import squeezed, text_in, typed, whole_in
from core.programme.problems import Code, Place, Problem, problem
from core.programme.sheets import Cell, Sheet, UnreadError, letters, row_number
from core.programme.written_names import WrittenNames
from core.units import Unit

SHEET = "Block"
NAME, WEEKS, FIRST_DAY, DAYS, UNIT = "Name", "Weeks", "First day of the week", "Session days", "Unit"
PHASES, DELOADS, TESTS, TARGETS = "Phases", "Deload weeks", "Testing weeks", "Targets"
PREP = "Prep"
PLAN = (PHASES, DELOADS, TESTS, TARGETS, PREP)
"""Labels of the plan over the weeks; `core.programme.plan_cells` reads what stands beside them."""
LABELS = (NAME, WEEKS, FIRST_DAY, DAYS, UNIT, *PLAN)
"""Labels as they are to be written."""
MAY_BE_LEFT_OUT = frozenset({UNIT, *PLAN})
"""Labels that a block can do without."""

LINES = WrittenNames(
    LABELS,
    {
        NAME: ("Block", "Block name", "Name of the block", "Title", "Programme", "Program", "Plan"),
        WEEKS: ("Week", "Number of weeks", "Length", "Length in weeks", "Duration", "Block length"),
        FIRST_DAY: (
            "First day",
            "Week starts",
            "Week starts on",
            "Week begins",
            "Start of the week",
            "Starts on",
        ),
        DAYS: ("Days", "Day", "Sessions", "Training days", "Names of the days", "Workouts"),
        UNIT: ("Load unit", "Unit of load", "kg or lb"),
        PHASES: ("Phase",),
        DELOADS: ("Deload", "Deload week", "Deloads", "Lighter weeks"),
        TESTS: ("Testing", "Test weeks", "Testing week", "Tests"),
        TARGETS: ("Target", "End target", "End targets", "Goal", "Goals"),
        PREP: ("Preparation", "Prep drills", "Warm-up", "Warmup", "Mobility", "Prep by day"),
    },
)
"""Labels of the lines, with other words for them."""

LONGEST_NAME = 80
"""Longest name of a block. [characters] Our proposal: it stands on a card."""
LONGEST_DAY = 40
"""Longest name of a day. [characters] Our proposal: it stands on a card."""

MOST_DAYS = 7
"""Most session days of a week."""

WEEKDAYS = {
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
        plan: What stands beside each label of the plan, with its place.
        problems: All that is wrong with the sheet.
    """

    name: str | None = None
    weeks: int | None = None
    week_starts: Weekday | None = None
    days: dict[str, str] = field(default_factory=dict)
    unit: Unit | None = None
    days_at: Place = field(default_factory=Place)
    plan: dict[str, tuple[tuple[Place, Cell], ...]] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()


def head_of(sheet: Sheet) -> Head:
    """Return what the sheet `Block` says, with every problem of it."""
    problems: list[Problem] = []
    values = _labelled(sheet, problems)

    def read(label: str, reader: Callable[[Cell], T]) -> T | None:
        if label not in values:
            return None
        cell = values[label][0]
        try:
            return reader(cell)
        except UnreadError as unread:
            problems.append(unread.at(sheet.place(cell, label)))
            return None

    days_at = sheet.place(values[DAYS][0], DAYS) if DAYS in values else Place(sheet=sheet.name or None)
    return Head(
        name=read(NAME, lambda cell: text_in(cell, LONGEST_NAME)),
        weeks=read(WEEKS, lambda cell: whole_in(cell, 1, 52, Code.LENGTH_UNREADABLE)),
        week_starts=read(FIRST_DAY, _weekday_in),
        days=_days_in(sheet, values.get(DAYS, ()), problems),
        unit=read(UNIT, _unit_in),
        days_at=days_at,
        plan={
            label: tuple((sheet.place(cell, label), cell) for cell in values[label])
            for label in PLAN
            if label in values
        },
        problems=tuple(problems),
    )


def day_key(name: str) -> str:
    """Return the key of a day: `Lower A` gives `lower-a`; empty when the name has no letter or digit."""
    return "-".join(words_of(name))


def _labelled(sheet: Sheet, problems: list[Problem]) -> dict[str, tuple[Cell, ...]]:
    """Return the value of each known label that has one; lists may stand in several cells."""
    seen: dict[str, int] = {}
    values: dict[str, tuple[Cell, ...]] = {}
    column = label_column(sheet)
    for row in sheet.rows:
        label, number = row.get(column), row_number(row)
        right = tuple(cell for at, cell in row.items() if at > column)
        if label is None:
            problems.extend(_beside(sheet, tuple(row.values())))
            continue
        name = LINES.named(label.text)
        if name is None:
            if seen or right:  # a line by itself over the first label is a title
                problems.append(_unknown(sheet, label))
            continue
        if name in seen:
            place = sheet.place(label, name)
            problems.append(problem(Code.LABEL_TWICE, place, written=label.text, first_row=seen[name]))
            continue
        seen[name] = number
        if right:
            values[name] = right if name in (DAYS, *PLAN) else right[:1]
            problems.extend(_beside(sheet, right[len(values[name]) :]))
        elif name not in MAY_BE_LEFT_OUT:
            cell = f"{letters(column + 1)}{number}"
            place = Place(sheet=sheet.name or None, row=number, column=name, cell=cell)
            problems.append(problem(Code.CELL_EMPTY, place))
    missing = [label for label in LABELS if label not in seen and label not in MAY_BE_LEFT_OUT]
    place = Place(sheet=sheet.name or None)
    problems.extend(problem(Code.LABEL_MISSING, place, label=label) for label in missing)
    return values


def label_column(sheet: Sheet) -> int:
    """Return the first column that has a known label; 1 when none has."""
    columns = [at for row in sheet.rows for at, cell in row.items() if LINES.named(cell.text) is not None]
    return min(columns, default=1)


def _unknown(sheet: Sheet, label: Cell) -> Problem:
    facts = {"written": label.text, "known": LINES.known, "suggestions": LINES.near(label.text)}
    return problem(Code.LABEL_UNKNOWN, sheet.place(label), **facts)


def _beside(sheet: Sheet, strays: tuple[Cell, ...]) -> list[Problem]:
    """Return a problem for the first of the values that stand where nobody would read them."""
    return [problem(Code.VALUE_BESIDE, sheet.place(stray), written=stray.text) for stray in strays[:1]]


def _weekday_in(cell: Cell) -> Weekday:
    text = squeezed(typed(cell)).rstrip(".")
    matches = [day for name, day in WEEKDAYS.items() if len(text) >= 3 and name.startswith(text)]
    if len(matches) != 1:
        raise UnreadError(Code.WEEKDAY_UNREADABLE, written=cell.text)
    return matches[0]


def _unit_in(cell: Cell) -> Unit:
    unit = _UNITS.get(squeezed(typed(cell)))
    if unit is None:
        raise UnreadError(Code.UNIT_UNREADABLE, written=cell.text)
    return unit


def _days_in(sheet: Sheet, cells: tuple[Cell, ...], problems: list[Problem]) -> dict[str, str]:
    """Return the days, each in a cell of its own or with commas between them."""
    days: dict[str, str] = {}
    found = 0
    for cell in cells:
        place = sheet.place(cell, DAYS)
        try:
            names = [name.strip() for name in typed(cell).split(",")]
        except UnreadError as unread:
            problems.append(unread.at(place))
            continue
        found += len(names)
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
    if found > MOST_DAYS:
        problems.append(problem(Code.TOO_MANY_DAYS, sheet.place(cells[0], DAYS), found=found))
        return {}
    return days
