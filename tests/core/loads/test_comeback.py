import pytest
from rows import each_row

from core.loads.decision import Lifter
from tests.core.loads.lifts import BARE, brief, codes, day, decide, done, dose

ASKED = dose(4, "8", "100")


def back(percent: int) -> object:
    return dose(4, "8", str(percent))


@pytest.mark.parametrize(
    ("days", "expected", "older"),
    [
        (7, "raise 102.5 kg 4x8 left 2: raise done twice", "raise 102.5 kg 4x8 left 2: raise done twice"),
        (8, "hold 100 kg 4x8 left 3: comeback hold", "lower 90 kg 2x8 left 3: comeback"),
        (13, "hold 100 kg 4x8 left 3: comeback hold", "lower 90 kg 2x8 left 3: comeback"),
        (14, "lower 90 kg 2x8 left 3: comeback", "lower 80 kg 2x8 left 3: comeback"),
        (27, "lower 90 kg 2x8 left 3: comeback", "lower 80 kg 2x8 left 3: comeback"),
        (28, "lower 80 kg 2x8 left 3: comeback", "lower 80 kg 2x8 left 3: comeback coach"),
        (55, "lower 80 kg 2x8 left 3: comeback", "lower 80 kg 2x8 left 3: comeback coach"),
        (56, "lower 80 kg 2x8 left 3: comeback coach", "lower 80 kg 2x8 left 3: comeback coach"),
        (300, "lower 80 kg 2x8 left 3: comeback coach", "lower 80 kg 2x8 left 3: comeback coach"),
    ],
)
def test_the_first_session_back_by_days_away(days: int, expected: str, older: str) -> None:
    history = (done(days + 3, ASKED, "8 8 8 8"), done(days, ASKED, "8 8 8 8"))
    assert brief(decide("deadlift", ASKED, *history)) == expected
    assert brief(decide("deadlift", ASKED, *history, lifter=Lifter(age_band="60+"))) == older


def test_a_pattern_that_was_trained_meanwhile_has_had_no_break() -> None:
    history = (done(20, ASKED, "8 8 8 8"), done(17, ASKED, "8 8 8 8"))
    assert codes(decide("deadlift", ASKED, *history, last_trained=day(4))) == ["raise done twice"]


@pytest.mark.parametrize(
    ("trained_days_ago", "sets"),
    [((20, 16, 14), 2), ((13,), 4), ((9, 6, 2), 4), ((1,), 4), ((0,), 2), ((), 2)],
)
def test_who_went_on_training_everything_else_keeps_her_sets(
    trained_days_ago: tuple[int, ...], sets: int
) -> None:
    history = (done(17, ASKED, "8 8 8 8"), done(14, ASKED, "8 8 8 8"))
    meanwhile = tuple(day(ago) for ago in trained_days_ago)
    found = decide("deadlift", ASKED, *history, trained_on=meanwhile)
    assert brief(found) == f"lower 90 kg {sets}x8 left 3: comeback"


@pytest.mark.parametrize(
    ("days", "trained_days_ago", "older", "expected"),
    [
        (8, (3,), False, "raise 102.5 kg 4x8 left 2: raise done twice"),
        (13, (6,), False, "raise 102.5 kg 4x8 left 2: raise done twice"),
        (13, (7,), False, "hold 100 kg 4x8 left 3: comeback hold"),
        (9, (2,), True, "raise 102.5 kg 4x8 left 2: raise done twice"),
        (9, (9,), True, "lower 90 kg 2x8 left 3: comeback"),
        (14, (2,), False, "lower 90 kg 4x8 left 3: comeback"),
    ],
)
def test_a_lift_that_comes_some_days_late_in_a_trained_week_has_had_no_break(
    days: int, trained_days_ago: tuple[int, ...], older: bool, expected: str
) -> None:
    history = (done(days + 3, ASKED, "8 8 8 8"), done(days, ASKED, "8 8 8 8"))
    lifter = Lifter(age_band="60+" if older else "18-39")
    found = decide(
        "deadlift", ASKED, *history, lifter=lifter, trained_on=tuple(day(ago) for ago in trained_days_ago)
    )
    assert brief(found).replace(", age", "") == expected


def test_the_good_load_is_the_one_before_a_lighter_week() -> None:
    easy = dose(3, "8", "85")
    history = (
        done(28, ASKED, "8 8 8 8", written="100"),
        done(21, easy, "8 8 8", written="85"),
    )
    found = decide("deadlift", ASKED, *history, trained_on=(day(2),))
    assert brief(found) == "lower 90 kg 4x8 left 3: comeback"


@pytest.mark.parametrize(("trained_days_ago", "sets"), [((30, 24, 21), 2), ((30, 24, 20), 4)])
def test_the_second_session_back_looks_at_the_days_before_the_first(
    trained_days_ago: tuple[int, ...], sets: int
) -> None:
    history = (done(21, ASKED, "8 8 8 8"), done(7, back(90), "8 8"))
    meanwhile = tuple(day(ago) for ago in (*trained_days_ago, 7, 5, 3))
    assert decide("deadlift", ASKED, *history, trained_on=meanwhile).sets == sets


def way_back(away_days: int, *done_back: str) -> tuple[object, ...]:
    """A break of `away_days` that ended so that the last session was three days ago."""
    first = 3 * len(done_back)
    before = (done(first + away_days + 3, ASKED, "8 8 8 8"), done(first + away_days, ASKED, "8 8 8 8"))
    since = (done(first - 3 * place, dose(2, "8", load), "8 8") for place, load in enumerate(done_back))
    return (*before, *since)


