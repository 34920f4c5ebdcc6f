"""RPE and reps left: [Zourdos2016], [Helms2016], read in abstract; half points and low bands from memory.

The digits of the estimates are computed from the stated formulas, with the reps left folded in once.
"""

from decimal import Decimal

import pytest

from core.loads.effort import reps_left, reps_to_failure, rpe_of
from core.loads.one_rep_max import Formula, Trust, estimate, load_for, per_load
from core.sources import SOURCES, Mark
from core.units import Mass

MILLI = Decimal("0.001")

RPE = [  # RPE, reps left, doubtful
    ("10", "0", False),
    ("9.5", "0.5", False),  # from memory
    ("9", "1", False),
    ("8.5", "1.5", False),  # from memory
    ("8", "2", False),
    ("7.5", "2.5", False),  # from memory
    ("7", "3", False),
    ("6", "4", True),  # from memory
    ("5", "5", True),  # from memory
]


def test_the_scale_was_read_in_abstract() -> None:
    assert SOURCES["Zourdos2016"].mark is SOURCES["Helms2016"].mark is Mark.ABSTRACT


@pytest.mark.parametrize(("rpe", "left", "doubtful"), RPE)
def test_an_rpe_as_reps_left(rpe: str, left: str, doubtful: bool) -> None:
    assert reps_left(Decimal(rpe)) == (Decimal(left), doubtful)
    assert rpe_of(Decimal(left)) == Decimal(rpe)


@pytest.mark.parametrize("rpe", ["1", "2", "3", "4"])
def test_a_light_set_is_not_turned_into_reps_left(rpe: str) -> None:
    # From memory.
    assert reps_left(Decimal(rpe)) is None
    assert reps_to_failure(5, rpe=Decimal(rpe)) is None


@pytest.mark.parametrize(
    ("load", "reps", "left", "epley", "brzycki", "trust"),
    [
        ("100", 5, 2, "123.333", "120.000", Trust.GOOD),
        ("80", 8, 2, "106.667", "106.667", Trust.GOOD),
        ("120", 3, 1, "136.000", "130.909", Trust.GOOD),
        ("70", 8, 0, "88.667", "86.897", Trust.GOOD),
        ("60", 10, 3, "86.000", "90.000", Trust.DOUBTFUL),  # 13 in all: flagged
    ],
)
def test_a_set_with_reps_left(
    load: str, reps: int, left: int, epley: str, brzycki: str, trust: Trust
) -> None:
    for formula, printed in ((Formula.EPLEY, epley), (Formula.BRZYCKI, brzycki)):
        found = estimate(Mass.of(load), reps, left, formula)
        assert found is not None
        assert found.mass.value.quantize(MILLI) == Decimal(printed)
        assert found.trust is trust


def test_sixteen_reps_in_all_are_rejected() -> None:
    # Epley's line would make 50 x 46 / 30 = 76.667 of them, Brzycki's 85.714.
    assert (50 * per_load(16)).quantize(MILLI) == Decimal("76.667")
    assert (50 * per_load(16, Formula.BRZYCKI)).quantize(MILLI) == Decimal("85.714")
    assert estimate(Mass.of(50), 12, 4) is None


def test_five_reps_at_rpe_eight_from_a_maximum() -> None:
    left = reps_left(Decimal(8))

    assert left is not None
    assert load_for(Mass.of("123.333333"), 5, left.left).value.quantize(MILLI) == Decimal("100.000")


@pytest.mark.parametrize(("reps", "percent"), [(3, "2.9"), (5, "2.7"), (8, "2.5"), (12, "2.3")])
def test_what_one_rep_of_misjudgement_is_worth_around_two_left(reps: int, percent: str) -> None:
    # Epley's line; people say on average 0.95 too few [Halperin2022], so that the estimate is rather too low.
    rise = per_load(reps + 3) / per_load(reps + 2) - 1

    assert (rise * 100).quantize(Decimal("0.1")) == Decimal(percent)
