from datetime import timedelta
from decimal import Decimal

import pytest

from core.loads.asked import asked_for
from core.loads.decision import Decision, Exposure, Inputs, Kind, Moment, SetDone, next_decision
from core.loads.equipment import Kit
from core.loads.own_line import of_these_reps
from core.loads.performance import performances
from core.programme.catalogue import exercise
from core.programme.prescription import Dose, Load
from core.units import Mass
from tests.core.loads.lifts import GYM, HOME, TODAY, decide, done, dose, inputs

FIVES, TENS = dose(3, "5", "100"), dose(3, "10", "80")


def told(decision: Decision) -> list[str]:
    return [one.code for one in decision.reasons]


def test_a_heavy_and_a_light_day_each_go_on_from_their_own_last_time() -> None:
    heavy, light = done(7, FIVES, "5 5 5", left=2), done(4, TENS, "10 10 10", left=2)
    decided = decide("back-squat", FIVES, done(14, FIVES, "5 5 5", left=2), heavy, light)

    assert (decided.kind, str(decided.load), decided.target) == (Kind.RAISE, "102.5 kg", 5)
    assert told(decided)[:2] == ["own reps", "raise done twice"]
    assert decided.reasons[0].facts == {"load": "100 kg", "date": "2026-04-07", "count": "5"}


def test_where_both_lines_stand_at_one_load_nothing_is_said_of_it() -> None:
    asked = dose(3, "10", "100")
    decided = decide("back-squat", FIVES, done(7, FIVES, "5 5 5"), done(4, asked, "10 10 10"))

    assert "own reps" not in told(decided)


def test_a_new_number_of_reps_is_reckoned_from_the_last_one() -> None:
    decided = decide("back-squat", dose(3, "8", None), done(7, FIVES, "5 5 5", left=2))

    assert told(decided)[0] == "reps changed"


def test_reps_of_more_than_four_weeks_ago_are_no_line_any_more() -> None:
    weeks = [done(days, TENS, "10 10 10", left=2) for days in (30, 23, 16, 9, 2)]
    decided = decide("back-squat", FIVES, done(31, FIVES, "5 5 5", left=2), *weeks)

    assert told(decided)[0] not in ("own reps", "raise done twice")


def test_work_for_other_reps_before_these_leaves_nothing_out() -> None:
    alone = decide("back-squat", FIVES, done(14, TENS, "10 10 10"), done(7, FIVES, "5 5 5", left=2))

    assert "own reps" not in told(alone)
    assert str(alone.load) == "100 kg"


def test_a_miss_on_the_light_day_lowers_the_light_day_alone() -> None:
    missed = [done(days, TENS, "10 9 7", left=0) for days in (11, 4)]
    past = [done(14, FIVES, "5 5 5"), missed[0], done(7, FIVES, "5 5 5"), missed[1]]

    assert decide("back-squat", TENS, *past).kind is Kind.LOWER
    assert str(decide("back-squat", FIVES, *past).load) == "102.5 kg"


def test_from_where_a_light_day_goes_on_is_told_as_well() -> None:
    decided = decide("back-squat", TENS, done(7, TENS, "10 10 10", left=2), done(4, FIVES, "5 5 5", left=2))

    assert told(decided)[0] == "own reps"
    assert decided.reasons[0].facts == {"load": "80 kg", "date": "2026-04-07", "count": "10"}


@pytest.mark.parametrize(
    ("fives", "tens", "counted"),
    [
        ((27,), (14, 0), [27]),
        ((28,), (14, 0), [28, 14, 0]),
        ((40, 27), (14, 0), [40, 27]),
        # In turn is also what was done on one day, and not what was done before.
        ((7,), (7,), [7]),
        ((7,), (14,), [14, 7]),
        ((7, 3), (14,), [14, 7, 3]),
    ],
)
def test_which_sessions_count_where_fives_are_asked(
    fives: tuple[int, ...], tens: tuple[int, ...], counted: list[int]
) -> None:
    history = [*(done(ago, FIVES, "5 5 5") for ago in fives), *(done(ago, TENS, "10 10 10") for ago in tens)]
    found = inputs("back-squat", FIVES, *history)
    past = performances(found.history, found.exercise)

    kept = of_these_reps(asked_for(found), past)
    assert [(TODAY - one.exposure.on).days for one in kept] == counted


@pytest.mark.parametrize(
    ("key", "kit", "load", "reps"),
    [
        ("bench-press", GYM, "60", ("8-10", "6")),
        ("back-squat", GYM, "100", ("10", "5")),
        ("dumbbell-bench-press", HOME, "16", ("8-10", "6")),
        ("goblet-squat", HOME, "20", ("12", "8")),
        ("leg-curl", GYM, "30", ("12-15", "8")),
    ],
)
def test_two_days_in_turn_that_are_all_done_never_lose_a_step(
    key: str, kit: Kit, load: str, reps: tuple[str, str]
) -> None:
    history: tuple[Exposure, ...] = ()
    lines: dict[str, list[Mass]] = {each: [] for each in reps}
    for number in range(16):
        on = TODAY + timedelta(days=number // 2 * 7 + number % 2 * 3)
        count = reps[number % 2]
        asked = dose(3, count, load)
        decided = next_decision(_inputs(key, asked, history[-12:], kit, number, on))
        assert decided.load is not None
        assert decided.load.mass is not None
        lines[count].append(decided.load.mass)
        history += (_done(asked, decided, number, on),)

    for each in lines.values():
        assert each == sorted(each)
        assert each[-1] >= Mass.of(Decimal(load))


def _inputs(
    key: str, asked: Dose, history: tuple[Exposure, ...], kit: Kit, number: int, on: object
) -> Inputs:
    days = tuple(one.on for one in history)
    moment = Moment(today=on, week_no=number // 2 + 1)
    trained = {"last_trained": days[-1] if days else None, "trained_on": days}
    return Inputs(exercise=exercise(key), dose=asked, history=history, kit=kit, moment=moment, **trained)


def _done(asked: Dose, decided: Decision, number: int, on: object) -> Exposure:
    load: Load | None = decided.load
    sets = tuple(
        SetDone(row_id=number * 10 + place, set_no=place, load=load, reps=decided.target, left=2)
        for place in (1, 2, 3)
    )
    given = asked.model_copy(update={"load": load})
    return Exposure(session_id=number + 1, on=on, week_no=1, dose=given, sets=sets, written=asked.load)
