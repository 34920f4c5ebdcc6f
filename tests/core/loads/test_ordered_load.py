"""A load that the coach has ordered, nothing heavier, and raises that wait for her word."""

from datetime import UTC, datetime, time, timedelta
from decimal import Decimal

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.checkin.pain import flares
from core.loads.decision import Inputs, Kind, next_decision, replay
from core.loads.order import CoachOrder, OrderKind, ordered_over
from core.loads.ordered_load import load_in
from core.policy import Policy
from core.programme.exercises import Site
from core.programme.prescription import Load
from core.units import Mass
from tests.core.loads.lifts import BARE, TODAY, brief, codes, done, dose, hurt, inputs
from tests.core.loads.test_properties import cases, given_mass

SQUAT = dose(4, "8", "80")
ONCE = (done(4, SQUAT, "8 8 8 8", left=2),)
TWICE = (done(8, SQUAT, "8 8 8 8", left=2), *ONCE)
LATER = datetime(2026, 4, 14, 20, tzinfo=UTC)


def loads(mass: str, key: str = "back-squat", at: datetime | None = LATER, **more: object) -> CoachOrder:
    return CoachOrder(row_id=1, kind=OrderKind.LOAD, exercise=key, mass=Mass.of(mass), at=at, **more)


def holds(**more: object) -> CoachOrder:
    return CoachOrder(row_id=2, kind=OrderKind.HOLD, **more)


def agrees(mass: str) -> CoachOrder:
    return CoachOrder(row_id=3, kind=OrderKind.AGREED, exercise="back-squat", mass=Mass.of(mass))


def ordered(found: Inputs, *orders: CoachOrder) -> Inputs:
    return found.model_copy(update={"orders": orders})


def asks(found: Inputs, over: str) -> Inputs:
    return found.model_copy(update={"policy": Policy(raise_asks_over=Decimal(over))})


@pytest.mark.parametrize(
    ("found", "orders", "expected"),
    [
        (inputs("back-squat", SQUAT, *ONCE), (loads("70"),), "lower 70 kg 4x8 left 2: coach load"),
        (inputs("back-squat", SQUAT, *ONCE), (loads("82.5"),), "raise 82.5 kg 4x8 left 2: coach load"),
        (inputs("back-squat", SQUAT, *TWICE), (loads("80"),), "hold 80 kg 4x8 left 2: coach load"),
        (inputs("back-squat", SQUAT, *ONCE), (loads("71"),), "lower 70 kg 4x8 left 2: coach load"),
        (inputs("back-squat", SQUAT, *ONCE), (loads("100"),), "raise 85 kg 4x8 left 2: coach load, cap"),
        (inputs("back-squat", SQUAT), (loads("70"),), "start 70 kg 4x8 left 2: coach load"),
        (inputs("back-squat", SQUAT), (loads("90"),), "start 90 kg 4x8 left 2: coach load"),
        (inputs("back-squat", dose(4, "8", "find")), (loads("60"),), "start 60 kg 4x8 left 2: coach load"),
        (inputs("push-up", dose(3, "8"), kit=BARE), (loads("10", "push-up"),), "start bw 3x8"),
        (inputs("back-squat", SQUAT, *TWICE), (holds(),), "hold 80 kg 4x8 left 2: coach held"),
        (
            inputs("back-squat", dose(4, "8-12", "80"), done(4, dose(4, "8-12", "80"), "9 9 9 9", left=2)),
            (holds(exercise="back-squat"),),
            "hold 80 kg 4x9 left 2: coach held",
        ),
        (inputs("back-squat", SQUAT), (holds(),), "start 80 kg 4x8 left 2: start written"),
        (
            inputs("back-squat", SQUAT, *ONCE),
            (loads("90"), holds()),
            "hold 80 kg 4x8 left 2: coach load, coach held",
        ),
    ],
)
def test_the_lowest_of_her_load_and_every_other_ceiling_is_given(
    found: Inputs, orders: tuple[CoachOrder, ...], expected: str
) -> None:
    assert brief(next_decision(ordered(found, *orders))).startswith(expected)


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        ({"from_on": TODAY + timedelta(days=1)}, 80),
        ({"until": TODAY - timedelta(days=1)}, 80),
        ({"from_on": TODAY, "until": TODAY}, 70),
    ],
)
def test_an_order_holds_from_its_first_to_its_last_day(days: dict[str, object], expected: int) -> None:
    decision = next_decision(ordered(inputs("back-squat", SQUAT, *ONCE), loads("70", **days)))

    assert decision.load is not None
    assert decision.load.mass == Mass.of(expected)


def test_of_two_loads_that_were_ordered_the_newer_one_counts() -> None:
    newer = loads("75").model_copy(update={"row_id": 7})
    decision = next_decision(ordered(inputs("back-squat", SQUAT, *ONCE), newer, loads("70")))

    assert brief(decision).startswith("lower 75 kg")


@pytest.mark.parametrize(
    ("score", "at", "painkiller", "expected"),
    [
        (2, LATER, False, "raise 82.5 kg"),
        (3, LATER, False, "raise 82.5 kg"),
        (3, None, False, "hold 80 kg"),
        (3, datetime(2026, 4, 1, tzinfo=UTC), False, "hold 80 kg"),
        (3, LATER, True, "lower 62.5 kg"),
        (4, LATER, False, "lower 62.5 kg"),
        (6, LATER, False, "lower 62.5 kg"),
        (None, LATER, False, "lower 62.5 kg"),
        (8, LATER, False, "pause"),
    ],
)
def test_a_load_over_pain_needs_an_order_after_the_report_and_never_goes_over_four(
    score: int | None, at: datetime | None, painkiller: bool, expected: str
) -> None:
    report = hurt(1, Site.KNEE, score, exercise="back-squat").model_copy(update={"painkiller": painkiller})
    found = ordered(inputs("back-squat", SQUAT, *ONCE, pain=(report,)), loads("82.5", at=at))

    assert brief(next_decision(found)).startswith(expected)


