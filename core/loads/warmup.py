"""Warm-up sets before the working weight: a ramp of loads that the kit really makes."""

from decimal import Decimal

from core.loads.equipment import Ladder
from core.units import Mass
from core.value import Value

STEPS = ((Decimal("0.40"), 8), (Decimal("0.60"), 5), (Decimal("0.75"), 3), (Decimal("0.90"), 1))
"""Share of the working load and reps. Source: common practice, no source."""

NO_SINGLE_FROM = 8
"""No 90 % step when the work is this many reps or more. Source: our proposal. [reps]"""

LIGHT = Decimal("1.5")
"""Work under this many times the lightest load that can be made needs no ramp. Source: common practice, no source."""


class RampSet(Value):
    """One warm-up set."""

    load: Mass
    reps: int


def ramp(work: Mass, reps: int, ladder: Ladder) -> tuple[RampSet, ...]:
    """Return the warm-up sets before `work`; they count neither as volume nor for an estimate.

    Each step is the greatest load of the kit at or under its share; steps that come out the same, or not under the
    work, are left out. Nothing is under the lightest load that can be made (the empty bar).

    Args:
        work: Today's first working load.
        reps: Reps of a working set. [1..]
        ladder: What can be loaded.
    """
    lightest = ladder.steps[0] if ladder.steps else None
    if lightest is None or work < lightest * LIGHT:
        return ()
    found: list[RampSet] = []
    for share, count in STEPS:
        if count == 1 and reps >= NO_SINGLE_FROM:
            continue
        load = ladder.at_or_under(work * share) or lightest
        if load < work and (not found or load > found[-1].load):
            found.append(RampSet(load=load, reps=count))
    return tuple(found)
