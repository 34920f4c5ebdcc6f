import pytest

from core.programme.alone_checks import limits_under_bar, open_under_bar
from core.programme.catalogue import CATALOGUE
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.ways_up import WayKind, WayUp
from tests.core.programme.written import one_day, row

DESCENDING = SetStyle(kind=StyleKind.DESCENDING, steps=2)
ASCENDING = SetStyle(kind=StyleKind.ASCENDING)


@pytest.mark.parametrize(
    ("exercise", "left", "told"),
    [
        ("front-squat", 1, True),
        ("front-squat", 0, True),
        ("front-squat", 2, False),
        ("front-squat", None, False),
        ("leg-press", 0, False),
    ],
)
def test_few_reps_left_under_a_bar_are_told(exercise: str, left: int | None, told: bool) -> None:
    found = list(limits_under_bar(one_day(row(exercise, left=left)), CATALOGUE))

    assert bool(found) is told


def test_the_fewest_reps_left_of_an_exercise_are_told_once() -> None:
    written = one_day(row("back-squat", 1, left=1), row("back-squat", 2, left=0), row("bench-press", left=1))
    found = [one.facts for one in limits_under_bar(written, CATALOGUE)]

    assert found == [
        {"exercise": "Back squat", "day": "All", "left": "0"},
        {"exercise": "Bench press", "day": "All", "left": "1"},
    ]


@pytest.mark.parametrize(
    ("exercise", "dose", "how"),
    [
        ("bench-press", {"or_more": True}, "an open set"),
        ("bench-press", {"reps": None, "to_left": True}, "an open set"),
        ("bench-press", {"style": DESCENDING}, "descending sets"),
        ("bench-press", {"style": ASCENDING}, None),
        ("bench-press", {}, None),
        ("bench-press", {"or_more": True, "left": 2}, None),
        ("bench-press", {"style": DESCENDING, "left": 1}, None),
        ("dumbbell-bench-press", {"or_more": True}, None),
        ("bench-press", {"reps": 6, "way": WayUp(kind=WayKind.APRE_6)}, "sets by a table"),
        ("leg-press", {"reps": 6, "way": WayUp(kind=WayKind.APRE_6)}, None),
    ],
)
def test_sets_that_nothing_ends_under_a_bar_are_told(exercise: str, dose: dict, how: str | None) -> None:
    found = [one.facts["how"] for one in open_under_bar(one_day(row(exercise, **dose)), CATALOGUE)]

    assert found == ([] if how is None else [how])


def test_what_is_written_for_several_weeks_is_told_once_a_day() -> None:
    written = one_day(row("back-squat", 1, or_more=True), row("back-squat", 2, or_more=True, reps=5))
    found = list(open_under_bar(written, CATALOGUE))

    assert [one.facts for one in found] == [{"exercise": "Back squat", "day": "All", "how": "an open set"}]
