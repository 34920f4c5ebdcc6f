"""Pictures of a client's progress, for a phone: lifts over time, sessions kept, body reports. Greys alone.

Whoever draws holds the lock. What is told apart is told by shape and words: a full dot counts for the trend, a hollow
one does not; what was kept is dark, what was due besides has strokes; scores stand as numbers.
"""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from math import ceil, floor, log10
from statistics import median
from typing import TYPE_CHECKING

from bot.render import drawing
from bot.render.drawing import DRAWING, SMALL, TEXT, TITLE, box, grey_png, sheet, words
from bot.render.progress import kept_words, short_date, stands_words, trend_words
from core.loads.dated_estimates import DatedEstimate
from core.loads.trend import Trend
from core.oversight.progress import LiftSeen, Progress, SiteFelt, WeekKept

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MOST_LIFTS, MOST_SITES = 4, 7
"""Lifts and sites on one picture."""
LEFT, RIGHT = 150, 840
"""Where a time axis begins and ends. [px]"""
HEAD, PANEL, PLOT, FOOT = 70, 280, 150, 84
"""Heights: of the title, of a lift, of its plot, of what explains the signs. [px]"""
WEEK_ROW, SITE_ROW, BAR_LEFT, BAR_RIGHT = 52, 150, 200, 740
DARK, BAND, GRID, LIGHT = "0.2", "0.85", "0.9", "0.93"
HATCH = "///"
NAME_SIZE = 30
LEVELS, APART = 4, 27
"""How many reports of near days stand above each other, and how far apart. [px]"""
At = Callable[[date, float], tuple[float, float]]
TICKS = 3
"""Steps between numbers at the side, at least."""


def lifts_picture(lifts: Sequence[LiftSeen], title: str = "Main lifts, estimated for one rep") -> bytes:
    """Draw lifts over time as PNG: a dot a session, with the trend and its interval where there is one."""
    shown = lifts[:MOST_LIFTS]
    height = HEAD + PANEL * len(shown) + FOOT
    with DRAWING:
        axes = sheet(height)
        words(axes, 24, 36, title, TITLE, bold=True)
        for number, lift in enumerate(shown):
            lift_panel(axes, HEAD + PANEL * number, lift)
        explained(axes, height - FOOT + 18)
        return grey_png(axes)


def lift_panel(axes: "Axes", top: float, lift: LiftSeen) -> None:
    """Draw one lift over time from a height on, `PANEL` high. Whoever calls holds the lock."""
    name = drawing.drawable(lift.exercise.name, NAME_SIZE)
    words(axes, 24, top + 18, f"{name}: {stands_words(lift)}", TEXT, bold=True)
    words(axes, 24, top + 48, trend_words(lift), SMALL)
    points, unit = lift.points, lift.points[-1].mass.unit
    values = [float(each.mass.to(unit).value) for each in points]
    first, last = points[0].on, max(points[-1].on, points[0].on + timedelta(days=1))
    low, high, step = _scale([*values, *(_ends(lift.trend, points) if isinstance(lift.trend, Trend) else ())])
    above, below = top + 76, top + 76 + PLOT

    def at(on: date, value: float) -> tuple[float, float]:
        along = (on - first).days / (last - first).days
        return LEFT + along * (RIGHT - LEFT), below - (value - low) / (high - low) * (below - above)

    for number in range(round((high - low) / step) + 1):
        value = low + step * number
        _, height = at(first, value)
        axes.plot([LEFT - 10, RIGHT + 10], [height, height], color=GRID, linewidth=1)
        words(axes, 24, height, f"{value:g} {unit}", SMALL)
    if isinstance(lift.trend, Trend):
        _trend(axes, lift.trend, points, at)
    for each, value in zip(points, values, strict=True):
        x, y = at(each.on, value)
        axes.plot(x, y, marker="o", markersize=7, color=DARK, markerfacecolor=DARK if each.usual else "white")
    _dates(axes, below + 24, first, last)


def _pivot(found: Trend, points: Sequence[DatedEstimate]) -> tuple[float, float]:
    """Return where every slope of the interval passes: the middle of the days before the last, and the line there."""
    middle = median((each.on - found.last).days for each in points if each.usual and each.on >= found.first)
    return middle, found.level + found.slope / 7 * middle


def _ends(found: Trend, points: Sequence[DatedEstimate]) -> list[float]:
    """Return where the slopes of the interval begin and end: low, middle, high on the first date, then on the last."""
    middle, height = _pivot(found, points)
    days = ((found.first - found.last).days, 0)
    return [
        height + slope / 7 * (day - middle) for day in days for slope in (found.low, found.slope, found.high)
    ]


def _trend(axes: "Axes", found: Trend, points: Sequence[DatedEstimate], at: At) -> None:
    """Draw the line, and around the middle of its points the fan of slopes that its interval has."""
    from matplotlib.patches import Polygon

    middle, height = _pivot(found, points)
    pivot = at(found.last + timedelta(days=round(middle)), height)
    ends = _ends(found, points)
    left = [at(found.first, value) for value in ends[:3]]
    right = [at(found.last, value) for value in ends[3:]]
    for one, _, other in (left, right):
        fan = Polygon([pivot, one, other], facecolor=BAND, edgecolor="0.6", hatch=HATCH, linewidth=0.5)
        axes.add_patch(fan)
    axes.plot([left[1][0], right[1][0]], [left[1][1], right[1][1]], color=DARK, linewidth=2)


