"""What can be loaded: the ladder of loads that a kit gives for an exercise, and what is likely there besides."""

from core.loads.bars import BarLoad, bar_ladder, bar_load, plates_for
from core.loads.body_loads import body_ladder
from core.loads.hands import hand_ladder
from core.loads.kit import Bar, Handles, Kit, Plates, Run, Stack
from core.loads.ladder import Ladder
from core.loads.stacks import stack_ladder
from core.loads.usual_kits import default_kit
from core.programme.exercises import Basis, Exercise, Implement, Station

__all__ = [
    "HOME",
    "Bar",
    "BarLoad",
    "Handles",
    "Kit",
    "Ladder",
    "Plates",
    "Run",
    "Stack",
    "bar_load",
    "default_kit",
    "is_likely_there",
    "ladder_for",
    "plates_for",
    "stations_likely_there",
]

HOME = frozenset({Station.BENCH, Station.STEP, Station.ANCHOR})
"""What there is at most homes to sit, step or hold on to. Our proposal."""


def ladder_for(exercise: Exercise, kit: Kit) -> Ladder:
    """Return every load that can be made for `exercise` with `kit`.

    Barbells: every sum of pairs of plates that are really there, on a bar (or a side). Dumbbells and kettlebells:
    each one there is, a hand, or the one that is held; two alike where two are held. Stacks: every pin, with what can
    be laid on top. Bodyweight: bare, with what can be added, and with what a machine takes off where the whole body
    hangs. Bands: nothing to count.
    """
    if exercise.basis is Basis.BODYWEIGHT:
        return body_ladder(kit, hangs=exercise.body_share == 1)
    match exercise.implement:
        case Implement.BARBELL:
            return bar_ladder(exercise, kit)
        case Implement.DUMBBELL | Implement.KETTLEBELL:
            return hand_ladder(exercise, kit)
        case Implement.STACK:
            return stack_ladder(exercise, kit)
        case _:
            return Ladder(steps=())


def is_likely_there(exercise: Exercise, kit: Kit) -> bool:
    """Return whether what an exercise needs is likely there: all but bands beside machines, little elsewhere.

    A kit says what is lifted, and nothing of benches and racks; so this only says what to offer first. A band is there
    where one has been named.
    """
    if exercise.implement is Implement.BAND and not kit.bands:
        return False
    return exercise.needs <= stations_likely_there(kit)


def stations_likely_there(kit: Kit) -> frozenset[Station]:
    """Return what there is likely to sit, stand, hang or pull on: everything where there are machines."""
    return frozenset(Station) if kit.stack_step is not None or kit.stacks else HOME
