from datetime import timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.hard_sets import hard_sets, hard_sets_by_muscle, hard_sets_by_pattern, week_of_sets
from core.loads.past import Outcome, SetDone
from core.loads.work_done import WorkDone, within
from core.programme.exercises import Pattern
from core.programme.muscles import Muscle
from core.programme.set_styles import SetStyle, StyleKind
from tests.core.loads.lifts import TODAY
from tests.core.loads.worked import of_sets, one_set, sets_done, with_set, work, works

FIRST = TODAY - timedelta(days=6)


@pytest.mark.parametrize(
    ("sets", "asked", "count"),
    [
        ([one_set()], None, 1),
        ([one_set()], 4, 1),
        ([one_set()], 5, 0),
        ([one_set(left=4)], 5, 1),  # her own number wins; 4 is four or more
        ([one_set(left=5)], 2, 0),
        ([one_set(left=0), one_set(left=6)], 2, 1),
        ([one_set(0)], 2, 0),
        ([one_set(None)], 2, 0),
        ([one_set(None, seconds=45)], 2, 1),
        ([one_set(None, metres=20)], 2, 1),
        ([], 2, 0),
    ],
)
def test_a_set_counts_with_some_work_and_at_most_four_left(
    sets: list[SetDone], asked: int | None, count: int
) -> None:
    # At most four left: common practice, no source.
    assert hard_sets(of_sets("bench-press", *sets, left=asked).exposure) == count


@pytest.mark.parametrize(
    ("sides", "count"), [("LRLRLR", 3), ("LLL", 3), ("LLLRR", 3), ("LR", 1), ("LLRRR", 3)]
)
def test_a_set_of_two_sides_counts_once(sides: str, count: int) -> None:
    done = of_sets("split-squat", *(one_set(side=side) for side in sides))

    assert hard_sets(done.exposure) == count
    assert hard_sets(with_set(done, one_set()).exposure) == count + 1


def test_an_easy_set_of_one_side_leaves_the_other() -> None:
    done = of_sets("split-squat", one_set(side="L", left=6), one_set(side="R", left=2))

    assert hard_sets(done.exposure) == 1


@pytest.mark.parametrize(
    ("kind", "asked", "logged", "count"),
    [
        (StyleKind.DESCENDING, 2, 5, 2),
        (StyleKind.DESCENDING, 2, 1, 1),
        (StyleKind.ASCENDING, 3, 5, 5),
        (StyleKind.REST_PAUSE, 2, 2, 2),
        (None, 2, 5, 5),
    ],
)
def test_steps_down_are_no_sets_of_their_own(
    kind: StyleKind | None, asked: int, logged: int, count: int
) -> None:
    steps = 3 if kind is StyleKind.DESCENDING else 0
    style = None if kind is None else SetStyle(kind=kind, steps=steps)
    done = of_sets("lateral-raise", *[one_set()] * logged, sets=asked, style=style)

    assert hard_sets(done.exposure) == count


def test_a_session_that_was_left_short_counts_what_was_done_of_it() -> None:
    done = work("bench-press", "8 8", outcome=Outcome.PARTIAL)

    assert hard_sets_by_muscle([done])[Muscle.CHEST] == 2


def test_a_week_has_its_seven_days_and_no_more() -> None:
    days = [work("bench-press", "8", days_ago=ago) for ago in range(9)]
    found = week_of_sets(days, FIRST)

    assert [one.exposure.on for one in within(days, FIRST, 2)] == [FIRST + timedelta(days=1), FIRST]
    assert (found.first, found.last) == (FIRST, TODAY)
    assert found.total == 7
    assert found.by_muscle == {
        Muscle.CHEST: Decimal(7),
        Muscle.FRONT_DELTS: Decimal("3.5"),
        Muscle.TRICEPS: Decimal("3.5"),
    }


def test_sides_of_the_body_stand_against_each_other() -> None:
    week = [
        work("bench-press", "8 8 8 8"),
        work("one-arm-row", "8 8 8 8 8 8", sides="LRLRLR"),
        work("back-squat", "5 5 5"),
        work("deadlift", "5 5"),
        work("leg-curl", "12 12"),
        work("plank", "60"),
    ]
    found = week_of_sets(week, FIRST)

    assert (found.push_pull, found.knee_hip) == ((4, 3), (3, 4))
    assert found.total == 15


def test_nothing_done_is_a_week_of_nothing() -> None:
    found = week_of_sets([], FIRST)

    assert (found.total, found.by_muscle, found.push_pull.even) == (0, {}, True)


@given(st.lists(works(), min_size=1, max_size=5), sets_done(), st.data())
def test_adding_a_set_never_lowers_hard_sets(
    week: list[WorkDone], more: SetDone, data: st.DataObject
) -> None:
    place = data.draw(st.integers(0, len(week) - 1))
    fuller = [with_set(one, more) if where == place else one for where, one in enumerate(week)]
    before, after = hard_sets_by_muscle(week), hard_sets_by_muscle(fuller)

    assert all(after[muscle] >= sets for muscle, sets in before.items())


@given(st.lists(works(), max_size=5), st.randoms(use_true_random=False))
def test_the_order_of_logging_does_not_matter(week: list[WorkDone], random: object) -> None:
    def shuffled(items: list[WorkDone] | tuple[SetDone, ...]) -> list[object]:
        return random.sample(list(items), len(items))  # type: ignore[attr-defined,no-any-return]

    mixed = [
        one.model_copy(
            update={"exposure": one.exposure.model_copy(update={"sets": tuple(shuffled(one.exposure.sets))})}
        )
        for one in shuffled(week)
    ]

    assert week_of_sets(mixed, FIRST).model_dump_json() == week_of_sets(week, FIRST).model_dump_json()


@given(st.lists(works(), max_size=6))
def test_the_days_add_up_to_the_week(week: list[WorkDone]) -> None:
    days = [hard_sets_by_pattern(within(week, FIRST + timedelta(days=place), 1)) for place in range(7)]
    summed = {pattern: sum(day.get(pattern, 0) for day in days) for pattern in Pattern}

    assert {pattern: count for pattern, count in summed.items() if count} == hard_sets_by_pattern(week)
    assert week_of_sets(week, FIRST).total == sum(summed.values())
