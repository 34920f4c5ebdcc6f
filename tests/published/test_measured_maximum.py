"""Our estimates beside what was measured: [Reynolds2006] and [Grgic2020], both read in abstract.

The equations of the paper are for five reps to failure, with their standard errors. [kg]
"""

from decimal import Decimal

import pytest
from rows import each_row

from core.loads.one_rep_max import Formula, Trust, estimate
from core.sources import SOURCES, Mark
from core.units import Mass


def chest_press(five: Decimal) -> Decimal:
    """1RM of the chest press; standard error 2.98 kg, n = 70."""
    return Decimal("1.1307") * five + Decimal("0.6999")


def leg_press(five: Decimal) -> Decimal:
    """1RM of the leg press; standard error 16.16 kg, n = 70."""
    return Decimal("1.0970") * five + Decimal("14.2546")


def test_both_papers_were_read_in_abstract() -> None:
    assert SOURCES["Reynolds2006"].mark is SOURCES["Grgic2020"].mark is Mark.ABSTRACT


def test_the_two_worked_values_of_the_equations() -> None:
    assert chest_press(Decimal(80)).quantize(Decimal("0.001")) == Decimal("91.156")
    assert leg_press(Decimal(200)).quantize(Decimal("0.001")) == Decimal("233.655")


@each_row("five", ["30", "40", "60", "80"])
@each_row("formula", [Formula.EPLEY, Formula.BRZYCKI, Formula.OCONNER, Formula.LANDER])
def test_a_chest_press_of_five_is_estimated_within_one_standard_error(five: str, formula: Formula) -> None:
    found = estimate(Mass.of(five), 5, 0, formula)

    assert found is not None
    assert abs(found.mass.value - chest_press(Decimal(five))) < Decimal("2.98")


@each_row("five", ["100", "150", "200", "250", "300"])
@each_row("formula", Formula)
def test_a_leg_press_of_five_is_estimated_within_one_standard_error(five: str, formula: Formula) -> None:
    found = estimate(Mass.of(five), 5, 0, formula)

    assert found is not None
    assert abs(found.mass.value - leg_press(Decimal(five))) < Decimal("16.16")


@pytest.mark.parametrize(("reps", "trust"), [(5, Trust.GOOD), (10, Trust.ROUGH)])
def test_the_fewer_reps_were_tested_the_more_an_estimate_is_believed(reps: int, trust: Trust) -> None:
    # R squared of the prediction: chest press 0.993, 0.976, 0.955 and leg press 0.974, 0.933, 0.915 from sets of 5, 10
    # and 20. The paper's conclusion: no more than ten in linear equations; past 15 we make none.
    found = estimate(Mass.of(100), reps)

    assert found is not None
    assert found.trust is trust
    assert estimate(Mass.of(100), 20) is None


def test_the_smallest_change_of_one_test_that_is_news() -> None:
    # Median coefficient of variation of a tested maximum: 4.2 %, of 32 studies. 1.96 x sqrt(2) x 4.2.
    assert (Decimal("1.96") * Decimal(2).sqrt() * Decimal("4.2")).quantize(Decimal("0.1")) == Decimal("11.6")
