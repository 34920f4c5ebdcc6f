import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.folding import folded, words_of


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("Pull-Ups", "pullup"),
        ("Presses", "press"),
        ("Crunches", "crunch"),
        ("Dips", "dip"),
        ("Split squats", "split–squat"),
        ("Developpé", "developpe"),
        ("Straße", "strasse"),
        ("Кардио", "КАРДИО"),
    ],
)
def test_the_same_name_folds_to_the_same_text(text: str, same: str) -> None:
    assert folded(text) == folded(same)


@pytest.mark.parametrize(
    ("text", "other"), [("Press", "Pres"), ("Row it", "Rowing"), ("Row", "Raw"), ("Step-up", "Step-down")]
)
def test_other_names_stay_apart(text: str, other: str) -> None:
    assert folded(text) != folded(other)


def test_words_keep_their_order() -> None:
    assert words_of("Farmer's  Walk (heavy)") == ("farmer", "walk", "heavy")


@given(st.text())
def test_folding_takes_any_text_and_leaves_letters_and_digits_alone(text: str) -> None:
    assert folded(text) == "" or folded(text).isalnum()
