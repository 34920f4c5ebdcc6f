from datetime import date

import pytest

from core.errors import TooFewTrainingDays
from core.programme.block import Block, Weekday
from core.programme.exercises import Pattern
from core.programme.spacing_checks import ClosePair, close_pairs, crowded, heavy_patterns
from tests.core.programme.written import block, day, row

MON, TUE, WED, THU, FRI, SAT, SUN = Weekday
MONDAY = date(2026, 4, 6)


def squats(count: int, weeks: int = 2, *held: int) -> Block:
    return block(
        *(day(f"Day {number}", row("back-squat", *held, reps=5)) for number in range(1, count + 1)),
        weeks=weeks,
    )


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        (
            [row("back-squat", reps=8), row("bench-press", reps=5, order="B")],
            {Pattern.SQUAT, Pattern.HORIZONTAL_PRESS},
        ),
        ([row("back-squat", reps=9)], set()),
        ([row("leg-press", reps=6), row("leg-curl", reps=6, order="B")], {Pattern.SQUAT}),
        ([row("back-squat", reps=None, to_left=True, left=2)], set()),
        ([row("back-squat", 2, reps=5)], set()),
        ([], set()),
    ],
)
def test_a_day_is_heavy_on_its_main_lifts_at_eight_reps_or_fewer(rows: list, expected: set[Pattern]) -> None:
    assert heavy_patterns(day("All", *rows), 1) == expected


def test_a_planned_lighter_week_is_heavy_on_nothing() -> None:
    assert heavy_patterns(day("All", row("back-squat", reps=5), lighter=[1]), 1) == set()


# D days leave 7 - D free, and each pair of neighbours that shares a pattern needs one of them: at least 48 h.
@pytest.mark.parametrize(("count", "over"), [(1, 0), (2, 0), (3, 0), (4, 1), (5, 3), (6, 5), (7, 7)])
def test_days_that_cannot_be_kept_apart_are_told(count: int, over: int) -> None:
    found = list(crowded(squats(count)))

    assert [int(one.facts["over"]) for one in found] == ([over] if over else [])


def test_what_must_come_close_is_told_with_its_days_and_weeks() -> None:
    lower, upper = row("back-squat", reps=5), row("bench-press", 1, 2, reps=5)
    days = [
        day("A", lower),
        day("B", lower),
        day("C", lower, upper),
        day("D", upper),
        day("E", row("pull-up", reps=5)),
    ]
    written = block(*days, weeks=3)
    (found,) = crowded(written)

    assert found.facts == {
        "count": "5",
        "over": "1",
        "pairs": "A and B (squat); B and C (squat); C and D (horizontal press)",
        "weeks": "1-3",
    }


def test_the_last_week_has_none_after_it() -> None:
    assert [one.facts["pairs"] for one in crowded(squats(4, 1))] == []
    assert len(list(crowded(squats(4, 2)))) == 1


def test_with_a_clients_days_it_is_known_which_come_close() -> None:
    assert close_pairs(squats(3), MONDAY, [MON, TUE, THU]) == (
        ClosePair(days=(("Day 1", MON), ("Day 2", TUE)), patterns=(Pattern.SQUAT,), weeks=(1, 2)),
    )


def test_the_last_of_a_week_may_be_close_to_the_first_of_the_next() -> None:
    assert close_pairs(squats(2), MONDAY, [MON, SUN]) == (
        ClosePair(days=(("Day 2", SUN), ("Day 1", MON)), patterns=(Pattern.SQUAT,), weeks=(1,)),
    )


def test_two_days_between_or_other_patterns_are_far_enough() -> None:
    other = block(day("A", row("back-squat", reps=5)), day("B", row("deadlift", reps=5)))

    assert close_pairs(squats(3), MONDAY, [MON, WED, FRI]) == ()
    assert close_pairs(other, MONDAY, [MON, TUE]) == ()


def test_a_client_with_too_few_days_has_no_week() -> None:
    with pytest.raises(TooFewTrainingDays):
        close_pairs(squats(3), MONDAY, [SAT, SUN])
