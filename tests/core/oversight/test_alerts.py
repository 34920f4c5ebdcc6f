"""What of the log is a matter for the coach, and what is none."""

from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.ladder import Ladder
from core.loads.outcome import Decision, Kind, LastSet, LoadLine, PlannedSet, Reason, SetPlan
from core.loads.past import Exposure
from core.oversight.alerts import (
    SECOND_AFTER,
    TOLD_AGAIN,
    LeftUnder,
    OverLine,
    Unanswered,
    block_told_on,
    falling,
    is_late,
    left_under,
    most_given,
    next_telling,
    over_line,
    stalled,
    unanswered,
    video_told_at,
)
from core.oversight.waiting import LiftCourse
from core.policy import Policy
from core.programme.prescription import Load
from core.programme.set_styles import SetStyle, StyleKind
from core.units import Mass
from tests.core.loads.lifts import day, done, dose
from tests.core.loads.worked import MONDAY, estimates

POLICY = Policy()
NOON = datetime(2026, 4, 14, 12, tzinfo=UTC)
FIVES = Ladder(steps=tuple(Mass.of(each) for each in range(20, 205, 5)))


def kg(text: str) -> list[Mass]:
    return [Mass.of(each) for each in text.split()]


def test_a_matter_is_told_again_after_15_and_60_minutes_and_then_to_the_second_person() -> None:
    after = [next_telling(NOON, times) for times in range(4)]

    assert after == [NOON + timedelta(minutes=each) for each in (15, 60, 75)] + [None]
    assert (*TOLD_AGAIN, SECOND_AFTER) == tuple(sorted((*TOLD_AGAIN, SECOND_AFTER)))


def test_after_an_outage_it_is_not_told_twice_in_one_breath() -> None:
    late = NOON + timedelta(hours=5)

    assert next_telling(NOON, 1, late) == late + timedelta(minutes=15)
    assert next_telling(NOON, 1, NOON + timedelta(minutes=15)) == NOON + timedelta(minutes=60)
    assert next_telling(NOON, 3, late) is None


@pytest.mark.parametrize(
    ("masses", "by", "grown"),
    [
        ("100 97 94", "0.06", 1),
        ("100 97 88.5", "0.115", 1),
        ("100 97 88", "0.12", 2),
        ("100 97 82", "0.18", 3),
    ],
)
def test_a_fall_grows_with_each_further_six_percent(masses: str, by: str, grown: int) -> None:
    course = LiftCourse(exercise="bench-press", since=MONDAY, by=Decimal(by), times=3)

    assert falling("bench-press", estimates(masses), POLICY) == (course, grown)


@pytest.mark.parametrize("masses", ["", "100 97", "100 97 95", "94 97 100"])
def test_what_does_not_fall_is_no_matter(masses: str) -> None:
    assert falling("bench-press", estimates(masses), POLICY) is None


@pytest.mark.parametrize("why", ["deload", "comeback"])
def test_a_deload_and_a_comeback_are_no_fall(why: str) -> None:
    assert falling("bench-press", estimates("100 97 94", **{why: True}), POLICY) is None


@pytest.mark.parametrize(
    ("masses", "times", "grown"), [("100 98 99 100 97", 4, 1), ("100" + " 98" * 8, 8, 2)]
)
def test_a_stall_grows_with_each_further_four_weeks(masses: str, times: int, grown: int) -> None:
    course = LiftCourse(exercise="bench-press", since=MONDAY, times=times)

    assert stalled("bench-press", estimates(masses), POLICY) == (course, grown)


@pytest.mark.parametrize("masses", ["", "100 98 99 97", "100 98 99 101 97"])
def test_what_gains_or_is_new_has_not_stalled(masses: str) -> None:
    assert stalled("bench-press", estimates(masses), POLICY) is None


@pytest.mark.parametrize(
    ("lifted", "line", "top"),
    [
        ("100 100 100", 100, None),
        ("105", 100, None),  # one step
        ("105.1", 100, "105.1"),  # more than a step
        ("100 110 105", 100, "110"),
        ("22.5", 20, None),  # half a step, and 12 % over: the share counts
        ("30", 25, None),
    ],
)
def test_far_over_the_line_is_more_than_a_step(lifted: str, line: int, top: str | None) -> None:
    no_share = POLICY.model_copy(update={"over_line": Decimal("0.5")})
    found = over_line(kg(lifted), Mass.of(line), FIVES, no_share)

    assert (found.load if found else None) == (Mass.of(top) if top else None)


@pytest.mark.parametrize(
    ("lifted", "line", "grown"), [("110", 100, None), ("110.1", 100, 1), ("125", 100, 2), ("20", 10, 10)]
)
def test_far_over_the_line_is_more_than_a_tenth_and_grows_by_tenths(
    lifted: str, line: int, grown: int | None
) -> None:
    found = over_line(kg(lifted), Mass.of(line), Ladder(steps=()), POLICY)

    wanted = grown and OverLine(load=Mass.of(lifted), line=Mass.of(line), grown=grown)
    assert found == wanted


def test_a_line_of_nothing_or_less_has_no_share_and_one_step_counts() -> None:
    steps = Ladder(steps=(Mass.of(-20), Mass.of(-10), Mass.of(0), Mass.of(5), Mass.of(10)))

    assert over_line(kg("5"), Mass.of(0), steps, POLICY) is None
    assert over_line(kg("10"), Mass.of(0), steps, POLICY) == OverLine(
        load=Mass.of(10), line=Mass.of(0), grown=1
    )
    assert over_line(kg("-10"), Mass.of(-20), steps, POLICY) is None


