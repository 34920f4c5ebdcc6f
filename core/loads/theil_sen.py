"""The median of all slopes (Theil and Sen): a line that one odd point hardly moves, with its interval."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points.

    Attributes:
        slope: Median of the slopes of all pairs. [unit of y a unit of x]
        low: Lower end of the slope's interval.
        high: Upper end.
        intercept: Median of y less the slope times the median of x. [unit of y]
    """

    slope: float
    low: float
    high: float
    intercept: float


def theil_sen(x: Sequence[float], y: Sequence[float], confidence: float = 0.95) -> Line:
    """Return the line of Theil and Sen, with the slope's interval by Sen's normal approximation for ties.

    Args:
        x: At least two that differ.
        y: One for each x.
        confidence: Of the interval. [0.5..1, ends out]

    Raises:
        ValueError: The lengths differ, no two x differ, or the confidence is out of its range.

    Source: [Theil1950], [Sen1968] equation 2.6.
    """
    if len(x) != len(y) or not 0.5 < confidence < 1:
        raise ValueError("a line needs a y for each x, and a confidence between a half and one")
    xs, ys = np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64)
    runs, rises = xs[:, None] - xs, ys[:, None] - ys
    forward = runs > 0
    slopes = np.sort(rises[forward] / runs[forward])
    if not slopes.size:
        raise ValueError("a line needs two different x")
    slope = float(np.median(slopes))
    low, high = _interval(slopes, xs, ys, confidence)
    return Line(slope, low, high, float(np.median(ys)) - slope * float(np.median(xs)))


def _interval(slopes: Floats, xs: Floats, ys: Floats, confidence: float) -> tuple[float, float]:
    count = len(slopes)
    variance = (_spread(len(xs)) - _of_ties(xs) - _of_ties(ys)) / 18
    # Where almost everything is tied the formula falls under zero, and there is no spread left.
    reach = NormalDist().inv_cdf((1 + confidence) / 2) * max(0.0, variance) ** 0.5
    low = max(round((count - reach) / 2) - 1, 0)
    high = min(round((count + reach) / 2), count - 1)
    return float(slopes[low]), float(slopes[high])


def _of_ties(values: Floats) -> int:
    _, counts = np.unique(values, return_counts=True)
    return sum(_spread(int(each)) for each in counts)


def _spread(count: int) -> int:
    """Return what `count` values in a row add to the variance of Kendall's sum, eighteen times; 0 for one alone."""
    return count * (count - 1) * (2 * count + 5)
