"""What is different between two blocks, in short lines. HTML."""

from collections.abc import Iterable, Iterator, Mapping
from html import escape

from core.programme import session_sheet
from core.programme.block import weeks_text
from core.programme.catalogue import CATALOGUE
from core.programme.differences import CellChange, Difference, Kind, RowChange
from core.programme.exercises import Exercise


def difference_lines(value: Difference, catalogue: Mapping[str, Exercise] = CATALOGUE) -> list[str]:
    """Return what is different, a line each: the plan, days, then rows."""
    return [
        *(f"{escape(each.column)}: {_was(each)}" for each in value.plan),
        *(f"New day: {escape(name)}" for name in value.added),
        *(f"Day gone: {escape(name)}" for name in value.gone),
        *(f"Another name: {escape(old)} is now {escape(new)}" for old, new in value.renamed),
        *([f"Order of the days: {escape(', '.join(value.order))}"] if value.order else ()),
        *(_row(each, catalogue) for each in value.rows),
    ]


def some_lines(lines: list[str], most: int) -> list[str]:
    """Return the first of some lines, and how many more there are."""
    return lines if len(lines) <= most else [*lines[:most], f"… and {len(lines) - most} more."]


def weeks_words(weeks: Iterable[int]) -> str:
    """Write weeks: `week 3`, `weeks 3–5, 7`."""
    found = sorted(weeks)
    return f"week{'s' if len(found) > 1 else ''} {weeks_text(found).replace('-', '–')}"


def _was(cell: CellChange) -> str:
    return f"{escape(cell.after or 'none')} (was {escape(cell.before or 'none')})"


def _row(change: RowChange, catalogue: Mapping[str, Exercise]) -> str:
    name = f"{change.order} {escape(catalogue[change.exercise].name)}"
    head = f"{escape(change.day)}, {weeks_words(change.weeks)}"
    match change.kind:
        case Kind.ADDED:
            return f"{head}: new {name}{_asked(change.cells)}"
        case Kind.REMOVED:
            return f"{head}: {name} is gone"
        case Kind.CHANGED:
            return f"{head}: {name}: {'; '.join(_cells(change.cells))}"


def _asked(cells: Iterable[CellChange]) -> str:
    """Write what a new row asks for: `, 3 × 8, 60 kg`."""
    texts = {each.column: each.after for each in cells}
    sets, reps = texts.get(session_sheet.SETS, ""), texts.get(session_sheet.REPS, "")
    between = " × " if sets.isdecimal() else ", "
    load = texts.get(session_sheet.LOAD, "")
    return "".join(f", {escape(part)}" for part in (f"{sets}{between}{reps}" if reps else sets, load) if part)


def _cells(cells: Iterable[CellChange]) -> Iterator[str]:
    for each in cells:
        if each.column in (session_sheet.EXERCISE, session_sheet.ORDER):
            yield f"now {escape(each.after)}"
        else:
            yield f"{escape(each.column.lower())} {_was(each)}"
