"""The roster's picture: bars with their numbers beside them, legible on a phone, in grey, and without colour."""

from collections.abc import Sequence
from datetime import date

from matplotlib.axes import Axes

from bot.render import drawing
from bot.render.dates import day_words
from bot.render.drawing import DRAWING, SMALL, TEXT, TITLE, WIDTH, box, grey_png, sheet, words
from core.oversight.misses import Tally

__all__ = ["ROWS", "WIDTH", "drawable", "roster_pictures"]

ROWS = 20
"""Clients on one picture: a phone shows no more than 1280 px of height without making it smaller."""
ROW, HEAD, FOOT = 52, 112, 64
"""Heights. [px]"""
LEFT, RIGHT = 250, 740
"""Where bars begin and the longest ends. [px]"""
NAME_SIZE = 15
"""Characters of a name."""
DARK, LIGHT = "0.25", "0.93"
HATCH = "///"


def roster_pictures(rows: Sequence[tuple[str, Tally]], first: date, last: date) -> tuple[bytes, ...]:
    """Draw sessions kept of due by client as PNG; more than one picture where the roster is long.

    Args:
        rows: Name and count of each client, in the order shown.
        first: First day counted.
        last: Last day counted.
    """
    pages = [rows[at : at + ROWS] for at in range(0, len(rows), ROWS)]
    most = max((each.due for _, each in rows), default=1)
    with DRAWING:
        return tuple(_roster(page, most, first, last) for page in pages)


def _roster(rows: Sequence[tuple[str, Tally]], most: int, first: date, last: date) -> bytes:
    height = HEAD + ROW * len(rows) + FOOT
    axes = sheet(height)
    words(axes, 24, 36, "Sessions kept of due", TITLE, bold=True)
    words(axes, 24, 78, f"Four weeks: {day_words(first)} to {day_words(last)}", SMALL)
    for number, (name, counted) in enumerate(rows):
        _bar(axes, HEAD + ROW * number, name, counted, (RIGHT - LEFT) / most)
    _legend(axes, height - FOOT / 2)
    return grey_png(axes)


def _bar(axes: Axes, top: float, name: str, counted: Tally, scale: float) -> None:
    middle = top + ROW / 2
    words(axes, 24, middle, drawable(name), TEXT)
    done, due = counted.kept * scale, counted.due * scale
    _box(axes, LEFT, top + 10, due, ROW - 20, hatch=True)
    _box(axes, LEFT, top + 10, done, ROW - 20, hatch=False)
    words(axes, LEFT + due + 12, middle, f"{counted.kept} of {counted.due}", TEXT)


def _legend(axes: Axes, middle: float) -> None:
    _box(axes, 24, middle - 11, 34, 22, hatch=False)
    words(axes, 70, middle, "kept", SMALL)
    _box(axes, 170, middle - 11, 34, 22, hatch=True)
    words(axes, 216, middle, "due and not kept", SMALL)


def _box(axes: Axes, left: float, top: float, width: float, height: float, *, hatch: bool) -> None:
    box(axes, left, top, width, height, fill=LIGHT if hatch else DARK, hatch=HATCH if hatch else None)


def drawable(name: str) -> str:
    """Return a name as it can be drawn: cut to its column, and with ? for letters that the font has not."""
    return drawing.drawable(name, NAME_SIZE)
