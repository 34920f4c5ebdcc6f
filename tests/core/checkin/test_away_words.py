from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.away_words import AwaySaid, away_line, away_said, is_back, kit_kind

TODAY = date(2026, 4, 29)
"""A Wednesday."""
MAY_3, MAY_10 = date(2026, 5, 3), date(2026, 5, 10)
SUNDAY, NEXT_MONDAY = date(2026, 5, 3), date(2026, 5, 4)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("", AwaySaid()),
        ("3-10 May", AwaySaid(MAY_3, MAY_10)),
        ("until sunday, no training", AwaySaid(TODAY, SUNDAY, training=False)),
        ("3 May to 10 May dumbbells", AwaySaid(MAY_3, MAY_10, training=True, kit="dumbbells")),
        (
            "3-10 May in Tokyo, hotel gym",
            AwaySaid(MAY_3, MAY_10, training=True, kit="both", zone="Asia/Tokyo"),
        ),
        ("3-10 May, New York, training", AwaySaid(MAY_3, MAY_10, training=True, zone="America/New_York")),
        ("not training, bar there", AwaySaid(training=False)),
        ("somewhere", AwaySaid()),
    ],
)
def test_a_line_about_an_absence_is_read_as_far_as_it_goes(typed: str, expected: AwaySaid) -> None:
    assert away_line(typed, TODAY) == expected


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("dumbbells", "dumbbells"),
        ("a bar and plates", "bar"),
        ("Barbell", "bar"),
        ("bar and dumbbells", "both"),
        ("the hotel gym", "both"),
        ("body weight only", "bodyweight"),
        ("no kit", "bodyweight"),
        ("whatever there is", None),
    ],
)
def test_kinds_of_kit_are_read_by_their_names(typed: str, kind: str | None) -> None:
    assert kit_kind(typed) == kind


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("I'm on holiday next week", AwaySaid(NEXT_MONDAY, MAY_10)),
        ("I'm in Tokyo this week", AwaySaid(TODAY, SUNDAY, zone="Asia/Tokyo")),
        ("We are travelling until 10 May", AwaySaid(TODAY, MAY_10)),
        ("away until sunday", AwaySaid(TODAY, SUNDAY)),
        ("I will be away", AwaySaid()),
    ],
)
def test_plain_words_of_an_absence_are_noticed(typed: str, expected: AwaySaid) -> None:
    assert away_said(typed, TODAY) == expected


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "stay away from the bar",
        "holiday",
        "I'm in the gym",
        "I'm in Tokyo",
        "see you next week",
        "the rack was away",
    ],
)
def test_other_words_are_of_something_else(typed: str) -> None:
    assert away_said(typed, TODAY) is None


@pytest.mark.parametrize("typed", ["I'm back", "Back home!", "i am back from my holiday", "I’m home again"])
def test_being_back_is_noticed(typed: str) -> None:
    assert is_back(typed)


@pytest.mark.parametrize("typed", ["", "back", "back squat", "my back", "back hurts", "back extension 10 10"])
def test_a_back_is_not_being_back(typed: str) -> None:
    assert not is_back(typed)


@given(st.text(max_size=80))
def test_any_text_is_read_without_an_error(typed: str) -> None:
    assert isinstance(away_line(typed, TODAY), AwaySaid)
    assert away_said(typed, TODAY) is None or isinstance(away_said(typed, TODAY), AwaySaid)
