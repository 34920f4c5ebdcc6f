"""Another day for a session: check values of the trade for Monday, Wednesday and Friday, and what must never come out.

The options and the two days between main patterns are common practice, no source; the share of sets, the number of
patterns and the two dates offered are our proposal.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.block import Weekday
from core.programme.exercises import Pattern
from core.programme.replanning import (
    APART,
    DATES,
    Booked,
    How,
    Option,
    Work,
    fits,
    left_out_for,
    mains,
    merge,
    options,
    slides,
)

MON, TUE, WED, THU, FRI, SAT, SUN = (date(2026, 4, 13) + timedelta(days=step) for step in range(7))
NEXT_MON = MON + timedelta(days=7)
FULL = (Pattern.SQUAT, Pattern.HORIZONTAL_PRESS, Pattern.HORIZONTAL_PULL)
WITHOUT_SATURDAY = (Weekday.MON, Weekday.WED, Weekday.FRI)
WITH_SATURDAY = (*WITHOUT_SATURDAY, Weekday.SAT)
LEAVE_OUT = Option(how=How.LEAVE_OUT)


def lifts(name: str, *patterns: Pattern, accessories: int = 2, sets: int = 3) -> tuple[Work, ...]:
    """Main lifts, then accessories for the trunk."""
    main = [
        Work(exercise=f"{name}-{place}", order=chr(65 + place), sets=sets, pattern=pattern, main=True)
        for place, pattern in enumerate(patterns)
    ]
    more = [
        Work(exercise=f"{name}-more-{place}", order=f"X{place}", sets=sets, pattern=Pattern.TRUNK)
        for place in range(accessories)
    ]
    return (*main, *more)


def full_body(number: int, on: date, *, movable: bool = True) -> Booked:
    return Booked(session_id=number, on=on, work=lifts(f"day{number}", *FULL), movable=movable)


A, B, C, NEXT_A = (
    full_body(number, on, movable=number < 4) for number, on in enumerate((MON, WED, FRI, NEXT_MON), 1)
)


# Check values for full body on Monday, Wednesday and Friday: common practice, no source.


def test_wednesday_leaves_only_24_hours_on_thursday_so_both_slide_where_saturday_can_be_had() -> None:
    around = (A, C, NEXT_A)

    assert slides(B, around, THU, SUN) == ()
    assert options(B, around, WITH_SATURDAY, THU, SUN) == (
        Option(how=How.SLIDE_BOTH, on=THU, other=3, other_on=SAT),
        Option(how=How.MERGE, on=FRI, other=3),
        LEAVE_OUT,
    )


def test_without_saturday_the_main_lift_of_wednesday_goes_into_friday() -> None:
    assert options(B, (A, C, NEXT_A), WITHOUT_SATURDAY, THU, SUN) == (
        Option(how=How.MERGE, on=FRI, other=3),
        LEAVE_OUT,
    )


def test_friday_may_slide_to_saturday_and_not_to_sunday() -> None:
    assert options(C, (A, B, NEXT_A), WITHOUT_SATURDAY, SAT, SUN) == (
        Option(how=How.SLIDE, on=SAT),
        LEAVE_OUT,
    )


def test_friday_that_is_asked_about_on_saturday_is_left_out() -> None:
    assert options(C, (A, B, NEXT_A), WITH_SATURDAY, SUN, SUN) == (LEAVE_OUT,)


def test_saturday_itself_leaves_48_hours_to_monday() -> None:
    assert NEXT_A.on - SAT == APART == timedelta(hours=48)


def test_what_shares_no_main_pattern_may_stand_beside_it_but_never_on_its_date() -> None:
    legs = Booked(session_id=1, on=TUE, work=lifts("legs", Pattern.SQUAT))
    push = Booked(session_id=2, on=THU, work=lifts("push", Pattern.HORIZONTAL_PRESS), movable=True)

    assert slides(legs, (push,), WED, SUN) == (WED, FRI, SAT, SUN)
    assert options(legs, (push,), WITHOUT_SATURDAY, WED, SUN) == (
        Option(how=How.SLIDE, on=WED),
        Option(how=How.SLIDE, on=FRI),
        Option(how=How.MERGE, on=THU, other=2),
        LEAVE_OUT,
    )


def test_what_has_begun_makes_no_room_and_takes_no_lift_in() -> None:
    begun = C.model_copy(update={"movable": False})

    assert options(B, (A, begun, NEXT_A), WITH_SATURDAY, THU, SUN) == (LEAVE_OUT,)


def test_a_lift_goes_into_no_session_that_has_taken_one_in() -> None:
    taken = C.model_copy(update={"takes_in": True})

    assert merge(B, (A, taken, NEXT_A), THU) is None


def test_a_lift_keeps_its_48_hours_where_it_is_merged() -> None:
    squat = Booked(session_id=1, on=TUE, work=lifts("one", Pattern.SQUAT))
    press = Booked(session_id=2, on=THU, work=lifts("two", Pattern.VERTICAL_PRESS), movable=True)
    other_squat = Booked(session_id=3, on=FRI, work=lifts("three", Pattern.SQUAT), movable=True)

    assert merge(squat, (press, other_squat), WED) is None
    assert merge(squat, (press,), WED) == Option(how=How.MERGE, on=THU, other=2)


def test_a_session_without_work_has_no_lift_to_give() -> None:
    assert merge(Booked(session_id=1, on=TUE), (C,), WED) is None


def test_both_slide_only_as_far_as_the_week_goes() -> None:
    assert options(B, (A, C, NEXT_A), WITH_SATURDAY, THU, FRI) == (
        Option(how=How.MERGE, on=FRI, other=3),
        LEAVE_OUT,
    )


def test_the_first_exercise_is_the_main_one_where_none_is_marked() -> None:
    work = lifts("light", accessories=3)

    assert mains(work) == work[:1]
    assert mains(()) == ()
    assert Booked(session_id=1, on=MON, work=work).patterns == {Pattern.TRUNK}


SQUAT = Work(exercise="squat", order="A", sets=4, pattern=Pattern.SQUAT, main=True)


@pytest.mark.parametrize(
    ("plan", "gone"),
    [
        # 12 + 4 sets are over 15 (1.3 of 12 is 15.6): one accessory of 3 goes, the last.
        (lifts("a", Pattern.HINGE, Pattern.DIP), (3,)),
        # 15 + 4 are 19, and 1.3 of 15 is 19.5: all of it stays.
        (lifts("a", Pattern.HINGE, Pattern.DIP, accessories=3), ()),
        # 6 + 4 are over 7: the only accessory makes room.
        (lifts("a", Pattern.HINGE, accessories=1), (1,)),
        # 3 + 4 are over 3, and a main lift is not left out for another.
        (lifts("a", Pattern.HINGE, accessories=0), None),
        # 6 + 4 are over 7, and neither of two main lifts may go.
        (lifts("a", Pattern.HINGE, Pattern.DIP, accessories=0), None),
        # Four main patterns are one too many.
        (lifts("a", Pattern.HINGE, Pattern.DIP, Pattern.CARRY, accessories=3), None),
        # The same pattern again is not one more.
        (lifts("a", Pattern.HINGE, Pattern.DIP, Pattern.SQUAT, accessories=3), ()),
        # The same exercise twice in a session says nothing about either.
        ((SQUAT.model_copy(update={"order": "B"}), *lifts("a", Pattern.HINGE)), None),
        ((), None),
    ],
)
def test_what_makes_room_for_a_lift(plan: tuple[Work, ...], gone: tuple[int, ...] | None) -> None:
    assert left_out_for(SQUAT, plan) == gone


PATTERNS = st.sampled_from([Pattern.SQUAT, Pattern.HINGE, Pattern.DIP, Pattern.HORIZONTAL_PULL])
WORK = st.lists(st.tuples(PATTERNS, st.integers(1, 6), st.booleans()), min_size=1, max_size=6)


@st.composite
def calendars(draw: st.DrawFn) -> tuple[Booked, list[Booked]]:
    """A week with a session before its date, and what else is on the dates around it."""
    dates = draw(st.lists(st.integers(-3, 10), min_size=1, max_size=7, unique=True))
    booked = [
        Booked(
            session_id=number,
            on=MON + timedelta(days=step),
            work=tuple(
                Work(
                    exercise=f"{number}-{place}", order=f"A{place + 1}", sets=sets, pattern=pattern, main=main
                )
                for place, (pattern, sets, main) in enumerate(draw(WORK))
            ),
            movable=0 <= step < 7 and draw(st.booleans()),
        )
        for number, step in enumerate(dates)
    ]
    return booked[0], booked[1:]


@given(calendars(), st.sets(st.sampled_from(Weekday)), st.integers(0, 6))
def test_no_option_breaks_a_rule(
    calendar: tuple[Booked, list[Booked]], days: set[Weekday], first: int
) -> None:
    missed, others = calendar
    found = options(missed, others, days, MON + timedelta(days=first), SUN)

    assert found[-1] == LEAVE_OUT
    assert len(found) <= DATES + 2
    for option in found[:-1]:
        assert option.on is not None
        assert MON + timedelta(days=first) <= option.on <= SUN
        after = {each.session_id: each for each in others}
        if option.how is How.MERGE:
            assert option.other is not None
            _check_merge(
                missed, after[option.other], [each for each in others if each.session_id != option.other]
            )
            continue
        if option.other is not None:
            assert option.other_on is not None
            assert after[option.other].on < option.other_on <= SUN
            assert option.other_on.weekday() in days
            after[option.other] = after[option.other].model_copy(update={"on": option.other_on})
        moved = missed.model_copy(update={"on": option.on})
        for one in (moved, *([after[option.other]] if option.other is not None else [])):
            rest = [each for each in (moved, *after.values()) if each.session_id != one.session_id]
            assert fits(one.on, one.patterns, rest)
            assert all(each.on != one.on for each in rest)
            assert all(abs((each.on - one.on).days) >= 2 or not each.patterns & one.patterns for each in rest)


def _check_merge(missed: Booked, into: Booked, rest: list[Booked]) -> None:
    lift = missed.mains[0]
    gone = left_out_for(lift, into.work)
    assert gone is not None
    kept = [each for place, each in enumerate(into.work) if place not in gone]
    planned = sum(each.sets for each in into.work)
    assert sum(each.sets for each in kept) + lift.sets <= planned * 1.3
    assert set(into.mains) <= set(kept)
    assert len({lift.pattern, *(each.pattern for each in into.mains)}) <= 3
    assert all(abs((each.on - into.on).days) >= 2 or lift.pattern not in each.patterns for each in rest)
