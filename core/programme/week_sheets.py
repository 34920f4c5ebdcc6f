"""One week of a block for one client as sheets, both ways: the sheets of a block with lines `Client` and `Week`."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from core.programme import block_sheet, session_sheet
from core.programme.block import Block, session_order, weeks_text
from core.programme.block_sheet import Head, head_of, label_column
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.grammar import text_in, whole_in
from core.programme.plan_cells import plan_of
from core.programme.problems import Code, Place, Problem, Severity, problem
from core.programme.row_reading import Written, written_in
from core.programme.rows import by_cell, days_without_rows, orders_twice
from core.programme.session_sheet import rows_by_day, session_rows
from core.programme.sheets import Cell, CellKind, Sheet, UnreadError
from core.programme.tabs import tabs_in
from core.programme.versions import ChangedDay, ChangedWeek
from core.programme.writing import lines_sheet, row_texts, rows_sheet
from core.programme.written_names import WrittenNames
from core.value import Value

CLIENT, WEEK = "Client", "Week"
OWN = WrittenNames(
    (CLIENT, WEEK),
    {CLIENT: ("Name of the client", "For"), WEEK: ("Week number", "Week of the block", "Number of the week")},
)
"""Labels that only the file of a week has."""

LONGEST_CLIENT = 80
"""Longest name of a client. [characters]"""
_NOT_NEEDED = (block_sheet.WEEKS, block_sheet.FIRST_DAY)
"""Lines of a block that its weeks do without."""
_ANY_WEEK = 52
"""Rows are read as of a block of this length, since the file does not say how long the block is. [weeks]"""

T = TypeVar("T")


class WeekFile(Value):
    """The file of one week of one client, as it was read; None where something could not be.

    Attributes:
        client: Her name, as written.
        week: Week of the block, from 1.
        block: Name of the block.
        days: Keys of its days, in order.
        changed: The week; None while there are problems.
        problems: All that is wrong with it by itself, and what only warns.
        client_at: Where the client stands.
        week_at: Where the week stands.
        block_at: Where the name of the block stands.
        days_at: Where the days stand.
    """

    client: str | None = None
    week: int | None = None
    block: str | None = None
    days: tuple[str, ...] = ()
    changed: ChangedWeek | None = None
    problems: tuple[Problem, ...] = ()
    client_at: Place = Place()
    week_at: Place = Place()
    block_at: Place = Place()
    days_at: Place = Place()


def week_sheets(
    block: Block, week: int, client: str, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> tuple[Sheet, ...]:
    """Return one week of a block, as it is for a client, as sheets that `week_in` reads back.

    In a lighter week `Weeks` names the week beside the rows that were written for it, since those stay as they are.

    Args:
        block: As it is for the client.
        week: Which. [1..block.weeks]
        client: Her name.
        catalogue: Gives each exercise its name.
    """
    is_lighter = week in block.lighter_weeks
    lines = [
        (block_sheet.NAME, block.name),
        (CLIENT, client),
        (WEEK, str(week)),
        (block_sheet.DAYS, ", ".join(day.name for day in block.days)),
        *([(block_sheet.DELOADS, str(week))] if is_lighter else ()),
    ]
    rows = [
        row_texts(asked, catalogue)
        | {
            session_sheet.DAY: day.name,
            session_sheet.WEEKS: str(week) if is_lighter and not asked.dose.lighter else "",
        }
        for day in block.days
        for asked in day.in_week(week)
    ]
    return lines_sheet(lines), rows_sheet(rows)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of the sheet `Block`: its label, and what stands beside it."""

    label: Cell
    value: Cell | None


def week_in(sheets: Sequence[Sheet], catalogue: Mapping[str, Exercise] = CATALOGUE) -> WeekFile | None:
    """Return the week of a client that a file holds, with every problem; None where it names no client.

    Args:
        sheets: Of one file, in its order.
        catalogue: Exercises that may be named.
    """
    tabs = tabs_in(sheets)
    if tabs.block is None:
        return None
    of_block: list[Problem] = []
    own, rest = _parted(tabs.block, of_block)
    if CLIENT not in own:
        return None
    reading = _Reading(tabs.block, own, of_block)
    client = reading.given(CLIENT, lambda cell: text_in(cell, LONGEST_CLIENT))
    week = reading.given(WEEK, lambda cell: whole_in(cell, 1, _ANY_WEEK, Code.WEEK_UNREADABLE))
    head = replace(head_of(rest), weeks=_ANY_WEEK)
    lighter = plan_of(head, catalogue, of_block).lighter_weeks
    of_block += (each for each in head.problems if not _is_not_needed(each))
    of_block += _unused(head, week, lighter)
    of_sessions: list[Problem] = []
    rows = session_rows(tabs.sessions, of_sessions) if tabs.sessions is not None else ()
    read = [written_in(row, head, catalogue) for row in rows]
    of_sessions += (each for line in read for each in line.problems)
    of_sessions += _elsewhere(read, week)
    lines = [replace(line, weeks=frozenset({week or 1})) for line in read]
    of_sessions += orders_twice(lines, head)
    of_block += days_without_rows(head, rows_by_day(rows)) if rows else ()
    problems = (*tabs.problems, *sorted(of_block, key=by_cell), *sorted(of_sessions, key=by_cell))
    is_whole = week is not None and not any(each.severity is Severity.ERROR for each in problems)
    return WeekFile(
        client=client,
        week=week,
        block=head.name,
        days=tuple(head.days),
        changed=_changed(week, head, read, lighter) if is_whole and week is not None else None,
        problems=problems,
        client_at=reading.place(CLIENT),
        week_at=reading.place(WEEK),
        block_at=_place_of(block_sheet.NAME, rest),
        days_at=head.days_at,
    )


