"""Work that was done: exposures with their exercise, over some days."""

from collections.abc import Iterable
from datetime import date, timedelta

from core.loads.past import Exposure
from core.programme.exercises import Exercise
from core.units import Mass
from core.value import Value

WEEK_DAYS = 7
"""Days of a week. It begins where the caller says: on a client's own day, or on Monday."""


class WorkDone(Value):
    """One exercise in one session, as it was logged.

    The log holds working sets alone: the ramp before them is shown and never kept, so it can count for nothing.

    Attributes:
        exercise: From the catalogue, or the coach's own.
        exposure: What was asked and done.
        bar: The empty bar with its collars, where loads are written a side of it and it is known.
    """

    exercise: Exercise
    exposure: Exposure
    bar: Mass | None = None


def within(work: Iterable[WorkDone], first: date, days: int = WEEK_DAYS) -> tuple[WorkDone, ...]:
    """Return the work of `days` days from `first` on, in the order that it came in."""
    end = first + timedelta(days=days)
    return tuple(one for one in work if first <= one.exposure.on < end)
