"""A client's week in words."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from bot.render.loads import load_words
from core.oversight.misses import Tally
from core.programme.exercises import Exercise
from core.programme.prescription import Load
from core.units import Mass, Unit

MOST_LIFTS = 6
"""Lifts that are named."""


@dataclass(frozen=True, slots=True)
class Moved:
    """The heaviest load of a main lift this week, and the one of the session before the week; None for the first."""

    exercise: Exercise
    now: Load
    before: Load | None


def short(counted: Tally, moved: Sequence[Moved]) -> str:
    """Say it in one line."""
    return " ".join(each for each in (_kept(counted), _counts(moved)) if each)


def full(counted: Tally, moved: Sequence[Moved]) -> str:
    """Say it with a line for each main lift."""
    lines = [short(counted, moved), *(_line(each) for each in moved[:MOST_LIFTS])]
    if len(moved) > MOST_LIFTS:
        lines.append(f"And {len(moved) - MOST_LIFTS} more: /progress")
    return "\n".join(lines)


def added(load: Load) -> Mass:
    """Return what a load is compared by; what is added where the body is the load."""
    return load.mass or Mass.of(0, Unit.KG)


def _kept(counted: Tally) -> str:
    return f"Last 7 days: {counted.kept} of {counted.due} sessions kept." if counted.due else ""


def _counts(moved: Sequence[Moved]) -> str:
    seen = [(added(each.now), added(each.before)) for each in moved if each.before is not None]
    said = (
        (sum(now > before for now, before in seen), "up"),
        (sum(now == before for now, before in seen), "the same"),
        (sum(now < before for now, before in seen), "lower"),
        (len(moved) - len(seen), "new"),
    )
    parts = [f"{count} {words}" for count, words in said if count]
    return f"Main lifts: {', '.join(parts)}." if parts else ""


def _line(each: Moved) -> str:
    basis = each.exercise.basis
    now = load_words(each.now, basis)
    before = "first time" if each.before is None else f"before {load_words(each.before, basis)}"
    return f"{escape(each.exercise.name)} {now} ({before})"
