"""Two signs of four ask the coach for a lighter week. Our proposal after a practising coach's review."""

import pytest

from core.loads.deload_due import Sign, WeekBehind, aching_sites, deload_due, effort_of_week
from core.programme.exercises import Site
from tests.core.loads.lifts import TODAY, day, done, dose, hurt

HARD = ((day(4), 2, 0), (day(1), 2, 0))
TWO_SITES = (Site.KNEE, Site.SHOULDER)
DOWN, EFFORT, ACHES, ASKED = Sign


@pytest.mark.parametrize(
    ("known", "signs"),
    [
        ({}, ()),
        ({"asked": True}, ()),
        ({"asked": True, "lifts_down": 2}, (DOWN, ASKED)),
        ({"asked": True, "lifts_down": 1}, ()),
        ({"effort": HARD, "sites": TWO_SITES}, (EFFORT, ACHES)),
        ({"lifts_down": 3, "effort": HARD, "sites": TWO_SITES, "asked": True}, (DOWN, EFFORT, ACHES, ASKED)),
        # Two over on average, on two days; one hard day says little.
        ({"asked": True, "effort": ((day(4), 3, 0), (day(1), 2, 1))}, (EFFORT, ASKED)),
        ({"asked": True, "effort": ((day(4), 2, 1), (day(1), 2, 0))}, ()),
        ({"asked": True, "effort": ((day(1), 2, 0), (day(1), 2, 0))}, ()),
        ({"asked": True, "sites": (Site.KNEE, Site.KNEE)}, ()),
        # None is scheduled for somebody new, after a week away or one that was half missed.
        ({"asked": True, "lifts_down": 2, "new": True}, ()),
        ({"asked": True, "lifts_down": 2, "away": True}, ()),
        ({"asked": True, "lifts_down": 2, "due": 4, "kept": 2}, ()),
        ({"asked": True, "lifts_down": 2, "due": 3, "kept": 2}, (DOWN, ASKED)),
    ],
)
def test_two_of_four_signs(known: dict[str, object], signs: tuple[Sign, ...]) -> None:
    assert deload_due(WeekBehind.model_validate(known)) == signs


def test_effort_is_of_the_last_seven_days_and_of_what_gave_a_number() -> None:
    asked = dose(3, "8", "100")
    exposures = (
        done(1, asked, "8 8 8", left=0),
        done(7, asked, "8 8 8", left=0),
        done(6, asked, "8 8 8", left=1),
        done(3, asked, "8 8 8"),
        done(2, dose(3, "8", "100", None), "8 8 8", left=0),
        done(-1, asked, "8 8 8", left=0),
    )

    assert effort_of_week(exposures, TODAY) == ((day(6), 2, 1), (day(1), 2, 0))


def test_sites_ached_in_the_last_seven_days_with_a_score_or_without_a_number() -> None:
    reports = (
        hurt(1, Site.SHOULDER, 2),
        hurt(6, Site.KNEE, None),
        hurt(1, Site.KNEE, 3),
        hurt(7, Site.HIP, 5),
        hurt(1, Site.NECK, 0),
        hurt(-1, Site.WRIST, 5),
    )

    assert aching_sites(reports, TODAY) == (Site.KNEE, Site.SHOULDER)
