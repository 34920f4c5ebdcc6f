"""The picture of a block: sets a muscle by week, each number in its box, the darker the more.

Weeks that follow each other and are alike share a column. What is out of the usual band has a thick frame: whole where
it is much, dashed where it is little. So nothing hangs on colour, and a grey print says the same.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from math import ceil
from typing import TYPE_CHECKING, NamedTuple

from bot.render.drawing import (
    DPI,
    DRAWING,
    SMALL,
    TEXT,
    TITLE,
    WIDTH,
    box,
    drawable,
    grey_png,
    sheet,
    words,
)
from core.policy import Policy
from core.programme.block import Block, weeks_text
from core.programme.catalogue import CATALOGUE
from core.programme.deload_checks import eased_weeks
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle
from core.programme.volume import sets_by_muscle
from core.programme.volume_checks import LARGE
from core.units import plain

if TYPE_CHECKING:
    from matplotlib.axes import Axes

HEAD, ROW, FOOT = 152, 50, 84
"""Heights. [px]"""
LEFT, RIGHT, EDGE = 236, 884, 24
"""Where the boxes begin and end, and the words. [px]"""
WIDEST = 160
"""Widest column. [px]"""
NARROWEST = 46
"""Narrowest column that a number fits in. [px]"""
ROOMY = 70
"""Column from which a number has the usual size. [px]"""
NAME_SIZE = 34
"""Letters of a block's name."""
FRAME, THIN = 3.5, 1.5
"""Line of a frame, and of one in a narrow column. [pt]"""
_POLICY = Policy()


class Column(NamedTuple):
    """Weeks that follow each other and are alike.

    Attributes:
        weeks: Their numbers.
        note: What kind of weeks they are, where they are not usual ones.
        sets: Hard sets a muscle in each of them.
    """

    weeks: list[int]
    note: str
    sets: Mapping[Muscle, Decimal]


def muscle_picture(
    block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE, policy: Policy = _POLICY
) -> bytes | None:
    """Draw sets a muscle by week as PNG; None for a block without any."""
    found = columns(block, catalogue)
    trained = {muscle for column in found for muscle in column.sets}
    if not trained:
        return None
    muscles = [muscle for muscle in Muscle if muscle in trained or muscle in LARGE]
    with DRAWING:
        return _picture(block.name, found, muscles, policy)


def columns(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE) -> list[Column]:
    """Return the columns of a block's picture, from its first week to its last."""
    eased = eased_weeks(block, catalogue)
    found: list[Column] = []
    for week in range(1, block.weeks + 1):
        note = "tests" if week in block.testing_weeks else "lighter" if week in eased else ""
        sets = sets_by_muscle(block, week, catalogue)
        if found and (found[-1].note, found[-1].sets) == (note, sets):
            found[-1].weeks.append(week)
        else:
            found.append(Column([week], note, sets))
    return found


def _picture(name: str, found: Sequence[Column], muscles: Sequence[Muscle], policy: Policy) -> bytes:
    height = HEAD + ROW * len(muscles) + FOOT
    width = min(WIDEST, (RIGHT - LEFT) / len(found))
    axes = sheet(height)
    words(axes, EDGE, 36, "Sets a muscle by week", TITLE, bold=True)
    words(axes, EDGE, 76, drawable(name, NAME_SIZE), TEXT)
    words(axes, EDGE, 118, "Week", SMALL)
    every = ceil(NARROWEST / width)
    for place in range(0, len(found), every):
        _heading(axes, LEFT + width * place, width, found[place])
    for row, muscle in enumerate(muscles):
        top = HEAD + ROW * row
        words(axes, EDGE, top + ROW / 2, muscle.value, 17, bold=muscle in LARGE)
        for place, column in enumerate(found):
            sets = column.sets.get(muscle, Decimal(0))
            _cell(axes, LEFT + width * place, top, width, sets, policy)
    for row, muscle in enumerate(muscles):
        for place, column in enumerate(found):
            sets = column.sets.get(muscle, Decimal(0))
            _frame(axes, LEFT + width * place, HEAD + ROW * row, width, _judged(muscle, column, sets, policy))
    _legend(axes, height - FOOT / 2, policy)
    return grey_png(axes)


def _heading(axes: "Axes", left: float, width: float, column: Column) -> None:
    is_wide = width >= NARROWEST
    size = SMALL if width >= ROOMY else 12
    middle = 108 if is_wide and column.note else 118
    words(axes, left + width / 2, middle, weeks_text(column.weeks), size, bold=True, centred=True)
    if is_wide:
        words(axes, left + width / 2, 134, column.note, 12 if width >= ROOMY else 9, centred=True)


def _cell(axes: "Axes", left: float, top: float, width: float, sets: Decimal, policy: Policy) -> None:
    share = min(1.0, float(sets) / policy.muscle_sets_most)
    box(axes, left + 2, top + 3, width - 4, ROW - 6, fill=f"{1 - 0.45 * share:.3f}", line=0.6)
    if width >= NARROWEST:
        size = TEXT if width >= ROOMY else 14
        words(axes, left + width / 2, top + ROW / 2, plain(sets) if sets else "–", size, centred=True)


def _judged(muscle: Muscle, column: Column, sets: Decimal, policy: Policy) -> str:
    if sets > policy.muscle_sets_most:
        return "many"
    few = sets < policy.muscle_sets_least and muscle in LARGE and not column.note
    return "few" if few else ""


def _frame(axes: "Axes", left: float, top: float, width: float, judged: str) -> None:
    if judged:
        line = FRAME if width >= NARROWEST else THIN
        inset = line * DPI / 72 / 2 + 2
        size = (width - 2 * inset, ROW - 2 * inset - 2)
        box(
            axes,
            left + inset,
            top + inset + 1,
            *size,
            fill="none",
            line=line,
            edge="0",
            dashed=judged == "few",
        )


def _legend(axes: "Axes", middle: float, policy: Policy) -> None:
    _frame(axes, EDGE - 4, middle - ROW / 2, 56, "few")
    words(axes, EDGE + 62, middle, f"under {policy.muscle_sets_least}, names in bold only", SMALL)
    _frame(axes, WIDTH / 2 + 20, middle - ROW / 2, 56, "many")
    words(axes, WIDTH / 2 + 86, middle, f"over {policy.muscle_sets_most}", SMALL)
