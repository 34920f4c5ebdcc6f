from decimal import Context, Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.loads.one_rep_max import (
    POLE,
    RANGES,
    Formula,
    Trust,
    by_formula,
    estimate,
    load_for,
    per_load,
    unworn,
)
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
        (12, 1, Trust.DOUBTFUL),
        (10, 3, Trust.DOUBTFUL),
        (15, 0, Trust.DOUBTFUL),
        (3, 5, Trust.DOUBTFUL),
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


@pytest.mark.parametrize(
    ("formula", "reps", "left", "in_range", "trust"),
    [
        (Formula.EPLEY, 10, 0, True, Trust.ROUGH),
        (Formula.EPLEY, 8, 3, False, Trust.GOOD),
        (Formula.EPLEY, 1, 0, True, Trust.GOOD),
        (Formula.BRZYCKI, 11, 0, False, Trust.ROUGH),
        (Formula.MAYHEW, 3, 0, False, Trust.ROUGH),
        (Formula.MAYHEW, 3, 2, True, Trust.GOOD),
        (Formula.MAYHEW, 1, 0, True, Trust.GOOD),
        (Formula.WATHAN, 12, 0, True, Trust.ROUGH),
        (Formula.WATHAN, 15, 0, True, Trust.DOUBTFUL),
    ],
)
def test_an_estimate_says_whether_its_formula_is_meant_for_so_many_reps(
    formula: Formula, reps: int, left: int, in_range: bool, trust: Trust
) -> None:
    found = estimate(Mass.of(60), reps, left, formula)
    assert found is not None
    assert (found.in_range, found.trust) == (in_range, trust)


def test_half_a_rep_left_is_less_than_none_over_the_range() -> None:
    found = estimate(Mass.of(60), 1, Decimal("0.5"))
    assert found is not None
    assert (found.in_range, found.trust) == (False, Trust.ROUGH)
    assert found.mass == Mass.of(63)


@each_row("total", [0, -3, Decimal("0.5"), 37, 38, 50])
@each_row("formula", Formula)
def test_the_pole_is_guarded_before_dividing(formula: Formula, total: int) -> None:
    with pytest.raises(ValueError, match="reps to failure"):
        per_load(total, formula)
    with pytest.raises(ValueError, match="reps to failure"):
        by_formula(total, formula)
    if total > 0:
        with pytest.raises(ValueError, match="reps to failure"):
            load_for(Mass.of(100), int(total), total - int(total), formula)


@pytest.mark.traced
@given(st.integers(min_value=2, max_value=72), FORMULAS)
def test_a_multiple_has_28_right_digits_whatever_the_context_of_the_caller(
    halves: int, formula: Formula
) -> None:
    total = Decimal(halves) / 2
    found = by_formula(total, formula)
    with localcontext(Context(prec=6)):
        assert by_formula(total, formula) == found
    with localcontext(Context(prec=60)):
        assert abs(found - _exact(total, formula)) <= Decimal(1).scaleb(found.adjusted() - 27)
    assert len(found.as_tuple().digits) <= 28


def _exact(total: Decimal, formula: Formula) -> Decimal:
    """The formula in the context of the caller; powers by logarithm, as the rule does not."""
    curves = {
        Formula.EPLEY: 1 + total / 30,
        Formula.BRZYCKI: 36 / (37 - total),
        Formula.LOMBARDI: (total.ln() / 10).exp(),
        Formula.MAYHEW: 100 / (Decimal("52.2") + Decimal("41.9") / (total * Decimal("0.055")).exp()),
        Formula.OCONNER: 1 + total / 40,
        Formula.WATHAN: 100 / (Decimal("48.8") + Decimal("53.8") / (total * Decimal("0.075")).exp()),
        Formula.LANDER: 100 / (Decimal("101.3") - Decimal("2.67123") * total),
    }
    return curves[formula]


def test_every_formula_is_meant_for_some_reps_short_of_the_pole() -> None:
    assert all(1 <= low < high < POLE for low, high in RANGES.values())


@given(LOADS, LOADS, TOTALS, FORMULAS)
def test_estimates_rise_with_the_load(one: Mass, other: Mass, reps: int, formula: Formula) -> None:
    low, high = estimate(min(one, other), reps, 0, formula), estimate(max(one, other), reps, 0, formula)
    assert low is not None
    assert high is not None
    assert low.mass <= high.mass
    assert (low.mass == high.mass) == (one == other)


@given(st.integers(min_value=2, max_value=71), FORMULAS)
def test_estimates_rise_with_the_reps(halves: int, formula: Formula) -> None:
    assert per_load(Decimal(halves) / 2, formula) < per_load(Decimal(halves + 1) / 2, formula)


@given(LOADS, st.integers(min_value=1, max_value=11), st.integers(min_value=0, max_value=4), FORMULAS)
def test_the_inverse_of_an_estimate_is_the_very_load(
    load: Mass, reps: int, left: int, formula: Formula
) -> None:
    found = estimate(load, reps, left, formula)
    assert found is not None
    assert load_for(found.mass, reps, left, formula) == load


@pytest.mark.parametrize(
    ("load", "reps", "maximum"),
    [("60", 10, "80"), ("60", 8, "76"), ("90", 10, "120")],
)
def test_an_estimate_is_no_hair_off_a_load_that_can_be_made(load: str, reps: int, maximum: str) -> None:
    # 60 x 1.333333333333333333333333333 would be 79.99999999999999999999999998, and 77.5 on the bar.
    found = estimate(Mass.of(load), reps)
    assert found is not None
    assert found.mass == Mass.of(maximum)


@pytest.mark.parametrize(
    ("worn", "meant"),
    [
        ("79.99999999999999999999999998", "80.00000000000000000000000000"),
        ("76.00000000000000000000000002", "76.00000000000000000000000000"),
        ("104.0000000000000000000000000", "104.0000000000000000000000000"),
        ("126.6666666666666666666666667", "126.6666666666666666666666667"),
        ("79.99999999999999999999", "79.99999999999999999999"),
        ("79.9999999999999999999999", "79.9999999999999999999999"),
        ("1.234567890123456000000000001", "1.234567890123456000000000000"),
        ("1.234567890123456700000000001", "1.234567890123456700000000001"),
        ("1.250000000000000000000003", "1.250000000000000000000000"),
        ("80.5", "80.5"),
    ],
)
def test_a_number_that_is_a_hair_off_a_short_one_is_that_one(worn: str, meant: str) -> None:
    assert str(unworn(Mass.of(worn)).value) == meant


def test_reps_left_that_are_not_said_are_none() -> None:
    assert load_for(Mass.of(105), 5) == load_for(Mass.of(105), 5, 0) == Mass.of(90)
    assert estimate(Mass.of(90), 5) == estimate(Mass.of(90), 5, 0)


@given(LOADS, st.integers(min_value=1, max_value=8), st.integers(min_value=0, max_value=4))
def test_reps_left_are_folded_in_once(load: Mass, reps: int, left: int) -> None:
    with_left, all_done = estimate(load, reps, left), estimate(load, reps + left)
    assert with_left is not None
    assert all_done is not None
    assert with_left.mass == all_done.mass
