"""End targets that a plan cannot reach, even when every week goes as fast as the caps let it."""

from collections.abc import Iterator, Mapping
from decimal import ROUND_FLOOR, Decimal

from core.policy import Policy
from core.programme.block import Block, Target
from core.programme.deload_checks import eased_weeks
from core.programme.exercises import Exercise
from core.programme.jump_checks import caps
from core.programme.plan_cells import target_text
from core.programme.prescription import Dose, Load, LoadKind
from core.programme.problems import Code, Place, Problem, problem
from core.units import Mass

EPLEY = 30
"""Reps over which a load is taken to double. [reps] Source: [Epley1985]."""
MOST_REPS = 15
"""Reps done and left past which nothing is said of other reps. [reps] Our proposal under [Reynolds2006]."""
FOUR_WEEKS = 4


def far_targets(block: Block, catalogue: Mapping[str, Exercise], policy: Policy) -> Iterator[Problem]:
    """Yield each target that is over what the written loads come to by its week, at the fastest that is allowed.

    From every week with a written load, up to the week of the target, the load is taken to rise by the cap in each
    week that is not lighter, and by no more in four weeks than a newcomer may; reps and reps left count by [Epley1985].
    The generous end throughout, so that what is told is sure. Nothing is said where no load is written beforehand.
    """
    eased = eased_weeks(block, catalogue)
    for target in block.targets:
        exercise = catalogue[target.exercise]
        reached = _best(target, block, exercise, eased, policy)
        if reached is not None and target.load.mass is not None and reached < target.load.mass:
            yield problem(
                Code.TARGET_FAR,
                Place(),
                target=target_text(target, exercise),
                reached=f"{_shown(reached)} x {target.reps}",
            )


def _best(
    target: Target, block: Block, exercise: Exercise, eased: frozenset[int], policy: Policy
) -> Mass | None:
    """Return the most that can be lifted as often as the target asks by its week; None where it cannot be told."""
    found = []
    for week in range(1, target.week + 1):
        for dose in (
            asked.dose
            for day in block.days
            for asked in day.in_week(week)
            if asked.exercise == target.exercise
        ):
            start = _start(dose, target, policy)
            if start is not None:
                rises = sum(each not in eased for each in range(week + 1, target.week + 1))
                found.append(_risen(start, rises, exercise, policy, bodyweight=_hangs(target.load)))
    return max(found, default=None)


def _start(dose: Dose, target: Target, policy: Policy) -> Mass | None:
    """Return what a dose says could be lifted as often as the target asks; None where it says nothing of it."""
    load, reps = dose.load, dose.reps
    if load is None or reps is None or load.kind is not target.load.kind or target.load.mass is None:
        return None
    if _hangs(load):
        # What bodyweight comes to nobody knows here, so that reps are not counted over: as often, or more, or not.
        enough = reps.high + _left(dose, policy) >= target.reps
        added = load.mass if load.mass is not None else Mass(Decimal(0), target.load.mass.unit)
        return added.to(target.load.mass.unit) if enough else None
    total = reps.high + _left(dose, policy)
    if load.mass is None or total > MOST_REPS:
        return None
    return load.mass.to(target.load.mass.unit) * Decimal(EPLEY + total) / Decimal(EPLEY + target.reps)


def _hangs(load: Load) -> bool:
    return load.kind is LoadKind.BODYWEIGHT


def _left(dose: Dose, policy: Policy) -> int:
    if dose.left_high is not None:
        return dose.left_high
    return policy.left_default if dose.left is None else dose.left


def _risen(start: Mass, rises: int, exercise: Exercise, policy: Policy, *, bodyweight: bool) -> Mass:
    """Return a load after so many weeks, each by the cap, four together by no more than a newcomer may."""
    share, mass = caps(exercise.region, policy)
    loads = [start]
    for _ in range(rises):
        last = loads[-1]
        if bodyweight:
            loads.append(last + mass)
            continue
        most = loads[max(0, len(loads) - FOUR_WEEKS)] * (1 + policy.cap_four_weeks_new)
        loads.append(min(last + min(last * share, mass), most))
    return loads[-1]


def _shown(mass: Mass) -> Mass:
    """Return a load cut to half a unit, so that what cannot be reached is never rounded up to."""
    halves = (mass.value * 2).to_integral_value(ROUND_FLOOR)
    return Mass(halves / 2, mass.unit)
