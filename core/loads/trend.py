"""Where a lift is going: the trend of its estimates, and how big a single change must be before it is news.

A true maximum tested twice differs by chance, so one low estimate is no news; a line through several may be.
"""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from enum import StrEnum
from statistics import NormalDist

from core.loads.dated_estimates import DatedEstimate, believed, on_newest_kit
from core.loads.theil_sen import theil_sen
from core.policy import Policy
from core.units import Mass, Unit
from core.value import Value

CONFIDENCE = 0.95
"""Of every interval here. [fraction] Common practice, no source."""
NOISE = Decimal("4.2")
"""Median coefficient of variation of a maximum tested twice. [%] Source: [Grgic2020]."""
WEEK = 7


class NoTrend(StrEnum):
    """Why nothing can be said."""

    FEW = "few"
    """Too few estimates that may be compared."""
    SHORT = "short"
    """They lie too close together."""


class Direction(StrEnum):
    """Where it goes, as far as the interval says."""

    RISING = "rising"
    FALLING = "falling"
    UNSURE = "unsure"
    """The interval holds zero: neither up nor down can be said, and not that it stands still either."""


class Trend(Value):
    """A line through the estimates of one exercise.

    Attributes:
        first: Date of the oldest.
        last: Date of the newest.
        points: How many.
        unit: Of the numbers below: that of the newest.
        slope: Change a week. [unit a week]
        low: Lower end of its 95 % interval. [unit a week]
        high: Upper end. [unit a week]
        level: Where the line stands on the last date. [unit]
    """

    first: date
    last: date
    points: int
    unit: Unit
    slope: float
    low: float
    high: float
    level: float

    @property
    def direction(self) -> Direction:
        """Where it goes: up or down only where the whole interval does."""
        if self.low > 0:
            return Direction.RISING
        return Direction.FALLING if self.high < 0 else Direction.UNSURE


def trend(estimates: Iterable[DatedEstimate], policy: Policy) -> Trend | NoTrend:
    """Return the trend of an exercise's estimates, or why there is none.

    Flagged estimates, deloads, comebacks and work that was held back are left out, and so is other kit than the
    newest. Too few estimates or too few days between them give no trend: five points cannot show one.

    Args:
        estimates: Of one exercise, in any order.
        policy: The coach's thresholds.

    Raises:
        ValueError: More than one formula made the estimates.

    Source: [Theil1950], [Sen1968]; how many it takes is our proposal.
    """
    points = [one for one in on_newest_kit(believed(estimates)) if one.usual]
    if len(points) < policy.trend_points:
        return NoTrend.FEW
    first, last = points[0].on, points[-1].on
    if (last - first).days < policy.trend_days:
        return NoTrend.SHORT
    unit = points[-1].mass.unit
    days = [float((one.on - first).days) for one in points]
    line = theil_sen(days, [float(one.mass.to(unit).value) for one in points], CONFIDENCE)
    return Trend(
        first=first,
        last=last,
        points=len(points),
        unit=unit,
        slope=line.slope * WEEK,
        low=line.low * WEEK,
        high=line.high * WEEK,
        level=line.intercept + line.slope * days[-1],
    )


def smallest_change(noise: Decimal = NOISE) -> Decimal:
    """Return the smallest change between two single estimates that is news at 95 %: 11.6 % at the usual noise. [%]

    Both ends carry the noise, so it is 1.96 times the root of two times the coefficient of variation. An estimate
    from several reps has more noise than a tested maximum, so this is the least.

    Args:
        noise: Coefficient of variation of one test. [%]

    Source: [Grgic2020] for the noise, [Weir2005] for the form.
    """
    z = Decimal(str(NormalDist().inv_cdf((1 + CONFIDENCE) / 2)))
    return z * Decimal(2).sqrt() * noise


def is_news(before: Mass, after: Mass, noise: Decimal = NOISE) -> bool:
    """Return whether a single change is bigger than chance explains; `before` is not zero. Source: [Grgic2020]."""
    return abs(after.ratio(before) - 1) * 100 >= smallest_change(noise)