def _parted(sheet: Sheet, problems: list[Problem]) -> tuple[dict[str, _Line], Sheet]:
    """Return the lines that only a week has, and the sheet without them; what is there twice is a problem."""
    column = label_column(sheet)
    own: dict[str, _Line] = {}
    rest: list[dict[int, Cell]] = []
    for row in sheet.rows:
        label = row.get(column)
        name = OWN.named(label.text) if label is not None else None
        if label is None or name is None:
            rest.append(row)
        elif name in own:
            facts = {"written": label.text, "first_row": own[name].label.row}
            problems.append(problem(Code.LABEL_TWICE, sheet.place(label, name), **facts))
        else:
            own[name] = _Line(label, next((cell for at, cell in row.items() if at > column), None))
    return own, replace(sheet, rows=tuple(rest))


class _Reading:
    """Reads the lines that only a week has, and keeps the problems."""

    def __init__(self, sheet: Sheet, own: Mapping[str, _Line], problems: list[Problem]) -> None:
        self.sheet = sheet
        self.own = own
        self.problems = problems

    def place(self, label: str) -> Place:
        line = self.own.get(label)
        if line is None:
            return Place(sheet=self.sheet.name or None)
        beside = Cell(line.label.row, line.label.column + 1, CellKind.TEXT, "")
        return self.sheet.place(line.value or beside, label)

    def given(self, label: str, reader: Callable[[Cell], T]) -> T | None:
        if label not in self.own:
            self.problems.append(problem(Code.LABEL_MISSING, self.place(label), label=label))
            return None
        cell = self.own[label].value
        if cell is None:
            self.problems.append(problem(Code.CELL_EMPTY, self.place(label)))
            return None
        try:
            return reader(cell)
        except UnreadError as unread:
            self.problems.append(unread.at(self.place(label)))
            return None


def _is_not_needed(found: Problem) -> bool:
    return found.code == Code.LABEL_MISSING and found.facts["label"] in _NOT_NEEDED


def _place_of(label: str, sheet: Sheet) -> Place:
    """Return where the value beside a label of the block stands; the sheet where there is none."""
    column = label_column(sheet)
    for row in sheet.rows:
        at = row.get(column)
        if at is not None and block_sheet.LINES.named(at.text) == label:
            return sheet.place(next((cell for place, cell in row.items() if place > column), at), label)
    return Place(sheet=sheet.name or None)


def _unused(head: Head, week: int | None, lighter: frozenset[int]) -> Iterator[Problem]:
    """Yield the lines of the plan that say nothing of one week."""
    for label, cells in head.plan.items():
        if label != block_sheet.DELOADS:
            yield problem(Code.WEEK_LINE_UNUSED, cells[0][0], label=label)
        elif week is not None and lighter - {week}:
            facts = {"weeks": weeks_text(sorted(lighter)), "week": week}
            yield problem(Code.WEEK_ELSEWHERE, cells[0][0], **facts)


def _elsewhere(lines: Sequence[Written], week: int | None) -> Iterator[Problem]:
    """Yield the rows that are written for other weeks."""
    for line in lines:
        weeks = line.weeks if session_sheet.WEEKS in line.row.cells else None
        if weeks is not None and week is not None and weeks != {week}:
            facts = {"weeks": weeks_text(sorted(weeks)), "week": week}
            yield problem(Code.WEEK_ELSEWHERE, line.row.place(session_sheet.WEEKS), **facts)


def _changed(week: int, head: Head, lines: Sequence[Written], lighter: frozenset[int]) -> ChangedWeek:
    """Return the week; in a lighter one the rows that do not name it are made lighter."""
    days = []
    for key in head.days:
        rows = []
        for line in lines:
            asked = line.prescription
            if line.day == key and asked is not None:
                is_lighter = week in lighter and session_sheet.WEEKS not in line.row.cells
                dose = asked.dose.model_copy(update={"lighter": is_lighter})
                rows.append(asked.model_copy(update={"dose": dose}))
        days.append(ChangedDay(key=key, rows=tuple(sorted(rows, key=lambda one: session_order(one.order)))))
    return ChangedWeek(week=week, days=tuple(days))
