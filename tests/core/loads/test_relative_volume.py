from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.past import SetDone
from core.loads.relative_volume import relative_volume, relative_volume_done
from core.units import Mass
from tests.core.loads.worked import one_set

MAXIMUM = Mass.of(100)


@pytest.mark.parametrize("share", ["70", "1.51", "-0.1"])
def test_a_percentage_is_no_share(share: str) -> None:
    with pytest.raises(ValueError, match="a share of the maximum"):
        relative_volume(3, 8, Decimal(share))


def test_a_share_a_little_over_one_is_a_lift_over_the_estimate() -> None:
    assert relative_volume(1, 1, Decimal("1.05")) == Decimal("1.05")


@pytest.mark.parametrize(
    ("sets", "volume"),
    [
        ([], None),
        ([one_set(None, "80", seconds=30)], None),
        ([one_set(8)], None),
        ([one_set(8, "bw")], None),
        ([one_set(8, "bw+20")], None),
        ([one_set(8, "80"), one_set(8)], "6.4"),
        ([one_set(0, "80")], "0"),
        ([one_set(8, "80", side="L"), one_set(7, "80", side="R")], "6.4"),
        ([one_set(8, "80", side="L"), one_set(8, "80", side="R"), one_set(5, "100")], "11.4"),
        ([one_set(5, "100"), one_set(5, "80")], "9"),
    ],
)
def test_sets_with_reps_at_a_mass_count_and_two_sides_once(sets: list[SetDone], volume: str | None) -> None:
    assert relative_volume_done(sets, MAXIMUM) == (None if volume is None else Decimal(volume))


def test_a_load_far_over_the_maximum_is_refused() -> None:
    with pytest.raises(ValueError, match="a share of the maximum"):
        relative_volume_done([one_set(5, "200")], MAXIMUM)


def test_pounds_meet_kilograms() -> None:
    found = relative_volume_done([one_set(10, "100 lb")], MAXIMUM)

    assert found == Decimal("4.5359237")


@given(st.lists(st.integers(0, 20), min_size=1, max_size=8), st.integers(10, 100))
def test_the_order_of_sets_does_not_matter_and_one_more_never_lowers_it(counts: list[int], load: int) -> None:
    sets = [one_set(each, str(load), side=side) for each, side in zip(counts, "LR" * 4, strict=False)]
    found, mixed = relative_volume_done(sets, MAXIMUM), relative_volume_done(sets[::-1], MAXIMUM)
    fuller = relative_volume_done([*sets, one_set(3, str(load))], MAXIMUM)

    assert found == mixed
    assert found is not None
    assert fuller == found + 3 * Decimal(load) / 100
