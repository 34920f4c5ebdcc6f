from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.percent_table import CHART, TABLE, load_by_table, maximum_by_table, row_of
from core.sources import Mark
from core.units import Mass

TABLES = st.sampled_from([TABLE, CHART])


@pytest.mark.parametrize("total", [0, -1, 13, 14, 16, 40])
def test_where_there_is_no_row_there_is_no_answer(total: int) -> None:
    assert row_of(total) is None
    assert maximum_by_table(Mass.of(100), total) is None
    assert load_by_table(Mass.of(100), total) is None


@pytest.mark.parametrize(
    ("total", "percent", "mark"),
    [(13, "66.33", Mark.MEMORY), (14, "65.67", Mark.MEMORY)],
)
def test_between_two_rows_lies_a_straight_line_when_it_is_asked_for(
    total: int, percent: str, mark: Mark
) -> None:
    row = row_of(total, between=True)

    assert row is not None
    assert row.percent.quantize(Decimal("0.01")) == Decimal(percent)
    assert (row.mark, row.between) == (mark, True)


def test_between_rows_that_are_read_in_copies_the_mark_is_theirs() -> None:
    row = row_of(11, CHART, between=True)

    assert row == (Decimal("72.5"), Mark.SECONDARY, True)


def test_a_row_from_memory_beside_one_that_was_read_makes_what_lies_between_from_memory() -> None:
    short = {10: TABLE[10], 12: TABLE[12]}

    assert row_of(11, short, between=True) == (Decimal(71), Mark.MEMORY, True)


@pytest.mark.parametrize("total", [0, 16])
def test_past_the_ends_of_the_table_there_is_nothing_between(total: int) -> None:
    assert row_of(total, between=True) is None


def test_a_row_that_is_there_is_not_made_up() -> None:
    assert row_of(8, between=True) == TABLE[8]


@given(st.sampled_from(sorted(TABLE)), TABLES, st.integers(1, 400))
def test_the_load_for_a_maximum_gives_that_maximum(total: int, table: dict, mass: int) -> None:
    load = load_by_table(Mass.of(mass), total, table)
    assert (load is None) == (total not in table)
    if load is not None:
        again = maximum_by_table(load, total, table)
        assert again is not None
        assert again == Mass.of(mass)


@pytest.mark.parametrize("table", [TABLE, CHART])
def test_the_share_falls_from_row_to_row(table: dict) -> None:
    percents = [table[reps].percent for reps in sorted(table)]

    assert percents == sorted(set(percents), reverse=True)
