"""Session load, monotony and strain: [Foster1998], [Foster2001].

The weeks are our own, their digits computed from the stated formulas with numpy; no worked week of the sources was
seen. The form of the deviation (n - 1) is our choice, the other one stands beside it.
"""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

import numpy as np
import pytest

from core.loads.session_load import RatedSession, Undefined, daily_loads, over_weeks_before, week_load
from core.sources import SOURCES, Mark

MIXED = (420, 0, 300, 0, 480, 200, 0)
SIX = (300, 300, 300, 300, 300, 300, 0)
THREE = (480, 0, 420, 0, 540, 0, 0)

WEEKS = [  # sum, mean, deviation n - 1, monotony n - 1, strain n - 1; then n: deviation, monotony, strain
    (MIXED, "1400", "200.000", "206.882", "0.9667", "1353.43", 191.535, 1.0442, 1461.87),
    (SIX, "1800", "257.143", "113.389", "2.2678", "4082.02", 104.978, 2.4495, 4409.08),
    (THREE, "1440", "205.714", "258.899", "0.7946", "1144.19", 239.694, 0.8582, 1235.86),
]


def figures(days: Sequence[int]) -> list[Decimal]:
    found = week_load([Decimal(each) for each in days])
    numbers = [found.total, found.mean, found.spread, found.monotony, found.strain]
    return [each for each in numbers if isinstance(each, Decimal)]


@pytest.mark.parametrize(
    ("days", "total", "mean", "spread", "monotony", "strain"), [row[:6] for row in WEEKS]
)
def test_a_week_in_the_printed_digits(
    days: tuple[int, ...], total: str, mean: str, spread: str, monotony: str, strain: str
) -> None:
    printed = [Decimal(each) for each in (total, mean, spread, monotony, strain)]

    assert SOURCES["Foster1998"].mark is Mark.ABSTRACT
    assert [one.quantize(digits) for one, digits in zip(figures(days), printed, strict=True)] == printed


@pytest.mark.parametrize(("days", "spread", "monotony", "strain"), [(row[0], *row[6:]) for row in WEEKS])
def test_the_other_form_of_the_deviation_gives_other_figures(
    days: tuple[int, ...], spread: float, monotony: float, strain: float
) -> None:
    other = np.std(days)

    assert other == pytest.approx(spread, abs=5e-4)
    assert np.mean(days) / other == pytest.approx(monotony, abs=5e-5)
    assert np.sum(days) * np.mean(days) / other == pytest.approx(strain, abs=5e-3)
    assert np.all(np.abs(np.array(figures(days)[2:], dtype=float) / [spread, monotony, strain] - 1) > 0.07)


@pytest.mark.parametrize("days", [MIXED, SIX, THREE, (1, 2, 3, 4, 5, 6, 7), (0, 0, 0, 0, 0, 0, 9)])
def test_a_week_as_numpy_has_it(days: tuple[int, ...]) -> None:
    mean, spread = np.mean(days), np.std(days, ddof=1)
    expected = [np.sum(days), mean, spread, mean / spread, np.sum(days) * mean / spread]

    assert [float(each) for each in figures(days)] == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("column", range(3))
def test_real_numbers_of_real_men_as_numpy_has_them(column: int) -> None:
    from sklearn.datasets import load_linnerud

    # Chins, sit-ups and jumps of the first seven men of [Linnerud]: no week of anybody's, but real spread.
    seven = [int(each) for each in load_linnerud().data[:7, column]]

    assert float(figures(seven)[2]) == pytest.approx(np.std(seven, ddof=1), rel=1e-12)


@pytest.mark.parametrize(("each", "total", "why"), [(300, "2100", Undefined.EVEN), (0, "0", Undefined.REST)])
def test_a_week_without_spread_has_no_monotony_and_never_infinity(
    each: int, total: str, why: Undefined
) -> None:
    found = week_load([Decimal(each)] * 7)

    assert (found.total, found.spread) == (Decimal(total), 0)
    assert (found.monotony, found.strain) == (why, why)


@pytest.mark.parametrize(
    ("rating", "minutes", "load"),
    [
        ("7", 60, "420"),
        ("5", 60, "300"),
        ("8", 60, "480"),
        ("4", 50, "200"),
        ("0", 45, "0"),
        ("10", 90, "900"),
    ],
)
def test_effort_times_minutes(rating: str, minutes: int, load: str) -> None:
    rated = RatedSession(on=date(2026, 4, 13), rating=Decimal(rating), minutes=minutes)

    assert SOURCES["Foster2001"].year == 2001
    assert rated.load == Decimal(load)


def test_a_week_of_sessions_is_the_first_week() -> None:
    asked = [(13, "7", 60), (15, "5", 60), (17, "8", 60), (18, "4", 50)]
    rated = [RatedSession(on=date(2026, 4, on), rating=Decimal(one), minutes=long) for on, one, long in asked]

    assert daily_loads(rated, date(2026, 4, 13)) == MIXED


@pytest.mark.parametrize(
    ("before", "this", "percent"),
    [
        ((700, 700, 700, 700), 1400, "100.0"),  # 28 days at 100, then 7 at 200
        ((1200, 1300, 1250, 1400), 1545, "20.0"),
        ((1200, 1300, 1250, 1400), 1030, "-20.0"),
        ((9999, 1200, 1300, 1250, 1400), 1545, "20.0"),  # the last four alone
    ],
)
def test_a_week_is_held_against_the_four_before_it(before: tuple[int, ...], this: int, percent: str) -> None:
    # Plain arithmetic, and all that is said; [Impellizzeri2021] has no support for more.
    found = over_weeks_before(Decimal(this), [Decimal(each) for each in before])

    assert isinstance(found, Decimal)
    assert found.quantize(Decimal("0.1")) == Decimal(percent)
