"""Which version of a block holds on a date for one client, and the weeks that are changed for her alone."""

from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.errors import TooFewTrainingDays
from core.programme.block import Block, Day, Line, Weekday
from core.programme.calendar import sessions_between
from core.programme.prescription import Dose, Load, Prescription, Span
from core.programme.versions import (
    ChangedDay,
    ChangedWeek,
    Course,
    Later,
    Stays,
    as_changed,
    changed_week,
    planned_days,
    renamed,
    stays,
)
from tests.core.programme.block_strategies import blocks

START = date(2026, 4, 7)
"""A Tuesday."""
DAYS = (Weekday.TUE, Weekday.THU, Weekday.SAT)
ALL = frozenset(range(1, 5))


def row(exercise: str = "bench-press", kg: int = 60, order: str = "A") -> Prescription:
    dose = Dose(sets=3, reps=Span(low=8, high=8), load=Load.of(kg))
    return Prescription(order=order, exercise=exercise, dose=dose)


def day(
    name: str, *rows: Prescription, weeks: frozenset[int] = ALL, lighter: frozenset[int] = frozenset()
) -> Day:
    lines = tuple(Line(weeks=weeks, prescription=each) for each in rows or (row(),))
    return Day(key=name.lower(), name=name, lines=lines, lighter_weeks=lighter)


def block(*days: str | Day, weeks: int = 4, kg: int = 60) -> Block:
    made = (each if isinstance(each, Day) else day(each, row(kg=kg)) for each in days)
    return Block(name="Harbour", weeks=weeks, days=tuple(made))


def on(step: int) -> date:
    return START + timedelta(days=step)


def load_in(found: Block, key: str, week: int) -> Load | None:
    there = found.day(key)
    assert there is not None
    return there.in_week(week)[0].dose.load


FIRST, SECOND, THIRD = block("Push", kg=60), block("Push", kg=70), block("Push", kg=80)
DECIDED = [
    # Versions in the order in which they were decided, each with its date; a date, and the load that holds then.
    ((), 0, 60),
    (((SECOND, 7),), 6, 60),
    (((SECOND, 7),), 7, 70),
    (((SECOND, 7), (THIRD, 14)), 13, 70),
    (((SECOND, 7), (THIRD, 14)), 14, 80),
    # The last decided wins from its date on, though an earlier one was to come later.
    (((SECOND, 14), (THIRD, 7)), 6, 60),
    (((SECOND, 14), (THIRD, 7)), 7, 80),
    (((SECOND, 14), (THIRD, 7)), 14, 80),
]


def course(*later: tuple[Block, int], first: Block = FIRST, weeks: Sequence[ChangedWeek] = ()) -> Course:
    after = tuple(Later(block=each, from_on=on(step)) for each, step in later)
    return Course(starts_on=START, first=first, later=after, weeks=tuple(weeks))


@pytest.mark.parametrize(("later", "step", "kg"), DECIDED)
def test_the_last_decided_whose_date_has_come_holds(
    later: tuple[tuple[Block, int], ...], step: int, kg: int
) -> None:
    found = course(*later)

    assert load_in(found.block_on(on(step)), "push", 1) == Load.of(kg)
    assert next(each.block for each in found.stretches(on(step))) == found.block_on(on(step))


def test_stretches_follow_each_other_without_a_gap() -> None:
    found = course((SECOND, 7), (THIRD, 14)).stretches(on(3))

    assert [(each.first, each.last) for each in found] == [(on(3), on(6)), (on(7), on(13)), (on(14), None)]
    assert [each.block for each in found] == [FIRST, SECOND, THIRD]
    assert [each.block for each in course((SECOND, 14), (THIRD, 7)).stretches(on(0))] == [FIRST, THIRD]


def test_a_version_more_leaves_the_course_as_it_was() -> None:
    before = course()

    assert before.after(SECOND, on(7)) == course((SECOND, 7))
    assert before == course()


ENDS = [
    ((), 27),
    (((block("Push", weeks=6), 7),), 41),
    (((block("Push", weeks=2), 7),), 13),
    # Shorter than what was done by then: it ends on the day before.
    (((block("Push", weeks=2), 21),), 20),
    # Over before the longer one begins: it goes on then.
    (((block("Push", weeks=6), 28),), 41),
    (((block("Push", weeks=4), 35),), 27),
]


