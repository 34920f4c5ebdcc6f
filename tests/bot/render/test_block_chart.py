"""The picture of a block: small, legible on a phone, told apart without colour, and the same every time."""

from concurrent.futures import ThreadPoolExecutor
from io import BytesIO

import matplotlib as mpl
import pytest
from PIL import Image

from bot.render.block_chart import HEAD, LEFT, ROW, WIDEST, columns, muscle_picture
from bot.render.drawing import MOST_HEIGHT, WIDTH
from core.policy import Policy
from core.programme.block import Block
from core.programme.muscles import Muscle
from core.programme.volume_checks import LARGE
from tests.core.programme.written import EVERY, one_day, row

ALL = (
    "bench-press",
    "lateral-raise",
    "pull-up",
    "curl",
    "deadlift",
    "back-squat",
    "side-plank",
    "calf-raise",
    "face-pull",
)
WHOLE = one_day(*(row(key, order=letter) for letter, key in zip("ABCDEFGHI", ALL, strict=True)), weeks=6)


def changing(weeks: int) -> Block:
    return one_day(
        *(row("back-squat", week, sets=week % 20 + 1) for week in range(1, weeks + 1)), weeks=weeks
    )


def drawn(block: Block, policy: Policy | None = None) -> Image.Image:
    content = muscle_picture(block, policy=policy or Policy())
    assert content is not None
    return Image.open(BytesIO(content)).convert("L")


@pytest.mark.parametrize("block", [WHOLE, changing(1), changing(12), changing(52)])
def test_a_picture_fits_a_phone(block: Block) -> None:
    content = muscle_picture(block)
    image = drawn(block)

    assert content is not None
    assert content.startswith(b"\x89PNG")
    assert len(content) < 100_000
    assert image.width == WIDTH == 900
    assert image.height <= MOST_HEIGHT


def test_every_muscle_fits_on_one_picture() -> None:
    assert HEAD + ROW * len(Muscle) + 84 <= MOST_HEIGHT


def test_weeks_that_are_alike_share_a_column_and_lighter_ones_and_tests_are_named() -> None:
    written = one_day(row("back-squat", *EVERY, sets=4), weeks=8, lighter=[4], tests=[8])

    assert [(column.weeks, column.note) for column in columns(written)] == [
        ([1, 2, 3], ""),
        ([4], "lighter"),
        ([5, 6, 7], ""),
        ([8], "tests"),
    ]


def row_of(muscle: Muscle, block: Block, policy: Policy | None = None) -> Image.Image:
    """The first box of a muscle; all large muscles are drawn, trained or not."""
    shown = [
        each for each in Muscle if each in LARGE or any(each in column.sets for column in columns(block))
    ]
    top = HEAD + ROW * shown.index(muscle)
    return drawn(block, policy).crop((LEFT, top, LEFT + WIDEST, top + ROW))


def fill(sets: int) -> int:
    # Beside the number and the frame.
    return row_of(Muscle.QUADS, one_day(row("leg-extension", sets=sets), weeks=1)).getpixel((30, 14))


def test_the_more_sets_the_darker_and_never_too_dark_for_the_number() -> None:
    greys = [fill(sets) for sets in (5, 10, 20)]

    assert greys == sorted(greys, reverse=True)
    assert len(set(greys)) == 3
    # Black on this grey has a contrast of more than 4.5 to 1, the least of the Web Content Accessibility Guidelines.
    assert (((greys[2] / 255 + 0.055) / 1.055) ** 2.4 + 0.05) / 0.05 > 4.5


def frame(sets: int, exercise: str = "leg-extension", muscle: Muscle = Muscle.QUADS) -> float:
    """The share of the box's upper edge that is black."""
    box = row_of(muscle, one_day(row(exercise, sets=sets), weeks=1))
    edge = [min(box.getpixel((x, y)) for y in range(3, 9)) < 60 for x in range(8, WIDEST - 8)]
    return sum(edge) / len(edge)


def test_much_has_a_whole_frame_little_a_dashed_one_and_the_rest_none() -> None:
    assert frame(20) == 0
    assert frame(4, "calf-raise", Muscle.CALVES) == 0
    assert 0.3 < frame(4) < 0.9
    assert frame(1, "calf-raise", Muscle.QUADS) > 0.3


def test_more_than_the_coach_holds_usual_has_a_whole_frame() -> None:
    box = row_of(Muscle.QUADS, one_day(row("leg-extension", sets=12), weeks=1), Policy(muscle_sets_most=10))

    assert all(min(box.getpixel((x, y)) for y in range(3, 9)) < 60 for x in range(8, WIDEST - 8))


def test_the_same_block_is_the_same_bytes_from_any_thread() -> None:
    with ThreadPoolExecutor(4) as pool:
        assert set(pool.map(muscle_picture, [WHOLE] * 4)) == {muscle_picture(WHOLE)}


def test_nothing_is_set_for_the_whole_program() -> None:
    before = dict(mpl.rcParams)
    muscle_picture(WHOLE)

    assert dict(mpl.rcParams) == before


def test_a_block_without_sets_has_no_picture() -> None:
    assert muscle_picture(Block(name="Tide", weeks=1, days=())) is None
