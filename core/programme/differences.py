"""What is different between two blocks: days, rows by week and cell, and the plan over the weeks. Values, no words."""

from collections.abc import Container, Iterable, Iterator, Mapping
from enum import StrEnum

from core.programme import block_sheet, session_sheet
from core.programme.block import Block, Day, Weeks
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.prescription import Prescription
from core.programme.versions import renamed
from core.programme.writing import labels_of, row_texts
from core.value import Value

LIGHTER = "Lighter week"
"""Stands for a row that a lighter week makes lighter, or no longer does. It is no heading of a column."""
_PLAN = (block_sheet.WEEKS, block_sheet.FIRST_DAY, *block_sheet.PLAN)


class Kind(StrEnum):
    """What became of a row."""

    ADDED = "added"
    REMOVED = "removed"
    CHANGED = "changed"


class CellChange(Value):
    """A cell, or a line of the sheet `Block`, as it was and as it is.

    Attributes:
        column: Its heading, or label.
        before: Text as a coach writes it; empty where nothing was written.
        after: Text as it is now.
    """

    column: str
    before: str
    after: str


class RowChange(Value):
    """A row that is different in some weeks.

    Attributes:
        day: Name of the day, as it is now.
        weeks: Weeks in which it is so.
        kind: What became of it.
        order: Letter and number in the session; of a changed row those from before.
        exercise: Key in the catalogue; of a changed row the one from before.
        cells: What changed; of a row that came or went, what it asks for.
    """

    day: str
    weeks: Weeks
    kind: Kind
    order: str
    exercise: str
    cells: tuple[CellChange, ...] = ()


class Difference(Value):
    """What is different between a block before and after.

    Attributes:
        plan: Length, first day of the week, phases, lighter weeks, tests, targets.
        added: Names of days that are new.
        gone: Names of days that are no more.
        renamed: Days with another name: the old one and the new.
        order: The days in their new order, where the same days come in another; otherwise empty.
        rows: Rows of days and weeks that both have, in the order of the block.
    """

    plan: tuple[CellChange, ...] = ()
    added: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    renamed: tuple[tuple[str, str], ...] = ()
    order: tuple[str, ...] = ()
    rows: tuple[RowChange, ...] = ()

    @property
    def is_empty(self) -> bool:
        """True where nothing is different."""
        return self == Difference()


def difference(
    before: Block,
    after: Block,
    catalogue: Mapping[str, Exercise] = CATALOGUE,
    weeks: Container[int] | None = None,
) -> Difference:
    """Return what is different.

    Args:
        before: As it was.
        after: As it is.
        catalogue: Gives each exercise its name, and says how its load is counted.
        weeks: Weeks whose rows are looked at; all that both have where None.
    """
    shared_weeks = range(1, min(before.weeks, after.weeks) + 1)
    both = [week for week in shared_weeks if weeks is None or week in weeks]
    names = renamed(before, after)
    pairs = [(day, after.day(names.get(day.key, day.key))) for day in before.days]
    shared = [(old, new) for old, new in pairs if new is not None]
    kept = [new.key for _, new in shared]
    in_order = [day.key for day in after.days if day.key in kept]
    return Difference(
        plan=tuple(_plan(before, after, catalogue)),
        added=tuple(day.name for day in after.days if day.key not in kept),
        gone=tuple(old.name for old, new in pairs if new is None),
        renamed=tuple((old.name, new.name) for old, new in shared if old.name != new.name),
        order=tuple(day.name for day in after.days) if in_order != kept else (),
        rows=tuple(change for old, new in shared for change in _rows(old, new, both, catalogue)),
    )


def _plan(before: Block, after: Block, catalogue: Mapping[str, Exercise]) -> Iterator[CellChange]:
    was, now = (dict(labels_of(block, catalogue)) for block in (before, after))
    for label in _PLAN:
        if was.get(label, "") != now.get(label, ""):
            yield CellChange(column=label, before=was.get(label, ""), after=now.get(label, ""))


def _rows(old: Day, new: Day, weeks: Iterable[int], catalogue: Mapping[str, Exercise]) -> Iterator[RowChange]:
    """Yield what is different in a day, the same change in several weeks once."""
    found: dict[RowChange, set[int]] = {}
    for week in weeks:
        both_lighter = week in old.lighter_weeks and week in new.lighter_weeks
        for row, other in _matched(old.in_week(week), new.in_week(week)):
            change = _change(new.name, row, other, catalogue, compares_lighter=both_lighter)
            if change is not None:
                found.setdefault(change, set()).add(week)
    return (change.model_copy(update={"weeks": frozenset(in_weeks)}) for change, in_weeks in found.items())


def _matched(
    before: tuple[Prescription, ...], after: tuple[Prescription, ...]
) -> list[tuple[Prescription | None, Prescription | None]]:
    """Pair the rows of a session: the same exercise at the same place, else the same exercise, else the same place."""
    left, right = list(before), list(after)
    pairs: dict[int, Prescription] = {}
    for is_same in (_same_row, _same_exercise, _same_place):
        for place, row in enumerate(left):
            other = next((each for each in right if is_same(row, each)), None) if place not in pairs else None
            if other is not None:
                pairs[place] = other
                right.remove(other)
    return [*((row, pairs.get(place)) for place, row in enumerate(left)), *((None, each) for each in right)]


def _same_row(one: Prescription, other: Prescription) -> bool:
    return _same_exercise(one, other) and _same_place(one, other)


def _same_exercise(one: Prescription, other: Prescription) -> bool:
    return one.exercise == other.exercise


def _same_place(one: Prescription, other: Prescription) -> bool:
    return one.order == other.order


def _change(
    day: str,
    row: Prescription | None,
    other: Prescription | None,
    catalogue: Mapping[str, Exercise],
    *,
    compares_lighter: bool,
) -> RowChange | None:
    """Return what became of a row, its weeks left open; None where nothing did."""
    named = row if row is not None else other
    was = row_texts(row, catalogue) if row is not None else {}
    now = row_texts(other, catalogue) if other is not None else {}
    if named is None or row == other:
        return None
    cells = [
        CellChange(column=column, before=was.get(column, ""), after=now.get(column, ""))
        for column in session_sheet.COLUMNS
        if was.get(column, "") != now.get(column, "")
    ]
    kind = Kind.CHANGED
    if row is None or other is None:
        kind = Kind.ADDED if row is None else Kind.REMOVED
    elif compares_lighter and row.dose.lighter != other.dose.lighter:
        said = {True: "made lighter", False: "as written"}
        cells.append(
            CellChange(column=LIGHTER, before=said[row.dose.lighter], after=said[other.dose.lighter])
        )
    if not cells:
        return None
    return RowChange(
        day=day,
        weeks=frozenset(),
        kind=kind,
        order=named.order,
        exercise=named.exercise,
        cells=tuple(cells),
    )
