"""Warnings on a whole block, with their figures; never a refusal of a coach's judgement."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from itertools import pairwise
from typing import NamedTuple

from core.policy import Policy
from core.programme.block import Block, Day, weeks_text
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern, Region
from core.programme.prescription import LoadKind
from core.programme.problems import Code, Place, Problem, problem
from core.programme.volume import HIP, KNEE, PULL, PUSH, balance, sets_by_pattern
from core.units import Mass, plain

REP_WORTH = Decimal("0.03")
"""How much more load a rep fewer leaves room for. [fraction] Our proposal: 5 reps are not 8 reps."""
SAFE_LEFT = 2
"""Fewest reps left under a bar without safeties. [reps] Our proposal."""

_POLICY = Policy()


def block_warnings(
    block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE, policy: Policy = _POLICY
) -> tuple[Problem, ...]:
    """Return what a coach may want to look at again in a block that can be used as it is."""
    return (
        *_empty_days(block),
        *_limits_under_bar(block, catalogue),
        *_load_jumps(block, catalogue, policy),
        *_uneven(block, catalogue, Code.PUSH_TO_PULL),
        *_uneven(block, catalogue, Code.KNEE_TO_HIP),
    )


def _empty_days(block: Block) -> Iterator[Problem]:
    for day in block.days:
        empty = [week for week in range(1, block.weeks + 1) if not day.in_week(week)]
        if empty:
            yield problem(Code.DAY_EMPTY_IN_WEEK, Place(), day=day.name, weeks=weeks_text(empty))


def _limits_under_bar(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[Problem]:
    for day in block.days:
        least: dict[str, int] = {}
        for line in day.lines:
            asked = line.prescription
            left = asked.dose.left
            if left is not None and left < SAFE_LEFT and catalogue[asked.exercise].needs_safeties:
                least[asked.exercise] = min(left, least.get(asked.exercise, left))
        for key, left in least.items():
            facts = {"exercise": catalogue[key].name, "day": day.name, "left": left}
            yield problem(Code.LIMIT_UNDER_BAR, Place(), **facts)


class _Top(NamedTuple):
    """The heaviest written mass of an exercise in a week, and the most reps asked for with it."""

    week: int
    mass: Mass
    reps: int


def _load_jumps(block: Block, catalogue: Mapping[str, Exercise], policy: Policy) -> Iterator[Problem]:
    """Yield each rise of a written load from one week to the next that is over the cap."""
    for day in block.days:
        for key in dict.fromkeys(line.prescription.exercise for line in day.lines):
            exercise = catalogue[key]
            cap, cap_mass = _caps(exercise.region, policy)
            for before, after in pairwise(_tops(day, key, block.weeks)):
                if _over_cap(before, after, cap, cap_mass):
                    facts = {
                        "exercise": exercise.name,
                        "day": day.name,
                        "from_week": before.week,
                        "from_load": before.mass,
                        "to_week": after.week,
                        "to_load": after.mass,
                        "cap": f"{plain(cap * 100)} %",
                    }
                    yield problem(Code.LOAD_JUMP, Place(), **facts)


def _tops(day: Day, key: str, weeks: int) -> list[_Top]:
    tops = []
    for week in range(1, weeks + 1):
        of_week = [
            _Top(week, load.mass, asked.dose.reps.high if asked.dose.reps else 0)
            for asked in day.in_week(week)
            if asked.exercise == key
            and (load := asked.dose.load) is not None
            and load.kind is LoadKind.MASS
            and load.mass is not None
        ]
        if of_week:
            tops.append(max(of_week, key=lambda top: top.mass))
    return tops


def _caps(region: Region, policy: Policy) -> tuple[Decimal, Mass]:
    if region is Region.UPPER:
        return policy.cap_upper, policy.cap_upper_mass
    return policy.cap_lower, policy.cap_lower_mass


def _over_cap(before: _Top, after: _Top, cap: Decimal, cap_mass: Mass) -> bool:
    """Tell whether a rise is over the smaller of percentage and mass; reps taken away leave more room."""
    rise = after.mass.kg - before.mass.kg
    fewer = before.reps - after.reps
    if fewer > 0:
        return rise > before.mass.kg * (cap + REP_WORTH * fewer)
    return rise > min(before.mass.kg * cap, cap_mass.kg)


_SIDES: Mapping[Code, tuple[frozenset[Pattern], frozenset[Pattern], str, str]] = {
    Code.PUSH_TO_PULL: (PUSH, PULL, "push", "pull"),
    Code.KNEE_TO_HIP: (KNEE, HIP, "knee", "hip"),
}


def _uneven(block: Block, catalogue: Mapping[str, Exercise], code: Code) -> Iterator[Problem]:
    """Yield one warning for each pair of figures that is out of balance, with the weeks it holds in."""
    one, other, one_name, other_name = _SIDES[code]
    weeks: dict[tuple[int, int], list[int]] = {}
    for week in range(1, block.weeks + 1):
        sides = balance(sets_by_pattern(block, week, catalogue), one, other)
        if not sides.even:
            weeks.setdefault((sides.one, sides.other), []).append(week)
    for (first, second), numbers in weeks.items():
        facts = {one_name: first, other_name: second, "weeks": weeks_text(numbers)}
        yield problem(code, Place(), **facts)
