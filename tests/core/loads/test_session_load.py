from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from core.loads.session_load import (
    RatedSession,
    Undefined,
    WeekLoad,
    daily_loads,
    over_weeks_before,
    week_load,
)

FIRST = date(2026, 4, 13)
LOADS = st.lists(st.integers(0, 1500).map(Decimal), min_size=7, max_size=7)


def rated(place: int, rating: str | None = "5", minutes: int | None = 60) -> RatedSession:
    return RatedSession(
        on=FIRST + timedelta(days=place),
        rating=None if rating is None else Decimal(rating),
        minutes=minutes,
    )


@pytest.mark.parametrize(("rating", "minutes"), [(None, 60), ("5", None), (None, None)])
def test_a_session_without_effort_or_minutes_has_no_load(rating: str | None, minutes: int | None) -> None:
    assert rated(0, rating, minutes).load is None


@pytest.mark.parametrize(("rating", "minutes"), [("-1", 60), ("10.5", 60), ("5", 0), ("5", 601)])
def test_effort_runs_to_ten_and_a_session_to_ten_hours(rating: str, minutes: int) -> None:
    with pytest.raises(ValidationError):
        rated(0, rating, minutes)


def test_sessions_of_a_day_add_up_and_a_day_of_rest_is_zero() -> None:
    week = [rated(0), rated(0, "2", 30), rated(3), rated(-1), rated(7)]

    assert daily_loads(week, FIRST) == (360, 0, 0, 300, 0, 0, 0)
    assert daily_loads([], FIRST, 3) == (0, 0, 0)


@pytest.mark.parametrize("order", [1, -1])
def test_a_day_with_a_session_that_nobody_rated_is_not_known(order: int) -> None:
    week = [rated(0), rated(0, None), rated(2)][::order]

    assert daily_loads(week, FIRST) == (None, 0, 300, 0, 0, 0, 0)


def test_a_week_with_a_day_that_is_not_known_has_no_figures() -> None:
    unknown = Undefined.UNRATED
    found = week_load(daily_loads([rated(0, None), rated(2)], FIRST))

    assert found == WeekLoad(total=unknown, mean=unknown, spread=unknown, monotony=unknown, strain=unknown)
    assert WeekLoad.model_validate_json(found.model_dump_json()) == found


@pytest.mark.parametrize("days", [0, 6, 8])
def test_a_week_has_seven_days(days: int) -> None:
    with pytest.raises(ValueError, match=f"7 days, not {days}"):
        week_load([Decimal(1)] * days)


def test_a_week_of_equal_days_is_even_whatever_the_digits() -> None:
    odd = week_load([Decimal("0.1234567890123456789012345678")] * 7)

    assert (odd.spread, odd.monotony) == (0, Undefined.EVEN)


@pytest.mark.parametrize(
    ("this", "before", "found"),
    [
        (None, (1, 1, 1, 1), Undefined.UNRATED),
        (1, (1, None, 1, 1), Undefined.UNRATED),
        (1, (None, 1, 1, 1, 1), Decimal(0)),
        (1, (1, 1, 1), Undefined.FEW_WEEKS),
        (1, (), Undefined.FEW_WEEKS),
        (1, (0, 0, 0, 0), Undefined.REST),
        (0, (1, 1, 1, 1), Decimal(-100)),
    ],
)
def test_a_week_is_held_against_four_known_weeks_or_not_at_all(
    this: int | None, before: tuple[int | None, ...], found: Decimal | Undefined
) -> None:
    weeks = [None if each is None else Decimal(each) for each in before]

    assert over_weeks_before(None if this is None else Decimal(this), weeks) == found


@given(st.lists(st.tuples(st.integers(0, 6), st.integers(0, 10), st.integers(1, 200)), max_size=12))
def test_the_days_add_up_to_the_week_in_any_order(sessions: list[tuple[int, int, int]]) -> None:
    week = [rated(place, str(rating), minutes) for place, rating, minutes in sessions]
    days = daily_loads(week, FIRST)

    assert week_load(days).total == sum(rating * minutes for _, rating, minutes in sessions)
    assert daily_loads(week[::-1], FIRST) == days


@pytest.mark.traced
@given(LOADS, st.permutations(range(7)))
def test_which_day_had_which_load_does_not_matter(loads: list[Decimal], places: list[int]) -> None:
    first, mixed = week_load(loads), week_load([loads[place] for place in places])

    for one, other in zip(first.model_dump().values(), mixed.model_dump().values(), strict=True):
        assert one == other if isinstance(one, Undefined) else float(one) == pytest.approx(float(other))


@given(LOADS, st.integers(2, 50))
def test_monotony_knows_no_unit_and_strain_grows_with_it(loads: list[Decimal], times: int) -> None:
    once, more = week_load(loads), week_load([each * times for each in loads])

    if isinstance(once.monotony, Undefined):
        assert more.monotony is once.monotony
        assert more.strain is once.strain
    else:
        assert float(more.monotony) == pytest.approx(float(once.monotony))
        assert float(more.strain) == pytest.approx(float(once.strain) * times)


@given(LOADS)
def test_no_figure_is_infinite(loads: list[Decimal]) -> None:
    found = week_load(loads).model_dump().values()

    assert all(isinstance(each, Undefined) or each.is_finite() for each in found)
