"""Check values of the two formulas: [Epley1985] and [Brzycki1993], and of effort: [Zourdos2016].

The printed digits are computed from the stated formulas; the source of each formula is secondary.
"""

from decimal import Decimal

import pytest

from core.loads.asked import reps_that_earn
from core.loads.effort import reps_left
from core.loads.one_rep_max import Formula, estimate, load_for, per_load
from core.sources import SOURCES
from core.units import Mass

MILLI = Decimal("0.001")

BY_REPS = [  # w = 100; our own rule: one rep is the maximum itself, where Epley's line alone gives 103.333
    (1, "100.000", "100.000"),
    (2, "106.667", "102.857"),
    (3, "110.000", "105.882"),
    (5, "116.667", "112.500"),
    (6, "120.000", "116.129"),
    (8, "126.667", "124.138"),
    (10, "133.333", "133.333"),
    (12, "140.000", "144.000"),
    (15, "150.000", "163.636"),
    (20, "166.667", "211.765"),
    (30, "200.000", "514.286"),
]


@pytest.mark.parametrize(("reps", "epley", "brzycki"), BY_REPS)
def test_a_hundred_lifted_so_often(reps: int, epley: str, brzycki: str) -> None:
    assert SOURCES["Epley1985"].year == 1985
    assert SOURCES["Brzycki1993"].year == 1993
    assert (100 * per_load(reps)).quantize(MILLI) == Decimal(epley)
    assert (100 * per_load(reps, Formula.BRZYCKI)).quantize(MILLI) == Decimal(brzycki)


@pytest.mark.parametrize(
    ("load", "reps", "left", "epley", "brzycki"),
    [
        ("60", 8, 0, "76.000", "74.483"),
        ("142.5", 3, 0, "156.750", "150.882"),
        ("82.5", 6, 0, "99.000", "95.806"),
        ("100", 5, 2, "123.333", "120.000"),
        ("80", 8, 2, "106.667", "106.667"),
        ("120", 3, 1, "136.000", "130.909"),
        ("70", 8, 0, "88.667", "86.897"),
        ("60", 10, 3, "86.000", "90.000"),
    ],
)
def test_a_set_with_reps_left(load: str, reps: int, left: int, epley: str, brzycki: str) -> None:
    assert _mass(load, reps, left, Formula.EPLEY) == Decimal(epley)
    assert _mass(load, reps, left, Formula.BRZYCKI) == Decimal(brzycki)


def _mass(load: str, reps: int, left: int, formula: Formula) -> Decimal:
    found = estimate(Mass.of(load), reps, left, formula)
    assert found is not None
    return found.mass.value.quantize(MILLI)


def test_the_two_agree_at_ten_and_change_places_there() -> None:
    for reps in range(2, 10):
        assert per_load(reps) > per_load(reps, Formula.BRZYCKI)
    assert per_load(10) == per_load(10, Formula.BRZYCKI)
    for reps in range(11, 37):
        assert per_load(reps) < per_load(reps, Formula.BRZYCKI)


def test_sixteen_reps_in_all_are_rejected() -> None:
    assert estimate(Mass.of(50), 12, 4) is None


@pytest.mark.parametrize(
    ("maximum", "reps", "left", "formula", "load"),
    [
        ("125", 8, 0, Formula.EPLEY, "98.684"),
        ("140", 3, 0, Formula.EPLEY, "127.273"),
        ("125", 8, 0, Formula.BRZYCKI, "100.694"),
        ("140", 3, 0, Formula.BRZYCKI, "132.222"),
        ("123.333333", 5, 2, Formula.EPLEY, "100.000"),
    ],
)
def test_a_load_for_so_many_reps(maximum: str, reps: int, left: int, formula: Formula, load: str) -> None:
    assert load_for(Mass.of(maximum), reps, left, formula).value.quantize(MILLI) == Decimal(load)


@pytest.mark.parametrize(
    ("rpe", "left", "doubtful"),
    [
        ("10", "0", False),
        ("9.5", "0.5", False),  # from memory
        ("9", "1", False),
        ("8.5", "1.5", False),  # from memory
        ("8", "2", False),
        ("7.5", "2.5", False),  # from memory
        ("7", "3", False),
        ("6", "4", True),  # from memory
        ("5", "5", True),  # from memory
    ],
)
def test_an_rpe_as_reps_left(rpe: str, left: str, doubtful: bool) -> None:
    assert reps_left(Decimal(rpe)) == (Decimal(left), doubtful)


@pytest.mark.parametrize(
    ("jump", "earned"), [("0.10", 12), ("0.125", 13), ("0.16666666666666666", 15), ("0.20", 16), ("0.25", 18)]
)
def test_the_reps_that_earn_a_jump_from_eight_with_two_left(jump: str, earned: int) -> None:
    # Our proposal, by Epley's line: lo + (30 + lo + left) x jump.
    assert reps_that_earn(8, 2, Decimal(jump)) == earned


@pytest.mark.parametrize(
    ("before", "after", "percent"),
    [(10, 8, "5.0"), (8, 6, "5.3"), (8, 5, "8.1")],
)
def test_the_step_of_a_change_of_reps_at_two_left(before: int, after: int, percent: str) -> None:
    rise = per_load(before + 2) / per_load(after + 2) - 1
    assert (rise * 100).quantize(Decimal("0.1")) == Decimal(percent)
