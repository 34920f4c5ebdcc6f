"""The picture of a rehearsal: load by week for each main lift, the rules that spoke most, and sets a muscle.

Greys alone: the middle is a line with dots, the middle half a band with strokes, and what is planned a hollow bar, so
that nothing hangs on colour and a print says the same.
"""

from collections.abc import Mapping, Sequence
from math import ceil
from typing import TYPE_CHECKING, NamedTuple

from bot.render.drawing import DPI, DRAWING, drawable, grey_png
from bot.render.rehearsal import unit_words
from bot.render.rule_names import rule_name
from core.oversight.rehearsal_result import LiftLoads, Rehearsal
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

WIDTH = 1200
"""Width of the picture. [px]"""
EDGE = 40
"""White at both sides. [px]"""
HEAD = 130
"""Height of the title. [px]"""
PANEL = 290
"""Height of a row of lifts, with its title and axis. [px]"""
A_ROW = 3
"""Lifts in a row."""
MOST_LIFTS = 9
"""Lifts drawn."""
BAR = 30
"""Height of a bar with its room. [px]"""
MOST_RULES = 14
"""Rules drawn."""
NAME_SIZE = 60
"""Letters of a block's name."""
TITLE, TEXT, SMALL = 17, 12, 10.5
"""Sizes of letters. [pt]"""
BAND, PLANNED, DONE, LINE = "0.86", "white", "0.55", "0.1"
"""Greys; each has strokes, a frame or dots of its own beside it."""


class Place(NamedTuple):
    """Where axes stand, from the top left. [px]"""

    left: float
    top: float
    width: float
    height: float


def rehearsal_picture(found: Rehearsal, seed: int, catalogue: Mapping[str, Exercise] = CATALOGUE) -> bytes:
    """Draw a rehearsal as PNG.

    Args:
        found: What came of it.
        seed: That it was played with.
        catalogue: Exercises that are named.
    """
    with DRAWING:
        return _picture(found, seed, catalogue)


def _picture(found: Rehearsal, seed: int, catalogue: Mapping[str, Exercise]) -> bytes:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    lifts = found.lifts[:MOST_LIFTS]
    muscles = list(dict.fromkeys(one.muscle for one in found.muscles))
    rules = [one for one in found.rules if one.first][:MOST_RULES]
    below = HEAD + PANEL * ceil(len(lifts) / A_ROW)
    bars = BAR * max(len(rules), len(muscles))
    height = below + bars + 140
    figure = Figure(figsize=(WIDTH / DPI, height / DPI), dpi=DPI, facecolor="white")
    FigureCanvasAgg(figure)
    _title(figure, found, seed, height)
    width = (WIDTH - 2 * EDGE) / A_ROW
    for place, lift in enumerate(lifts):
        row, column = divmod(place, A_ROW)
        spot = Place(EDGE + width * column + 56, HEAD + PANEL * row + 44, width - 86, PANEL - 110)
        _lift(_axes(figure, spot, height), lift, found.clients, catalogue)
    spot = Place(EDGE + 240, below + 50, 250, BAR * len(rules))
    _rules(_axes(figure, spot, height), [(rule_name(one.code), one.first) for one in rules], found)
    spot = Place(EDGE + 690, below + 50, WIDTH - 2 * EDGE - 690, BAR * len(muscles))
    axes = _axes(figure, spot, height)
    _muscles(axes, muscles, found)
    return grey_png(axes)


def _axes(figure: "Figure", spot: Place, height: float) -> "Axes":
    bottom = height - spot.top - spot.height
    axes = figure.add_axes(
        (spot.left / WIDTH, bottom / height, spot.width / WIDTH, max(spot.height, 1) / height)
    )
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    axes.tick_params(labelsize=SMALL)
    return axes


def _title(figure: "Figure", found: Rehearsal, seed: int, height: float) -> None:
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    def line(top: float, text: str, size: float, *, bold: bool = False) -> None:
        figure.text(
            EDGE / WIDTH,
            1 - top / height,
            text,
            size=size,
            weight="bold" if bold else "normal",
            va="top",
            parse_math=False,
        )

    line(18, f"Rehearsal: {drawable(found.block, NAME_SIZE)}", TITLE, bold=True)
    people = f"{found.clients} simulated clients, {found.weeks} weeks, seed {seed}."
    drawn, there = min(MOST_LIFTS, len(found.lifts)), len(found.lifts)
    some = f" {drawn} of {there} main lifts are drawn." if drawn < there else ""
    line(54, f"{people} Invented people: no forecast.{some}", TEXT)
    figure.legend(
        handles=[
            Line2D([], [], color=LINE, marker="o", markersize=5, label="load of the client in the middle"),
            Patch(facecolor=BAND, edgecolor="0.6", hatch="////", label="middle half of the clients"),
        ],
        loc="upper left",
        bbox_to_anchor=((EDGE - 8) / WIDTH, 1 - 76 / height),
        ncols=2,
        frameon=False,
        fontsize=TEXT,
    )


