from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.effort import reps_left, reps_to_failure, rpe_of


@pytest.mark.traced
@given(st.integers(min_value=10, max_value=20))
def test_rpe_and_reps_left_are_inverse(halves: int) -> None:
    rpe = Decimal(halves) / 2
    said = reps_left(rpe)
    assert said is not None
    assert rpe_of(said.left) == rpe


@pytest.mark.parametrize("rpe", ["1", "3.5", "4.5"])
def test_a_light_set_says_nothing_about_reps_left(rpe: str) -> None:
    assert reps_left(Decimal(rpe)) is None


@pytest.mark.parametrize("rpe", ["0", "0.5", "10.5", "8.3", "-1"])
def test_what_is_no_rpe_is_refused(rpe: str) -> None:
    with pytest.raises(ValueError, match="RPE runs from 1 to 10"):
        reps_left(Decimal(rpe))


@pytest.mark.parametrize("left", ["-1", "5.5", "0.3"])
def test_what_is_no_number_of_reps_left_is_refused(left: str) -> None:
    with pytest.raises(ValueError, match="reps left run from 0 to 5"):
        rpe_of(Decimal(left))


@pytest.mark.parametrize(
    ("reps", "left", "rpe", "total", "doubtful"),
    [
        (5, 2, None, "7", False),
        (5, None, "8", "7", False),
        (5, Decimal("3.5"), None, "8.5", True),
        (5, None, "6.5", "8.5", True),
        (5, 3, None, "8", False),
        (5, None, None, "5", False),
        (5, None, "9.5", "5.5", False),
    ],
)
def test_reps_left_are_folded_in_once_however_they_are_said(
    reps: int, left: Decimal | None, rpe: str | None, total: str, doubtful: bool
) -> None:
    found = reps_to_failure(reps, left=left, rpe=None if rpe is None else Decimal(rpe))

    assert found == (Decimal(total), doubtful)


def test_reps_left_that_are_said_twice_are_refused() -> None:
    with pytest.raises(ValueError, match="counted once"):
        reps_to_failure(5, left=2, rpe=Decimal(8))


def test_fewer_than_no_reps_left_are_refused() -> None:
    with pytest.raises(ValueError, match="none or more"):
        reps_to_failure(5, left=-1)
