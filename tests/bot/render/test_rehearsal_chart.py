from io import BytesIO

import pytest
from PIL import Image

from bot.clock import seeded_chance
from bot.render.rehearsal_chart import WIDTH, rehearsal_picture
from core.oversight.rehearsal import rehearsal
from core.oversight.rehearsal_result import Rehearsal
from core.oversight.simulated_client import played
from tests.core.oversight.simulated import FULL


@pytest.fixture(scope="module")
def found() -> Rehearsal:
    return rehearsal(FULL, 2, [played(FULL, 2, one, seeded_chance(1, one)) for one in range(1, 4)])


def opened(picture: bytes) -> Image.Image:
    return Image.open(BytesIO(picture))


def darkest(picture: bytes, left: int, top: int, right: int, bottom: int) -> int:
    """0 is black, 255 white."""
    low, _ = opened(picture).convert("L").crop((left, top, right, bottom)).getextrema()
    return int(low)  # type: ignore[arg-type]


def test_a_picture_is_grey_and_has_a_row_of_lifts_and_a_row_of_bars(found: Rehearsal) -> None:
    picture = rehearsal_picture(found, 1)

    with opened(picture) as image:
        assert image.format == "PNG"
        assert image.width == WIDTH
        assert {red == green == blue for _, (red, green, blue) in image.convert("RGB").getcolors() or ()} == {
            True
        }
        height = image.height
    assert darkest(picture, 0, 0, WIDTH, 60) < 64, "the title"
    assert darkest(picture, 40, 160, 440, 400) < 64, "a lift"
    assert darkest(picture, 300, height - 300, 700, height - 100) < 128, "a rule"
    assert darkest(picture, 760, height - 300, 1100, height - 100) < 128, "a muscle"


def test_the_same_rehearsal_is_the_same_picture(found: Rehearsal) -> None:
    assert rehearsal_picture(found, 1) == rehearsal_picture(found, 1)


def test_more_lifts_make_a_higher_picture_and_the_tenth_is_not_drawn(found: Rehearsal) -> None:
    heights = [
        opened(rehearsal_picture(found.model_copy(update={"lifts": found.lifts[:1] * count}), 1)).height
        for count in (3, 4, 9, 10)
    ]

    assert heights[0] < heights[1] < heights[2] == heights[3]


def test_what_nobody_did_and_an_empty_rehearsal_are_drawn_without_a_fault(found: Rehearsal) -> None:
    lift = found.lifts[0]
    weeks = tuple(one.model_copy(update={"clients": 0, "load": None}) for one in lift.weeks)
    nobody = found.model_copy(update={"lifts": (lift.model_copy(update={"weeks": weeks}),)})
    nothing = found.model_copy(update={"lifts": (), "rules": (), "muscles": ()})

    assert darkest(rehearsal_picture(nobody, 1), 100, 180, 400, 320) < 64
    assert opened(rehearsal_picture(nothing, 1)).width == WIDTH
