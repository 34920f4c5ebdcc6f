"""What a coach orders beside the block: it lowers, pauses, and never raises."""

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.loads.decision import Inputs, Kind, next_decision, replay
from core.loads.equipment import ladder_for
from core.loads.order import CoachOrder, OrderKind
from core.loads.reasons import ReasonCode
from core.programme.catalogue import exercise
from core.programme.exercises import Site
from core.programme.prescription import Load
from tests.core.loads.lifts import BARE, HOME, brief, codes, day, done, dose, hurt, inputs
from tests.core.loads.test_properties import cases

SQUAT = dose(4, "8", "80")
PUSH_UP = dose(3, "10", "bw")
FIND = dose(3, "8", "find")


def eases(percent: int, **about: object) -> CoachOrder:
    return CoachOrder(row_id=1, kind=OrderKind.EASE, percent=percent, **about)


def pauses(key: str) -> CoachOrder:
    return CoachOrder(row_id=2, kind=OrderKind.PAUSE, exercise=key)


def ordered(found: Inputs, *orders: CoachOrder) -> Inputs:
    return found.model_copy(update={"orders": orders})


TWICE = (done(8, SQUAT, "8 8 8 8", left=2), done(4, SQUAT, "8 8 8 8", left=2))


@pytest.mark.parametrize(
    ("found", "order", "expected"),
    [
        (inputs("back-squat", SQUAT), eases(10), "start 70 kg 3x8 left 2: coach eased, rounded down"),
        (
            inputs("back-squat", SQUAT, *TWICE),
            eases(10),
            "lower 72.5 kg 3x8 left 2: coach eased, rounded down",
        ),
        (inputs("back-squat", SQUAT, *TWICE), eases(20), "lower 65 kg 3x8 left 2: coach eased, rounded down"),
        (
            inputs("back-squat", SQUAT, TWICE[1], pain=(hurt(4, Site.KNEE, 5),)),
            eases(10),
            "lower 57.5 kg 3x8 left 2: pain drop, coach eased, rounded down",
        ),
        (
            inputs("push-up", PUSH_UP, kit=BARE),
            eases(20),
            "start bw 2x10 left 2: coach eased, start bodyweight",
        ),
        (inputs("back-squat", FIND), eases(20), "start find 2x8 left 3: coach eased, start find"),
        (inputs("back-squat", dose(1, "8", "80")), eases(10, site=Site.KNEE), "start 70 kg 1x8 left 2"),
        (inputs("back-squat", SQUAT), eases(10, site=Site.WRIST, exercise="curl"), "start 80 kg 4x8 left 2"),
    ],
)
def test_an_eased_session_is_lighter_than_all_else_allows(
    found: Inputs, order: CoachOrder, expected: str
) -> None:
    assert brief(next_decision(ordered(found, order))).startswith(expected)


def test_the_lightest_of_the_kit_stays_and_only_a_set_goes() -> None:
    lightest_of_all = str(ladder_for(exercise("curl"), HOME).steps[0].value)
    light = inputs("curl", dose(3, "10", lightest_of_all), kit=HOME)
    lightest = next_decision(light)

    eased = next_decision(ordered(light, eases(20)))

    assert (eased.load, eased.sets) == (lightest.load, 2)
    assert eased.reasons[0].facts == {"sets": "1"}


def test_a_paused_exercise_is_left_out_until_it_is_taken_up() -> None:
    found = inputs("back-squat", SQUAT)

    paused = next_decision(ordered(found, pauses("back-squat")))

    assert (paused.kind, codes(paused)) == (Kind.PAUSE, [ReasonCode.COACH_PAUSED])
    assert next_decision(ordered(found, pauses("curl"))) == next_decision(found)


def test_what_pain_locks_is_told_before_a_pause() -> None:
    found = inputs("back-squat", SQUAT, pain=(hurt(1, Site.KNEE, 8),))

    assert codes(next_decision(ordered(found, pauses("back-squat")))) == [ReasonCode.PAIN_LOCKED]


