"""Patterns that stand in for each other, and what a restriction leaves of a pattern.

Common practice, no source. A restriction is kept to, never weighed: what breaks one is not done.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from core.programme.exercises import Exercise, Pattern
from core.programme.restrictions import Restriction

_PAIRS: tuple[tuple[Pattern, Pattern], ...] = (
    (Pattern.SQUAT, Pattern.LUNGE),
    (Pattern.SQUAT, Pattern.STEP),
    (Pattern.SQUAT, Pattern.JUMP),
    (Pattern.LUNGE, Pattern.STEP),
    (Pattern.LUNGE, Pattern.KNEE_EXTENSION),
    (Pattern.LUNGE, Pattern.HIP_ADDUCTION),
    (Pattern.STEP, Pattern.KNEE_EXTENSION),
    (Pattern.HINGE, Pattern.BRIDGE),
    (Pattern.HINGE, Pattern.KNEE_FLEXION),
    (Pattern.HINGE, Pattern.SWING),
    (Pattern.BRIDGE, Pattern.KNEE_FLEXION),
    (Pattern.BRIDGE, Pattern.SWING),
    (Pattern.SWING, Pattern.JUMP),
    (Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS),
    (Pattern.HORIZONTAL_PRESS, Pattern.DIP),
    (Pattern.HORIZONTAL_PRESS, Pattern.ELBOW_EXTENSION),
    (Pattern.DIP, Pattern.ELBOW_EXTENSION),
    (Pattern.VERTICAL_PRESS, Pattern.RAISE),
    (Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL),
    (Pattern.HORIZONTAL_PULL, Pattern.CURL),
    (Pattern.HORIZONTAL_PULL, Pattern.SHRUG),
    (Pattern.SHRUG, Pattern.CARRY),
    (Pattern.CARRY, Pattern.TRUNK),
)

_SISTERS: Mapping[Pattern, tuple[Pattern, ...]] = MappingProxyType(
    {
        pattern: tuple(other for pair in _PAIRS if pattern in pair for other in pair if other is not pattern)
        for pattern in Pattern
    }
)

INSTEAD: Mapping[Restriction, Mapping[Pattern, Pattern]] = MappingProxyType(
    {
        Restriction.OVERHEAD: {
            Pattern.VERTICAL_PRESS: Pattern.HORIZONTAL_PRESS,
            Pattern.VERTICAL_PULL: Pattern.HORIZONTAL_PULL,
        },
        Restriction.LOADED_HINGE: {Pattern.HINGE: Pattern.BRIDGE, Pattern.SWING: Pattern.BRIDGE},
        Restriction.SPINE_LOAD: {
            Pattern.HINGE: Pattern.BRIDGE,
            Pattern.SWING: Pattern.BRIDGE,
            Pattern.JUMP: Pattern.SQUAT,
            Pattern.SHRUG: Pattern.HORIZONTAL_PULL,
            Pattern.CARRY: Pattern.TRUNK,
        },
        Restriction.DEEP_KNEE: {Pattern.LUNGE: Pattern.STEP},
        Restriction.JUMPING: {Pattern.JUMP: Pattern.SQUAT},
        Restriction.ONE_LEG: {Pattern.STEP: Pattern.LUNGE},
        Restriction.GRIP: {
            Pattern.DIP: Pattern.HORIZONTAL_PRESS,
            Pattern.ELBOW_EXTENSION: Pattern.HORIZONTAL_PRESS,
            Pattern.VERTICAL_PULL: Pattern.HORIZONTAL_PULL,
            Pattern.CURL: Pattern.HORIZONTAL_PULL,
            Pattern.SHRUG: Pattern.HORIZONTAL_PULL,
            Pattern.CARRY: Pattern.TRUNK,
            Pattern.SWING: Pattern.BRIDGE,
        },
    }
)
"""Patterns that a restriction forbids by its nature, each with the sister pattern that is left."""


def sisters(pattern: Pattern) -> tuple[Pattern, ...]:
    """Return the patterns that stand in for this one, nearest first; none for those that stand alone."""
    return _SISTERS[pattern]


def broken(row: Exercise, restrictions: Iterable[Restriction]) -> tuple[Restriction, ...]:
    """Return which of these restrictions an exercise breaks, in the order of the list of restrictions."""
    given = frozenset(restrictions)
    return tuple(each for each in Restriction if each in given and each in row.breaks)
