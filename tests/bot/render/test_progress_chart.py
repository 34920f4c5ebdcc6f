"""Pictures of progress: light, small enough for a phone, told apart without colour, and the same every time."""

from datetime import date, timedelta
from decimal import Decimal
from io import BytesIO

import pytest
from PIL import Image

from bot.render.progress_chart import MOST_LIFTS, MOST_SITES, body_picture, kept_picture, lifts_picture
from core.loads.dated_estimates import DatedEstimate
from core.loads.one_rep_max import Formula
from core.loads.trend import trend
from core.oversight.misses import Tally
from core.oversight.progress import LiftSeen, Progress, SiteFelt, WeekKept
from core.policy import Policy
from core.programme.catalogue import CATALOGUE
from core.units import Mass

BEGAN = date(2026, 3, 2)


def lift(count: int, step: str = "1", *, deloads: int = 0) -> LiftSeen:
    points = tuple(
        DatedEstimate(
            session_id=number,
            on=BEGAN + timedelta(days=7 * number),
            mass=Mass.of(100 + Decimal(step) * number),
            formula=Formula.EPLEY,
            total=Decimal(8),
            deload=number < deloads,
        )
        for number in range(count)
    )
    return LiftSeen(exercise=CATALOGUE["bench-press"], points=points, trend=trend(points, Policy()))


def weeks(*counts: tuple[int, int]) -> Progress:
    kept = tuple(
        WeekKept(monday=BEGAN + timedelta(days=7 * number), counted=Tally(kept=done, due=due))
        for number, (done, due) in enumerate(counts)
    )
    return Progress(first=BEGAN, today=BEGAN + timedelta(days=80), weeks=kept)


def site(*felt: tuple[int, int | None]) -> SiteFelt:
    return SiteFelt(
        place="left knee", felt=tuple((BEGAN + timedelta(days=day), score) for day, score in felt)
    )


def drawn(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content)).convert("L")


def dark(content: bytes) -> int:
    return sum(drawn(content).histogram()[:100])


PICTURES = {
    "one session": lambda: lifts_picture([lift(1)]),
    "no spread": lambda: lifts_picture([lift(8, "0")]),
    "as many as there are": lambda: lifts_picture([lift(12)] * 9),
    "no week": lambda: kept_picture(weeks()),
    "nothing due": lambda: kept_picture(weeks((0, 0))),
    "twelve weeks": lambda: kept_picture(weeks(*[(2, 4)] * 12)),
    "one report": lambda: body_picture([site((0, None))], BEGAN, BEGAN),
    "many sites": lambda: body_picture(
        [site((0, 2), (1, 10), (2, 3))] * 12, BEGAN, BEGAN + timedelta(days=80)
    ),
}


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_fits_a_phone_is_light_and_the_same_every_time(name):
    content = PICTURES[name]()
    image = drawn(content)

    assert content.startswith(b"\x89PNG")
    assert len(content) < 100_000
    assert image.width == 900
    assert image.height <= 1280
    assert image.getpixel((2, 2)) == 255
    assert content == PICTURES[name]()


def test_a_trend_is_drawn_only_where_there_is_one():
    assert dark(lifts_picture([lift(6, "2")])) > dark(lifts_picture([lift(6, "2", deloads=3)])) + 1000


def test_what_does_not_count_for_the_trend_is_hollow():
    assert dark(lifts_picture([lift(5)])) > dark(lifts_picture([lift(5, deloads=5)]))


def test_more_that_was_kept_is_darker():
    assert dark(kept_picture(weeks((3, 4)))) > dark(kept_picture(weeks((1, 4)))) + 2000


def test_each_report_is_there():
    one = body_picture([site((0, 2))], BEGAN, BEGAN + timedelta(days=80))
    more = body_picture([site((0, 2), (40, 3), (41, 3))], BEGAN, BEGAN + timedelta(days=80))

    assert dark(more) > dark(one)


def test_no_more_than_fit_are_drawn():
    assert lifts_picture([lift(6)] * MOST_LIFTS) == lifts_picture([lift(6)] * (MOST_LIFTS + 1))
    sites = [site((0, 2))]
    assert body_picture(sites * MOST_SITES, BEGAN, BEGAN) == body_picture(
        sites * (MOST_SITES + 2), BEGAN, BEGAN
    )
