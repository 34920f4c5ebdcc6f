"""The page for a practitioner: one sheet of A4 as PDF, pain by place over time, then the lines of the summary.

Whoever draws holds the lock. Nothing is told by colour: scores stand as numbers.
"""

import textwrap
from io import BytesIO
from typing import TYPE_CHECKING

from bot.render.drawing import DRAWING, drawable, words
from bot.render.physio_summary import Summary, summary_lines

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WIDTH, HEIGHT = 827, 1169
"""A sheet of A4, in hundredths of an inch."""
LEFT, RIGHT, AXIS_LEFT = 60, 767, 220
SMALL, TEXT, TITLE = 8, 9, 14
"""Sizes of letters. [pt]"""
ROW, LINE = 34, 17
MOST_SITES, MOST_LETTERS, FOOT = 7, 112, 1130


def summary_page(summary: Summary) -> bytes:
    """Draw a summary as one page of PDF; what finds no room is counted on the last line."""
    with DRAWING:
        from matplotlib.backends.backend_pdf import FigureCanvasPdf
        from matplotlib.figure import Figure

        figure = Figure(figsize=(WIDTH / 100, HEIGHT / 100), facecolor="white")
        FigureCanvasPdf(figure)
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set_axis_off()
        axes.set_xlim(0, WIDTH)
        axes.set_ylim(HEIGHT, 0)
        title, *lines = summary_lines(summary)
        words(axes, LEFT, 60, drawable(title, 70), TITLE, bold=True)
        below = _sites(axes, 95, summary)
        _lines(axes, below, lines)
        drawn = BytesIO()
        figure.savefig(drawn, format="pdf", metadata={"CreationDate": None, "Title": "Training summary"})
        return drawn.getvalue()


def _sites(axes: "Axes", top: float, summary: Summary) -> float:
    """Draw a row of time for each place, its scores as numbers; return where the next thing may begin."""
    shown = summary.sites[:MOST_SITES]
    if not shown:
        return top
    days = max((summary.today - summary.first).days, 1)
    for number, site in enumerate(shown):
        middle = top + ROW * (number + 0.5)
        words(axes, LEFT, middle, drawable(site.place, 24), TEXT)
        axes.plot([AXIS_LEFT, RIGHT], [middle, middle], color="0.8", linewidth=0.6)
        for on, score in site.felt:
            x = AXIS_LEFT + (RIGHT - AXIS_LEFT) * (on - summary.first).days / days
            axes.plot(x, middle, marker="o", markersize=10, color="0.4", markerfacecolor="white")
            words(axes, x, middle, "?" if score is None else str(score), SMALL, centred=True)
    foot = top + ROW * len(shown) + 8
    words(axes, AXIS_LEFT, foot, summary.first.isoformat(), SMALL)
    words(axes, RIGHT - 60, foot, summary.today.isoformat(), SMALL)
    return foot + 2 * LINE


def _lines(axes: "Axes", top: float, lines: list[str]) -> None:
    height = top
    for number, line in enumerate(lines):
        heading = line.endswith(":")
        parts = textwrap.wrap(drawable(line, 400), MOST_LETTERS) or [""]
        room = height + LINE * (len(parts) + heading)
        if room > FOOT - LINE:
            words(
                axes, LEFT, height, f"and {len(lines) - number} more lines in the text beside this page", TEXT
            )
            return
        height += LINE / 2 if heading else 0
        for part in parts:
            words(axes, LEFT, height, part, TEXT, bold=heading)
            height += LINE
