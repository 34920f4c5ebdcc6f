"""A season's picture: time from left to right, a row a client, words and patterns on it and no colour."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from bot.render.dates import MONTHS, day_words
from bot.render.drawing import (
    DRAWING,
    SMALL,
    TITLE,
    WIDTH,
    box,
    drawable,
    grey_png,
    letters,
    sheet,
    words,
)
from core.oversight.season import Season, SeasonRow, Span, SpanKind

if TYPE_CHECKING:
    from matplotlib.axes import Axes

ROWS = 14
"""Clients on one picture: a phone shows no more height without making it smaller."""
MOST_PICTURES = 3
HEAD, ROW, FOOT = 136, 76, 64
LANE = 30
"""Heights. [px]"""
LEFT, RIGHT = 176, WIDTH - 20
"""Where time begins and ends. [px]"""
NAME_LETTERS, MOST_LETTERS = 11, 14
"""Characters of a name, and of one that is written smaller so that more of it is seen."""
LETTER = 9.6
"""Width of a letter of the labels, on the wide side. [px]"""
LABEL, SMALLEST = 12, 10
"""Sizes of the labels, and of those that fit a narrow block. [pt]"""
FEWEST_LETTERS = 6
"""A name that is cut shorter than this says less than the weeks do. Our proposal."""
NARROWEST = 5
"""Width of the shortest span, so that a day is still seen. [px]"""
FILL = {SpanKind.BLOCK: "0.88", SpanKind.HOLIDAY: "white", SpanKind.AWAY: "white"}
HATCH = {SpanKind.BLOCK: None, SpanKind.HOLIDAY: "////", SpanKind.AWAY: "...."}
GRID = "0.8"


def season_pictures(seen: Season) -> tuple[bytes, ...]:
    """Draw a season as PNG; none where nothing is in it, more than one where there are many clients."""
    rows = [each for each in seen.rows if each.spans]
    if seen.everybody.spans:
        rows.insert(0, seen.everybody)
    pages = [rows[at : at + ROWS] for at in range(0, len(rows), ROWS)][:MOST_PICTURES]
    with DRAWING:
        return tuple(_picture(page, seen) for page in pages)


def _picture(rows: Sequence[SeasonRow], seen: Season) -> bytes:
    height = HEAD + ROW * len(rows) + FOOT
    axes = sheet(height)
    words(axes, 24, 34, f"Season, {day_words(seen.today)}", TITLE, bold=True)
    _months(axes, seen, height - FOOT)
    for number, row in enumerate(rows):
        top = HEAD + ROW * number
        axes.plot([24, RIGHT], [top - 6, top - 6], color=GRID, linewidth=0.8)
        _name(axes, top + LANE / 2, row.name or "Everybody")
        _row(axes, top, row, seen)
    _today(axes, seen, height - FOOT)
    _legend(axes, height - FOOT / 2)
    return grey_png(axes)


def _name(axes: "Axes", middle: float, name: str) -> None:
    is_long = len(name) > NAME_LETTERS
    words(axes, 24, middle, drawable(name, MOST_LETTERS), LABEL if is_long else SMALL, bold=True)


def _at(on: date, seen: Season) -> float:
    """Return where a day begins. [px]"""
    days = (seen.last - seen.first).days + 1
    return LEFT + (RIGHT - LEFT) * (on - seen.first).days / days


def _months(axes: "Axes", seen: Season, foot: float) -> None:
    """Name each month where it begins, and mark each Monday."""
    wide = 0.0
    for number in range((seen.last - seen.first).days + 1):
        on = seen.first + timedelta(days=number)
        x = _at(on, seen)
        if on.weekday() == 0:
            axes.plot([x, x], [HEAD - 22, HEAD - 14], color="0.5", linewidth=0.8)
        if on.day == 1 or number == 0:
            axes.plot([x, x], [HEAD - 70, HEAD - 50], color=GRID, linewidth=0.8, zorder=0)
            axes.plot([x, x], [HEAD - 12, foot], color=GRID, linewidth=0.8, zorder=0)
            name = MONTHS[on.month - 1][:3] if on.day > 1 or seen.last - seen.first > timedelta(180) else None
            said = name or MONTHS[on.month - 1]
            ends = x + 14 + len(said) * LETTER * 1.2
            if x >= wide and on.day < 24 and ends < WIDTH:
                words(axes, x + 4, HEAD - 62, said, SMALL - 2)
                wide = ends


def _today(axes: "Axes", seen: Season, foot: float) -> None:
    """Draw a line through today, from under the names of the months on, so that it crosses none of them."""
    x = _at(seen.today, seen)
    axes.plot([x, x], [HEAD - 44, foot], color="black", linewidth=1.6, linestyle=(0, (4, 3)), zorder=0.5)
    words(axes, x + 5, HEAD - 36, "today", SMALL - 2)


def _row(axes: "Axes", top: float, row: SeasonRow, seen: Season) -> None:
    for each in row.of(SpanKind.BLOCK):
        left, right = _ends(each, seen)
        box(axes, left, top, right - left, LANE, fill=FILL[each.kind])
        _label(axes, left + 5, top + LANE / 2, each, right - left - 8)
    taken = float(LEFT)
    others = [each for each in row.spans if each.kind is not SpanKind.BLOCK]
    for place, each in enumerate(others):
        left, right = _ends(each, seen)
        end = right
        if each.kind is SpanKind.EVENT:
            axes.plot((left + right) / 2, top + LANE * 1.6, marker="v", markersize=11, color="black")
            end = left + 16
        else:
            box(axes, left, top + LANE + 6, right - left, LANE - 8, fill="white", hatch=HATCH[each.kind])
        following = _ends(others[place + 1], seen)[0] if place + 1 < len(others) else float(RIGHT)
        taken = _beside(axes, top + LANE * 1.6, each, (taken, left, end, following))


def _ends(each: Span, seen: Season) -> tuple[float, float]:
    left = _at(max(each.first, seen.first), seen)
    right = _at(min(each.last, seen.last) + timedelta(days=1), seen)
    return left, max(right, left + NARROWEST)


def _beside(axes: "Axes", middle: float, each: Span, around: tuple[float, float, float, float]) -> float:
    """Write what a span is where there is room, in full or by its number; return where the room begins after it."""
    taken, left, right, following = around
    full, short = _said(each)
    for said in (full, short):
        width = len(said) * LETTER
        if right + 6 + width <= following:
            _over_lines(axes, right + 6, middle, said)
            return right + 6 + width
        if taken <= left - 6 - width:
            _over_lines(axes, left - 6 - width, middle, said)
            return right
    return right


def _over_lines(axes: "Axes", left: float, middle: float, said: str) -> None:
    """Write words so that no line goes through them."""
    box(axes, left - 2, middle - 10, _width(said, LABEL) + 4, 20, fill="white", edge="white")
    words(axes, left, middle, said, LABEL)


def _width(said: str, size: float) -> float:
    return letters(size).getlength(said)


def _said(each: Span) -> tuple[str, str]:
    number = f"{each.number} " if each.number is not None else ""
    if each.kind is SpanKind.AWAY:
        return "away", "away"
    name = each.name or each.kind.value
    return drawable(f"{number}{name}", 24), number.strip()


def _label(axes: "Axes", left: float, middle: float, each: Span, room: float) -> None:
    said, size = block_label(each.name, f"{each.week_on(each.last)} wk", room)
    words(axes, left, middle, said, size)


def block_label(name: str, weeks: str, room: float) -> tuple[str, float]:
    """Return what is written on a block, and its size [pt]: its name with its weeks where there is `room` [px].

    Where there is less, the name alone, then smaller, then cut; then its weeks alone, and nothing at the last.
    """
    full = drawable(name, len(name))
    cut = (drawable(name, most) for most in range(len(name) - 1, FEWEST_LETTERS - 1, -1))
    tries = [
        (f"{full} {weeks}", LABEL),
        (full, LABEL),
        (full, SMALLEST),
        *((said, SMALLEST) for said in cut),
        (weeks, LABEL),
    ]
    return next((each for each in tries if _width(*each) <= room), ("", LABEL))


def _legend(axes: "Axes", middle: float) -> None:
    left = 24
    for kind, said in ((SpanKind.BLOCK, "block"), (SpanKind.HOLIDAY, "holiday"), (SpanKind.AWAY, "away")):
        box(axes, left, middle - 10, 34, 20, fill=FILL[kind], hatch=HATCH[kind])
        words(axes, left + 42, middle, said, SMALL - 1)
        left += 160
    axes.plot(left + 14, middle, marker="v", markersize=11, color="black")
    words(axes, left + 32, middle, "event", SMALL - 1)
