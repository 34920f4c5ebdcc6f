"""A side that is three reps or more behind in two sessions running is told; it changes no load."""

import pytest

from core.loads.decision import Exposure
from tests.core.loads.lifts import codes, decide, done, dose

ASKED = dose(2, "8-12", "16")


def sided(days_ago: int, counts: str, loads: str | None = None) -> Exposure:
    return done(days_ago, ASKED, counts, sides="LRLR", loads=loads, left=2)


@pytest.mark.parametrize(
    ("before", "last", "told"),
    [
        ("8 11 8 9", "8 11 8 8", {"side": "left", "reps": "3"}),
        ("12 8 12 9", "12 9 12 8", {"side": "right", "reps": "4"}),
        ("8 11 8 9", "8 10 8 10", None),
        ("8 10 8 9", "8 11 8 8", None),
        # Once the one, once the other: neither is behind.
        ("8 11 8 8", "11 8 8 8", None),
    ],
)
def test_a_gap_in_two_sessions_running_is_told(before: str, last: str, told: dict[str, str] | None) -> None:
    decision = decide("one-arm-row", ASKED, sided(6, before), sided(3, last))
    found = [one.facts for one in decision.reasons if one.code == "sides apart"]

    assert found == ([] if told is None else [told])


def test_one_session_is_not_enough_and_one_that_logged_one_side_is_passed_over() -> None:
    gap = sided(9, "8 11 8 11")
    alone = done(6, ASKED, "8 8", sides="LL")

    assert "sides apart" not in codes(decide("one-arm-row", ASKED, gap, alone))
    assert "sides apart" in codes(decide("one-arm-row", ASKED, gap, alone, sided(3, "8 11 8 11")))


def test_at_two_loads_or_with_no_sides_there_is_no_gap() -> None:
    heavier = "16 14 16 14"
    apart = (sided(6, "8 12 8 12", heavier), sided(3, "8 12 8 12", heavier))

    assert "sides apart" not in codes(decide("one-arm-row", ASKED, *apart))
    plain = dose(3, "8", "100")
    both = (done(6, plain, "8 11 8"), done(3, plain, "8 11 8"))
    assert "sides apart" not in codes(decide("back-squat", plain, *both))


def test_the_weaker_side_goes_on_deciding() -> None:
    decision = decide("one-arm-row", ASKED, sided(6, "9 12 9 12"), sided(3, "9 12 9 12"))

    assert (str(decision.load), decision.target) == ("16 kg", 10)