@pytest.mark.parametrize(
    ("away_days", "loads", "expected"),
    [
        (20, ("90",), "raise 95 kg 2x8 left 3: comeback"),
        (20, ("90", "95"), "raise 100 kg 4x8 left 3: comeback"),
        (20, ("90", "95", "100"), "hold 100 kg 4x8 left 2: done once"),
        # The old load was back at once: nothing is left to come back to.
        (20, ("100",), "hold 100 kg 4x8 left 2: done once"),
        (
            20,
            ("90", "90", "90"),
            "raise 92.5 kg 4x8 left 2: raise done twice",
        ),
        (40, ("80",), "raise 85 kg 2x8 left 3: comeback"),
        (40, ("80", "85"), "raise 95 kg 3x8 left 3: comeback"),
        (40, ("80", "85", "95"), "raise 100 kg 3x8 left 3: comeback"),
        (60, ("80",), "hold 80 kg 2x8 left 3: comeback coach"),
        (60, ("80", "80", "80", "80", "80"), "hold 80 kg 2x8 left 3: comeback coach"),
    ],
)
def test_the_steps_of_a_way_back(away_days: int, loads: tuple[str, ...], expected: str) -> None:
    assert brief(decide("deadlift", ASKED, *way_back(away_days, *loads))) == expected


def test_a_step_that_was_missed_or_hard_is_not_followed_by_the_next() -> None:
    *before, _ = way_back(20, "90")
    missed = done(3, dose(2, "8", "90"), "8 7")
    assert brief(decide("deadlift", ASKED, *before, missed)) == "hold 90 kg 2x8 left 3: comeback, miss first"
    hard = done(3, dose(2, "8", "90"), "8 8", left=0)
    assert brief(decide("deadlift", ASKED, *before, hard)) == "hold 90 kg 2x8 left 3: comeback, few left"


def test_what_the_coach_lowers_meanwhile_stays_lower() -> None:
    *before, _ = way_back(20, "90")
    back = done(3, dose(2, "8", "90"), "8 8", written="100")
    assert codes(decide("deadlift", dose(4, "8", "85"), *before, back)) == ["comeback", "coach lower"]
    assert str(decide("deadlift", dose(4, "8", "85"), *before, back).load) == "85 kg"


def test_after_eight_weeks_only_the_coach_opens_the_way_back() -> None:
    history = way_back(60, "80")
    opened = decide("deadlift", ASKED, *history, comeback_set_on=day(5))
    assert brief(opened) == "raise 85 kg 2x8 left 3: comeback"
    first = decide("deadlift", ASKED, *way_back(60), comeback_set_on=day(1))
    assert brief(first) == "lower 80 kg 2x8 left 3: comeback"
    before_it_began = decide("deadlift", ASKED, *way_back(60), comeback_set_on=day(90))
    assert codes(before_it_began) == ["comeback coach"]


def test_the_reasons_of_a_way_back_say_where_it_stands() -> None:
    told = decide("deadlift", ASKED, *way_back(20, "90")).reasons[0]
    assert told.facts == {"days": "20", "load": "100 kg", "percent": "95", "step": "2", "steps": "3"}
    assert told.source == "CSCCa2019"


def test_the_good_load_is_the_last_that_was_done_and_not_the_last_tried() -> None:
    history = (done(23, ASKED, "8 8 8 8"), done(20, dose(4, "8", "105"), "8 8 7 6"))
    assert brief(decide("deadlift", ASKED, *history)) == "lower 90 kg 2x8 left 3: comeback"
    never = (done(20, ASKED, "7 7 7 7"),)
    assert brief(decide("deadlift", ASKED, *never)) == "lower 90 kg 2x8 left 3: comeback"


def test_volume_stays_under_thirty_in_the_weeks_back() -> None:
    many = dose(8, "12", "60")
    history = way_back(20, "90", "95")
    assert brief(decide("deadlift", dose(8, "8", "100"), *history)) == "raise 100 kg 5x8 left 3: comeback"
    assert decide("deadlift", many, done(20, many, "12 12 12 12 12 12 12 12")).sets == 3


def test_bodyweight_and_timed_sets_come_back_by_sets_alone() -> None:
    asked = dose(4, "6-10", "bw")
    pull = decide("pull-up", asked, done(20, asked, "9 9 9 9"), kit=BARE)
    assert brief(pull) == "hold bw 2x9 left 3: comeback"
    held = dose(4, "30-60", "bw", timed=True)
    plank = decide("plank", held, done(20, held, "50 50 50 50"), kit=BARE)
    assert brief(plank) == "hold bw 2x50: comeback"


def test_no_break_at_all_between_sessions_in_time() -> None:
    steady = [done(days, ASKED, "8 8 8 8") for days in (12, 9, 6, 3)]
    assert codes(decide("deadlift", ASKED, *steady)) == ["raise done twice"]
    later = [done(days, ASKED, "8 8 8 8") for days in (24, 14, 3)]
    assert codes(decide("deadlift", ASKED, *later)) == ["raise done twice"]


@each_row("back_already", range(5))
@each_row("days", [14, 28, 56])
def test_a_row_lower_for_age_is_never_more_sets(days: int, back_already: int) -> None:
    history = way_back(days, *(["80"] * back_already)) if back_already else (done(days, ASKED, "8 8 8 8"),)
    younger = decide("deadlift", ASKED, *history)
    older = decide("deadlift", ASKED, *history, lifter=Lifter(age_band="60+"))

    assert older.sets <= younger.sets
