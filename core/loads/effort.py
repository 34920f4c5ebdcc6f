"""Effort said two ways: RPE of a set, and reps left. The session's effort is another question."""

from decimal import Decimal
from typing import NamedTuple

_HALF = Decimal("0.5")


class RepsLeft(NamedTuple):
    """Reps left as computed with.

    Attributes:
        left: How many more could have been done. [reps]
        doubtful: True where people judge it badly.
    """

    left: Decimal
    doubtful: bool


class ToFailure(NamedTuple):
    """Reps to failure as computed with.

    Attributes:
        total: Done and left. [reps]
        doubtful: True where what was left is judged badly.
    """

    total: Decimal
    doubtful: bool


def reps_left(rpe: Decimal) -> RepsLeft | None:
    """Return what an RPE says about reps left; None under 5, which says only that it was light.

    10 is none left, 9 one, 8 two, 7 three; halves lie between (from memory). 5 to 6.5 is four or five, low
    confidence.

    Args:
        rpe: 1 to 10 in halves.

    Raises:
        ValueError: It is no such number.

    Source: [Zourdos2016], [Helms2016]; half points and low bands from memory.
    """
    if not 1 <= rpe <= 10 or rpe % _HALF:
        raise ValueError(f"RPE runs from 1 to 10 in halves, not {rpe}")
    return RepsLeft(10 - rpe, doubtful=rpe < 7) if rpe >= 5 else None


def rpe_of(left: Decimal) -> Decimal:
    """Return the RPE of a set that ends with `left` reps left.

    Args:
        left: 0 to 5 in halves. [reps]

    Raises:
        ValueError: It is no such number.

    Source: [Zourdos2016].
    """
    if not 0 <= left <= 5 or left % _HALF:
        raise ValueError(f"reps left run from 0 to 5 in halves, not {left}")
    return 10 - left


def reps_to_failure(
    reps: int, *, left: Decimal | int | None = None, rpe: Decimal | None = None
) -> ToFailure | None:
    """Return reps done and left together, with whether the part that was left is doubtful; None for a light set.

    Effort is folded in once: by reps left or by an RPE, never by both. Without either, nothing is taken to be left.

    Args:
        reps: Done. [reps]
        left: Reps left.
        rpe: 1 to 10 in halves.

    Raises:
        ValueError: Both were given, or one of them is no such number.

    Source: [Zourdos2016], [Helms2016]; four left and more from memory.
    """
    if left is not None and rpe is not None:
        raise ValueError("reps left are counted once: they were given as a number and as an RPE")
    if rpe is not None:
        said = reps_left(rpe)
        return None if said is None else ToFailure(reps + said.left, said.doubtful)
    known = Decimal(left or 0)
    if known < 0:
        raise ValueError(f"reps left are none or more, not {left}")
    return ToFailure(reps + known, doubtful=known > 3)
