"""A block as its coach sees it before she gives it to anyone."""

from collections.abc import Mapping
from html import escape

from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern
from core.programme.volume import PULL, PUSH, balance, sets_by_pattern

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def block_preview(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE) -> str:
    """Return name, weeks, days, sets a week by pattern and pushes to pulls, as HTML for one message."""
    by_week = [sets_by_pattern(block, week, catalogue) for week in range(1, block.weeks + 1)]
    sides = [balance(sets, PUSH, PULL) for sets in by_week]
    patterns = [pattern for pattern in Pattern if any(pattern in sets for sets in by_week)]
    length = f"{block.weeks} week" + ("s" if block.weeks > 1 else "")
    lines = [
        f"<b>{escape(block.name)}</b>",
        f"{length} from {_WEEKDAYS[block.week_starts]}",
        f"{len(block.days)} a week: {escape(', '.join(day.name for day in block.days))}",
        "",
        "<b>Sets a week</b>",
        *(f"{pattern.value} {_range([sets.get(pattern, 0) for sets in by_week])}" for pattern in patterns),
    ]
    if any(side.one or side.other for side in sides):
        push, pull = _range([side.one for side in sides]), _range([side.other for side in sides])
        lines += ["", f"Presses to pulls: {push} to {pull} sets"]
    return "\n".join(lines)


def _range(numbers: list[int]) -> str:
    low, high = min(numbers), max(numbers)
    return str(low) if low == high else f"{low}–{high}"
