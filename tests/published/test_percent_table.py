"""Percent of the maximum by reps: the table of [NSCA], and the one-page chart [NSCAChart].

Rows 1 to 10 are read in several copies that agree; 11, 12 and 15 of the table are from memory. The rows of the chart
below are printed there as loads.
"""

from decimal import Decimal

import pytest

from core.loads.one_rep_max import per_load
from core.loads.percent_table import CHART, TABLE, load_by_table, maximum_by_table, row_of
from core.sources import SOURCES, Mark
from core.units import Mass

MILLI = Decimal("0.001")
REPS = (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12)
CHART_ROWS = [
    ("50", "50 47.5 46.5 45 43.5 42.5 41.5 40 38.5 37.5 35"),
    ("110", "110 104.5 102.3 99 95.7 93.5 91.3 88 84.7 82.5 77"),
    ("170", "170 161.5 158.1 153 147.9 144.5 141.1 136 130.9 127.5 119"),
    ("250", "250 237.5 232.5 225 217.5 212.5 207.5 200 192.5 187.5 175"),
]


@pytest.mark.parametrize(
    ("reps", "percent", "mark"),
    [
        (1, "100", Mark.SECONDARY),
        (2, "95", Mark.SECONDARY),
        (3, "93", Mark.SECONDARY),
        (4, "90", Mark.SECONDARY),
        (5, "87", Mark.SECONDARY),
        (6, "85", Mark.SECONDARY),
        (7, "83", Mark.SECONDARY),
        (8, "80", Mark.SECONDARY),
        (9, "77", Mark.SECONDARY),
        (10, "75", Mark.SECONDARY),
        (11, "70", Mark.MEMORY),
        (12, "67", Mark.MEMORY),
        (15, "65", Mark.MEMORY),
    ],
)
def test_a_row_of_the_table(reps: int, percent: str, mark: Mark) -> None:
    assert row_of(reps) == (Decimal(percent), mark, False)
    assert set(TABLE) == {*range(1, 13), 15}


@pytest.mark.parametrize(("maximum", "loads"), CHART_ROWS)
def test_a_row_of_the_chart(maximum: str, loads: str) -> None:
    assert SOURCES["NSCAChart"].mark is Mark.SECONDARY
    assert tuple(sorted(CHART)) == REPS
    found = [load_by_table(Mass.of(maximum), reps, CHART) for reps in REPS]

    assert found == [Mass.of(load) for load in loads.split()]


@pytest.mark.parametrize(
    ("load", "reps", "maximum"),
    [("100", 8, "125.000"), ("100", 5, "114.943"), ("100", 10, "133.333"), ("100", 3, "107.527")],
)
def test_a_maximum_by_the_table(load: str, reps: int, maximum: str) -> None:
    found = maximum_by_table(Mass.of(load), reps)

    assert found is not None
    assert found.value.quantize(MILLI) == Decimal(maximum)


@pytest.mark.parametrize(("reps", "difference"), [(8, "1.667"), (10, "0.000")])
def test_how_far_epleys_line_lies_over_the_table(reps: int, difference: str) -> None:
    found = maximum_by_table(Mass.of(100), reps)

    assert found is not None
    assert (100 * per_load(reps) - found.value).quantize(MILLI) == Decimal(difference)


def test_the_steps_between_rows_are_uneven() -> None:
    steps = [TABLE[reps].percent - TABLE[reps + 1].percent for reps in range(1, 11)]

    assert steps == [5, 2, 3, 3, 2, 2, 3, 3, 2, 5]


def test_fourteen_is_no_row_and_lies_at_about_65_7_only_when_that_is_asked() -> None:
    assert row_of(14) is None
    between = row_of(14, between=True)

    assert between is not None
    assert between.between
    assert between.percent.quantize(Decimal("0.1")) == Decimal("65.7")


def test_ten_to_eight_at_failure_is_a_step_of_6_67_percent() -> None:
    assert ((TABLE[8].percent / TABLE[10].percent - 1) * 100).quantize(Decimal("0.01")) == Decimal("6.67")
