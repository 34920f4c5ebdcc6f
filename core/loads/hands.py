"""Dumbbells and kettlebells: those that there are, and those that are made up from discs."""

from decimal import Decimal
from functools import lru_cache

from core.loads.discs import Discs, as_marked, discs_of, making, sums
from core.loads.kit import Handles, Kit
from core.loads.ladder import Ladder, Written, common_unit, ladder_of, mass_of, written
from core.programme.exercises import Basis, Exercise, Implement, Pattern
from core.units import Mass, Unit

MOST_A_HAND = {Unit.KG: Decimal(80), Unit.LB: Decimal(180)}
"""Most that a dumbbell is reckoned to be made up to where nobody said. [unit] Our proposal."""
_BOTH_HANDS = frozenset({Pattern.LUNGE, Pattern.STEP, Pattern.HINGE})
"""Patterns that are done a side at a time with a dumbbell in either hand. Common practice, no source."""


def takes_two(exercise: Exercise) -> bool:
    """Return whether an exercise takes two alike at a time: one in either hand."""
    if exercise.basis is not Basis.PER_HAND:
        return False
    return not exercise.each_side or exercise.pattern in _BOTH_HANDS


def hand_ladder(exercise: Exercise, kit: Kit) -> Ladder:
    """Return every dumbbell or kettlebell of a kit that serves an exercise: what one hand holds."""
    return _ladder(tuple(map(written, _masses(exercise, kit))))


@lru_cache(maxsize=2048)
def _ladder(masses: tuple[Written, ...]) -> Ladder:
    return ladder_of(mass_of(mass) for mass in masses)


def _masses(exercise: Exercise, kit: Kit) -> tuple[Mass, ...]:
    two = takes_two(exercise)
    if exercise.implement is Implement.KETTLEBELL:
        return kit.kettlebells if two else kit.kettlebells + kit.lone_kettlebells
    runs = tuple(mass for run in kit.dumbbell_runs for mass in run.masses)
    lone = () if two else kit.lone_dumbbells
    return (*kit.dumbbells, *runs, *lone, *_made_up(kit, two=two))


def _made_up(kit: Kit, *, two: bool) -> tuple[Mass, ...]:
    handles = kit.handles
    if handles is None or (two and handles.count < 2):
        return ()
    unit, discs, most = _ends(handles, kit, two=two)
    return tuple(handles.mass.to(unit) + Mass(end, unit) * 2 for end in sums(discs, most))


def discs_an_end(mass: Mass, exercise: Exercise, kit: Kit) -> tuple[Mass, ...] | None:
    """Return the discs at each end of a dumbbell that make `mass`, heaviest first; None where it is not made up so.

    Where an exercise takes two, both are made up alike: they share the discs.
    """
    handles, two = kit.handles, takes_two(exercise)
    if handles is None or exercise.implement is not Implement.DUMBBELL or (two and handles.count < 2):
        return None
    unit, discs, most = _ends(handles, kit, two=two)
    end = (mass.to(unit) - handles.mass).value / 2
    found = making(end, discs) if 0 <= end <= most else None
    return None if found is None else as_marked(found, handles.plates or kit.plates, unit)


def _ends(handles: Handles, kit: Kit, *, two: bool) -> tuple[Unit, Discs, Decimal]:
    """Return the unit to count in, the discs for one end, and the most that goes there."""
    plates = handles.plates or kit.plates
    unit = common_unit(kit.unit, (handles.mass, *(one.mass for one in plates)))
    most = Mass(MOST_A_HAND[unit], unit) if handles.most is None else handles.most
    room = max((most.to(unit) - handles.mass).value / 2, Decimal(0))
    return unit, discs_of(plates, unit, share=2 if two else 1), room