def test_after_an_eased_session_the_load_from_before_comes_back_and_no_more() -> None:
    light = done(2, dose(3, "8", "70"), "8 8 8", left=4).model_copy(update={"eased": True})
    back = next_decision(inputs("back-squat", SQUAT, *TWICE, light))

    assert brief(back) == "hold 80 kg 4x8 left 2: ease over"


def test_an_eased_session_that_was_not_done_counts_like_any_other() -> None:
    light = done(2, dose(3, "8", "70"), "8 7 5").model_copy(update={"eased": True})

    assert (
        brief(next_decision(inputs("back-squat", SQUAT, *TWICE, light)))
        == "hold 70 kg 4x8 left 2: miss first"
    )


def test_of_two_orders_the_one_that_eases_more_stands() -> None:
    found = inputs("back-squat", SQUAT)

    both = next_decision(ordered(found, eases(10), eases(20).model_copy(update={"row_id": 9})))

    assert both == next_decision(ordered(found, eases(20)))


def test_an_order_is_about_an_exercise_a_site_or_everything() -> None:
    squat = exercise("back-squat")
    said = [
        eases(10).bears_on(squat),
        eases(10, site=Site.KNEE).bears_on(squat),
        eases(10, site=Site.FOOT).bears_on(squat),
        eases(10, site=Site.FOOT, exercise="back-squat").bears_on(squat),
        pauses("curl").bears_on(squat),
    ]

    assert said == [True, True, False, True, False]


@given(cases(), st.sampled_from([10, 15, 20]))
@examples(300)
def test_an_order_never_raises(found: Inputs, percent: int) -> None:
    plain = next_decision(found)
    eased = next_decision(ordered(found, eases(percent)))

    assert eased.kind is not Kind.RAISE or plain.kind is Kind.RAISE
    assert eased.sets <= plain.sets
    assert eased.left == plain.left
    if plain.load is not None and eased.load is not None and plain.load.mass is not None:
        assert eased.load.kind == plain.load.kind
        assert eased.load.mass is None or eased.load.mass <= plain.load.mass


@given(cases())
@examples(100)
def test_a_decision_with_orders_is_replayed_to_the_same_bytes(found: Inputs) -> None:
    given_ = ordered(found, eases(20), pauses("curl"))

    assert replay(given_.model_dump_json()) == next_decision(given_).model_dump_json()


def test_an_eased_session_lifted_as_heavy_as_before_counts_for_nothing_more() -> None:
    eased = done(4, SQUAT, "8 8 8 8", left=2).model_copy(update={"eased": True})

    after = next_decision(inputs("back-squat", SQUAT, TWICE[0], eased))

    assert brief(after) == "hold 80 kg 4x8 left 2: done once"


LIGHTER = CoachOrder(row_id=3, kind=OrderKind.EASE, deload=True, from_on=day(1), until=day(-5))


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        (inputs("back-squat", SQUAT, *TWICE), "lower 75 kg 2x8 left 4: coach lighter, rounded down"),
        (inputs("back-squat", dose(4, "8", "100")), "start 95 kg 2x8 left 4: coach lighter, start written"),
        (inputs("push-up", PUSH_UP, kit=BARE), "start bw 2x10 left 4: coach lighter, start bodyweight"),
        (inputs("back-squat", FIND), "start find 2x8 left 3: coach lighter, start find"),
        (
            inputs("back-squat", SQUAT, *TWICE, pain=(hurt(4, Site.KNEE, 5),)),
            "lower 62.5 kg 2x8 left 4: pain drop, coach lighter",
        ),
        (inputs("back-squat", SQUAT, *TWICE, deload=True), "lower 75 kg 2x8 left 4: deload, rounded down"),
    ],
)
def test_a_lighter_week_by_order_is_what_a_planned_one_is_and_no_lighter_than_that(
    found: Inputs, expected: str
) -> None:
    assert brief(next_decision(ordered(found, LIGHTER))).startswith(expected)