def test_without_a_line_or_a_load_nothing_is_over() -> None:
    assert over_line(kg("100"), None, FIVES, POLICY) is None
    assert over_line([], Mass.of(20), FIVES, POLICY) is None


@given(
    st.lists(st.integers(1, 400).map(Mass.of), min_size=1, max_size=6),
    st.integers(1, 400).map(Mass.of),
    st.integers(1, 400).map(Mass.of),
)
def test_a_lower_line_never_tells_less(lifted: list[Mass], one: Mass, other: Mass) -> None:
    low, high = sorted((one, other))
    under, over = (over_line(lifted, line, FIVES, POLICY) for line in (low, high))

    assert under is not None or over is None
    if over is not None and under is not None:
        assert under.grown >= over.grown


def decided(line: Mass | None, plan: SetPlan | None = None) -> Decision:
    return Decision(
        kind=Kind.HOLD,
        load=Load.of(80),
        sets=4,
        target=6,
        left=2,
        line=LoadLine(mass=line),
        reasons=(Reason(code="x"),),
        plan=plan,
    )


def test_what_a_card_gave_is_never_over_the_line() -> None:
    plan = SetPlan(
        table="A",
        sets=(PlannedSet(load=Load.of(60), reps=6), PlannedSet(load=Load.of(80), reps=6, to_limit=True)),
        last=(LastSet(reps_from=0, load=Load.bodyweight()), LastSet(reps_from=5, load=Load.of(85))),
    )

    assert most_given(decided(None), Mass.of(80)) is None
    assert most_given(decided(Mass.of(80)), None) == Mass.of(80)
    assert most_given(decided(Mass.of(80)), Mass.of(90)) == Mass.of(90)
    assert most_given(decided(Mass.of(80), plan), Mass.of(80)) == Mass.of(85)
    assert most_given(decided(Mass.of(100), plan), Mass.of(80)) == Mass.of(100)


def ended(*lefts: int | None, asked: int | None = 2, **facts: object) -> list[Exposure]:
    """Exposures a week apart, each ending with so many reps left."""
    ago = [7 * (len(lefts) - place) for place in range(len(lefts))]
    wanted = dose(2, "8", "60", left=asked).model_copy(update=facts)
    return [done(each, wanted, "8 8", left=left) for each, left in zip(ago, lefts, strict=True)]


@pytest.mark.parametrize(
    ("lefts", "times"),
    [
        ((0, 0), 2),
        ((2, 0, 0), 2),
        ((0, 0, 0, 0), 4),
        ((0,), None),
        ((0, 1), None),
        ((0, None, 0), None),
        ((0, 0, 2), None),
        ((), None),
    ],
)
def test_none_left_counts_twice_running(lefts: tuple[int | None, ...], times: int | None) -> None:
    found = left_under(ended(*lefts), POLICY)

    wanted = times and LeftUnder(asked=2, first=day(7 * times), times=times)
    assert found == wanted
    assert found is None or found.grown == found.times // 2


@pytest.mark.parametrize(("asked", "is_told"), [(0, False), (1, False), (2, True), (3, True), (None, True)])
def test_none_left_is_far_under_only_where_two_were_asked(asked: int | None, is_told: bool) -> None:
    assert (left_under(ended(0, 0, asked=asked), POLICY) is not None) is is_told


def test_sets_to_the_limit_end_with_none_left_and_are_no_matter() -> None:
    rest_pause = SetStyle(kind=StyleKind.REST_PAUSE)

    assert left_under(ended(0, 0, or_more=True), POLICY) is None
    assert left_under(ended(0, 0, style=rest_pause), POLICY) is None


def test_a_video_stands_in_the_digest_after_two_days_and_is_told_after_five() -> None:
    assert not is_late(NOON, NOON + timedelta(hours=47, minutes=59), POLICY)
    assert is_late(NOON, NOON + timedelta(hours=48), POLICY)
    assert video_told_at(NOON, POLICY) == NOON + timedelta(days=5)


@pytest.mark.parametrize(
    ("answered", "times"),
    [
        ((True, False, False), 2),
        ((False, False, False), 3),
        ((False, False, True), None),
        ((False,), None),
        ((True, False), None),
        ((), None),
    ],
)
def test_check_ins_are_a_matter_when_none_was_answered_for_two_weeks(
    answered: tuple[bool, ...], times: int | None
) -> None:
    today = date(2026, 4, 26)
    asked = [
        (today - timedelta(days=7 * (len(answered) - place)), is_answered)
        for place, is_answered in enumerate(answered)
    ]

    wanted = times and Unanswered(first=today - timedelta(days=7 * times), times=times)
    assert unanswered(asked, today, POLICY) == wanted


def test_two_check_ins_within_two_weeks_are_not_long() -> None:
    today = date(2026, 4, 26)

    assert unanswered([(today - timedelta(days=13), False), (today, False)], today, POLICY) is None


def test_a_block_is_told_a_week_before_its_end_and_a_short_one_not_at_once() -> None:
    starts = date(2026, 4, 6)

    assert block_told_on(starts, date(2026, 5, 3), POLICY) == date(2026, 4, 26)
    assert block_told_on(starts, date(2026, 4, 12), POLICY) == date(2026, 4, 9)
