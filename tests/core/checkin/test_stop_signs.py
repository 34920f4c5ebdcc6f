"""Phrases of both kinds. Which text a sign gets is our proposal; the signs are those of [Riebe2015] and the red
flags of the low back, the rest from memory or common practice.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.stop_rules import RULES
from core.checkin.stop_signs import StopSign, Urgency, scan
from tests.core.checkin.quiet_phrases import QUIET
from tests.core.checkin.stop_sign_phrases import SIGNS

EMERGENCY = Urgency.EMERGENCY_NOW


@pytest.mark.parametrize(
    ("urgency", "text"), [(each, text) for each, texts in SIGNS.items() for text in texts]
)
def test_a_stop_sign_is_found_with_its_urgency(urgency: Urgency, text: str) -> None:
    found = scan(text)

    assert found is not None
    assert found.urgency == urgency


@pytest.mark.parametrize("text", QUIET)
def test_what_is_no_stop_sign_is_left_alone(text: str) -> None:
    assert scan(text) is None


@pytest.mark.parametrize("text", [text for texts in SIGNS.values() for text in texts])
@pytest.mark.parametrize(
    "around", ["{}.", "{}!!", "  {} 😟", "8 8 8 7. {}", "{}\nsorry", "Hi coach. {}. What now?"]
)
def test_a_sign_is_found_in_the_middle_of_other_words(text: str, around: str) -> None:
    assert scan(around.format(text)) == scan(text)


@pytest.mark.parametrize("text", [text for texts in SIGNS.values() for text in texts])
def test_a_sign_in_capitals_is_the_same_sign(text: str) -> None:
    assert scan(text.upper()) == scan(text)


def test_the_most_urgent_sign_wins() -> None:
    assert scan("I feel dizzy. My calf is swollen. I have chest pain.") == StopSign(
        urgency=EMERGENCY, rule="chest"
    )


def test_an_emergency_comes_before_distress() -> None:
    assert scan("I want to die. I took the pills and can't breathe") == StopSign(
        urgency=EMERGENCY, rule="cant-breathe"
    )


def test_a_sign_late_in_a_long_sentence_is_found() -> None:
    assert scan("and then we went on " * 60 + "my chest hurts") == StopSign(urgency=EMERGENCY, rule="chest")


def test_codes_of_rules_are_unique() -> None:
    codes = [rule.code for rule in RULES]

    assert sorted(set(codes)) == sorted(codes)


@given(st.text(max_size=400))
def test_no_text_raises(text: str) -> None:
    assert scan(text) is None or isinstance(scan(text), StopSign)


@given(st.text(alphabet=st.characters(codec=None), max_size=60), st.sampled_from(sorted(SIGNS[EMERGENCY])))
def test_a_sign_stays_one_whatever_sentence_comes_before(before: str, sign: str) -> None:
    assert scan(f"{before}. {sign}") == scan(f"{before}. {sign}.")
    found = scan(f"{before}.\n{sign}")

    assert found is not None
    assert found.urgency == EMERGENCY


@given(st.lists(st.sampled_from(QUIET), max_size=4))
def test_quiet_sentences_stay_quiet_together(texts: list[str]) -> None:
    assert scan(".\n".join(texts)) is None
