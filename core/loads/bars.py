"""Barbells: every load that bars, collars and discs make, and the discs of one side as a lifter puts them on."""

from decimal import Decimal
from functools import lru_cache

from core.loads.discs import Discs, as_marked, discs_of, making, sums
from core.loads.kit import Bar, Kit
from core.loads.ladder import Ladder, Written, common_unit, ladder_of, mass_of, written
from core.programme.exercises import Basis, Exercise
from core.units import Mass, Unit
from core.value import Value

MOST_A_SIDE = {Unit.KG: Decimal(250), Unit.LB: Decimal(550)}
"""Most that is reckoned on one side of a bar. [unit] Our proposal: over anything lifted."""
USUAL_BAR = ""
"""Name of the bar that needs none."""


class BarLoad(Value):
    """A bar made up to a load.

    Attributes:
        bar: The empty bar.
        name: The bar's name; empty for the usual one.
        side: Discs of one side, heaviest first: the order they go on.
        collars: Both collars; None where the bar has none on.
    """

    bar: Mass
    name: str
    side: tuple[Mass, ...]
    collars: Mass | None = None


def bars_for(exercise: Exercise | None, kit: Kit) -> tuple[Bar, ...]:
    """Return the bars for an exercise, the usual one first; those that are named for it alone, where there are any.

    Without an exercise it is the usual bar alone.
    """
    usual = () if kit.bar is None else (Bar(name=USUAL_BAR, mass=kit.bar),)
    if exercise is None:
        return usual
    named = tuple(bar for bar in kit.bars if exercise.key in bar.exercises)
    return named or (*usual, *(bar for bar in kit.bars if not bar.exercises))


def bar_ladder(exercise: Exercise, kit: Kit) -> Ladder:
    """Return every load that a bar can be made up to: whole, or a side of it without the bar.

    Collars are on as soon as a disc is; the empty bar goes with them and without.
    """
    bars = tuple(bar.mass for bar in bars_for(exercise, kit))
    if not bars:
        return Ladder(steps=())
    unit = _unit(kit, bars)
    return _ladder(
        tuple(map(written, bars)),
        None if kit.collars is None else written(kit.collars),
        discs_of(kit.plates, unit),
        unit,
        exercise.basis is Basis.PER_SIDE,
    )


@lru_cache(maxsize=512)
def _ladder(
    bars: tuple[Written, ...], collars: Written | None, discs: Discs, unit: Unit, a_side: bool
) -> Ladder:
    sides = [Mass(side, unit) for side in sums(discs, MOST_A_SIDE[unit])]
    if a_side:
        return Ladder(steps=tuple(sides))
    empty = [mass_of(bar).to(unit) for bar in bars]
    if collars is None:
        return ladder_of(bar + side * 2 for bar in empty for side in sides)
    closed = [bar + mass_of(collars) for bar in empty]
    return ladder_of((*empty, *(bar + side * 2 for bar in closed for side in sides)))


def plates_for(total: Mass, kit: Kit, *, exercise: Exercise | None = None) -> tuple[Mass, ...] | None:
    """Return the plates of one side that make `total`, heaviest first; None when they cannot.

    The fewest plates; among those the heaviest first, as a lifter puts them on. Exact, not greedy: with limited
    plates the greedy way misses loads that can be made.

    Args:
        total: With the bar and, as soon as a disc is on, the collars.
        kit: What there is.
        exercise: Chooses among bars; without one it is the usual bar, so that nobody need be told which.
    """
    found = _first_made(total, bars_for(exercise, kit), kit)
    return None if found is None else found.side


def bar_load(total: Mass, exercise: Exercise, kit: Kit) -> BarLoad | None:
    """Return the bar and the plates that make `total`, the usual bar if it can; None when none can."""
    return _first_made(total, bars_for(exercise, kit), kit)


def _first_made(total: Mass, bars: tuple[Bar, ...], kit: Kit) -> BarLoad | None:
    unit = _unit(kit, tuple(bar.mass for bar in bars))
    discs = discs_of(kit.plates, unit)
    for bar in bars:
        if total == bar.mass:
            return BarLoad(bar=bar.mass, name=bar.name, side=())
        bare = bar.mass if kit.collars is None else bar.mass.to(unit) + kit.collars
        side = (total.to(unit) - bare).value / 2
        if 0 <= side <= MOST_A_SIDE[unit] and (found := making(side, discs)) is not None:
            on = as_marked(found, kit.plates, unit)
            return BarLoad(bar=bar.mass, name=bar.name, side=on, collars=kit.collars)
    return None


def _unit(kit: Kit, bars: tuple[Mass, ...]) -> Unit:
    """Return the unit that a kit's bars are counted in."""
    return common_unit(kit.unit, (*bars, kit.collars, *(one.mass for one in kit.plates)))