@pytest.mark.parametrize(("later", "step"), ENDS)
def test_a_course_ends_with_the_last_week_of_the_last_version_that_has_one(
    later: tuple[tuple[Block, int], ...], step: int
) -> None:
    assert course(*later).ends_on == on(step)
    assert course(*later).longest == max(4, *(each.weeks for each, _ in later), 4)


def test_a_changed_week_lies_over_every_version() -> None:
    mine = ChangedWeek(week=2, days=(ChangedDay(key="push", rows=(row(kg=40),)),))
    found = course((SECOND, 7), weeks=[mine])

    assert [load_in(found.block_on(on(step)), "push", 2) for step in (0, 7)] == [Load.of(40)] * 2
    assert [load_in(found.block_on(on(step)), "push", 3) for step in (0, 7)] == [Load.of(60), Load.of(70)]
    assert course((SECOND, 7)).with_week(mine, 2) == found
    assert found.with_week(None, 2) == course((SECOND, 7))
    assert found.with_week(mine.model_copy(update={"days": ()}), 2).weeks == (ChangedWeek(week=2, days=()),)


def test_what_a_change_has_and_the_block_has_not_is_left_out() -> None:
    away = ChangedWeek(week=5, days=(ChangedDay(key="push", rows=()),))
    other = ChangedWeek(week=2, days=(ChangedDay(key="pull", rows=()),))

    assert as_changed(FIRST, [away]) is FIRST
    assert as_changed(FIRST, [other]) == FIRST
    assert other.day("push") is None


def test_a_changed_week_leaves_the_lighter_weeks_around_it_lighter() -> None:
    lighter = frozenset({4})
    before = block(day("Push", row(), weeks=frozenset({3, 4}), lighter=lighter))
    own = day("Push", row(kg=50), weeks=frozenset({4}), lighter=lighter)

    after = as_changed(before, [ChangedWeek(week=3, days=(ChangedDay(key="push", rows=(row(kg=40),)),))])
    written = as_changed(block(own), [ChangedWeek(week=3, days=(ChangedDay(key="push", rows=()),))])

    assert [each.dose.lighter for each in after.days[0].in_week(4)] == [True]
    assert [each.dose.lighter for each in after.days[0].in_week(3)] == [False]
    assert [each.dose.lighter for each in written.days[0].in_week(4)] == [False]


@given(blocks(), st.data())
@examples(60)
def test_a_week_changed_to_what_it_was_changes_nothing(found: Block, data: st.DataObject) -> None:
    week = data.draw(st.integers(1, found.weeks))
    after = as_changed(found, [changed_week(found, week)])

    for was, now in zip(found.days, after.days, strict=True):
        assert [now.in_week(each) for each in range(1, found.weeks + 1)] == [
            was.in_week(each) for each in range(1, found.weeks + 1)
        ]


def test_a_session_of_a_day_that_is_gone_keeps_what_it_had() -> None:
    with_pull = block("Push", "Pull")
    found = course((block("Push"), 7), (block("Push", weeks=2), 14), first=with_pull)

    assert found.block_for(2, "pull", on(8)) == with_pull
    assert found.block_for(4, "push", on(22)) == block("Push")
    assert found.block_for(2, "push", on(15)) == block("Push", weeks=2)
    assert found.block_for(9, "push", on(0)) == with_pull


RENAMED = [
    (("Push", "Pull"), ("Push", "Rows"), {"pull": "rows"}),
    (("Push", "Pull"), ("Push", "Pull"), {}),
    (("Push",), ("Push", "Rows"), {}),
    # The same name at another place is the same day.
    (("Push", "Pull"), ("Pull", "Press"), {}),
    ((day("Pull", row("curl"), row("face-pull", order="B")),), (day("Rows", row("curl")),), {"pull": "rows"}),
    ((day("Pull", row("curl"), row("face-pull", order="B")),), (day("Rows", row("pull-up")),), {}),
]


@pytest.mark.parametrize(("before", "after", "names"), RENAMED)
def test_a_day_with_half_its_exercises_at_its_place_has_another_name(
    before: tuple[str | Day, ...], after: tuple[str | Day, ...], names: dict[str, str]
) -> None:
    assert renamed(block(*before), block(*after)) == names


def test_a_changed_week_follows_a_day_to_its_other_name() -> None:
    mine = ChangedWeek(week=2, days=(ChangedDay(key="push", rows=(row(kg=40),)),))
    found = course((block("Press", kg=70), 7), weeks=[mine])

    assert load_in(found.block_on(on(7)), "press", 2) == Load.of(40)
    assert found.other_keys("press", on(7)) == {"push"}
    assert found.other_keys("push", on(0)) == {"press"}
    assert course(first=FIRST).other_keys("push", on(0)) == frozenset()


