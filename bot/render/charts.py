"""Pictures: bars with their numbers beside them, legible on a phone, in grey, and without colour.

Drawn with the library's objects alone: nothing of it is set for the whole program. One picture at a time.
"""

from collections.abc import Sequence
from datetime import date
from functools import cache
from io import BytesIO

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.patches import Rectangle
from PIL import Image

from bot.render.dates import day_words
from core.oversight.misses import Tally

WIDTH = 900
"""Width of a picture. [px]"""
ROWS = 20
"""Clients on one picture: a phone shows no more than 1280 px of height without making it smaller."""
DPI = 100
ROW, HEAD, FOOT = 52, 112, 64
"""Heights. [px]"""
LEFT, RIGHT = 250, 740
"""Where bars begin and the longest ends. [px]"""
NAME_SIZE = 15
"""Characters of a name."""
TEXT, TITLE, SMALL = 18, 20, 15
"""Sizes of letters. [pt]"""
DARK, LIGHT, LINE = "0.25", "0.93", "0.35"
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
    return tuple(_roster(page, most, first, last) for page in pages)


def _roster(rows: Sequence[tuple[str, Tally]], most: int, first: date, last: date) -> bytes:
    height = HEAD + ROW * len(rows) + FOOT
    figure = Figure(figsize=(WIDTH / DPI, height / DPI), dpi=DPI, facecolor="white")
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    axes.set_xlim(0, WIDTH)
    axes.set_ylim(height, 0)
    _words(axes, 24, 36, "Sessions kept of due", TITLE, weight="bold")
    _words(axes, 24, 78, f"Four weeks: {day_words(first)} to {day_words(last)}", SMALL)
    for number, (name, counted) in enumerate(rows):
        _bar(axes, HEAD + ROW * number, name, counted, (RIGHT - LEFT) / most)
    _legend(axes, height - FOOT / 2)
    return _grey(figure)


def _grey(figure: Figure) -> bytes:
    """Return what was drawn as a PNG of sixteen greys: a fifth of the size, and looks the same."""
    drawn, kept = BytesIO(), BytesIO()
    figure.savefig(drawn, format="png", dpi=DPI)
    with Image.open(drawn) as coloured:
        coloured.convert("L").quantize(16).save(kept, format="PNG", optimize=True)
    return kept.getvalue()


def _bar(axes: Axes, top: float, name: str, counted: Tally, scale: float) -> None:
    middle = top + ROW / 2
    _words(axes, 24, middle, drawable(name), TEXT)
    done, due = counted.kept * scale, counted.due * scale
    _box(axes, LEFT, top + 10, due, ROW - 20, hatch=True)
    _box(axes, LEFT, top + 10, done, ROW - 20, hatch=False)
    _words(axes, LEFT + due + 12, middle, f"{counted.kept} of {counted.due}", TEXT)


def _legend(axes: Axes, middle: float) -> None:
    _box(axes, 24, middle - 11, 34, 22, hatch=False)
    _words(axes, 70, middle, "kept", SMALL)
    _box(axes, 170, middle - 11, 34, 22, hatch=True)
    _words(axes, 216, middle, "due and not kept", SMALL)


def _box(axes: Axes, left: float, top: float, width: float, height: float, *, hatch: bool) -> None:
    box = Rectangle((left, top), width, height, edgecolor=LINE, linewidth=1, facecolor=DARK)
    if hatch:
        box.set_facecolor(LIGHT)
        box.set_hatch(HATCH)
    axes.add_patch(box)


def _words(axes: Axes, left: float, middle: float, text: str, size: int, weight: str = "normal") -> None:
    axes.text(left, middle, text, size=size, weight=weight, va="center", color="black", parse_math=False)


def drawable(name: str) -> str:
    """Return a name as it can be drawn: cut to its column, and with ? for letters that the font has not."""
    known = "".join(letter if _has(letter) else "?" for letter in name)
    return known if len(known) <= NAME_SIZE else f"{known[: NAME_SIZE - 1].rstrip()}…"


@cache
def _has(letter: str) -> bool:
    font = get_font(findfont(FontProperties(family="DejaVu Sans")))
    return letter.isprintable() and font.get_char_index(ord(letter)) != 0
