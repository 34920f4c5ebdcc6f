"""Pieces of pictures: words and boxes on a white sheet, written as a small PNG in greys.

Drawn with the library's objects alone: nothing of it is set for the whole program. The library is not made for
several threads, so that whoever draws holds `DRAWING`. It takes half a second to load: it is imported where it draws,
under the same lock, so that what draws nothing never waits for it.
"""

from functools import cache
from io import BytesIO
from threading import Lock
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from PIL import Image, ImageFont

WIDTH = 900
"""Width of a picture. [px]"""
MOST_HEIGHT = 1280
"""A phone shows no more height without making a picture smaller. [px]"""
DPI = 100
TEXT, TITLE, SMALL = 18, 20, 15
"""Sizes of letters. [pt]"""
FAMILY = "DejaVu Sans"
LINE = "0.35"
GREYS = 16
STEP = 255 // (GREYS - 1)
NEAREST = [round(grey / STEP) for grey in range(256)]
"""Which of the few greys stands for each of all."""
DRAWING = Lock()
"""Held while a picture is drawn."""


def sheet(height: int) -> "Axes":
    """Return an empty sheet of `height` [px], with its origin at the top left and a unit of one pixel."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(WIDTH / DPI, height / DPI), dpi=DPI, facecolor="white")
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    axes.set_xlim(0, WIDTH)
    axes.set_ylim(height, 0)
    return axes


def words(
    axes: "Axes",
    left: float,
    middle: float,
    text: str,
    size: float,
    *,
    bold: bool = False,
    centred: bool = False,
) -> None:
    """Write a line from `left`, or with its centre there; `middle` is its height. [px, pt]"""
    weight, align = "bold" if bold else "normal", "center" if centred else "left"
    axes.text(
        left, middle, text, size=size, weight=weight, ha=align, va="center", color="black", parse_math=False
    )


def box(
    axes: "Axes",
    left: float,
    top: float,
    width: float,
    height: float,
    *,
    fill: str,
    hatch: str | None = None,
    line: float = 1,
    edge: str = LINE,
    dashed: bool = False,
) -> None:
    """Draw a box with a fill of grey ("0" is black, "1" white), strokes in it where `hatch` says so. [px]"""
    from matplotlib.patches import Rectangle

    style = (0, (3, 2)) if dashed else "solid"
    axes.add_patch(
        Rectangle(
            (left, top),
            width,
            height,
            facecolor=fill,
            edgecolor=edge,
            linewidth=line,
            linestyle=style,
            hatch=hatch,
        )
    )


def grey_png(axes: "Axes") -> bytes:
    """Return what was drawn as a PNG of few greys."""
    from PIL import Image

    figure, drawn = cast("Figure", axes.figure), BytesIO()
    figure.savefig(drawn, format="rgba", dpi=DPI)
    return small_png(Image.frombytes("RGBA", figure.canvas.get_width_height(), drawn.getvalue()).convert("L"))


def small_png(drawn: "Image.Image") -> bytes:
    """Return a picture of greys as a PNG of sixteen, evenly apart: a third of the size, and looks the same."""
    few, kept = drawn.point(NEAREST), BytesIO()
    few.putpalette([level * STEP for level in range(GREYS) for _ in "rgb"])
    few.save(kept, format="PNG", bits=4)
    return kept.getvalue()


def letters(size: float, *, bold: bool = False) -> "ImageFont.FreeTypeFont":
    """Return the letters of `words`, for pictures that are drawn without axes. [pt]"""
    return _letters(size * DPI / 72, "bold" if bold else "normal")


@cache
def _letters(height: float, weight: str) -> "ImageFont.FreeTypeFont":
    from matplotlib.font_manager import FontProperties, findfont
    from PIL import ImageFont

    found = findfont(FontProperties(family=FAMILY, weight=weight))
    return ImageFont.truetype(found, height, layout_engine=ImageFont.Layout.BASIC)


def drawable(text: str, most: int) -> str:
    """Return text as it can be drawn: cut to `most` letters, and with ? for letters that the font has not."""
    known = "".join(letter if _has(letter) else "?" for letter in text)
    return known if len(known) <= most else f"{known[: most - 1].rstrip()}…"


@cache
def _has(letter: str) -> bool:
    from matplotlib.font_manager import FontProperties, findfont, get_font

    font = get_font(findfont(FontProperties(family=FAMILY)))
    return letter.isprintable() and font.get_char_index(ord(letter)) != 0
