"""What can be added to a body that is the load, and what a machine takes off it."""

from decimal import Decimal
from functools import lru_cache

from core.loads.discs import discs_of, sums
from core.loads.kit import Kit
from core.loads.ladder import Ladder, Written, common_unit, ladder_of, mass_of, written
from core.loads.stacks import loads_of
from core.units import Mass, Unit

MOST_ADDED = {Unit.KG: Decimal(100), Unit.LB: Decimal(220)}
"""Most that is reckoned on top of bodyweight. [unit] Our proposal."""
MOST_TAKEN_OFF = {Unit.KG: Decimal(60), Unit.LB: Decimal(130)}
"""Most that an assisting machine is reckoned to take off where its pins are not known. [unit] Our proposal."""


def body_ladder(kit: Kit, *, hangs: bool) -> Ladder:
    """Return everything that can be added: nothing, masses, and under nothing what is taken off.

    Args:
        kit: What there is.
        hangs: True where the whole body hangs, so that a machine can take some of it off.
    """
    pins = kit.assistance if hangs else None
    taken = kit.stack_step if hangs and pins is None else None
    steps = [None if step is None else written(step) for step in (kit.bodyweight_step, taken)]
    by_steps = _by_steps(kit.unit, *steps)
    more = (*kit.added, *(_hung(kit) if kit.belt else ()))
    if not more and pins is None:
        return by_steps
    return ladder_of((*by_steps.steps, *more, *(mass * -1 for mass in (loads_of(pins) if pins else ()))))


@lru_cache(maxsize=64)
def _by_steps(unit: Unit, added: Written | None, taken: Written | None) -> Ladder:
    found = [Mass(Decimal(0), unit)]
    for text, limit, sign in ((added, MOST_ADDED, 1), (taken, MOST_TAKEN_OFF, -1)):
        if text is not None:
            step = mass_of(text)
            found += [step * (sign * count) for count in range(1, int(limit[step.unit] // step.value) + 1)]
    return ladder_of(found)


def _hung(kit: Kit) -> tuple[Mass, ...]:
    """Return every sum of single discs on a belt."""
    unit = common_unit(kit.unit, (one.mass for one in kit.plates))
    return tuple(Mass(mass, unit) for mass in sums(discs_of(kit.plates, unit, each=2), MOST_ADDED[unit]))
