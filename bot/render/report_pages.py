"""The report of a block as pages that can be read on a phone: words large enough, greys alone, no colour to tell by.

Parts are put on a page one below the other, and a new page begins where the next does not fit. Whoever draws holds the
lock. The same report is the same bytes at any time.
"""

import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from io import BytesIO
from typing import TYPE_CHECKING

from bot.render import report as say
from bot.render.dates import day_words
from bot.render.drawing import DRAWING, SMALL, TEXT, TITLE, box, drawable, sheet, words
from bot.render.progress import BRACKETS
from bot.render.progress_chart import PANEL, explained, lift_panel
from bot.render.report_options import OPTION_WORDS, option_lines
from core.oversight.options import Option
from core.oversight.report_parts import LiftRun, MuscleWeek, Report, WeekDone
from core.units import plain

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

HEIGHT = 1600
"""Height of a full page. [px]"""
MARGIN, GAP = 28, 30
"""Around a page, and between its parts. [px]"""
LINE, SMALL_LINE = 34, 28
"""Heights of a line. [px]"""
ROOM = HEIGHT - 2 * MARGIN - SMALL_LINE
"""Height on a page for what stands on it, above its foot. [px]"""
LETTERS, SMALL_LETTERS = 58, 76
"""Letters of a line, so that the widest still fit."""
PANELS, MOST_PAGES = 3, 3
"""Lifts that are drawn, and pages: where there are more, fewer lifts are drawn; all stand in words. Our proposal."""
MOST_WEEKS = 16
"""Weeks that are drawn, the last; all stand in the tables."""
ROW = 44
BAR_LEFT, BAR_RIGHT = 230, 700
DARK, LIGHT, HATCH = "0.25", "0.93", "///"
TENTH = Decimal("0.1")

