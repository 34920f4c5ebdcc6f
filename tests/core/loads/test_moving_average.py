from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.moving_average import moving_averages, smoothed

SPANS = st.sampled_from([1, 2, 7, 21, 28])


def test_the_first_twenty_eight_days_are_not_settled() -> None:
    settled = [one.settled for one in moving_averages([Decimal(5)] * 40, 7)]

    assert settled == [False] * 28 + [True] * 12


def test_no_days_have_no_average() -> None:
    assert moving_averages([], 7) == ()


@pytest.mark.parametrize("span", [0, -1])
def test_a_span_is_a_day_at_least(span: int) -> None:
    with pytest.raises(ValueError, match=f"not {span}"):
        moving_averages([Decimal(1)], span)


def test_a_span_of_one_day_forgets_everything() -> None:
    days = [Decimal(each) for each in (3, 0, 8)]

    assert [one.value for one in moving_averages(days, 1)] == days


@given(st.decimals(0, 5000, places=6), st.integers(1, 60), SPANS)
def test_the_average_of_a_constant_is_the_constant(load: Decimal, days: int, span: int) -> None:
    assert {one.value for one in moving_averages([load] * days, span)} == {load}


@given(st.lists(st.integers(0, 2000).map(Decimal), min_size=1, max_size=60), SPANS)
def test_an_average_stays_between_the_least_and_the_most(loads: list[Decimal], span: int) -> None:
    tiny = Decimal("1e-20")

    for one in moving_averages(loads, span):
        assert min(loads) - tiny <= one.value <= max(loads) + tiny


@given(st.lists(st.integers(0, 2000).map(Decimal), min_size=1, max_size=40), st.integers(2, 9), SPANS)
def test_loads_so_many_times_as_great_have_averages_so_many_times_as_great(
    loads: list[Decimal], times: int, span: int
) -> None:
    once, more = moving_averages(loads, span), moving_averages([each * times for each in loads], span)

    for one, other in zip(once, more, strict=True):
        assert float(other.value) == pytest.approx(float(one.value) * times)


def test_the_weight_is_of_the_newest() -> None:
    assert smoothed([Decimal(10), Decimal(20)], Decimal(0)) == (10, 10)
    assert smoothed([Decimal(10), Decimal(20)], Decimal("0.3")) == (10, 13)
    assert smoothed([Decimal(10), Decimal(20)], Decimal(1)) == (10, 20)
