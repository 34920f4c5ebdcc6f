import pytest
from pydantic import ValidationError

from core.programme.prescription import Dose, Load, Span
from core.units import Mass

EIGHT = Span(low=8, high=8)


@pytest.mark.parametrize(
    ("load", "text"),
    [
        (Load.of("82.50"), "82.5 kg"),
        (Load.of(135, "lb"), "135 lb"),
        (Load.find(), "find"),
        (Load.bodyweight(), "bw"),
        (Load.bodyweight(Mass.of(0)), "bw"),
        (Load.bodyweight(Mass.of("2.5")), "bw+2.5 kg"),
        (Load.bodyweight(Mass.of(-20, "lb")), "bw-20 lb"),
    ],
)
def test_a_load_is_shown_as_it_is_written(load: Load, text: str) -> None:
    assert str(load) == text


@pytest.mark.parametrize(("low", "high", "text", "fixed"), [(8, 8, "8", True), (8, 10, "8-10", False)])
def test_a_span_is_one_number_or_two(low: int, high: int, text: str, fixed: bool) -> None:
    span = Span(low=low, high=high)

    assert (str(span), span.fixed) == (text, fixed)


def test_a_span_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValidationError, match="fewer to more"):
        Span(low=10, high=8)


@pytest.mark.parametrize(("reps", "seconds"), [(None, None), (EIGHT, EIGHT)])
def test_a_dose_counts_either_reps_or_seconds(reps: Span | None, seconds: Span | None) -> None:
    with pytest.raises(ValidationError, match="either reps or seconds"):
        Dose(sets=3, reps=reps, seconds=seconds)
