"""How far a decision looks back, and what of the log it takes from there; the same for real and simulated clients."""

from datetime import date, timedelta

from core.loads.past import Exposure
from core.programme.prescription import Dose, LoadKind
from core.units import Mass

LOOK_BACK = 12
"""Exposures of an exercise that a decision looks back on. Our proposal."""
PAIN_BEARS = timedelta(days=56)
"""How long a report of pain bears on decisions; what locks does so until it is released. [days] Our proposal."""
TRAINED_BEARS = timedelta(days=84)
"""How long a day on which anything was trained bears on decisions. [days] Our proposal."""
NEAR_LOAD = 8, 10
"""Share of the best load from which a lift was really trained, as a fraction. Our proposal after a practising coach's
review."""


def last_trained(history: tuple[Exposure, ...]) -> date | None:
    """Return the last date on which at least 80 % of the best load of some exposures was moved.

    Args:
        history: Exposures of one exercise, oldest first.
    """
    best = max((mass for each in history for mass in _masses(each)), default=None)
    if best is None:
        return history[-1].on if history else None
    share, of = NEAR_LOAD
    floor = best * share / of
    return next(each.on for each in reversed(history) if any(mass >= floor for mass in _masses(each)))


def _masses(exposure: Exposure) -> list[Mass]:
    return [
        one.load.mass
        for one in exposure.sets
        if one.load is not None
        and one.load.kind is LoadKind.MASS
        and one.load.mass is not None
        and one.reps != 0
    ]


def asked_dose(written: Dose, given: Dose) -> Dose:
    """Return what counts as asked for: as written, with the load, sets and reps left that the card gave."""
    return written.model_copy(update={"load": given.load, "sets": given.sets, "left": given.left})


def least_asked(written: Dose, given: Dose) -> int | None:
    """Return what a card asked for of each set, where that was less than is written."""
    pairs = (
        (given.reps, written.reps),
        (given.seconds, written.seconds),
        (given.metres, written.metres),
    )
    lows = ((mine.low, theirs.low) for mine, theirs in pairs if mine is not None and theirs is not None)
    return next((mine for mine, theirs in lows if mine < theirs), None)
