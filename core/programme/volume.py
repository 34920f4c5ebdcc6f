"""Working sets of a week, by pattern, and what stands against what."""

from collections import Counter
from collections.abc import Mapping
from typing import NamedTuple

from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern

PUSH = frozenset({Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS, Pattern.DIP})
PULL = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL})
KNEE = frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.STEP, Pattern.KNEE_EXTENSION})
HIP = frozenset({Pattern.HINGE, Pattern.BRIDGE, Pattern.KNEE_FLEXION, Pattern.SWING})


class Balance(NamedTuple):
    """Sets of a week on two sides that are kept in balance.

    Attributes:
        one: Of the first side. [sets]
        other: Of the second. [sets]
    """

    one: int
    other: int

    @property
    def even(self) -> bool:
        """True from two thirds to one and a half, or with nothing at all. Common practice, no source."""
        return 3 * self.one >= 2 * self.other and 2 * self.one <= 3 * self.other


def sets_by_pattern(
    block: Block, week: int, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> dict[Pattern, int]:
    """Return the working sets of week `week` (from 1) for each pattern that has any.

    A set of one-sided work counts once, not once a side.
    """
    sets: Counter[Pattern] = Counter()
    for day in block.days:
        for asked in day.in_week(week):
            sets[catalogue[asked.exercise].pattern] += asked.dose.sets
    return {pattern: sets[pattern] for pattern in Pattern if sets[pattern]}


def balance(sets: Mapping[Pattern, int], one: frozenset[Pattern], other: frozenset[Pattern]) -> Balance:
    """Return how the sets of `one` stand against those of `other`."""
    return Balance(
        sum(count for pattern, count in sets.items() if pattern in one),
        sum(count for pattern, count in sets.items() if pattern in other),
    )
