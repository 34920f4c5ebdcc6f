"""Exercises that share a movement pattern: what hurts one is kept in mind for all."""

from collections.abc import Mapping

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern


def sharing(pattern: Pattern, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[Exercise, ...]:
    """Return every exercise of this pattern that may still be named, in the order of the catalogue."""
    return tuple(row for row in catalogue.values() if row.pattern is pattern and not row.retired)


def siblings(row: Exercise, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[Exercise, ...]:
    """Return the other exercises of the same pattern."""
    return tuple(other for other in sharing(row.pattern, catalogue) if other.key != row.key)
