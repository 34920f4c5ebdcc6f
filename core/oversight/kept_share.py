"""Kept of due as a percentage, with how far it may be off: from few sessions it says little."""

from decimal import Decimal
from statistics import NormalDist
from typing import NamedTuple

from core.oversight.misses import Tally, percentage
from core.policy import Policy
from core.value import Value

CONFIDENCE = 0.95
"""Of the interval. [fraction] Common practice, no source."""


class Interval(NamedTuple):
    """Where a share may lie. [fraction, 0..1]"""

    low: Decimal
    high: Decimal


class KeptShare(Value):
    """Sessions kept of due.

    Attributes:
        kept: Done, in full or in part.
        due: As `core.oversight.misses` counts it.
        percent: Whole per cent; None under the fewest due that the policy names: then the two numbers are shown.
        interval: Of the share at 95 %; None together with the percentage.
    """

    kept: int
    due: int
    percent: int | None
    interval: Interval | None


def kept_share(counted: Tally, policy: Policy) -> KeptShare:
    """Return kept of due, as a percentage only from 8 due on. Source: [Wilson1927]; the 8 is our proposal."""
    percent = percentage(counted, policy)
    interval = None if percent is None else wilson(counted.kept, counted.due)
    return KeptShare(kept=counted.kept, due=counted.due, percent=percent, interval=interval)


def wilson(kept: int, due: int, confidence: float = CONFIDENCE) -> Interval:
    """Return the interval of a share by Wilson's score, without a correction for continuity.

    It stays within 0 and 1, and says something even of none or all kept.

    Args:
        kept: [0..due]
        due: [1..]
        confidence: [0..1, ends out]

    Raises:
        ValueError: A number is out of its range.

    Source: [Wilson1927], [Newcombe1998] method 3.
    """
    if not (0 <= kept <= due and due and 0 < confidence < 1):
        raise ValueError(f"no share of {kept} in {due} at a confidence of {confidence}")
    z = Decimal(str(NormalDist().inv_cdf((1 + confidence) / 2)))
    square = z * z
    middle = kept + square / 2
    reach = z * (Decimal(kept) * (due - kept) / due + square / 4).sqrt()
    # At none and all the two halves are equal but for the last digit.
    low = Decimal(0) if kept == 0 else (middle - reach) / (due + square)
    high = Decimal(1) if kept == due else (middle + reach) / (due + square)
    return Interval(low, high)
