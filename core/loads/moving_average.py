"""An average that forgets: each day a little more of the new, a little less of the old (EWMA).

Days are a grid: a rest day is a 0, not a gap. The first day seeds the average, and weighs on for long: some 13 % after
as many days as the span, 2 % after twice as many. So the first 28 days are marked as not settled. No ratio of two such
averages is made, see `core.loads.session_load`.
"""

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

SETTLED_AFTER = 28
"""Days after which an average no longer leans on its first day. [days] Our proposal."""


class Average(NamedTuple):
    """The average on one day.

    Attributes:
        value: In the unit of the loads.
        settled: False in the first 28 days.
    """

    value: Decimal
    settled: bool


def moving_averages(loads: Sequence[Decimal], span: int) -> tuple[Average, ...]:
    """Return the average on each day.

    Args:
        loads: One a day, without a gap, rest days as 0.
        span: Days N that the weight of a new day is made for, 2 / (N + 1). [1..]

    Raises:
        ValueError: The span is under 1.

    Source: [Williams2017] for the form and for N of 7 and 28; the weight is from memory.
    """
    if span < 1:
        raise ValueError(f"a span is at least 1 day, not {span}")
    smooth = smoothed(loads, Decimal(2) / (span + 1))
    return tuple(Average(value, settled=place >= SETTLED_AFTER) for place, value in enumerate(smooth))


def smoothed(loads: Sequence[Decimal], weight: Decimal) -> tuple[Decimal, ...]:
    """Return each load mixed with all before it; the first stands for itself.

    Args:
        loads: In order.
        weight: Of the newest. [0..1]

    Source: [NIST], section 6.3.2.4.
    """
    found: list[Decimal] = []
    for load in loads:
        # In this form an average of equal loads is that load, to the last digit.
        found.append(found[-1] + weight * (load - found[-1]) if found else load)
    return tuple(found)