STAYS = [
    (block("Push", "Pull"), Stays(week=3)),
    (block("Push", "Rows"), Stays(week=3)),
    (block("Push"), Stays(week=3, days_gone=("Pull",))),
    (block("Push", "Pull", weeks=2), Stays(week=3, gone=True)),
]


@pytest.mark.parametrize(("after", "found"), STAYS)
def test_what_becomes_of_a_changed_week_is_told(after: Block, found: Stays) -> None:
    before = block("Push", "Pull")

    assert stays(changed_week(before, 3), before, after) == found


def test_a_day_that_not_even_the_block_before_had_is_told_by_its_key() -> None:
    changed = ChangedWeek(week=1, days=(ChangedDay(key="legs", rows=()),))

    assert stays(changed, FIRST, SECOND) == Stays(week=1, days_gone=("legs",))


def planned(
    found: Course, first: int, last: int, days: Sequence[Weekday] = DAYS
) -> list[tuple[int, str, int]]:
    return [
        (each.week_no, each.day_key, (each.on - START).days)
        for each in planned_days(found, days, on(first), on(last))
    ]


THREE = block("A", "B", "C")
PLANNED = [
    # From its second week on, two days a week.
    (
        course((block("A", "B"), 7), first=THREE),
        [(1, "a", 0), (1, "b", 2), (1, "c", 4), (2, "a", 7), (2, "b", 9)],
    ),
    # In the middle of a week: what the week has had does not come again, the rest comes in its new order.
    (course((block("C", "B", "A"), 2), first=THREE), [(1, "a", 0), (1, "c", 2), (1, "b", 4)]),
    (course((block("A", "C", "B"), 2), first=THREE), [(1, "a", 0), (1, "c", 2), (1, "b", 4)]),
    (course((block("B", "A"), 2), first=block("A", "B")), [(1, "a", 0), (1, "b", 2)]),
    # Nothing was before it in that week.
    (course((block("C", "A", "B"), 7), first=THREE), [(1, "a", 0), (1, "b", 2), (1, "c", 4), (2, "c", 7)]),
    # It has no week any more.
    (course((block("A", weeks=1), 7), first=THREE), [(1, "a", 0), (1, "b", 2), (1, "c", 4)]),
]


@pytest.mark.parametrize(("found", "comes"), PLANNED)
def test_each_date_has_the_day_of_the_version_that_holds_on_it(
    found: Course, comes: list[tuple[int, str, int]]
) -> None:
    assert planned(found, 0, 13)[: len(comes)] == comes
    assert planned(found, 0, comes[-1][2]) == comes


def test_a_day_that_has_another_name_does_not_come_twice_in_a_week() -> None:
    found = course((block("A2", "Press", "D"), 2), first=block("A", "Push", "C"))

    assert planned(found, 0, 6) == [(1, "a", 0), (1, "press", 2), (1, "d", 4)]


def test_what_is_over_may_have_asked_for_more_days_than_she_trains_on_now() -> None:
    found = course((block("A", "B"), 7), first=THREE)
    two = (Weekday.TUE, Weekday.THU)

    assert planned(found, 7, 13, two) == [(2, "a", 7), (2, "b", 9)]
    with pytest.raises(TooFewTrainingDays):
        planned(found, 6, 13, two)


@given(
    st.integers(-10, 40),
    st.lists(st.tuples(st.integers(1, 3), st.integers(1, 6), st.integers(-3, 45)), max_size=3),
)
def test_no_day_of_a_week_ever_comes_twice(first: int, versions: list[tuple[int, int, int]]) -> None:
    names = "ABC"
    later = [(block(*names[:days], weeks=weeks), step) for days, weeks, step in versions]
    found = planned_days(course(*later, first=THREE), DAYS, on(first), on(60))

    assert len({(each.week_no, each.day_key) for each in found}) == len(found)
    assert list(found) == sorted(found, key=lambda each: each.on)
    assert all(each.on >= on(first) for each in found)


@given(blocks(), st.integers(0, 90))
@examples(40)
def test_without_another_version_the_dates_are_those_of_the_calendar(found: Block, step: int) -> None:
    every = tuple(Weekday)

    assert planned_days(course(first=found), every, on(step), date.max) == sessions_between(
        found, START, every, on(step), date.max
    )
