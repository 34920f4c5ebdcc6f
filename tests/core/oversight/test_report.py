"""The report of a block: planned and done, lifts, muscles, targets, pain, and what the options rest on."""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from core.loads.trend import Direction, NoTrend, Trend
from core.oversight.misses import Tally
from core.oversight.options import Code, OptionKind
from core.oversight.report import mean_reps
from core.oversight.report_parts import PainAt, Report
from core.programme.block import Target
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Side, Site
from core.programme.muscles import Muscle
from core.programme.prescription import Load
from core.units import Mass
from tests.core.oversight.blocks_done import FIRST, block, day, reported, rising


def target(exercise: str, load: str, reps: int = 5, week: int = 8) -> Target:
    return Target(exercise=exercise, load=Load.of(load), reps=reps, week=week)


def speaks(
    found: Report, kind: OptionKind
) -> tuple[dict[Code, tuple[str, ...]], dict[Code, tuple[str, ...]]]:
    option = next(each for each in found.options if each.kind is kind)
    return (
        {each.code: each.names for each in option.speaks_for},
        {each.code: each.names for each in option.speaks_against},
    )


def test_each_week_says_what_was_written_and_what_was_done() -> None:
    sessions = [
        day(1, "done", ("hip-thrust", "90", (8, 8, 8, 0))),
        day(1, "missed", later=3),
        day(2, "left_out"),
    ]

    found = reported(sessions)

    first, second, fifth = found.by_week[0], found.by_week[1], found.by_week[4]
    assert (first.sessions, first.counted, first.sets, first.done) == (2, Tally(kept=1, due=2), 16, 3)
    assert (second.counted, second.done) == (Tally(kept=0, due=1), 0)
    assert (first.lighter, fifth.lighter, fifth.sets) == (False, True, 8)
    assert found.kept == Tally(kept=1, due=3)
    assert found.sets == (3, 7 * 16 + 8)


def test_a_report_so_far_counts_what_is_written_up_to_this_week() -> None:
    found = reported([day(1, "done", ("hip-thrust", "90", (8, 8)))], today=FIRST + timedelta(days=8))

    assert (found.week, found.weeks_seen, found.over) == (2, 2, False)
    assert found.sets == (2, 32)


def test_a_block_that_is_to_begin_has_nothing_to_say() -> None:
    found = reported([], today=FIRST - timedelta(days=3))

    assert (found.weeks_seen, found.muscles, found.lifts, found.sets) == (0, (), (), (0, 0))
    assert found.kept == Tally()


def test_a_block_is_over_the_day_after_its_last() -> None:
    assert not reported([], today=FIRST + timedelta(days=55)).over
    assert reported([], today=FIRST + timedelta(days=56)).over


def test_main_lifts_go_from_the_heaviest_set_of_the_first_session_to_that_of_the_last() -> None:
    sessions = [
        day(1, "done", ("hip-thrust", "90", (8, 9, 8)), ("leg-curl", "30", (10,))),
        day(2, "done", ("hip-thrust", "95", (6,)), ("lateral-raise", None, (12,))),
        day(3, "done", ("bench-press", None, (8,)), ("hip-thrust", "95", (0,))),
    ]

    found = reported(sessions)

    hip, bench = found.lifts
    assert (hip.exercise.key, hip.sessions, hip.trend) == ("hip-thrust", 2, NoTrend.FEW)
    assert (str(hip.first.load), hip.first.reps, str(hip.last.load), hip.last.reps) == (
        "90 kg",
        9,
        "95 kg",
        6,
    )
    assert (bench.first.load, bench.first == bench.last) == (None, True)


def test_the_last_full_session_of_a_lift_is_the_one_before_a_lighter_week() -> None:
    sessions = [
        day(4, "done", ("hip-thrust", "97.5", (8, 8)), ("bench-press", "50", (8,))),
        day(5, "done", ("hip-thrust", "92.5", (6,)), ("deadlift", "80", (5,))),
        day(6, "done", ("bench-press", "40", (8,)), light="deload"),
        day(7, "done", ("bench-press", "42.5", (8,)), light="eased"),
    ]

    lifts = {each.exercise.key: each for each in reported(sessions).lifts}

    hip, bench = lifts["hip-thrust"], lifts["bench-press"]
    assert (str(hip.last.load), hip.full and (str(hip.full.load), hip.full.week)) == (
        "92.5 kg",
        ("97.5 kg", 4),
    )
    assert (str(bench.last.load), bench.full and str(bench.full.load)) == ("42.5 kg", "50 kg")
    assert lifts["deadlift"].full is None


def test_a_trend_is_told_where_there_are_points_enough() -> None:
    found = reported(rising())

    hip = next(each for each in found.lifts if each.exercise.key == "hip-thrust")
    bench = next(each for each in found.lifts if each.exercise.key == "bench-press")
    assert isinstance(hip.trend, Trend)
    assert hip.trend.direction is Direction.RISING
    assert hip.trend.low > 0
    assert bench.stalled
    speaks_for, against = speaks(found, OptionKind.SAME)
    assert speaks_for[Code.RISING] == ("Hip thrust",)
    assert against[Code.STALLED] == ("Bench press",)


def test_a_lift_that_goes_down_speaks_against_the_same_again() -> None:
    _, against = speaks(reported(rising(step=-4)), OptionKind.SAME)

    assert against[Code.FALLING] == ("Hip thrust",)


