"""Tonnage (volume load): sets x reps x load, by how the load was written down. Shown, never a target.

What cannot be reckoned is left out and said: timed work, bands, bodyweight that nobody weighed. Loads of different
bases are only added here, as the mass that moved; they are never compared with each other.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from core.loads.hands import takes_two
from core.loads.lifted import Lifted
from core.loads.past import SetDone
from core.loads.work_done import WorkDone
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import Load, LoadKind
from core.units import Mass, Unit
from core.value import Value

WEIGHED_WITHIN = timedelta(days=56)
"""How old a weighing may be for bodyweight that was moved. [days] Our proposal."""


class NotReckoned(StrEnum):
    """Why a set has no tonnage."""

    TIMED = "timed"
    DISTANCE = "distance"
    BAND = "band"
    NO_LOAD = "no load"
    """The log has no mass for it."""
    NO_BAR = "no bar"
    """The load is written a side of a bar, and the bar is not known."""
    NOT_WEIGHED = "not weighed"
    """Bodyweight was moved, and no weighing is recent enough."""
    NO_SHARE = "no share"
    """Bodyweight was moved, and how much of it is not known."""


class Weighing(Value):
    """Bodyweight on a date.

    Attributes:
        on: The client's local date.
        mass: As weighed.
    """

    on: date
    mass: Mass


class LeftOut(Value):
    """Sets that have no tonnage.

    Attributes:
        why: Why not.
        sets: As logged, those of two sides apart. [sets]
    """

    why: NotReckoned
    sets: int


class Tonnage(Value):
    """Mass moved, all reps together.

    Attributes:
        mass: In the unit as lifted, in kilograms where units are mixed; None where no set could be reckoned.
        sets: Sets in it, as logged, those of two sides apart. [sets]
        left_out: Sets that are not in it, by why.
    """

    mass: Mass | None
    sets: int
    left_out: tuple[LeftOut, ...] = ()


def tonnage(work: Iterable[WorkDone], weighed: Sequence[Weighing] = ()) -> Tonnage:
    """Return the tonnage of what was done.

    A load a hand counts for as many hands as hold one, a load a side of a bar for both sides and the bar. Reps written
    for each side count for both. Bodyweight counts by the share of it
    that moves, from the newest weighing of the last 56 days before the set. Mixed units meet exactly, through the
    pound. Source: [Pound1959], [BMJMil2020]; the hands are common practice, no source.

    Args:
        work: Of any days.
        weighed: In any order.
    """
    moved: list[Mass] = []
    missing: Counter[NotReckoned] = Counter()
    for one in work:
        for each in one.exposure.sets:
            found = _of_set(each, one, weighed)
            if isinstance(found, NotReckoned):
                missing[found] += 1
            else:
                moved.append(found)
    left_out = tuple(LeftOut(why=why, sets=missing[why]) for why in NotReckoned if missing[why])
    return Tonnage(mass=_sum(moved) if moved else None, sets=len(moved), left_out=left_out)


def _of_set(one: SetDone, work: WorkDone, weighed: Sequence[Weighing]) -> Mass | NotReckoned:
    if one.reps is None:
        return NotReckoned.DISTANCE if one.seconds is None else NotReckoned.TIMED
    exercise, asked = work.exercise, work.exposure.dose
    sided = exercise.each_side or asked.each_side or one.side is not None
    load = asked.load if one.load is None else one.load
    if exercise.basis is Basis.BODYWEIGHT:
        mass = _body_moved(load, exercise, work.exposure.on, weighed)
    else:
        mass = _mass_moved(load, work, sided=sided)
    if isinstance(mass, NotReckoned):
        return mass
    return mass * (one.reps * (2 if sided and one.side is None else 1))


def _mass_moved(load: Load | None, work: WorkDone, *, sided: bool) -> Mass | NotReckoned:
    exercise = work.exercise
    if exercise.implement is Implement.BAND:
        return NotReckoned.BAND
    if load is not None and load.kind is LoadKind.BODYWEIGHT:
        return NotReckoned.NO_SHARE
    if load is None or load.kind is not LoadKind.MASS or load.mass is None:
        return NotReckoned.NO_LOAD
    bar = work.bar
    if exercise.basis is Basis.PER_SIDE and bar is None:
        return NotReckoned.NO_BAR
    if bar is not None and bar.unit is not load.mass.unit:
        bar = bar.to(Unit.KG)
    # What usually takes both hands and was done a side at a time had one weight in one hand.
    by_one_hand = sided and not exercise.each_side
    hands = 2 if takes_two(exercise) and not by_one_hand else 1
    return Lifted(mass=load.mass, basis=exercise.basis).whole(bar, hands=hands)


def _body_moved(
    load: Load | None, exercise: Exercise, on: date, weighed: Sequence[Weighing]
) -> Mass | NotReckoned:
    if load is not None and load.kind not in (LoadKind.MASS, LoadKind.BODYWEIGHT):
        return NotReckoned.BAND if load.kind is LoadKind.BAND else NotReckoned.NO_LOAD
    if exercise.body_share is None:
        return NotReckoned.NO_SHARE
    recent = [one for one in weighed if on - WEIGHED_WITHIN <= one.on <= on]
    if not recent:
        return NotReckoned.NOT_WEIGHED
    newest = max(recent, key=lambda one: (one.on, one.mass.kg))
    share = newest.mass * exercise.body_share
    if load is None or load.mass is None:
        return share
    total = _sum([share, load.mass])
    return max(total, Mass(Decimal(0), total.unit))


def _sum(masses: Sequence[Mass]) -> Mass:
    """Return the sum in the unit they share, otherwise in kilograms: that way alone the pound is exact."""
    units = {one.unit for one in masses}
    if len(units) == 1:
        return Mass(sum((one.value for one in masses), Decimal(0)), units.pop())
    return Mass(sum((one.kg for one in masses), Decimal(0)), Unit.KG)
