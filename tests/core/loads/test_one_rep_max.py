from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.one_rep_max import POLE, Formula, Trust, estimate, load_for, per_load
from core.units import Mass, Unit

FORMULAS = st.sampled_from(Formula)
LOADS = st.builds(Mass, st.decimals(min_value=1, max_value=500, places=2), st.sampled_from(Unit))
TOTALS = st.integers(min_value=1, max_value=15)


@pytest.mark.parametrize("formula", Formula)
def test_one_rep_with_none_left_is_the_maximum_itself(formula: Formula) -> None:
    found = estimate(Mass.of("142.5"), 1, 0, formula)
    assert found is not None
    assert str(found.mass) == "142.5 kg"
    assert found.formula is formula


@pytest.mark.parametrize(
    ("reps", "left", "trust"),
    [
        (1, 0, Trust.GOOD),
        (8, 3, Trust.GOOD),
        (8, 4, Trust.ROUGH),
        (9, 0, Trust.ROUGH),
        (12, 0, Trust.ROUGH),
        (10, 3, Trust.DOUBTFUL),
        (15, 0, Trust.DOUBTFUL),
    ],
)
def test_an_estimate_says_how_far_to_believe_it(reps: int, left: int, trust: Trust) -> None:
    found = estimate(Mass.of(60), reps, left)
    assert found is not None
    assert found.trust is trust
    assert found.usable is (trust is not Trust.DOUBTFUL)


@pytest.mark.parametrize(
    ("load", "reps", "left"),
    [("100", 0, 0), ("0", 5, 0), ("-20", 5, 0), ("100", 12, 4), ("100", 50, 0), ("100", 5, -1)],
)
def test_a_set_that_says_nothing_gives_no_estimate(load: str, reps: int, left: int) -> None:
    assert estimate(Mass.of(load), reps, left, Formula.BRZYCKI) is None


@pytest.mark.parametrize("total", [0, -3, POLE, 50])
@pytest.mark.parametrize("formula", Formula)
def test_the_pole_is_guarded_before_dividing(formula: Formula, total: int) -> None:
    with pytest.raises(ValueError, match="reps to failure"):
        per_load(total, formula)


@given(LOADS, LOADS, TOTALS, FORMULAS)
def test_estimates_rise_with_the_load(one: Mass, other: Mass, reps: int, formula: Formula) -> None:
    low, high = estimate(min(one, other), reps, 0, formula), estimate(max(one, other), reps, 0, formula)
    assert low is not None
    assert high is not None
    assert low.mass <= high.mass
    assert (low.mass == high.mass) == (one == other)


@given(st.integers(min_value=1, max_value=35), FORMULAS)
def test_estimates_rise_with_the_reps(total: int, formula: Formula) -> None:
    assert per_load(total, formula) < per_load(total + 1, formula)


@given(LOADS, st.integers(min_value=1, max_value=11), st.integers(min_value=0, max_value=4), FORMULAS)
def test_the_inverse_of_an_estimate_is_the_load(load: Mass, reps: int, left: int, formula: Formula) -> None:
    found = estimate(load, reps, left, formula)
    assert found is not None
    assert abs(load_for(found.mass, reps, left, formula).kg - load.kg) < Decimal("1e-18")


@given(LOADS, st.integers(min_value=1, max_value=8), st.integers(min_value=0, max_value=4))
def test_reps_left_are_folded_in_once(load: Mass, reps: int, left: int) -> None:
    with_left, all_done = estimate(load, reps, left), estimate(load, reps + left)
    assert with_left is not None
    assert all_done is not None
    assert with_left.mass == all_done.mass