def test_a_lift_that_fell_in_the_last_three_sessions_is_falling_without_a_trend() -> None:
    sessions = [
        day(week, "done", ("hip-thrust", load, (8, 8))) for week, load in ((1, "100"), (2, "94"), (3, "88"))
    ]

    found = reported(sessions)

    assert (found.lifts[0].falling, found.lifts[0].trend) == (True, NoTrend.FEW)
    assert speaks(found, OptionKind.LIGHTER)[0][Code.FALLING] == ("Hip thrust",)


def test_a_lift_of_few_sessions_is_unknown() -> None:
    _, against = speaks(reported([day(1, "done", ("hip-thrust", "90", (8,)))]), OptionKind.FEWER_REPS)

    assert against[Code.NO_TREND] == ("Hip thrust",)


def test_a_lift_whose_trend_says_nothing_is_in_none_of_them() -> None:
    loads = ("90", "95", "85", "96", "90", "86", "97", "91")
    found = reported([day(week, "done", ("hip-thrust", load, (8, 8))) for week, load in enumerate(loads, 1)])

    assert isinstance(found.lifts[0].trend, Trend)
    assert found.lifts[0].trend.direction is Direction.UNSURE
    for kind in OptionKind:
        assert not {Code.RISING, Code.FALLING, Code.NO_TREND, Code.STALLED} & set(speaks(found, kind)[0])


def test_hard_sets_a_muscle_are_means_over_the_weeks_seen() -> None:
    found = reported([day(1, "done", ("leg-curl", "30", (10, 10)))], today=FIRST + timedelta(days=8))

    told = {each.muscle: (each.planned, each.done) for each in found.muscles}
    assert told[Muscle.HAMSTRINGS][1] == Decimal(1)
    assert told[Muscle.CHEST] == (Decimal(4), Decimal(0))
    assert Muscle.HAMSTRINGS in told
    assert list(told) == [each for each in Muscle if each in told]


def test_a_target_is_reached_by_a_set_of_its_load_and_reps_in_its_weeks() -> None:
    sessions = [
        day(1, "done", ("hip-thrust", "100", (4, 5)), ("bench-press", "60", (5,))),
        day(3, "done", ("hip-thrust", "110", (5,)), ("bench-press", "70", (3, 2))),
        day(4, "done", ("bench-press", "70", (5,))),
    ]

    found = reported(
        sessions,
        target("hip-thrust", "100", week=2),
        target("bench-press", "70", week=3),
        target("leg-curl", "40", week=8),
        today=FIRST + timedelta(days=25),
    )

    hip, bench, curl = found.targets
    assert hip.met is not None
    assert (hip.met.on, hip.met.reps, hip.best, hip.over) == (FIRST, 5, None, True)
    assert bench.best is not None
    assert (bench.met, str(bench.best.load), bench.best.reps, bench.over) == (None, "60 kg", 5, True)
    assert (curl.met, curl.best, curl.over) == (None, None, False)
    assert {each.code: (each.count, each.of) for each in found.options[0].speaks_against}[Code.TARGETS] == (
        1,
        2,
    )


def test_the_nearest_set_may_have_too_few_reps_and_another_kind_of_load_reaches_nothing() -> None:
    hanging = Target(exercise="hip-thrust", load=Load.of("100"), reps=10, week=8)
    body = Target(exercise="bench-press", load=Load.bodyweight(Mass.of("5")), reps=5, week=8)

    found = reported(
        [day(1, "done", ("hip-thrust", "120", (8,)), ("bench-press", "50", (8,)))], hanging, body
    )

    assert [each.met for each in found.targets] == [None, None]
    assert found.targets[0].best is not None
    assert found.targets[0].best.reps == 8


def test_a_set_without_a_load_reaches_no_target() -> None:
    found = reported([day(1, "done", ("hip-thrust", None, (8,)))], target("hip-thrust", "20"))

    assert found.targets[0].met is None


def test_pain_of_the_last_two_weeks_counts_as_of_now() -> None:
    last = FIRST + timedelta(days=55)
    knee = PainAt(
        site=Site.KNEE,
        side=Side.LEFT,
        felt=((FIRST, 5), (last - timedelta(days=13), 2), (last, 0), (last, None)),
    )
    back = PainAt(site=Site.LOW_BACK, side=None, felt=((FIRST, None),))

    found = reported([], pain=(knee, back))

    told = next(each for each in found.options[0].speaks_against if each.code is Code.PAIN)
    assert (told.count, told.worst, told.late) == (5, 5, 2)
    assert (knee.worst, back.worst) == (5, None)


def test_a_plan_on_hold_speaks_against_more() -> None:
    for kind in (OptionKind.SAME, OptionKind.FEWER_REPS):
        assert Code.HELD in speaks(reported([], held=True), kind)[1]


@pytest.mark.parametrize(("week", "reps"), [(0, None), (1, 8), (5, 8)])
def test_mean_reps_are_those_of_the_last_week_that_is_no_lighter_one(week: int, reps: int | None) -> None:
    assert mean_reps(block(8), week, CATALOGUE) == (None if reps is None else Decimal(reps))


def test_weeks_are_counted_since_the_last_lighter_one() -> None:
    def since(today: date) -> Decimal:
        lighter = reported([], today=today).options[2]
        both = (*lighter.speaks_for, *lighter.speaks_against)
        return next(each.count for each in both if each.code is Code.LIGHTER_SINCE)

    assert since(FIRST + timedelta(days=22)) == 4
    assert since(FIRST + timedelta(days=30)) == 0
    assert since(FIRST + timedelta(days=60)) == 3