def _lift(axes: "Axes", lift: LiftLoads, clients: int, catalogue: Mapping[str, Exercise]) -> None:
    from matplotlib.ticker import FormatStrFormatter, MaxNLocator

    weeks = [one for one in lift.weeks if one.load is not None]
    name = catalogue[lift.exercise].name
    if not weeks:
        axes.text(0.5, 0.5, "nobody did it", ha="center", transform=axes.transAxes, fontsize=TEXT)
    most = max((one.clients for one in weeks), default=0)
    axes.set_title(name, fontsize=TEXT, loc="left", weight="bold", pad=22)
    who = f"{most} of {clients} clients"
    axes.annotate(who, (0, 1), (0, 6), xycoords="axes fraction", textcoords="offset points", fontsize=SMALL)
    numbers = [one.week for one in weeks]
    low = [float(one.load.low) for one in weeks if one.load is not None]
    middle = [float(one.load.middle) for one in weeks if one.load is not None]
    high = [float(one.load.high) for one in weeks if one.load is not None]
    axes.fill_between(numbers, low, high, facecolor=BAND, edgecolor="0.6", hatch="////", linewidth=0.8)
    axes.plot(numbers, middle, color=LINE, marker="o", markersize=5, linewidth=1.8)
    axes.set_xlim(0.6, lift.weeks[-1].week + 0.4)
    axes.set_ylabel(unit_words(lift, catalogue), fontsize=SMALL)
    axes.set_xlabel("week", fontsize=SMALL, labelpad=2)
    axes.xaxis.set_major_locator(MaxNLocator(nbins=12, integer=True))
    axes.yaxis.set_major_locator(MaxNLocator(nbins=5, steps=[1, 2, 2.5, 5, 10]))
    axes.yaxis.set_major_formatter(FormatStrFormatter("%g"))
    room = max(2.5, (max(high, default=0) - min(low, default=0)) * 0.15)
    axes.set_ylim(min(low, default=0) - room, max(high, default=0) + room)
    axes.grid(axis="y", color="0.9")
    axes.set_axisbelow(True)


def _rules(axes: "Axes", counts: Sequence[tuple[str, int]], found: Rehearsal) -> None:
    from matplotlib.ticker import MaxNLocator

    axes.set_title(
        f"Rule told first, of {found.decisions} decisions", fontsize=TEXT, loc="left", weight="bold", pad=8
    )
    places = range(len(counts))
    axes.barh(places, [count for _, count in counts], height=0.62, color=DONE, edgecolor=LINE, linewidth=0.8)
    axes.set_yticks(places, [name for name, _ in counts], fontsize=SMALL)
    longest = max((count for _, count in counts), default=1)
    for place, (_, count) in enumerate(counts):
        axes.text(count + longest * 0.02, place, str(count), va="center", fontsize=SMALL)
    axes.set_xlim(0, longest * 1.18)
    axes.set_xlabel("decisions", fontsize=SMALL)
    axes.xaxis.set_major_locator(MaxNLocator(nbins=4, integer=True))
    axes.set_ylim(len(counts) - 0.4, -0.6)


def _muscles(axes: "Axes", muscles: Sequence[Muscle], found: Rehearsal) -> None:
    axes.set_title("Hard sets a muscle, a week", fontsize=TEXT, loc="left", weight="bold", pad=8)
    places = range(len(muscles))
    planned, done = [], []
    for muscle in muscles:
        weeks = [one for one in found.muscles if one.muscle is muscle]
        planned.append(float(sum(one.planned for one in weeks)) / len(weeks))
        done.append(float(sum(one.done for one in weeks)) / len(weeks))
    axes.barh(places, planned, height=0.8, color=PLANNED, edgecolor=LINE, linewidth=1.2, label="planned")
    axes.barh(
        places, done, height=0.42, color=DONE, hatch="////", edgecolor=LINE, linewidth=0.6, label="done"
    )
    axes.set_yticks(places, [muscle.value for muscle in muscles], fontsize=SMALL)
    axes.set_xlabel("sets, average of the weeks and clients", fontsize=SMALL)
    axes.set_ylim(len(muscles) - 0.4, -0.6)
    axes.legend(loc="lower right", fontsize=SMALL, framealpha=1)
