from collections import Counter
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import TooFewTrainingDays
from core.programme.block import Block, Day, Weekday
from core.programme.calendar import PlannedDay, sessions_between

MON, TUE, WED, FRI, SAT = Weekday.MON, Weekday.TUE, Weekday.WED, Weekday.FRI, Weekday.SAT
EVER = (date(1900, 1, 1), date(9000, 1, 1))


def block(days: int, weeks: int = 2, week_starts: Weekday = MON) -> Block:
    named = tuple(Day(key=f"day-{number}", name=f"Day {number}", lines=()) for number in range(1, days + 1))
    return Block(name="Slipway", weeks=weeks, week_starts=week_starts, days=named)


def shown(planned: tuple[PlannedDay, ...]) -> list[tuple[int, str, str]]:
    return [(one.week_no, one.day_key, one.on.isoformat()) for one in planned]


def test_the_nth_training_day_takes_the_nth_day_of_the_block() -> None:
    planned = sessions_between(block(3), date(2026, 3, 2), (MON, WED, FRI), *EVER)

    # The six dates are those of a recurrence rule for Monday, Wednesday and Friday from Monday 2 March 2026.
    assert shown(planned) == [
        (1, "day-1", "2026-03-02"),
        (1, "day-2", "2026-03-04"),
        (1, "day-3", "2026-03-06"),
        (2, "day-1", "2026-03-09"),
        (2, "day-2", "2026-03-11"),
        (2, "day-3", "2026-03-13"),
    ]


def test_a_start_in_the_middle_of_a_week_begins_a_whole_week_there() -> None:
    planned = sessions_between(block(3, weeks=1), date(2026, 3, 5), (MON, WED, FRI), *EVER)

    assert shown(planned) == [
        (1, "day-1", "2026-03-06"),
        (1, "day-2", "2026-03-09"),
        (1, "day-3", "2026-03-11"),
    ]


def test_the_coachs_first_day_of_the_week_moves_nothing() -> None:
    days = (MON, SAT)
    sunday = sessions_between(block(2, week_starts=Weekday.SUN), date(2026, 3, 4), days, *EVER)

    assert sunday == sessions_between(block(2, week_starts=MON), date(2026, 3, 4), days, *EVER)


def test_training_days_past_those_of_the_block_stay_free() -> None:
    planned = sessions_between(block(1, weeks=1), date(2026, 3, 3), (MON, TUE, WED), *EVER)

    assert shown(planned) == [(1, "day-1", "2026-03-03")]


def test_both_ends_are_included() -> None:
    planned = sessions_between(
        block(3), date(2026, 3, 2), (MON, WED, FRI), date(2026, 3, 4), date(2026, 3, 9)
    )

    assert [one.on.day for one in planned] == [4, 6, 9]
    assert (
        sessions_between(block(3), date(2026, 3, 2), (MON, WED, FRI), date(2026, 3, 9), date(2026, 3, 4))
        == ()
    )


@pytest.mark.parametrize("days", [(MON, WED), (MON, MON, WED)])
def test_fewer_training_days_than_the_block_has_are_refused_with_both_numbers(
    days: tuple[Weekday, ...],
) -> None:
    with pytest.raises(TooFewTrainingDays) as caught:
        sessions_between(block(3), date(2026, 3, 2), days, *EVER)

    assert caught.value.facts == {"needed": 3, "given": 2}


starts = st.dates(date(2020, 1, 1), date(2040, 1, 1))
training = st.frozensets(st.sampled_from(Weekday), min_size=1)


@given(st.data(), starts, training, st.integers(1, 52), st.sampled_from(Weekday))
def test_every_week_has_each_day_once_in_order_on_training_days_alone(
    data: st.DataObject, starts_on: date, days: frozenset[Weekday], weeks: int, week_starts: Weekday
) -> None:
    written = block(data.draw(st.integers(1, len(days))), weeks, week_starts)
    planned = sessions_between(written, starts_on, days, *EVER)

    assert [(one.week_no, one.day_key) for one in planned] == [
        (week, day.key) for week in range(1, weeks + 1) for day in written.days
    ]
    assert all(one.on < then.on for one, then in pairwise(planned))
    assert {one.on.weekday() for one in planned} <= {int(day) for day in days}
    assert all(0 <= (one.on - starts_on).days - 7 * (one.week_no - 1) < 7 for one in planned)
    assert planned[0].on == min(
        starts_on + timedelta(ahead) for ahead in range(7) if (starts_on + timedelta(ahead)).weekday() in days
    )


@given(starts, training, st.integers(0, 400), st.integers(0, 60))
def test_a_window_is_a_cut_of_the_whole(
    starts_on: date, days: frozenset[Weekday], skipped: int, length: int
) -> None:
    written = block(len(days), weeks=52)
    first = starts_on + timedelta(skipped)
    last = first + timedelta(length)
    whole = sessions_between(written, starts_on, days, *EVER)

    window = sessions_between(written, starts_on, days, first, last)

    assert window == tuple(one for one in whole if first <= one.on <= last)
    assert max(Counter(one.on for one in whole).values()) == 1
