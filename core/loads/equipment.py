"""What can be loaded: the kit of a place, and the ladder of loads it gives."""

from bisect import bisect_right
from decimal import Decimal
from functools import lru_cache

from core.programme.exercises import Basis, Exercise, Implement, Station
from core.units import Mass, Unit
from core.value import Value

MOST_A_SIDE = {Unit.KG: Decimal(250), Unit.LB: Decimal(550)}
"""Most that is reckoned on one side of a bar. [unit] Our proposal: over anything lifted."""
MOST_ADDED = {Unit.KG: Decimal(100), Unit.LB: Decimal(220)}
"""Most that is reckoned on top of bodyweight. [unit] Our proposal."""
MOST_TAKEN_OFF = {Unit.KG: Decimal(60), Unit.LB: Decimal(130)}
"""Most that an assisting machine is reckoned to take off. [unit] Our proposal."""
STACK_PLATES = 60
"""Plates of a machine stack. Our proposal: over most machines; the top pin is found in the gym."""


class Plates(Value):
    """Plates of one mass; `pairs` None when there are plenty."""

    mass: Mass
    pairs: int | None = None


class Kit(Value):
    """What there is to lift at one place.

    Attributes:
        place: The client's word for it: "gym", "home".
        unit: Unit its plates and dumbbells are marked in.
        bar: The empty bar; None where there is none.
        plates: For the bar.
        dumbbells: Each mass there is a pair of (a hand).
        kettlebells: Each mass there is.
        stack_step: Step of machine stacks; None where there are no machines.
        bodyweight_step: Smallest mass that can be added to a bodyweight lift (belt, vest, held dumbbell); None for
            none.
        safety_arms: True where a failed lift lands on safeties.
        usually_alone: True when nobody is there to help.
    """

    place: str
    unit: Unit
    bar: Mass | None = None
    plates: tuple[Plates, ...] = ()
    dumbbells: tuple[Mass, ...] = ()
    kettlebells: tuple[Mass, ...] = ()
    stack_step: Mass | None = None
    bodyweight_step: Mass | None = None
    safety_arms: bool = False
    usually_alone: bool = True


class Ladder(Value):
    """Every load that can be made for one exercise with one kit, rising.

    Attributes:
        steps: Rising, distinct, in the kit's unit and the exercise's basis; what is added for bodyweight lifts.
            Empty when nothing can be loaded.
    """

    steps: tuple[Mass, ...]

    def at_or_under(self, mass: Mass) -> Mass | None:
        """Return the greatest load not over `mass`; None when even the lightest is over it."""
        place = bisect_right(self.steps, mass)
        return self.steps[place - 1] if place else None

    def over(self, mass: Mass) -> Mass | None:
        """Return the least load over `mass`; None at the top."""
        place = bisect_right(self.steps, mass)
        return self.steps[place] if place < len(self.steps) else None

    def jump(self, mass: Mass) -> Decimal | None:
        """Return the next step over `mass` as a fraction of it (0.05 is 5 %); None at the top.

        None also where `mass` is not positive and a fraction of it means nothing.
        """
        step = self.over(mass)
        return None if step is None or mass.value <= 0 else step.ratio(mass) - 1


def ladder_for(exercise: Exercise, kit: Kit) -> Ladder:
    """Return every load that can be made for `exercise` with `kit`.

    Barbells: every sum of pairs of plates that are really there, on the bar (or a side). Dumbbells and
    kettlebells: each one there is, a hand, or the one that is held. Stacks: every plate. Bodyweight: bare, with
    what can be added, and with what a machine takes off where the whole body hangs. Bands: nothing to count.
    """
    return _ladder(exercise.implement, exercise.basis, exercise.body_share == 1, kit)


def plates_for(total: Mass, kit: Kit) -> tuple[Mass, ...] | None:
    """Return the plates of one side that make `total` with the bar, heaviest first; None when they cannot.

    The fewest plates; among those the heaviest first, as a lifter puts them on. Exact, not greedy: with limited
    plates the greedy way misses loads that can be made.
    """
    return _plates_for(total, kit)


