"""A planned lighter week (deload): what it makes of a dose that was not written for it."""

from decimal import Decimal

from core.programme.prescription import Dose, Load, LoadKind
from core.programme.set_styles import StyleKind

DELOAD_LOAD = Decimal("0.95")
"""Share of the usual load in a deload: two reps less effort is about 5 %. [fraction] Our proposal."""
DELOAD_SETS = Decimal("0.55")
"""Share of the sets in a deload, between a half and three fifths. [fraction] Source: [Rogerson2024]; our proposal."""
DELOAD_LEFT = 2
"""Reps left on top of what is asked in a deload. [reps] Our proposal."""
MOST_LEFT = 5
"""Most reps left that are asked for. [reps]"""


def deload_sets(planned: int) -> int:
    """Return the working sets of a deload: about half, at least one; 5 gives 3, 4 gives 2, 3 gives 2."""
    return max(1, int(planned * DELOAD_SETS + Decimal("0.5")))


def deloaded(dose: Dose) -> Dose:
    """Return a dose as a lighter week makes it, before any kit: fewer sets, 5 % less load, two more left.

    A step up from last time is left out: nothing rises in a lighter week.
    """
    left = None if dose.left is None else min(MOST_LEFT, dose.left + DELOAD_LEFT)
    high = None if dose.left_high is None else min(MOST_LEFT, dose.left_high + DELOAD_LEFT)
    return calmed(dose).model_copy(
        update={
            "sets": deload_sets(dose.sets),
            "load": _lighter(dose.load),
            "left": left,
            "left_high": None if high == left else high,
            "rpe": None,
            "lighter": False,
        }
    )


def calmed(dose: Dose) -> Dose:
    """Return a dose without what goes to the limit: no open last set, no steps down after the sets at the load."""
    descends = dose.style is not None and dose.style.kind is StyleKind.DESCENDING
    return dose.model_copy(update={"or_more": False, "style": None if descends else dose.style})


def _lighter(load: Load | None) -> Load | None:
    if load is None or load.kind is LoadKind.UP:
        return None
    if load.kind is LoadKind.PERCENT and load.percent is not None and load.percent_of is not None:
        return Load.share(load.percent * DELOAD_LOAD, load.percent_of)
    if load.mass is None:
        return load
    # Assistance grows where an added load would shrink.
    eased = load.mass * DELOAD_LOAD if load.mass.value > 0 else load.mass / DELOAD_LOAD
    return Load(load.kind, eased)