Draw = Callable[["Axes", float], None]


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a page: its height [px], and what draws it from a height on."""

    height: float
    draw: Draw


def report_pdf(found: Report) -> bytes:
    """Return a report as PDF."""
    kept, about = BytesIO(), {"CreationDate": None, "Title": say.title(found)}
    with DRAWING:
        from matplotlib.backends.backend_pdf import PdfPages

        with PdfPages(kept, metadata=about) as pdf:
            for page in report_sheets(found):
                pdf.savefig(page)
    return kept.getvalue()


def report_sheets(found: Report) -> Iterator["Figure"]:
    """Yield the pages as figures. Whoever calls holds the lock."""
    pages = _pages(found)
    for number, parts in enumerate(pages, 1):
        yield _page(parts, f"{say.title(found)} · {number} of {len(pages)}")


def _pages(found: Report) -> list[list[Part]]:
    """Return the parts of each page, with as many lifts drawn as the pages allow."""
    pages = _paged(list(_parts(found, PANELS)))
    for panels in range(PANELS - 1, -1, -1):
        if len(pages) <= MOST_PAGES:
            break
        pages = _paged(list(_parts(found, panels)))
    return pages


def _page(parts: Sequence[Part], foot: str) -> "Figure":
    from matplotlib.figure import Figure

    used = sum(each.height + GAP for each in parts)
    height = int(min(HEIGHT, used + 2 * MARGIN + SMALL_LINE))
    axes, top = sheet(height), float(MARGIN)
    for each in parts:
        each.draw(axes, top)
        top += each.height + GAP
    words(axes, MARGIN, height - MARGIN, drawable(foot, SMALL_LETTERS), SMALL - 2)
    figure = axes.figure
    assert isinstance(figure, Figure)  # noqa: S101  (a sheet is no part of another figure)
    return figure


def _paged(parts: Sequence[Part]) -> list[list[Part]]:
    pages: list[list[Part]] = [[]]
    used = 0.0
    for each in parts:
        if pages[-1] and used + each.height > ROOM:
            pages.append([])
            used = 0.0
        pages[-1].append(each)
        used += each.height + GAP
    return pages


def _parts(found: Report, panels: int) -> Iterator[Part]:
    yield _text(say.title(found), [*say.head_lines(found), f"As of {day_words(found.today)}"], TITLE)
    yield _weeks(found.by_week[-MOST_WEEKS:])
    if found.targets:
        yield _text("End targets", say.target_lines(found))
    drawn = [each for each in found.lifts if len(each.points) > 1][:panels]
    if found.lifts:
        more = [BRACKETS] if say.has_trend(found) else []
        yield _text("Main lifts", [*say.lift_lines(found), *more])
    yield _text("Pain", say.pain_lines(found))
    if found.answers:
        yield _text("Said at the end", say.answer_lines(found))
    for number, each in enumerate(drawn):
        yield _lift(each, head="Main lifts, estimated for one rep" if number == 0 else "")
    if drawn:
        yield Part(60, lambda axes, top: explained(axes, top + 10))
    if found.muscles:
        yield _muscles(found.muscles)
    yield from _options(found)


def _options(found: Report) -> Iterator[Part]:
    """Yield the options as one part, so that they are seen together; what a page cannot hold, one after the other."""
    head = _text(say.DECIDES, [say.NO_RISE])
    each = [_option(number, option, found) for number, option in enumerate(found.options, 1)]
    together = _stacked(head, *each)
    if together.height <= ROOM:
        yield together
        return
    yield _stacked(head, each[0])
    yield from each[1:]


def _stacked(*parts: Part) -> Part:
    """Return parts as one, so that a page does not end between them."""

    def draw(axes: "Axes", top: float) -> None:
        for each in parts:
            each.draw(axes, top)
            top += each.height + GAP

    return Part(sum(each.height + GAP for each in parts) - GAP, draw)


def _lift(each: LiftRun, *, head: str) -> Part:
    """Return a lift over time, under a heading where it is the first."""
    above = LINE + 8 if head else 0

    def draw(axes: "Axes", top: float) -> None:
        if head:
            words(axes, MARGIN, top + LINE / 2, head, TEXT, bold=True)
        lift_panel(axes, top + above, say.seen(each))

    return Part(above + PANEL - GAP, draw)


def _text(head: str, lines: Sequence[str], size: int = TEXT) -> Part:
    """Return a heading with lines under it, each broken where it is too long."""
    heads = textwrap.wrap(head, LETTERS if size == TEXT else LETTERS - 8)
    broken = [one for line in lines for one in _broken(line)]

    def draw(axes: "Axes", top: float) -> None:
        for place, one in enumerate(heads):
            words(axes, MARGIN, top + LINE * (place + 0.5), drawable(one, LETTERS), size, bold=True)
        below = top + LINE * len(heads)
        for place, one in enumerate(broken):
            words(axes, MARGIN, below + SMALL_LINE * (place + 0.5), drawable(one, SMALL_LETTERS), SMALL)

    return Part(LINE * len(heads) + SMALL_LINE * len(broken), draw)


def _broken(line: str) -> list[str]:
    return textwrap.wrap(line, SMALL_LETTERS - 4, subsequent_indent="   ") or [""]


def _option(number: int, option: Option, found: Report) -> Part:
    said, source = OPTION_WORDS[option.kind]
    return _text(f"{number}. {said}", [source, *option_lines(option, found)])


def _weeks(weeks: Sequence[WeekDone]) -> Part:
    """Return a row a week: sets done of those written, and sessions kept."""
    most = max((max(each.sets, each.done) for each in weeks), default=0) or 1
    scale = (BAR_RIGHT - BAR_LEFT) / most

    def draw(axes: "Axes", top: float) -> None:
        words(axes, MARGIN, top + LINE / 2, "Working sets done of written, by week", TEXT, bold=True)
        for place, each in enumerate(weeks):
            name = f"week {each.week}{', lighter' * each.lighter}"
            kept = f" · {each.counted.kept} of {each.counted.due}" if each.counted.due else ""
            said = f"{each.done} of {each.sets}{kept}"
            _bar(axes, top + LINE + ROW * place, name, (each.sets * scale, each.done * scale), said)
        _legend(
            axes,
            top + LINE + ROW * len(weeks) + 16,
            "done",
            "written",
            "behind the dot: sessions kept of due",
        )

    return Part(LINE + ROW * len(weeks) + 34, draw)


def _muscles(muscles: Sequence[MuscleWeek]) -> Part:
    """Return a row a muscle: hard sets a week, done and written."""
    scale = (BAR_RIGHT - BAR_LEFT) / float(max(max(each.planned, each.done) for each in muscles) or 1)

    def draw(axes: "Axes", top: float) -> None:
        words(axes, MARGIN, top + LINE / 2, "Hard sets a muscle a week, on average", TEXT, bold=True)
        for place, each in enumerate(muscles):
            said = f"{_tenth(each.done)} of {_tenth(each.planned)}"
            lengths = (float(each.planned) * scale, float(each.done) * scale)
            _bar(axes, top + LINE + ROW * 0.8 * place, each.muscle.value, lengths, said, ROW * 0.8)
        below = top + LINE + ROW * 0.8 * len(muscles) + 16
        _legend(axes, below, "done", "written", "a helping muscle counts half")

    return Part(LINE + ROW * 0.8 * len(muscles) + 34, draw)


def _tenth(number: Decimal) -> str:
    return plain(number.quantize(TENTH))


def _bar(
    axes: "Axes", top: float, name: str, lengths: tuple[float, float], said: str, row: float = ROW
) -> None:
    """Draw what was done inside what was written, with the numbers beside it."""
    written, done = lengths
    inside = row * 0.22
    words(axes, MARGIN, top + row / 2, drawable(name, 17), SMALL)
    box(axes, BAR_LEFT, top + row * 0.1, written, row * 0.8, fill=LIGHT, hatch=HATCH)
    box(axes, BAR_LEFT, top + inside, done, row - 2 * inside, fill=DARK)
    words(axes, BAR_LEFT + max(written, done) + 10, top + row / 2, said, SMALL - 1)


def _legend(axes: "Axes", middle: float, done: str, written: str, more: str) -> None:
    box(axes, MARGIN, middle - 9, 30, 18, fill=DARK)
    words(axes, MARGIN + 38, middle, done, SMALL - 2)
    box(axes, MARGIN + 120, middle - 9, 30, 18, fill=LIGHT, hatch=HATCH)
    words(axes, MARGIN + 158, middle, written, SMALL - 2)
    words(axes, MARGIN + 270, middle, drawable(more, SMALL_LETTERS), SMALL - 2)
