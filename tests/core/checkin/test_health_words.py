"""The wide net under the stop signs: words of health in a text that goes to the coach."""

import pytest

from core.checkin.health_words import may_be_health
from tests.core.checkin.unseen_phrases import ROUNDS


@pytest.mark.parametrize(
    "text",
    [
        "my blood pressure tablets make me slow",
        "still a lump where I hit the rack",
        "the doctor wants to see me on Monday",
        "not sure I want to be alive tbh",
        "Knee: SWELLING again",
    ],
)
def test_words_of_health_are_noticed(text: str) -> None:
    assert may_be_health(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "can I train on Friday instead",
        "gym closed at nine",
        "great week, thanks!",
        "which bar do I use for rows?",
        "🙂",
    ],
)
def test_plain_talk_is_left_alone(text: str) -> None:
    assert not may_be_health(text)


def test_it_notices_most_signs_without_the_scan() -> None:
    signs = [text for each in ROUNDS.values() for text in each.signs]

    assert sum(map(may_be_health, signs)) / len(signs) > 0.7
