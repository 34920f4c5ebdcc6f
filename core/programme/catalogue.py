"""Our own catalogue of exercises, and how a written name is looked up in it.

A name is matched exactly after folding or not at all: what is only near is suggested, never taken.
Every function takes the catalogue as an argument, so that a coach's own exercises can stand beside ours.
"""

from collections.abc import Mapping
from types import MappingProxyType

from rapidfuzz import fuzz

from core.programme.catalogue_lower import LOWER
from core.programme.catalogue_trunk import TRUNK
from core.programme.catalogue_upper import UPPER
from core.programme.exercises import Exercise
from core.programme.folding import folded, words_of

CATALOGUE: Mapping[str, Exercise] = MappingProxyType({row.key: row for row in (*LOWER, *UPPER, *TRUNK)})
"""Every exercise of ours by its key."""

_NEAR = 70
"""Least likeness of a suggestion. [0..100] Our proposal: one or two slips of the fingers in a name."""
_WITHIN = 80
"""Likeness of a name that has every written word, as `Barbell row` has `row`. [0..100] Our proposal."""
_BEHIND = 10
"""How far behind the likest name another may be and still be suggested. [0..100] Our proposal."""


def exercise(key: str, catalogue: Mapping[str, Exercise] = CATALOGUE) -> Exercise:
    """Return the exercise with this key.

    Raises:
        KeyError: No exercise has it; keys come from us, so this is a bug and no slip of a person.
    """
    return catalogue[key]


def named(text: str, catalogue: Mapping[str, Exercise] = CATALOGUE) -> Exercise | None:
    """Return the exercise that is written `text`, by name, alias or key; None when there is none."""
    wanted = folded(text)
    if not wanted:
        return None
    for row in catalogue.values():
        if not row.retired and wanted in _folded_names(row):
            return row
    return None


def suggestions(
    text: str, limit: int = 3, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> tuple[Exercise, ...]:
    """Return at most `limit` exercises whose names are like `text`, likest first, then main lifts first."""
    wanted = " ".join(words_of(text))
    if not wanted:
        return ()
    scored = [(_likeness(wanted, row), row) for row in catalogue.values() if not row.retired]
    least = max(_NEAR, max((score for score, _ in scored), default=0) - _BEHIND)
    near = sorted((-score, not row.main_lift, row.key) for score, row in scored if score >= least)
    return tuple(catalogue[key] for _, _, key in near[:limit])


def _folded_names(row: Exercise) -> tuple[str, ...]:
    return tuple(folded(name) for name in (row.name, *row.aliases, row.key))


def _likeness(wanted: str, row: Exercise) -> float:
    return max(_name_likeness(wanted, " ".join(words_of(name))) for name in (row.name, *row.aliases))


def _name_likeness(wanted: str, name: str) -> float:
    within = _WITHIN if set(wanted.split()) <= set(name.split()) else 0
    return max(fuzz.ratio(wanted, name), fuzz.token_sort_ratio(wanted, name), within)