def test_a_load_is_not_looked_for_over_what_she_ordered() -> None:
    report = hurt(1, Site.KNEE, 2, exercise="leg-press")
    found = ordered(
        inputs("back-squat", dose(4, "8", "find"), pain=(report,)),
        loads("60", at=datetime(2026, 4, 1, tzinfo=UTC)),
    )
    decision = next_decision(found)

    assert decision.kind is Kind.START
    assert decision.line.mass == Mass.of(60)


def test_with_no_log_and_something_that_holds_her_load_only_lowers() -> None:
    report = hurt(1, Site.KNEE, 2, exercise="leg-press")
    found = inputs("back-squat", SQUAT, pain=(report,))
    before = datetime(2026, 4, 1, tzinfo=UTC)

    assert brief(next_decision(ordered(found, loads("90", at=before)))).startswith("start 80 kg")
    assert brief(next_decision(ordered(found, loads("70", at=before)))).startswith("start 70 kg")


@pytest.mark.parametrize(
    ("over", "orders", "expected"),
    [
        ("0.001", (), "hold 80 kg 4x8 left 2: raise waits"),
        ("0.05", (), "raise 82.5 kg"),
        ("0.001", (agrees("82.5"),), "raise 82.5 kg"),
        ("0.001", (agrees("81"),), "hold 80 kg"),
        ("0.001", (loads("82.5"),), "raise 82.5 kg"),
    ],
)
def test_a_raise_over_her_size_waits_until_she_has_agreed(
    over: str, orders: tuple[CoachOrder, ...], expected: str
) -> None:
    found = asks(ordered(inputs("back-squat", SQUAT, *TWICE), *orders), over)

    assert brief(next_decision(found)).startswith(expected)


def test_a_raise_that_waits_says_how_much_it_would_be() -> None:
    decision = next_decision(asks(inputs("back-squat", SQUAT, *TWICE), "0.001"))

    assert decision.reasons[0].facts == {"load": "80 kg", "next": "82.5 kg", "percent": "3.1"}


def test_a_load_that_is_ordered_takes_no_lower_ones_place_while_it_hurts() -> None:
    past = done(4, dose(4, "8", "80"), "8 8 8 8", left=2, written="80")
    lower = inputs("back-squat", dose(4, "8", "50"), past, pain=(hurt(1, Site.KNEE, 5),))

    assert brief(next_decision(ordered(lower, loads("60")))).startswith("lower 50 kg")


def test_orders_that_are_not_about_loads_bear_on_no_decision() -> None:
    found = inputs("back-squat", SQUAT, *TWICE)
    others = [
        CoachOrder(row_id=5, kind=kind) for kind in (OrderKind.SWAP, OrderKind.REST, OrderKind.RESTRICT)
    ]

    assert codes(next_decision(ordered(found, *others))) == codes(next_decision(found))
    assert not any(each.bears_on(found.exercise) for each in others)


ORDERS = st.builds(
    CoachOrder,
    row_id=st.integers(1, 9),
    kind=st.sampled_from([OrderKind.LOAD, OrderKind.AGREED, OrderKind.HOLD]),
    mass=st.builds(Mass.of, st.integers(0, 300)),
    at=st.just(LATER + timedelta(days=9)),
)


@examples(150)
@given(cases(), st.lists(ORDERS, max_size=3), st.sampled_from([4, 5, 6, None]), st.booleans())
def test_no_order_raises_anything_through_pain_of_four_and_over(
    found: Inputs, orders: list[CoachOrder], score: int | None, own: bool
) -> None:
    key = found.exercise.key
    last = max((each.on for each in found.history), default=TODAY)
    report = hurt(0, min(found.exercise.loads_sites), score, exercise=key if own else None).model_copy(
        update={"on": max(last, TODAY), "at": datetime.combine(max(last, TODAY), time(23), UTC)}
    )
    found = found.model_copy(
        update={"lifter": found.lifter.model_copy(update={"pain": (*found.lifter.pain, report)})}
    )
    hers = tuple(each.model_copy(update={"exercise": key}) for each in orders)
    without, decision = next_decision(found), next_decision(ordered(found, *found.orders, *hers))
    before, after = given_mass(found, without), given_mass(found, decision)

    assert flares(report)
    assert decision.kind is not Kind.RAISE
    if after is not None and without.kind is not Kind.START:
        assert before is None or after <= before
    assert (
        replay(ordered(found, *hers).model_dump_json())
        == next_decision(ordered(found, *hers)).model_dump_json()
    )


@pytest.mark.parametrize(
    ("text", "expected"),
    [("92.5 kg", Load.of("92.5")), ("bw+5 kg", Load.bodyweight(Mass.of(5))), ("bw", Load.bodyweight())],
)
def test_a_load_of_a_reason_is_read_back(text: str, expected: Load) -> None:
    assert load_in(text) == expected


def test_no_order_goes_past_four_and_over_nor_past_what_a_painkiller_hides() -> None:
    squat, order = inputs("back-squat", SQUAT).exercise, loads("90")
    low = hurt(1, Site.KNEE, 2)

    assert ordered_over(low, [order], squat)
    assert not ordered_over(low, [loads("90", "hip-thrust")], squat)
    assert not ordered_over(hurt(1, Site.KNEE, 4), [order], squat)
    assert not ordered_over(low.model_copy(update={"painkiller": True}), [order], squat)
