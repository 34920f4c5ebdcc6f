"""Goals as they are typed: the date that is meant, and the one that nobody can tell."""

from datetime import date

import pytest

from core.checkin.goal_words import LONGEST, GoalRead, date_read, goal_read

TODAY = date(2026, 4, 16)


@pytest.mark.parametrize(
    ("text", "goal", "by_on"),
    [
        ("deadlift 100 by 1 June", "deadlift 100", date(2026, 6, 1)),
        ("deadlift 100, by June 1st", "deadlift 100", date(2026, 6, 1)),
        ("ten pull-ups until 1 March", "ten pull-ups", date(2027, 3, 1)),
        ("a race before the 3rd of May 2027", "a race", date(2027, 5, 3)),
        ("squat my weight by 2026-12-24", "squat my weight", date(2026, 12, 24)),
        ("squat by 24.12.", "squat", date(2026, 12, 24)),
        ("train by myself", "train by myself", None),
        ("  get   stronger ", "get stronger", None),
        ("run by 29 Feb", "run", date(2028, 2, 29)),
    ],
)
def test_a_date_is_read_where_one_stands(text: str, goal: str, by_on: date | None) -> None:
    assert goal_read(text, TODAY) == GoalRead(text=goal, by_on=by_on)


@pytest.mark.parametrize("written", ["6/1/2026", "31 June", "1 June 2020", "June"])
def test_a_date_that_nobody_can_tell_is_named_so_that_it_is_asked(written: str) -> None:
    assert goal_read(f"deadlift 100 by {written}", TODAY) == GoalRead(text="deadlift 100", unread=written)


def test_a_long_goal_is_cut() -> None:
    assert len(goal_read("x" * 500, TODAY).text) == LONGEST


@pytest.mark.parametrize("text", ["soon", "1 Foo", "2026-13-01", "40.1.2027"])
def test_other_words_are_no_date(text: str) -> None:
    assert date_read(text, TODAY) is None
