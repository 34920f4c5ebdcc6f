import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.tempo import rep_seconds, tempo_of, time_under_tension


@pytest.mark.parametrize("text", ["", "31", "31100", "3A10", "3-1-1", "x010", "3 1 1", "²010"])
def test_what_is_no_tempo_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="a tempo has three or four digits"):
        tempo_of(text)


@given(st.text("0123456789X", min_size=3, max_size=3))
def test_three_digits_are_four_with_a_nought(text: str) -> None:
    assert tempo_of(text) == tempo_of(f"{text}0")


@pytest.mark.traced
@given(st.text("0123456789X", min_size=3, max_size=4), st.integers(0, 30))
def test_a_set_lasts_as_long_as_its_reps_and_fast_is_a_second(text: str, reps: int) -> None:
    assert time_under_tension(text, reps) == reps * rep_seconds(text)
    assert rep_seconds(text) == rep_seconds(text.replace("X", "1"))
