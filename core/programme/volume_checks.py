"""Sets a muscle a week that are out of the usual band, and muscles that a block leaves out."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from core.policy import Policy
from core.programme.block import Block, weeks_text
from core.programme.deload_checks import eased_weeks
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle
from core.programme.problems import Code, Place, Problem, problem
from core.programme.volume import sets_by_muscle
from core.units import plain

LARGE = (Muscle.CHEST, Muscle.LATS, Muscle.UPPER_BACK, Muscle.QUADS, Muscle.HAMSTRINGS, Muscle.GLUTES)
"""Muscles that must have their sets. Our proposal: the big patterns are for these, and carry the small ones along;
what a block does for arms, shoulders, calves and trunk is taste, so that few sets of those are not told."""

Counts = Mapping[int, Mapping[Muscle, Decimal]]


def usual_weeks(block: Block, catalogue: Mapping[str, Exercise]) -> tuple[int, ...]:
    """Return the weeks that are neither lighter nor for tests; all of them where no other is left."""
    other = eased_weeks(block, catalogue) | block.testing_weeks
    weeks = range(1, block.weeks + 1)
    return tuple(week for week in weeks if week not in other) or tuple(weeks)


def out_of_band(block: Block, catalogue: Mapping[str, Exercise], policy: Policy) -> Iterator[Problem]:
    """Yield muscles with few sets in usual weeks, then those with many, those of the same weeks together.

    Few is told of large muscles only, many of all. One that has none in any week is told of by `untrained`.
    """
    counts = _counts(block, catalogue)
    least, most = policy.muscle_sets_least, policy.muscle_sets_most
    few = {
        muscle: [week for week, sets in counts.items() if sets.get(muscle, 0) < least]
        for muscle in LARGE
        if any(muscle in sets for sets in counts.values())
    }
    many = {
        muscle: [week for week, sets in counts.items() if sets.get(muscle, 0) > most] for muscle in Muscle
    }
    for weeks, muscles in _by_weeks(few, counts):
        yield problem(Code.MUSCLES_LOW, Place(), muscles=muscles, weeks=weeks, least=least)
    for weeks, muscles in _by_weeks(many, counts):
        yield problem(Code.MUSCLES_HIGH, Place(), muscles=muscles, weeks=weeks, most=most)


def untrained(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[Problem]:
    """Yield the large muscles that no usual week has a set for, all in one."""
    trained = {muscle for sets in _counts(block, catalogue).values() for muscle in sets}
    left_out = [muscle.value for muscle in LARGE if muscle not in trained]
    if left_out:
        yield problem(Code.MUSCLES_UNTRAINED, Place(), muscles=", ".join(left_out))


def range_text(counts: Sequence[Decimal]) -> str:
    """Return one number, or the least and the most: `4.5-6`."""
    low, high = plain(min(counts)), plain(max(counts))
    return low if low == high else f"{low}-{high}"


def _counts(block: Block, catalogue: Mapping[str, Exercise]) -> Counts:
    return {week: sets_by_muscle(block, week, catalogue) for week in usual_weeks(block, catalogue)}


def _by_weeks(found: Mapping[Muscle, Sequence[int]], counts: Counts) -> Iterator[tuple[str, str]]:
    """Yield weeks, and the muscles that are told of in just these with their sets."""
    together: dict[tuple[int, ...], list[str]] = {}
    for muscle, weeks in found.items():
        if weeks:
            sets = range_text([counts[week].get(muscle, Decimal(0)) for week in weeks])
            together.setdefault(tuple(weeks), []).append(f"{muscle.value} {sets}")
    for run, muscles in together.items():
        yield weeks_text(run), ", ".join(muscles)
