"""What a client sees of herself over time: her lifts with what may be said of them, sessions kept, body reports."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from core.loads.dated_estimates import DatedEstimate
from core.loads.past import Exposure
from core.loads.trend import NoTrend, Trend
from core.oversight.misses import Past, Tally, tally
from core.policy import Policy
from core.programme.exercises import Exercise
from core.programme.prescription import LoadKind
from core.units import Mass
from core.value import Value

WEEK = timedelta(days=7)
BREAK = timedelta(days=14)
"""Days without a lift after which what follows is the way back, until the load before is moved again. Our proposal, as
the second row of `core.loads.comeback`."""


class LiftSeen(Value):
    """A lift over time.

    Attributes:
        exercise: Which.
        points: Estimates by session, oldest first; none from more than 12 reps with those left.
        trend: What may be said of them, or why nothing may.
    """

    exercise: Exercise
    points: tuple[DatedEstimate, ...]
    trend: Trend | NoTrend


class WeekKept(Value):
    """Sessions kept of due in the seven days from a Monday on."""

    monday: date
    counted: Tally


class SiteFelt(Value):
    """What was said of a place that hurt.

    Attributes:
        place: In words.
        felt: Dates with scores, oldest first; None where no number was given.
    """

    place: str
    felt: tuple[tuple[date, int | None], ...]


class Progress(Value):
    """All of it.

    Attributes:
        first: First day that is looked at for sessions and reports.
        today: The client's local date.
        lifts: Main lifts, the most often done first.
        weeks: Oldest first; weeks in which nothing was due are there too.
        sites: The most often felt first.
        policy: The coach's: from how many sessions kept of due is also a percentage.
    """

    first: date
    today: date
    lifts: tuple[LiftSeen, ...] = ()
    weeks: tuple[WeekKept, ...] = ()
    sites: tuple[SiteFelt, ...] = ()
    policy: Policy = Policy()

    @property
    def kept(self) -> Tally:
        """Of all weeks."""
        return sum((each.counted for each in self.weeks), Tally())


def weeks_kept(past: Sequence[Past], first: date, today: date) -> tuple[WeekKept, ...]:
    """Return sessions kept of due by week, from the Monday of `first` to the week of `today`."""
    monday = first - timedelta(days=first.weekday())
    count = (today - monday).days // WEEK.days + 1
    mondays = [monday + WEEK * number for number in range(count)]
    return tuple(
        WeekKept(monday=each, counted=tally(past, each, each + timedelta(days=6))) for each in mondays
    )


def on_way_back(history: Iterable[Exposure]) -> frozenset[int]:
    """Return the sessions of a lift that lie between a break and the day on which its old load was moved again.

    Args:
        history: Exposures of one exercise, oldest first.
    """
    found: set[int] = set()
    last: Exposure | None = None
    top: Mass | None = None
    old: Mass | None = None
    for each in history:
        if last is not None and each.on - last.on >= BREAK:
            old = max((mass for mass in (old, top) if mass is not None), default=None)
        last, top = each, _top(each)
        if old is not None and (top is None or top < old):
            found.add(each.session_id)
        else:
            old = None
    return frozenset(found)


def _top(exposure: Exposure) -> Mass | None:
    masses = [
        one.load.mass
        for one in exposure.sets
        if one.load is not None and one.load.kind is LoadKind.MASS and one.load.mass is not None and one.reps
    ]
    return max(masses, default=None)