def _scale(values: Sequence[float]) -> tuple[float, float, float]:
    """Return where the axis begins and ends, and the step of its numbers: round ones, with room around."""
    spread = max(max(values) - min(values), 5.0)
    rough = spread / TICKS
    power = 10 ** floor(log10(rough))
    step = next(power * each for each in (1, 2, 2.5, 5, 10) if power * each >= rough)
    low, high = floor(min(values) / step) * step, ceil(max(values) / step) * step
    return low, max(high, low + TICKS * step), step


def _dates(axes: "Axes", height: float, first: date, last: date) -> None:
    middle = first + (last - first) / 2
    shown = (first, middle, last) if (last - first).days >= 14 else (first, last)
    for place, on in enumerate(shown):
        x = LEFT + (RIGHT - LEFT) * place / (len(shown) - 1)
        words(axes, x, height, short_date(on), SMALL, centred=True)


def explained(axes: "Axes", top: float) -> None:
    """Explain the signs of lifts, from a height on."""
    for height, fill, said in (
        (top, DARK, "a session"),
        (top + 32, "white", "a lighter week, on the way back, or held back: left out of the trend"),
    ):
        axes.plot(38, height, marker="o", markersize=7, color=DARK, markerfacecolor=fill)
        words(axes, 60, height, said, SMALL)
    box(axes, 330, top - 11, 34, 22, fill=BAND, hatch=HATCH, edge="0.6")
    words(axes, 376, top, "strokes: where the trend may lie", SMALL)


def kept_picture(seen: Progress) -> bytes:
    """Draw sessions kept of due by week as PNG."""
    weeks = seen.weeks
    height = HEAD + 40 + WEEK_ROW * len(weeks) + 60
    most = max((each.counted.due for each in weeks), default=1) or 1
    with DRAWING:
        axes = sheet(height)
        words(axes, 24, 36, "Sessions kept of due, by week", TITLE, bold=True)
        words(axes, 24, 76, kept_words(seen.kept, seen.policy), SMALL)
        for number, each in enumerate(weeks):
            _week(axes, HEAD + 40 + WEEK_ROW * number, each, (BAR_RIGHT - BAR_LEFT) / most)
        foot = height - 30
        box(axes, 24, foot - 11, 34, 22, fill=DARK)
        words(axes, 70, foot, "kept", SMALL)
        box(axes, 170, foot - 11, 34, 22, fill=LIGHT, hatch=HATCH)
        words(axes, 216, foot, "due and not kept", SMALL)
        return grey_png(axes)


def _week(axes: "Axes", top: float, week: WeekKept, scale: float) -> None:
    middle, counted = top + WEEK_ROW / 2, week.counted
    words(axes, 24, middle, f"from {short_date(week.monday)}", TEXT)
    if not counted.due:
        words(axes, BAR_LEFT, middle, "none due", SMALL)
        return
    box(axes, BAR_LEFT, top + 10, counted.due * scale, WEEK_ROW - 20, fill=LIGHT, hatch=HATCH)
    box(axes, BAR_LEFT, top + 10, counted.kept * scale, WEEK_ROW - 20, fill=DARK)
    words(axes, BAR_LEFT + counted.due * scale + 12, middle, f"{counted.kept} of {counted.due}", TEXT)


def body_picture(sites: Sequence[SiteFelt], first: date, today: date) -> bytes:
    """Draw what was said of each place that hurt, as PNG: its scores as numbers on a line of time."""
    shown = sites[:MOST_SITES]
    height = HEAD + 40 + SITE_ROW * len(shown) + 70
    with DRAWING:
        axes = sheet(height)
        words(axes, 24, 36, "Pain as it was said, by place", TITLE, bold=True)
        words(axes, 24, 76, "Numbers from 0, no pain, to 10; ? is no number given", SMALL)
        for number, each in enumerate(shown):
            _site(axes, HEAD + 40 + SITE_ROW * number, each, first, today)
        _dates(axes, height - 36, first, today)
        return grey_png(axes)


def _site(axes: "Axes", top: float, site: SiteFelt, first: date, today: date) -> None:
    words(axes, 24, top + 16, drawing.drawable(site.place.capitalize(), NAME_SIZE), TEXT, bold=True)
    base = top + 128
    axes.plot([LEFT, RIGHT], [base, base], color=GRID, linewidth=1)
    taken = [0.0] * LEVELS
    for on, score in site.felt:
        x = LEFT + (RIGHT - LEFT) * (on - first).days / max((today - first).days, 1)
        level = next((number for number, until in enumerate(taken) if until <= x), 0)
        taken[level], height = x + APART, base - APART * level
        axes.plot(
            x, height, marker="o", markersize=17, color="0.4", markerfacecolor="white", markeredgewidth=1.2
        )
        words(axes, x, height, "?" if score is None else str(score), SMALL - 2, centred=True)