def test_a_lighter_week_by_order_takes_nothing_more_off_a_planned_one() -> None:
    planned = inputs("back-squat", SQUAT, *TWICE, deload=True)

    assert next_decision(ordered(planned, LIGHTER)) == next_decision(planned)


def test_a_session_can_be_eased_in_a_lighter_week() -> None:
    both = next_decision(ordered(inputs("back-squat", SQUAT, *TWICE), LIGHTER, eases(10)))

    assert brief(both).startswith("lower 67.5 kg 1x8 left 4: coach eased, coach lighter")


def test_after_a_lighter_week_by_order_the_load_goes_on_from_before_it() -> None:
    light = done(2, dose(2, "8", "75"), "8 8", left=5, deload=True)

    assert next_decision(inputs("back-squat", SQUAT, *TWICE, light)).load == Load.of("82.5")


@given(cases())
@examples(100)
def test_a_lighter_week_by_order_never_raises(found: Inputs) -> None:
    plain, lighter = next_decision(found), next_decision(ordered(found, LIGHTER))

    assert lighter.kind is not Kind.RAISE
    assert lighter.sets <= plain.sets
    if plain.load is not None and lighter.load is not None and plain.load.mass is not None:
        assert lighter.load.mass is not None
        assert lighter.load.mass <= plain.load.mass


WEEK_4 = SQUAT.model_copy(update={"lighter": True})
FULL = CoachOrder(row_id=4, kind=OrderKind.FULL, from_on=day(1), until=day(-5))


@pytest.mark.parametrize(
    ("found", "orders", "expected"),
    [
        (inputs("back-squat", WEEK_4, *TWICE), (), "lower 75 kg 2x8 left 4: deload"),
        (inputs("back-squat", WEEK_4, *TWICE), (FULL,), "hold 80 kg 4x8 left 2: coach full"),
        (inputs("back-squat", SQUAT, *TWICE), (FULL,), "raise 82.5 kg 4x8 left 2: raise done twice"),
        (inputs("back-squat", WEEK_4), (FULL,), "start 80 kg 4x8 left 2: coach full, start written"),
        (
            inputs("back-squat", FIND.model_copy(update={"lighter": True})),
            (FULL,),
            "start find 3x8 left 3: coach full, start find",
        ),
        (
            inputs("push-up", PUSH_UP.model_copy(update={"lighter": True}), kit=BARE),
            (FULL,),
            "start bw 3x10 left 2: coach full",
        ),
        (
            inputs("back-squat", WEEK_4, *TWICE),
            (FULL.model_copy(update={"until": day(1)}),),
            "lower 75 kg 2x8 left 4: deload",
        ),
        (inputs("back-squat", WEEK_4, *TWICE), (FULL, LIGHTER), "lower 75 kg 2x8 left 4: deload"),
        (
            inputs("back-squat", WEEK_4, *TWICE, pain=(hurt(4, Site.KNEE, 5),)),
            (FULL,),
            "lower 62.5 kg 4x8 left 2: pain drop, coach full",
        ),
    ],
)
def test_a_lighter_week_that_the_coach_takes_out_holds_the_load_and_raises_nothing(
    found: Inputs, orders: tuple[CoachOrder, ...], expected: str
) -> None:
    assert brief(next_decision(ordered(found, *orders))).startswith(expected)


@given(cases())
@examples(100)
def test_a_lighter_week_taken_out_gives_no_more_than_a_usual_one(found: Inputs) -> None:
    week = found.model_copy(update={"dose": found.dose.model_copy(update={"lighter": True})})
    usual, full = next_decision(found), next_decision(ordered(week, FULL))

    assert full.kind is not Kind.RAISE
    assert full.sets <= usual.sets
    if usual.load is not None and full.load is not None and usual.load.mass is not None:
        assert full.load.mass is not None
        assert full.load.mass <= usual.load.mass
