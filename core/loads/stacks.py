"""Machine stacks: every load that pins and added masses make, and what an assisting machine takes off.

A mark is the machine's own: pulleys and levers make of 20 kg what they like, so that a load on one machine says nothing
of another. Common practice, no source.
"""

from decimal import Decimal
from functools import lru_cache

from core.loads.kit import Kit, Stack
from core.loads.ladder import Ladder, Written, common_unit, ladder_of, mass_of, written
from core.programme.exercises import Exercise
from core.units import Mass

STACK_PLATES = 60
"""Plates of a machine stack that nobody has described. Our proposal: over most machines; the top pin is found in the
gym."""


def stack_ladder(exercise: Exercise, kit: Kit) -> Ladder:
    """Return every load of the machines for an exercise: those named for it, else those for all, else the usual."""
    named = tuple(stack for stack in kit.stacks if exercise.key in stack.exercises)
    found = named or tuple(stack for stack in kit.stacks if not stack.exercises)
    if found:
        return ladder_of(mass for stack in found for mass in loads_of(stack))
    return _usual(written(kit.stack_step)) if kit.stack_step is not None else Ladder(steps=())


@lru_cache(maxsize=64)
def _usual(step: Written) -> Ladder:
    """Return the loads of a stack of which only the step is known."""
    return ladder_of(mass_of(step) * count for count in range(1, STACK_PLATES + 1))


def loads_of(stack: Stack) -> tuple[Mass, ...]:
    """Return every load of a stack: each pin with each choice of what can be laid on top."""
    unit = common_unit(stack.start.unit, stack.adds)
    extras = [Mass(Decimal(0), unit)]
    for add in stack.adds:
        extras += [extra + add for extra in extras]
    return tuple(pin.to(unit) + extra for pin in stack.pins for extra in extras)
