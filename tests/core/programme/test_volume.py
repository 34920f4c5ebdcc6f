from decimal import Decimal

import pytest
from hypothesis import given

from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Pattern
from core.programme.muscles import Muscle
from core.programme.prescription import Dose, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.volume import (
    HIP,
    KNEE,
    PULL,
    PUSH,
    Balance,
    balance,
    sets_by_muscle,
    sets_by_pattern,
    working_sets,
)
from tests.core.programme.block_strategies import blocks
from tests.core.programme.written import one_day, row


# The usual band of pushes to pulls is 0.67 to 1.5: common practice, no source.
@pytest.mark.parametrize(
    ("push", "pull", "even"),
    [
        (10, 15, True),
        (9, 15, False),
        (15, 10, True),
        (16, 10, False),
        (0, 0, True),
        (3, 0, False),
        (0, 3, False),
    ],
)
def test_sides_are_even_from_two_thirds_to_one_and_a_half(push: int, pull: int, even: bool) -> None:
    assert Balance(push, pull).even is even


def test_sets_are_counted_by_pattern_and_a_one_sided_set_once() -> None:
    written = one_day(
        row("bench-press", 1, 2, sets=4), row("push-up", 1), row("split-squat", 1), row("dip", 2)
    )
    sets = sets_by_pattern(written, 1)

    assert sets == {Pattern.LUNGE: 3, Pattern.HORIZONTAL_PRESS: 7}
    assert balance(sets, PUSH, PULL) == (7, 0)
    assert balance(sets, KNEE, HIP) == (3, 0)
    assert sets_by_pattern(written, 3) == {}


def test_sets_with_more_than_four_left_count_for_no_muscle() -> None:
    written = one_day(
        row("bench-press", 1, left=4), row("bench-press", 1, left=5), row("bench-press", 2, left=5)
    )

    assert sets_by_muscle(written, 1)[Muscle.CHEST] == 3
    assert sets_by_muscle(written, 2) == {}


def test_steps_down_are_no_sets_and_a_planned_lighter_week_has_about_half() -> None:
    style = SetStyle(kind=StyleKind.DESCENDING, steps=3)
    dose = Dose(sets=4, reps=Span(low=8, high=8), style=style)

    assert working_sets(dose) == 4
    assert working_sets(dose.model_copy(update={"lighter": True})) == 2


def test_a_planned_lighter_week_counts_as_it_is_given() -> None:
    written = one_day(row("bench-press", sets=4), lighter=[2])

    assert [sets_by_muscle(written, week)[Muscle.CHEST] for week in (1, 2)] == [4, 2]


@given(blocks())
def test_muscles_have_no_more_than_every_set_for_each(written) -> None:
    for week in range(1, written.weeks + 1):
        asked = [one for day in written.days for one in day.in_week(week)]
        worth = sum(
            working_sets(one.dose)
            * (len(CATALOGUE[one.exercise].direct) + Decimal(len(CATALOGUE[one.exercise].indirect)) / 2)
            for one in asked
            if one.dose.left is None or one.dose.left <= 4
        )
        assert sum(sets_by_muscle(written, week).values()) == worth