@lru_cache(maxsize=2048)
def _plates_for(total: Mass, kit: Kit) -> tuple[Mass, ...] | None:
    if kit.bar is None:
        return None
    side = (total - kit.bar).to(kit.unit).value / 2
    if not 0 <= side <= MOST_A_SIDE[kit.unit]:
        return None
    best: dict[Decimal, tuple[Decimal, ...]] = {Decimal(0): ()}
    for mass, pairs in _discs(kit):
        for done, plates in list(best.items()):
            for count in range(1, min(pairs, int((side - done) // mass)) + 1):
                _keep_better(best, done + count * mass, (*plates, *((mass,) * count)))
    found = best.get(side)
    return None if found is None else tuple(Mass(each, kit.unit) for each in found)


def _keep_better(
    best: dict[Decimal, tuple[Decimal, ...]], total: Decimal, plates: tuple[Decimal, ...]
) -> None:
    """Keep the shorter of two ways to a sum; of two as short, the one with the heavier plates first."""
    held = best.get(total)
    if held is None or (-len(plates), plates) > (-len(held), held):
        best[total] = plates


def _discs(kit: Kit) -> list[tuple[Decimal, int]]:
    """Return each mass of plate and how many go on one side, heaviest first. [kit's unit]"""
    most = MOST_A_SIDE[kit.unit]
    discs = [(each.mass.to(kit.unit).value, each.pairs) for each in kit.plates]
    return sorted(
        ((mass, int(most // mass) if pairs is None else pairs) for mass, pairs in discs if mass > 0),
        reverse=True,
    )


@lru_cache(maxsize=512)
def _side_sums(kit: Kit) -> tuple[Decimal, ...]:
    """Return every sum that one side of the bar can carry, from nothing, rising. [kit's unit]"""
    most = MOST_A_SIDE[kit.unit]
    sums = {Decimal(0)}
    for mass, pairs in _discs(kit):
        reached = set(sums)
        for start in sums:
            for count in range(1, pairs + 1):
                total = start + count * mass
                if total > most:
                    break
                reached.add(total)
        sums = reached
    return tuple(sorted(sums))


@lru_cache(maxsize=2048)
def _ladder(implement: Implement, basis: Basis, whole_body: bool, kit: Kit) -> Ladder:
    if basis is Basis.BODYWEIGHT:
        masses = _bodyweight_steps(kit, whole_body=whole_body)
    elif implement is Implement.BARBELL:
        masses = _bar_steps(kit, basis)
    elif implement is Implement.DUMBBELL:
        masses = list(kit.dumbbells)
    elif implement is Implement.KETTLEBELL:
        masses = list(kit.kettlebells)
    elif implement is Implement.STACK and kit.stack_step is not None:
        masses = [kit.stack_step * count for count in range(1, STACK_PLATES + 1)]
    else:
        masses = []
    return Ladder(steps=tuple(sorted({mass.to(kit.unit) for mass in masses})))


def _bar_steps(kit: Kit, basis: Basis) -> list[Mass]:
    if kit.bar is None:
        return []
    sides = [Mass(side, kit.unit) for side in _side_sums(kit)]
    return sides if basis is Basis.PER_SIDE else [kit.bar.to(kit.unit) + side * 2 for side in sides]


def _bodyweight_steps(kit: Kit, *, whole_body: bool) -> list[Mass]:
    steps = [Mass(Decimal(0), kit.unit)]
    added = kit.bodyweight_step
    if added is not None:
        steps += [added * count for count in range(1, int(MOST_ADDED[added.unit] // added.value) + 1)]
    taken = kit.stack_step
    if whole_body and taken is not None:
        steps += [taken * -count for count in range(1, int(MOST_TAKEN_OFF[taken.unit] // taken.value) + 1)]
    return steps


HOME = frozenset({Station.BENCH, Station.STEP, Station.ANCHOR})
"""What there is at most homes to sit, step or hold on to. Our proposal."""


def is_likely_there(exercise: Exercise, kit: Kit) -> bool:
    """Return whether what an exercise needs is likely there: all but bands beside machines, little elsewhere.

    A kit says what is lifted, and nothing of bands, benches and racks; so this only says what to offer first.
    """
    if exercise.implement is Implement.BAND:
        return False
    return exercise.needs <= stations_likely_there(kit)


def stations_likely_there(kit: Kit) -> frozenset[Station]:
    """Return what there is likely to sit, stand, hang or pull on: everything where there are machines."""
    return frozenset(Station) if kit.stack_step is not None else HOME


def default_kit(kind: str, unit: Unit) -> Kit:
    """Return a usual kit of a kind, until the client has said more.

    Args:
        kind: "bar" (a gym with bar, plates and machines), "dumbbells", "both" or "bodyweight".
        unit: Unit it is marked in.

    Raises:
        ValueError: There is no such kind.

    Common practice, no source: bar 20 kg or 45 lb, plates to 1.25 kg or 2.5 lb, dumbbells a kilogram apart to 10,
    two to 30, two and a half to 50 kg (2.5 lb apart to 15, then 5), kettlebells 4 kg apart, stacks 5 kg or 10 lb.
    """
    if kind not in {"bar", "dumbbells", "both", "bodyweight"}:
        raise ValueError(f"no kind of kit is called {kind!r}")
    gym, hands = kind in {"bar", "both"}, kind in {"dumbbells", "both"}
    kg = unit is Unit.KG
    belt = ("2.5" if kg else "5") if gym else (("2" if kg else "5") if hands else None)
    return Kit(
        place="gym" if gym else "home",
        unit=unit,
        bar=Mass.of(20 if kg else 45, unit) if gym else None,
        plates=tuple(Plates(mass=mass) for mass in _masses(_PLATES[unit], unit)) if gym else (),
        dumbbells=_masses(_DUMBBELLS[unit] if gym else _DUMBBELLS[unit][:-8], unit) if hands else (),
        kettlebells=_masses(_KETTLEBELLS[unit], unit) if kind == "both" else (),
        stack_step=Mass.of(5 if kg else 10, unit) if gym else None,
        bodyweight_step=None if belt is None else Mass.of(belt, unit),
    )


_PLATES = {
    Unit.KG: ("25", "20", "15", "10", "5", "2.5", "1.25"),
    Unit.LB: ("45", "35", "25", "10", "5", "2.5"),
}
_DUMBBELLS = {
    Unit.KG: (
        *(str(mass) for mass in range(1, 11)),
        *(str(mass) for mass in range(12, 31, 2)),
        *("32.5", "35", "37.5", "40", "42.5", "45", "47.5", "50"),
    ),
    Unit.LB: ("2.5", "5", "7.5", "10", "12.5", "15", *(str(mass) for mass in range(20, 101, 5))),
}
_KETTLEBELLS = {
    Unit.KG: ("8", "12", "16", "20", "24", "28", "32"),
    Unit.LB: ("18", "26", "35", "44", "53", "62", "70"),
}


def _masses(texts: tuple[str, ...], unit: Unit) -> tuple[Mass, ...]:
    return tuple(Mass.of(text, unit) for text in texts)
