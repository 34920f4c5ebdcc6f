"""How much a set is, as written in a Reps cell: reps, time, metres, a side, parts, or until so many are left."""

import re
from typing import NamedTuple

from core.programme.effort_cells import Effort, effort_of, left_words
from core.programme.grammar import squeezed, typed
from core.programme.prescription import Dose, Span
from core.programme.problems import Code
from core.programme.sheets import Cell, UnreadError

SHORT_M = 5
"""Under so many metres an `m` may as well mean minutes. [m] Our proposal."""
MOST = 1000
"""Most reps, seconds or metres of a set."""

SIDE = r"(?:(?:(?:a|each|per) ?|/ ?)(?:side|leg|arm))"
_COUNT = re.compile(
    r"(?P<low>\d{1,4})(?: ?(?:-|to) ?(?P<high>\d{1,4}))? ?"
    r"(?:(?P<time>s|secs?|seconds?|mins?|minutes?)|(?P<way>m|met(?:re|er)s?)|reps?)?"
    r"(?P<more> ?(?:or more|\+))?"
    rf"(?: ?(?P<side>{SIDE}))?"
    r"(?:,? in (?P<portion>\d{1,2}) ?s)?"
)
_PARTS = re.compile(rf"\(?(?P<parts>\d{{1,2}}(?: ?\+ ?\d{{1,2}})+)\)?(?: ?(?P<side>{SIDE}))?")
_OPEN = re.compile(rf"(?:to|until) (?P<effort>.+?)(?: ?(?P<side>{SIDE}))?")


class Count(NamedTuple):
    """How much a set is.

    Attributes:
        span: Reps, seconds or metres; None where reps are open.
        timed: True when they are seconds.
        each_side: True when written for each side.
        metres: True when they are metres.
        or_more: True when the last set is open.
        portion: Reps in a row on a side before the sides change.
        parts: Reps of each part of a cluster.
        effort: Where reps are open: the effort at which a set ends.
    """

    span: Span | None
    timed: bool = False
    each_side: bool = False
    metres: bool = False
    or_more: bool = False
    portion: int | None = None
    parts: tuple[int, ...] = ()
    effort: Effort | None = None


def count_in(cell: Cell) -> Count:
    """Return how much a set is: `8`, `8-10`, `8 or more`, `30 s`, `40 m`, `10 a side in 5s`, `2+2+2`, `to 2 left`.

    Raises:
        UnreadError: It cannot be read, or could mean two things.
    """
    return count_of(squeezed(typed(cell)), cell.text)


def count_of(text: str, written: str) -> Count:
    """Return how much a set is, from a squeezed text.

    Raises:
        UnreadError: It cannot be read, or could mean two things.
    """
    if match := _PARTS.fullmatch(text):
        return _in_parts(match, written)
    if match := _OPEN.fullmatch(text):
        return Count(None, each_side=match["side"] is not None, effort=_until(match["effort"], written))
    match = _COUNT.fullmatch(text)
    if match is None:
        raise UnreadError(Code.REPS_UNREADABLE, written=written)
    return _counted(match, text, written)


def _until(text: str, written: str) -> Effort:
    """Return the effort at which a set ends; `to 2` may be a range whose beginning was lost."""
    try:
        effort = effort_of(text, written)
    except UnreadError as unread:
        if unread.code is Code.RPE_TOO_LOW:
            raise
        raise UnreadError(Code.REPS_UNREADABLE, written=written) from None
    if not any(letter.isalpha() for letter in text):
        raise UnreadError(Code.REPS_UNREADABLE, written=written)
    return effort


def _in_parts(match: re.Match[str], written: str) -> Count:
    parts = tuple(int(part) for part in match["parts"].split("+"))
    if not all(parts) or sum(parts) > MOST:
        raise UnreadError(Code.REPS_UNREADABLE, written=written)
    span = Span(low=sum(parts), high=sum(parts))
    return Count(span, each_side=match["side"] is not None, parts=parts)


def _counted(match: re.Match[str], text: str, written: str) -> Count:
    time, way, more = match["time"], match["way"], match["more"] is not None
    factor = 60 if (time or "").startswith("m") else 1
    low = int(match["low"]) * factor
    high = int(match["high"]) * factor if match["high"] else low
    if high < low:
        back = text.replace(text[match.start("low") : match.end("high")], f"{match['high']}-{match['low']}")
        raise UnreadError(Code.RANGE_BACKWARDS, written=written, type=back)
    if low < 1 or high > MOST or (more and (time or way or high != low)):
        raise UnreadError(Code.REPS_UNREADABLE, written=written)
    if way == "m" and low < SHORT_M:
        raise UnreadError(Code.METRES_OR_MINUTES, written=written, number=match["low"])
    span, side = Span(low=low, high=high), match["side"] is not None
    return Count(span, time is not None, side, way is not None, more, _portion(match, span, written))


def _portion(match: re.Match[str], span: Span, written: str) -> int | None:
    if match["portion"] is None:
        return None
    portion = int(match["portion"])
    if match["side"] is None or match["time"] or match["way"] or portion < 1:
        raise UnreadError(Code.PORTION_UNREADABLE, written=written)
    if portion >= span.low or span.low % portion or span.high % portion:
        raise UnreadError(Code.PORTION_UNEVEN, written=written, portion=portion)
    return portion


def reps_text(dose: Dose, side: str = " a side") -> str:
    """Return the cell under Reps, which `count_in` reads back: `8-10`, `8 or more`, `40 metres`, `to 2 left`.

    Args:
        dose: Whose count it is.
        side: Words for a side, where it is written for each.
    """
    if dose.to_left:
        text = f"to {left_words(dose)}"
    elif dose.style is not None and dose.style.parts:
        text = "+".join(str(part) for part in dose.style.parts)
    elif dose.seconds is not None:
        text = f"{dose.seconds} s"
    else:
        text = f"{dose.metres} metres" if dose.metres is not None else str(dose.reps)
    more = " or more" if dose.or_more else ""
    portion = f" in {dose.portion}s" if dose.portion is not None else ""
    return f"{text}{more}{side if dose.each_side else ''}{portion}"
