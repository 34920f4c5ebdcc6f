"""The roster's picture: bars with their numbers beside them, legible on a phone, in grey, and without colour.

Drawn without axes: there may be ten of it to a digest, and each takes a tenth of the time so.
"""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from bot.render import drawing
from bot.render.dates import day_words
from bot.render.drawing import DRAWING, SMALL, TEXT, TITLE, WIDTH, letters, small_png
from core.oversight.misses import Tally

if TYPE_CHECKING:
    from PIL import ImageDraw

__all__ = ["ROWS", "WIDTH", "drawable", "roster_pictures"]

ROWS = 20
"""Clients on one picture: a phone shows no more than 1280 px of height without making it smaller."""
ROW, HEAD, FOOT = 52, 112, 64
"""Heights. [px]"""
LEFT, RIGHT = 250, 740
"""Where bars begin and the longest ends. [px]"""
NAME_SIZE = 15
"""Characters of a name."""
DARK, LINE, LIGHT, WHITE = 64, 89, 237, 255
"""Greys. [0..255]"""
APART = 12
"""From stroke to stroke. [px]"""


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
    from PIL import Image, ImageDraw

    height = HEAD + ROW * len(rows) + FOOT
    picture = Image.new("L", (WIDTH, height), WHITE)
    pen = ImageDraw.Draw(picture)
    _words(pen, 24, 36, "Sessions kept of due", TITLE, bold=True)
    _words(pen, 24, 78, f"Four weeks: {day_words(first)} to {day_words(last)}", SMALL)
    for number, (name, counted) in enumerate(rows):
        _bar(pen, HEAD + ROW * number, name, counted, (RIGHT - LEFT) / most)
    _legend(pen, height - FOOT // 2)
    return small_png(picture)


def _bar(pen: "ImageDraw.ImageDraw", top: int, name: str, counted: Tally, scale: float) -> None:
    middle = top + ROW // 2
    _words(pen, 24, middle, drawable(name), TEXT)
    done, due = round(counted.kept * scale), round(counted.due * scale)
    _lost(pen, LEFT + done, top + 10, due - done, ROW - 20)
    _kept(pen, LEFT, top + 10, done, ROW - 20)
    _words(pen, LEFT + due + 12, middle, f"{counted.kept} of {counted.due}", TEXT)


def _legend(pen: "ImageDraw.ImageDraw", middle: int) -> None:
    _kept(pen, 24, middle - 11, 34, 22)
    _words(pen, 70, middle, "kept", SMALL)
    _lost(pen, 170, middle - 11, 34, 22)
    _words(pen, 216, middle, "due and not kept", SMALL)


def _words(
    pen: "ImageDraw.ImageDraw", left: int, middle: int, text: str, size: float, *, bold: bool = False
) -> None:
    pen.text((left, middle), text, fill=0, font=letters(size, bold=bold), anchor="lm")


def _kept(pen: "ImageDraw.ImageDraw", left: int, top: int, width: int, height: int) -> None:
    if width:
        pen.rectangle((left, top, left + width, top + height), fill=DARK, outline=LINE)


def _lost(pen: "ImageDraw.ImageDraw", left: int, top: int, width: int, height: int) -> None:
    """Draw a box with strokes from its lower left to its upper right, each cut where the box ends."""
    if not width:
        return
    right, foot = left + width, top + height
    pen.rectangle((left, top, right, foot), fill=LIGHT, outline=LINE)
    for begins in range(left - height + APART, right, APART):
        below, above = max(left - begins, 0), min(right - begins, height)
        pen.line((begins + below, foot - below, begins + above, foot - above), fill=LINE)


def drawable(name: str) -> str:
    """Return a name as it can be drawn: cut to its column, and with ? for letters that the font has not."""
    return drawing.drawable(name, NAME_SIZE)
