"""Warm-up sets before the working weight: a ramp of loads that the kit really makes."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from core.loads.bars import bar_load
from core.loads.equipment import Kit, Ladder, ladder_for
from core.loads.hands import takes_two
from core.loads.lifted import Lifted
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis, Exercise, Implement
from core.units import Mass
from core.value import Value

STEPS = ((Decimal("0.40"), 8), (Decimal("0.60"), 5), (Decimal("0.75"), 3), (Decimal("0.90"), 1))
"""Share of the working load and reps. Source: common practice, no source."""

NO_SINGLE_FROM = 8
"""No 90 % step when the work is this many reps or more. Source: our proposal. [reps]"""

LIGHT = Decimal("1.5")
"""Work under this many times the lightest load that can be made needs no ramp. Source: common practice, no source."""

WARMED_STEPS = ((Decimal("0.60"), 5),)
"""What is left of a ramp after its pattern has been warmed: one set or none. Source: common practice, no source."""

FROM_FLOOR = frozenset({"deadlift", "sumo-deadlift", "trap-bar-deadlift"})
"""Exercises that begin with the bar on the floor, at the height of its discs."""

FULL_SIZE = Mass.of(20)
"""A disc from this mass on is of full size, where nobody has said which are. [kg] Common practice, no source: so with
iron discs; rubber ones are of full size, 450 mm, from 10 kg on by [IWF], and said to be so in the kit."""


class RampSet(Value):
    """One warm-up set.

    Attributes:
        load: As the working load is counted.
        reps: How many.
        low_bar: True where the bar would lie too low for a pull from the floor, because no disc on it is of full
            size: it goes on blocks, or on discs laid flat.
    """

    load: Mass
    reps: int
    low_bar: bool = False


class Ramp(Value):
    """The way to today's working load.

    Attributes:
        sets: Warm-up sets, rising.
        bar_too_heavy: True where the work is lighter than the lightest bar there is.
        instead: Key of an equal that goes lighter with this kit, where the bar is too heavy; None where there is none.
    """

    sets: tuple[RampSet, ...] = ()
    bar_too_heavy: bool = False
    instead: str | None = None


def ramp(work: Mass, reps: int, ladder: Ladder, *, warmed: bool = False) -> tuple[RampSet, ...]:
    """Return the warm-up sets before `work`; they count neither as volume nor for an estimate.

    Each step is the greatest load of the kit at or under its share; steps that come out the same, or not under the
    work, are left out. Nothing is under the lightest load that can be made (the empty bar). Light work has no ramp.

    Args:
        work: Today's first working load; all of it, not what is added to a body.
        reps: Reps of a working set. [1..]
        ladder: What can be loaded.
        warmed: True where the same pattern was warmed before: one set at most.
    """
    lightest = ladder.steps[0] if ladder.steps else None
    if lightest is None or work < lightest * LIGHT:
        return ()
    found: list[RampSet] = []
    for share, count in WARMED_STEPS if warmed else STEPS:
        if count == 1 and reps >= NO_SINGLE_FROM:
            continue
        load = ladder.at_or_under(work * share) or lightest
        if load < work and (not found or load > found[-1].load):
            found.append(RampSet(load=load, reps=count))
    return tuple(found)


def ramp_for(
    exercise: Exercise,
    work: Mass,
    reps: int,
    kit: Kit,
    *,
    warmed: bool = False,
    catalogue: Mapping[str, Exercise] = CATALOGUE,
) -> Ramp:
    """Return the ramp of an exercise with what this kit has, and what stands against it.

    Empty where the body is the load: a share of what is added to it says nothing.

    Args:
        exercise: What is lifted.
        work: Today's first working load, as the exercise counts it.
        reps: Reps of a working set. [1..]
        kit: What there is.
        warmed: True where the same pattern was warmed before: one set at most.
        catalogue: Where the equals are looked up.
    """
    if exercise.basis is Basis.BODYWEIGHT:
        return Ramp()
    ladder = ladder_for(exercise, kit)
    if exercise.implement is Implement.BARBELL and ladder.steps and work < ladder.steps[0]:
        equals = (catalogue[key] for key in exercise.equals if key in catalogue)
        return Ramp(
            bar_too_heavy=True, instead=_lighter(equals, Lifted(mass=work, basis=exercise.basis), kit)
        )
    sets = ramp(work, reps, ladder, warmed=warmed)
    if exercise.key in FROM_FLOOR:
        sets = tuple(one.model_copy(update={"low_bar": lies_low(one.load, exercise, kit)}) for one in sets)
    return Ramp(sets=sets)


def lies_low(load: Mass, exercise: Exercise, kit: Kit) -> bool:
    """Return whether the bar made up to a load lies lower than in a heavy pull: no disc on it is of full size."""
    made = bar_load(load, exercise, kit)
    return made is None or not any(_is_full_size(disc, kit) for disc in made.side)


def _is_full_size(disc: Mass, kit: Kit) -> bool:
    return disc in kit.full_size if kit.full_size else disc >= FULL_SIZE


def _lighter(equals: Iterable[Exercise], work: Lifted, kit: Kit) -> str | None:
    """Return the first equal without a bar that is no heavier than the work at its lightest, or moves no load."""
    return next((each.key for each in equals if _goes_lighter(each, work, kit)), None)


def _goes_lighter(equal: Exercise, work: Lifted, kit: Kit) -> bool:
    if equal.implement is Implement.BARBELL:
        return False
    if equal.implement is Implement.BAND:
        return bool(kit.bands)
    steps = ladder_for(equal, kit).steps
    if not steps:
        return False
    if equal.basis in (Basis.BODYWEIGHT, Basis.STACK):
        return True
    lightest = Lifted(mass=steps[0], basis=equal.basis).whole(hands=2 if takes_two(equal) else 1)
    return Lifted(mass=lightest, basis=Basis.TOTAL) <= work
