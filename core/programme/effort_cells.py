"""How hard a set is to be, as written: reps left (`2`, `1-2`) or an RPE (`RPE 8`, `RPE 7-8`)."""

import re
from decimal import Decimal
from typing import NamedTuple

from core.programme.grammar import squeezed, typed
from core.programme.prescription import Dose, Rpe
from core.programme.problems import Code
from core.programme.sheets import Cell, UnreadError

MOST_LEFT = 5
"""Most reps left that may be asked for. [reps] Our proposal: further off people cannot tell [Halperin2022]."""
LEAST_RPE = 6
"""Least RPE that stands for a number of reps left. Source: [Zourdos2016]."""

_LEFT = re.compile(r"(\d{1,2})(?: ?(?:-|to) ?(\d{1,2}))?(?: ?(?:reps? )?(?:left|rir|in reserve))?")
_RPE_NUMBER = r"(\d{1,2}(?:[.,]\d)?)"
_RPE = re.compile(rf"rpe ?{_RPE_NUMBER}(?: ?(?:-|to) ?{_RPE_NUMBER})?|{_RPE_NUMBER} ?rpe")


class Effort(NamedTuple):
    """Effort as asked for.

    Attributes:
        left: Fewest reps left; None where none were asked for. [0..5]
        left_high: Most of a range; None where it is one number.
        rpe: As written, where an RPE was.
    """

    left: int | None = None
    left_high: int | None = None
    rpe: Rpe | None = None


def effort_in(cell: Cell) -> Effort:
    """Return what stands in a cell under Reps left.

    Raises:
        UnreadError: It is neither reps left nor an RPE from 6 to 10.
    """
    return effort_of(squeezed(typed(cell)), cell.text)


def effort_of(text: str, written: str) -> Effort:
    """Return the effort of a squeezed text.

    Args:
        text: Squeezed.
        written: As typed, for the problem.

    Raises:
        UnreadError: It is neither reps left nor an RPE from 6 to 10.
    """
    if match := _LEFT.fullmatch(text):
        return _left(int(match[1]), int(match[2]) if match[2] else None, written)
    if match := _RPE.fullmatch(text):
        return _rpe(match[1] or match[3], match[2], written)
    raise UnreadError(Code.LEFT_UNREADABLE, written=written)


def _left(low: int, high: int | None, written: str) -> Effort:
    if max(low, high or 0) > MOST_LEFT:
        raise UnreadError(Code.LEFT_UNREADABLE, written=written)
    if high is not None and high < low:
        raise UnreadError(Code.RANGE_BACKWARDS, written=written, type=f"{high}-{low}")
    return Effort(low, None if high == low else high)


def _rpe(first: str, second: str | None, written: str) -> Effort:
    low, high = _number(first), _number(second or first)
    if low < LEAST_RPE:
        raise UnreadError(Code.RPE_TOO_LOW, written=written)
    if max(low, high) > 10 or low % Decimal("0.5") or high % Decimal("0.5"):
        raise UnreadError(Code.LEFT_UNREADABLE, written=written)
    if high < low:
        raise UnreadError(Code.RANGE_BACKWARDS, written=written, type=f"RPE {second}-{first}")
    rpe = Rpe(low=low, high=high)
    fewest, most = rpe.left
    return Effort(fewest, None if fewest == most else most, rpe)


def _number(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))


def left_text(dose: Dose) -> str:
    """Return the cell under Reps left, which `effort_in` reads back; empty for none."""
    if dose.rpe is not None:
        return str(dose.rpe)
    if dose.left is None:
        return ""
    return str(dose.left) if dose.left_high is None else f"{dose.left}-{dose.left_high}"


def left_words(dose: Dose) -> str:
    """Return the effort in words: `2 left`, `1-2 left`, `RPE 8`; empty for none."""
    text = left_text(dose)
    return text if not text or dose.rpe is not None else f"{text} left"
