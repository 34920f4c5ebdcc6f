"""Rises from week to week that are over the caps: of a written load, of reps, of sets a muscle."""

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import NamedTuple

from core.policy import Policy
from core.programme.block import Block, Day
from core.programme.exercises import Exercise, Region
from core.programme.muscles import Muscle
from core.programme.prescription import LoadKind
from core.programme.problems import Code, Place, Problem, problem
from core.programme.volume import sets_by_muscle
from core.units import Mass, plain

REP_WORTH = Decimal("0.03")
"""How much more load a rep fewer leaves room for. [fraction] Our proposal: 5 reps are not 8 reps."""
REMEMBERED = 2
"""Weeks back that a rise is measured from: what follows a lighter week is no jump. [weeks] Our proposal."""
REPS_RISE, REPS_SHARE = 2, Decimal("0.20")
"""Most that reps of a set rise from week to week at no less load, the greater of the two. [reps, fraction] Our
proposal, after the cap on sets."""


class _Top(NamedTuple):
    """The heaviest written mass of an exercise in a week, and the most reps asked for with it."""

    week: int
    mass: Mass
    reps: int


def load_jumps(block: Block, catalogue: Mapping[str, Exercise], policy: Policy) -> Iterator[Problem]:
    """Yield each rise of a written load from one week to the next that is over the cap."""
    for day, exercise, tops in _rows(block, catalogue):
        cap, cap_mass = caps(exercise.region, policy)
        for before, after in _steps(tops):
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


def rep_jumps(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[Problem]:
    """Yield each rise of reps over those of the two weeks before, at a written load that is no lower."""
    for day, exercise, tops in _rows(block, catalogue):
        for place, after in enumerate(tops):
            recent = tops[max(0, place - REMEMBERED) : place]
            lighter = [top for top in recent if top.reps and top.mass <= after.mass]
            before = max(lighter, key=lambda top: (top.reps, top.week), default=None)
            if before is not None and after.reps > _most(before.reps, REPS_RISE, REPS_SHARE):
                facts = {
                    "exercise": exercise.name,
                    "day": day.name,
                    "from_week": before.week,
                    "from_reps": before.reps,
                    "to_week": after.week,
                    "to_reps": after.reps,
                }
                yield problem(Code.REPS_JUMP, Place(), **facts)


def set_jumps(block: Block, catalogue: Mapping[str, Exercise], policy: Policy) -> Iterator[Problem]:
    """Yield each week in which muscles have more sets than the two weeks before let them have, all in one.

    At most two sets or a fifth more, the greater of the two. Weeks for tests are left out on both sides.
    """
    weeks = [week for week in range(1, block.weeks + 1) if week not in block.testing_weeks]
    counts = {week: sets_by_muscle(block, week, catalogue) for week in weeks}
    for place in range(1, len(weeks)):
        week, before = weeks[place], weeks[max(0, place - REMEMBERED) : place]
        risen = []
        for muscle, sets in counts[week].items():
            had = max(counts[each].get(muscle, Decimal(0)) for each in before)
            if sets > _most(had, policy.sets_rise, policy.sets_rise_share):
                risen.append(_rise_text(muscle, had, sets))
        if risen:
            facts = {"week": week, "muscles": ", ".join(risen), "more": policy.sets_rise}
            share = f"{plain(policy.sets_rise_share * 100)} %"
            yield problem(Code.SETS_JUMP, Place(), **facts, share=share)


def _most(had: Decimal | int, rise: int, share: Decimal) -> Decimal:
    return had + max(Decimal(rise), had * share)


def _rise_text(muscle: Muscle, had: Decimal, sets: Decimal) -> str:
    return f"{muscle.value} {plain(had)} to {plain(sets)}"


def _rows(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[tuple[Day, Exercise, Sequence[_Top]]]:
    for day in block.days:
        for key in dict.fromkeys(line.prescription.exercise for line in day.lines):
            yield day, catalogue[key], _tops(day, key, block.weeks)


def _steps(tops: Sequence[_Top]) -> Iterator[tuple[_Top, _Top]]:
    """Yield each top with the heaviest one of the weeks just before it; the later of two that are equal."""
    for place in range(1, len(tops)):
        before = tops[max(0, place - REMEMBERED) : place]
        yield max(before, key=lambda top: (top.mass.kg, top.week)), tops[place]


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


def caps(region: Region, policy: Policy) -> tuple[Decimal, Mass]:
    """Return the most that a load may rise from one session to the next: a fraction, and a mass."""
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
