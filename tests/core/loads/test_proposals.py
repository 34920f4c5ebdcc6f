import pytest
from rows import each_row

from core.loads.performance import performances
from core.loads.proposals import Proposal, braked
from core.programme.catalogue import exercise
from core.units import Mass
from tests.core.loads.lifts import done, dose


@each_row(
    ("asked", "today", "given", "code"),
    [
        (4, None, 3, None),
        (4, None, 2, "few left"),
        (4, None, 1, "few left"),
        (3, None, 2, None),
        (3, None, 1, "few left"),
        (2, None, 1, None),
        (2, None, 0, "few left"),
        (1, None, 1, None),
        (1, None, 0, "few left"),
        (0, None, 0, None),
        # What was not written is what is asked for today; what was written stands before that.
        (None, 3, 1, "few left"),
        (None, 3, 2, None),
        (1, 3, 1, None),
        (None, None, 0, None),
        (2, None, None, None),
    ],
)
def test_two_fewer_left_than_asked_or_none_brakes(
    asked: int | None, today: int | None, given: int | None, code: str | None
) -> None:
    (last,) = performances(
        (done(2, dose(3, "8", "60", left=asked), "8 8 8", left=given),), exercise("bench-press")
    )
    found = braked(last, today)

    assert (None if found is None else found.code) == code


@pytest.mark.parametrize(
    ("base", "load", "rises"),
    [("60", "62.5", True), ("60", "60", False), ("60", "55", False), (None, "60", False)],
)
def test_a_load_rises_where_it_is_over_the_load_now(base: str | None, load: str, rises: bool) -> None:
    found = Proposal(Mass.of(load), 8, (), base=None if base is None else Mass.of(base))

    assert found.rises is rises
    assert (found.earned, found.bridge, found.same) == (False, False, 1)
