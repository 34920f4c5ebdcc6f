"""Session load: how hard a session was, times its minutes; over a week its monotony and strain.

Only numbers go in: an effort of the whole session from 0 to 10, as the scale of the source is made. The session's
effort that our clients give is one of five words, which is another scale with another number of steps; to set a
number beside each word would invent what nobody measured, so the words are not fed in. An effort of the session is
not the RPE of a set either: two questions, two scales.

Nothing here says what is too much. The source saw illness follow thresholds that were each person's own, so there is
no number for everyone; nothing here is a ratio of recent to usual load or a risk of injury, which has no support
[Impellizzeri2021]. With two to four sessions a week monotony is always low, and says little.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from enum import StrEnum

from pydantic import Field

from core.loads.work_done import WEEK_DAYS
from core.value import Value

WEEKS_BEFORE = 4
"""Weeks that a week is held against. [weeks] Our proposal."""


class Undefined(StrEnum):
    """Why a figure has no value."""

    UNRATED = "unrated"
    """A session in it has no effort or no minutes, so that its day is not known."""
    REST = "all rest"
    """There was no load at all: nothing over nothing."""
    EVEN = "every day the same"
    """The days do not differ: something over nothing."""
    FEW_WEEKS = "few weeks"
    """There are not enough weeks before."""


class RatedSession(Value):
    """A session with its effort and its length.

    Attributes:
        on: The client's local date.
        rating: Effort of the whole session, 0 rest to 10; None where no number was given. [0..10]
        minutes: Length; None where it is not known. [min, 1..600]
    """

    on: date
    rating: Decimal | None = Field(default=None, ge=0, le=10)
    minutes: int | None = Field(default=None, ge=1, le=600)

    @property
    def load(self) -> Decimal | None:
        """Effort times minutes; None unless both are known. [arbitrary units] Source: [Foster2001]."""
        return None if self.rating is None or self.minutes is None else self.rating * self.minutes


class WeekLoad(Value):
    """The load of seven days. [arbitrary units]

    Attributes:
        total: Sum of the days.
        mean: Of the seven days, rest days among them.
        spread: Standard deviation of the days, of a sample (n - 1).
        monotony: Mean over spread. [ratio]
        strain: Total times monotony.
    """

    total: Decimal | Undefined
    mean: Decimal | Undefined
    spread: Decimal | Undefined
    monotony: Decimal | Undefined
    strain: Decimal | Undefined


def daily_loads(
    rated: Iterable[RatedSession], first: date, days: int = WEEK_DAYS
) -> tuple[Decimal | None, ...]:
    """Return the load of each day from `first` on: the sum of its sessions, and 0 on a rest day.

    None for a day with a session whose load is not known: it was no rest day.
    """
    grid: list[Decimal | None] = [Decimal(0)] * days
    for one in rated:
        place = (one.on - first).days
        if 0 <= place < days:
            before, load = grid[place], one.load
            grid[place] = None if before is None or load is None else before + load
    return tuple(grid)


def week_load(days: Sequence[Decimal | None]) -> WeekLoad:
    """Return the load of seven days with its monotony and strain.

    The form of the standard deviation is not settled in the source; it is that of a sample here, n - 1. A figure that
    has no value is `Undefined`, never infinity.

    Args:
        days: Seven loads, rest days as 0; None where one is not known.

    Raises:
        ValueError: They are not seven.

    Source: [Foster1998]; the form of the deviation is our proposal.
    """
    if len(days) != WEEK_DAYS:
        raise ValueError(f"a week has {WEEK_DAYS} days, not {len(days)}")
    loads = [each for each in days if each is not None]
    if len(loads) < WEEK_DAYS:
        unknown = Undefined.UNRATED
        return WeekLoad(total=unknown, mean=unknown, spread=unknown, monotony=unknown, strain=unknown)
    total = sum(loads, Decimal(0))
    if len(set(loads)) == 1:
        why = Undefined.EVEN if total else Undefined.REST
        return WeekLoad(total=total, mean=loads[0], spread=Decimal(0), monotony=why, strain=why)
    mean = total / WEEK_DAYS
    spread = (sum((each - mean) ** 2 for each in loads) / Decimal(WEEK_DAYS - 1)).sqrt()
    monotony = mean / spread
    return WeekLoad(total=total, mean=mean, spread=spread, monotony=monotony, strain=total * monotony)


def over_weeks_before(this: Decimal | None, before: Sequence[Decimal | None]) -> Decimal | Undefined:
    """Return how far this week is above the mean of the last four before it; negative where it is below. [%]

    All that is said of load over weeks: a plain comparison of any weekly figure (load, sets, tonnage), and no more.

    Args:
        this: This week's figure; None where it is not known.
        before: Those of the weeks before, oldest first; the last four are taken.
    """
    last = before[-WEEKS_BEFORE:]
    known = [each for each in last if each is not None]
    if this is None or len(known) < len(last):
        return Undefined.UNRATED
    if len(known) < WEEKS_BEFORE:
        return Undefined.FEW_WEEKS
    mean = sum(known, Decimal(0)) / WEEKS_BEFORE
    return (this / mean - 1) * 100 if mean else Undefined.REST
