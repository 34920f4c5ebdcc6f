"""Phrases of both kinds. Which text a sign gets is our proposal; the signs are those of [Riebe2015] and the red
flags of the low back, the rest from memory or common practice.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.stop_phrases import stem
from core.checkin.stop_rules import RULES
from core.checkin.stop_signs import StopSign, Urgency, scan
from tests.core.checkin.quiet_phrases import QUIET
from tests.core.checkin.stop_sign_phrases import SIGNS
from tests.core.checkin.unseen_phrases import KNOWN_ALARMS, KNOWN_MISSES, MEASURED, ROUNDS, Figure

EMERGENCY = Urgency.EMERGENCY_NOW
EVERY_SIGN = [text for texts in SIGNS.values() for text in texts]


@each_row(("urgency", "text"), [(each, text) for each, texts in SIGNS.items() for text in texts])
def test_a_stop_sign_is_found_with_its_urgency(urgency: Urgency, text: str) -> None:
    found = scan(text)

    assert found is not None
    assert found.urgency == urgency


@each_row("text", QUIET)
def test_what_is_no_stop_sign_is_left_alone(text: str) -> None:
    assert scan(text) is None


# Every sign in one test: a test for each would be thousands, and each is collected by every worker.
@pytest.mark.untraced
@pytest.mark.parametrize(
    "around", ["{}.", "{}!!", "  {} 😟", "8 8 8 7. {}", "{}\nsorry", "Hi coach. {}. What now?"]
)
def test_a_sign_is_found_in_the_middle_of_other_words(around: str) -> None:
    assert [text for text in EVERY_SIGN if scan(around.format(text)) != scan(text)] == []


@pytest.mark.untraced
def test_a_sign_in_capitals_is_the_same_sign() -> None:
    assert [text for text in EVERY_SIGN if scan(text.upper()) != scan(text)] == []


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


UNSEEN_SIGNS = [text for each in ROUNDS.values() for text in each.signs]
UNSEEN_QUIET = [text for each in ROUNDS.values() for text in each.quiet]


@each_row("text", UNSEEN_SIGNS)
def test_a_sign_of_the_rounds_is_found(text: str) -> None:
    assert (scan(text) is None) is (text in KNOWN_MISSES)


@pytest.mark.untraced
@each_row("text", UNSEEN_QUIET)
def test_what_is_quiet_in_the_rounds_is_left_alone(text: str) -> None:
    assert (scan(text) is not None) is (text in KNOWN_ALARMS)


def test_what_is_known_to_be_wrong_is_named_and_little() -> None:
    assert (len(KNOWN_MISSES), len(KNOWN_ALARMS)) == (0, 4)
    assert set(UNSEEN_SIGNS) >= KNOWN_MISSES
    assert set(UNSEEN_QUIET) >= KNOWN_ALARMS
    assert len(KNOWN_ALARMS) / len(UNSEEN_QUIET) < 0.03


def test_there_are_more_than_three_hundred_phrases_of_both_kinds_and_none_stands_twice() -> None:
    signs = [*UNSEEN_SIGNS, *(text for texts in SIGNS.values() for text in texts)]
    quiet = [*UNSEEN_QUIET, *QUIET]

    assert len(set(signs)) > 900
    assert len(set(quiet)) > 1000
    assert set(signs).isdisjoint(quiet)


@pytest.mark.parametrize(("name", "figure"), MEASURED.items())
def test_each_round_has_as_many_phrases_as_were_measured(name: str, figure: Figure) -> None:
    signs, quiet = len(ROUNDS[name].signs), len(ROUNDS[name].quiet)

    assert (figure.signs + figure.quiet) == signs + quiet
    assert min(signs, quiet) >= 50


@pytest.mark.parametrize(
    ("words", "one"),
    [
        ("burn burns burned burning burne", "burn"),
        ("stop stopped stopping", "stop"),
        ("wheeze wheezes wheezed wheezing", "wheez"),
        ("less press bus nothing killing", None),
        ("peeing weeing", None),
    ],
)
def test_the_forms_of_a_word_are_one_word(words: str, one: str | None) -> None:
    stems = {stem(word) for word in words.split()}

    assert stems == {one} if one else stems.isdisjoint({"le", "pres", "noth", "kill", "we"})
