"""The fixed safety texts: what stands in each, and what in none."""

import pytest
from reading import grade

from bot.messages import Message
from bot.render import safety
from bot.render.emergency import with_number
from bot.render.pain import noted, stop_here
from bot.render.pain_alert import alert
from bot.render.safety import TEXTS, stop_text
from core.checkin.stop_signs import Urgency
from core.programme.exercises import Site
from tests.core.loads.lifts import hurt

STOPS = [*TEXTS.values(), safety.STOP_THIS_SESSION, safety.STOP_AND_SPREADING, safety.SPREADING]


def test_every_urgency_has_its_text() -> None:
    assert set(TEXTS) == set(Urgency)


@pytest.mark.parametrize("text", STOPS)
def test_every_text_that_stops_names_the_emergency_number(text: str) -> None:
    assert "your local emergency number" in text


@pytest.mark.parametrize("text", STOPS)
def test_the_number_of_a_known_country_stands_in_place_of_the_fixed_words(text: str) -> None:
    said = with_number(Message(text), "Europe/Lisbon").html

    assert "the emergency number where you are (112 in Portugal)" in said
    assert "your local emergency number" not in said
    assert with_number(Message(text), None).html == text


@pytest.mark.parametrize("urgency", list(Urgency))
def test_the_first_line_is_short_and_what_to_do_stands_right_under_it(urgency: Urgency) -> None:
    first, second, *_ = stop_text(urgency).html.split("\n")

    assert len(first) <= len("<b></b>") + 60
    assert second


@pytest.mark.parametrize(
    "text", [*STOPS, safety.AFTER_BIRTH, safety.EASE_TODAY, safety.EASE_NEXT, safety.LOW_PAIN]
)
def test_a_text_of_safety_reads_at_lower_secondary_level(text: str) -> None:
    assert grade(text) <= 8


@pytest.mark.parametrize("urgency", list(Urgency))
def test_with_a_number_in_it_it_reads_no_harder(urgency: Urgency) -> None:
    assert grade(stop_text(urgency, zone="Europe/London").html) <= 8


@pytest.mark.parametrize("urgency", list(Urgency))
def test_every_stop_sign_says_that_nobody_watches_and_that_only_the_coach_releases(urgency: Urgency) -> None:
    text = stop_text(urgency).html

    assert (safety.NOBODY_WATCHES in text, safety.HOLD in text) == (True, True)
    assert safety.HOLD not in stop_text(urgency, known=False).html


@pytest.mark.parametrize("text", [*STOPS, safety.EASE_TODAY, safety.EASE_NEXT, safety.LOW_PAIN])
def test_no_text_names_a_condition_a_medicine_or_clears_anybody(text: str) -> None:
    words = text.lower()
    barred = (
        "heart attack",
        "stroke",
        "clot",
        "fracture",
        "tear",
        "ibuprofen",
        "aspirin",
        "is fine",
        "harmless",
    )

    assert [word for word in barred if word in words] == []


def test_severe_pain_that_spreads_has_the_signs_of_both() -> None:
    both = stop_here(spreading=True, ends=True).html

    assert both.startswith("<b>Stop here for today.</b>")
    assert safety.LOSS in both
    assert both.endswith(safety.NOBODY_WATCHES)


@pytest.mark.parametrize("training", [True, False])
@pytest.mark.parametrize("score", [0, 2, 5, 8])
def test_no_answer_to_pain_praises_or_calls_it_good(score: int, training: bool) -> None:
    said = noted(hurt(0, Site.KNEE, score), training=training).html.lower()

    assert [word for word in ("good", "great", "well done", "no problem") if word in said] == []


def test_lighter_on_the_spot_is_said_only_while_there_is_something_to_lift() -> None:
    report = hurt(0, Site.KNEE, 5)

    assert "One try." in noted(report, training=True).html
    assert "One try." not in noted(report, training=False).html
    assert "one try" not in alert("Ada", report, "", training=False).html
