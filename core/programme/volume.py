"""Working sets of a week, by pattern and by muscle, and what stands against what."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import NamedTuple

from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern
from core.programme.lighter_weeks import deload_sets
from core.programme.muscles import Muscle
from core.programme.prescription import Dose

PUSH = frozenset({Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS, Pattern.DIP})
PULL = frozenset({Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL})
KNEE = frozenset({Pattern.SQUAT, Pattern.LUNGE, Pattern.STEP, Pattern.KNEE_EXTENSION})
HIP = frozenset({Pattern.HINGE, Pattern.BRIDGE, Pattern.KNEE_FLEXION, Pattern.SWING})

HARD_LEFT = 4
"""Most reps left of a set that counts for a muscle; easier ones are preparation. Common practice, no source."""
DIRECT, INDIRECT = Decimal(1), Decimal("0.5")
"""What a set counts for the muscle that it is for, and for one that helps. [sets] Source: [Pelland2024]."""


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


def working_sets(dose: Dose) -> int:
    """Return the working sets of a dose; in a planned lighter week what it makes of them. [sets]

    Descending sets count as the sets at the load: what follows them without a rest is no set of its own. Our proposal.
    """
    return deload_sets(dose.sets) if dose.lighter else dose.sets


def sets_by_pattern(
    block: Block, week: int, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> dict[Pattern, int]:
    """Return the working sets of week `week` (from 1) for each pattern that has any.

    A set of one-sided work counts once, not once a side.
    """
    return counted_by_pattern(
        (exercise, working_sets(dose)) for exercise, dose in _asked(block, week, catalogue)
    )


def sets_by_muscle(
    block: Block, week: int, catalogue: Mapping[str, Exercise] = CATALOGUE
) -> dict[Muscle, Decimal]:
    """Return the hard sets of week `week` (from 1) for each muscle that has any, in the order of muscles. [sets]

    One for a muscle that an exercise is for, a half for one that helps. Sets with more than four reps left do not
    count; a set of one-sided work counts once. Source: [Pelland2024].
    """
    return counted_by_muscle(
        (exercise, working_sets(dose))
        for exercise, dose in _asked(block, week, catalogue)
        if is_hard(dose.left)
    )


def is_hard(left: int | None) -> bool:
    """Return whether a set with so many reps left counts for a muscle; so does one of which nobody said how many."""
    return left is None or left <= HARD_LEFT


def counted_by_pattern(counted: Iterable[tuple[Exercise, int]]) -> dict[Pattern, int]:
    """Return sets of exercises for each pattern that has any, in the order of patterns. [sets]"""
    sets: Counter[Pattern] = Counter()
    for exercise, count in counted:
        sets[exercise.pattern] += count
    return {pattern: sets[pattern] for pattern in Pattern if sets[pattern]}


def counted_by_muscle(counted: Iterable[tuple[Exercise, int]]) -> dict[Muscle, Decimal]:
    """Return sets of exercises for each muscle that has any, in the order of muscles. [sets] Source: [Pelland2024]."""
    sets: dict[Muscle, Decimal] = dict.fromkeys(Muscle, Decimal(0))
    for exercise, count in counted:
        for muscles, worth in ((exercise.direct, DIRECT), (exercise.indirect, INDIRECT)):
            for muscle in muscles:
                sets[muscle] += worth * count
    return {muscle: total for muscle, total in sets.items() if total}


def _asked(block: Block, week: int, catalogue: Mapping[str, Exercise]) -> Iterator[tuple[Exercise, Dose]]:
    for day in block.days:
        for asked in day.in_week(week):
            yield catalogue[asked.exercise], asked.dose


def balance(sets: Mapping[Pattern, int], one: frozenset[Pattern], other: frozenset[Pattern]) -> Balance:
    """Return how the sets of `one` stand against those of `other`."""
    return Balance(
        sum(count for pattern, count in sets.items() if pattern in one),
        sum(count for pattern, count in sets.items() if pattern in other),
    )
