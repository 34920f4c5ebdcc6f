"""Next in line: the order of the block on the training days that come. Common practice, no source."""

from datetime import date, timedelta
from itertools import islice, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import TooFewTrainingDays
from core.programme.block import Block, Day, Weekday
from core.programme.calendar import sessions_between
from core.programme.exercises import Pattern
from core.programme.in_line import Turn, dates_in_line, slots

MON = date(2026, 4, 13)
MON_WED_FRI = (Weekday.MON, Weekday.WED, Weekday.FRI)


def on(step: int) -> date:
    return MON + timedelta(days=step)


def block(days: int, weeks: int = 4) -> Block:
    named = tuple(Day(key=f"day-{number}", name=f"Day {number}", lines=()) for number in range(1, days + 1))
    return Block(name="Slipway", weeks=weeks, days=named)


def turn(step: int, *patterns: Pattern, not_before: date | None = None) -> Turn:
    return Turn(written_on=on(step), patterns=frozenset(patterns), not_before=not_before)


def test_training_days_come_without_an_end_and_as_many_a_week_as_the_block_has_days() -> None:
    found = islice(slots(block(2), MON, MON_WED_FRI, on(1)), 4)

    assert list(found) == [on(2), on(7), on(9), on(14)]


def test_too_few_training_days_are_a_mistake_to_mend() -> None:
    with pytest.raises(TooFewTrainingDays):
        next(slots(block(3), MON, (Weekday.MON,), MON))


def test_what_was_not_done_comes_next_and_all_behind_it_moves_on_by_one() -> None:
    # Wednesday was not done: it comes on Friday, Friday's on Monday, Monday's on Wednesday.
    turns = [turn(2), turn(4), turn(7)]

    assert dates_in_line([(turn(0), on(0))], turns, slots(block(3), MON, MON_WED_FRI, on(3))) == (
        on(4),
        on(7),
        on(9),
    )


def test_a_turn_that_must_wait_lets_none_overtake_it() -> None:
    turns = [turn(0, not_before=on(2)), turn(1)]
    days = (Weekday.MON, Weekday.TUE, Weekday.THU)

    assert dates_in_line([], turns, slots(block(3), MON, days, on(1))) == (on(3), on(7))


def test_a_training_day_that_leaves_24_hours_to_the_same_main_lift_is_passed_over() -> None:
    # Squats on Monday and Thursday, written three days apart: after Thursday's card was not done, Friday is
    # no day for them when they were done on Thursday otherwise.
    done = [(turn(0, Pattern.SQUAT), on(3))]
    days = (Weekday.MON, Weekday.THU, Weekday.FRI)

    assert dates_in_line(done, [turn(3, Pattern.SQUAT)], slots(block(3), MON, days, on(4))) == (on(7),)
    assert dates_in_line(done, [turn(3, Pattern.HINGE)], slots(block(3), MON, days, on(4))) == (on(4),)


def test_what_the_coach_wrote_on_days_that_follow_each_other_may_follow_again() -> None:
    done = [(turn(0, Pattern.SQUAT), on(3))]

    assert dates_in_line(done, [turn(1, Pattern.SQUAT)], [on(4)]) == (on(4),)


def test_the_same_session_again_is_far_enough_from_the_one_before_it() -> None:
    done = [(turn(0, Pattern.SQUAT), on(0))]

    assert dates_in_line(done, [turn(0, Pattern.SQUAT)], [on(1), on(2)]) == (on(2),)


@given(
    st.integers(1, 4),
    st.sets(st.sampled_from(Weekday), min_size=4),
    st.integers(0, 6),
    st.sampled_from([frozenset({Pattern.SQUAT}), frozenset()]),
)
def test_a_plan_in_which_nothing_was_missed_is_the_calendars(
    number: int, days: set[Weekday], begins: int, patterns: frozenset[Pattern]
) -> None:
    value = block(number)
    starts_on = on(begins)
    written = [each.on for each in sessions_between(value, starts_on, days, date.min, date.max)]
    turns = [Turn(written_on=each, patterns=patterns) for each in written]

    assert list(dates_in_line([], turns, slots(value, starts_on, days, starts_on))) == written


@given(
    st.lists(st.sets(st.sampled_from([Pattern.SQUAT, Pattern.HINGE, Pattern.DIP])), min_size=1, max_size=8),
    st.sets(st.sampled_from(Weekday), min_size=3),
    st.integers(1, 20),
)
def test_turns_keep_their_order_one_a_date_with_room_between_the_same_lifts(
    patterns: list[set[Pattern]], days: set[Weekday], first: int
) -> None:
    turns = [turn(3 * place, *each) for place, each in enumerate(patterns)]
    found = dates_in_line([], turns, slots(block(3), MON, days, on(first)))

    assert all(one < other for one, other in pairwise(found))
    assert found[0] >= on(first)
    for place, one in enumerate(found):
        for other_place in range(place):
            if turns[place].patterns & turns[other_place].patterns:
                assert (one - found[other_place]).days >= 2
