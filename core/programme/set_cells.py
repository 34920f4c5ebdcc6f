"""How many sets and of what kind, as written in a Sets cell: `3`, `3 ascending`, `1 + 2 descending, 20 %`."""

import re
from decimal import Decimal
from typing import NamedTuple

from core.programme.grammar import squeezed, typed
from core.programme.prescription import Dose
from core.programme.problems import Code
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.sheets import Cell, UnreadError
from core.units import plain

MOST_SETS = 20
"""Most working sets. [sets] Our proposal: a slip of a digit is over it."""
MOST_STEPS = 5
"""Most steps of descending sets. [steps] Our proposal."""
LEAST_DROP, MOST_DROP = 5, 50
"""Fall from step to step that is believed. [%] Our proposal."""
LEAST_PAUSE_S, MOST_PAUSE_S = 5, 60
"""Pause inside a set that is believed. [s] Our proposal; longer ones are rests."""

_STRAIGHT = re.compile(r"(\d{1,4}(?:[.,]0+)?)(?: (?:straight )?sets?| straight)?")
_ASCENDING = re.compile(r"(\d{1,4}) ascending(?: sets?)?")
_DESCENDING = re.compile(
    r"(?:(?P<sets>\d{1,2}) ?\+ ?)?(?P<steps>\d{1,2}) descending(?: sets?)?"
    r"(?:,? (?P<drop>\d{1,3}(?:[.,]\d)?) ?%)?"
)
_PAUSED = re.compile(
    r"(?P<sets>\d{1,4}) (?P<kind>rest[- ]pause|clusters?)(?: sets?)?(?:,? (?P<pause>\d{1,4}) ?(?:s|secs?|seconds?))?"
)
_CLUSTER = re.compile(
    r"(?P<sets>\d{1,4}) ?[x×] ?\((?P<parts>\d{1,2}(?: ?\+ ?\d{1,2})+)\)"
    r"(?:,? (?P<pause>\d{1,4}) ?(?:s|secs?|seconds?))?"
)


class Sets(NamedTuple):
    """Sets as written.

    Attributes:
        working: Working sets; of descending sets those at the load.
        kind: None for straight sets.
        steps: Steps down of descending sets.
        drop: Fall from step to step as written. [%]
        pause_s: Pause inside a set as written. [s]
        parts: Reps of each part of a cluster, where they stand with the sets.
    """

    working: int
    kind: StyleKind | None = None
    steps: int = 0
    drop: Decimal | None = None
    pause_s: int | None = None
    parts: tuple[int, ...] = ()

    def style(self, parts: tuple[int, ...]) -> SetStyle | None:
        """Return the style with the parts of a cluster; None for straight sets."""
        if self.kind is None:
            return None
        return SetStyle(kind=self.kind, steps=self.steps, drop=self.drop, pause_s=self.pause_s, parts=parts)


def sets_in(cell: Cell) -> Sets:
    """Return what stands in a cell under Sets.

    Raises:
        UnreadError: It cannot be read, or could mean two things.
    """
    return sets_of(squeezed(typed(cell)), cell.text)


def sets_of(text: str, written: str) -> Sets:
    """Return the sets of a squeezed text.

    Raises:
        UnreadError: It cannot be read, or could mean two things.
    """
    if match := _STRAIGHT.fullmatch(text):
        return Sets(_whole(re.split("[.,]", match[1])[0], written))
    if match := _ASCENDING.fullmatch(text):
        return Sets(_whole(match[1], written), StyleKind.ASCENDING)
    if match := _DESCENDING.fullmatch(text):
        return _descending(match, written)
    if match := _PAUSED.fullmatch(text):
        kind = StyleKind.CLUSTER if match["kind"].startswith("c") else StyleKind.REST_PAUSE
        return Sets(_whole(match["sets"], written), kind, pause_s=_pause(match["pause"], written))
    if match := _CLUSTER.fullmatch(text):
        parts = tuple(int(part) for part in match["parts"].split("+"))
        if not all(parts):
            raise UnreadError(Code.SETS_UNREADABLE, written=written)
        pause_s = _pause(match["pause"], written)
        return Sets(_whole(match["sets"], written), StyleKind.CLUSTER, pause_s=pause_s, parts=parts)
    raise UnreadError(Code.SETS_UNREADABLE, written=written)


def _whole(text: str, written: str) -> int:
    if not 1 <= int(text) <= MOST_SETS:
        raise UnreadError(Code.SETS_UNREADABLE, written=written)
    return int(text)


def _descending(match: re.Match[str], written: str) -> Sets:
    if match["sets"] is None:
        # `3 descending` may be three sets in all, or three steps after one.
        raise UnreadError(Code.DESCENDING_STEPS, written=written)
    steps = int(match["steps"])
    if not 1 <= steps <= MOST_STEPS:
        raise UnreadError(Code.SETS_UNREADABLE, written=written)
    drop = Decimal(match["drop"].replace(",", ".")) if match["drop"] else None
    if drop is not None and not LEAST_DROP <= drop <= MOST_DROP:
        raise UnreadError(Code.DROP_OUTSIDE, written=written)
    return Sets(_whole(match["sets"], written), StyleKind.DESCENDING, steps, drop)


def _pause(text: str | None, written: str) -> int | None:
    if text is None:
        return None
    if not LEAST_PAUSE_S <= int(text) <= MOST_PAUSE_S:
        raise UnreadError(Code.PAUSE_OUTSIDE, written=written)
    return int(text)


def sets_text(dose: Dose) -> str:
    """Return the cell under Sets, which `sets_in` reads back."""
    style = dose.style
    if style is None:
        return str(dose.sets)
    if style.kind is StyleKind.DESCENDING:
        drop = f", {plain(style.drop)} %" if style.drop is not None else ""
        return f"{dose.sets} + {style.steps} descending{drop}"
    pause = f", {style.pause_s} s" if style.pause_s is not None else ""
    return f"{dose.sets} {style.kind}{pause}"
