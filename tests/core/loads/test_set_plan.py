"""Work by a table, from the log to the four sets: after the table caps and kit, and who may not go to the limit."""

import pytest
from rows import each_row

from core.loads.decision import Decision, Exposure, Kind, Lifter, SetDone, next_decision, replay
from core.loads.equipment import default_kit
from core.loads.given import given_dose
from core.loads.health import Birth
from core.loads.limits import Limit, LimitKind
from core.loads.order import CoachOrder, OrderKind
from core.loads.outcome import SetPlan
from core.loads.past import Cause
from core.policy import Policy
from core.programme.exercises import Side, Site
from core.programme.prescription import Dose, Load
from core.programme.ways_up import TABLE_REPS, WayKind, WayUp
from core.units import Mass, Unit
from tests.core.loads.lifts import GYM, brief, codes, day, decide, done, dose, hurt, inputs

POUNDS = default_kit("both", Unit.LB).model_copy(update={"safety_arms": True})


def by(kind: WayKind, load: str = "100", sets: int = 4) -> Dose:
    reps = str(TABLE_REPS[kind])
    return dose(sets, reps, load, None).model_copy(update={"way": WayUp(kind=kind)})


SIX = by(WayKind.APRE_6)


def tabled(
    days_ago: int, asked: Dose, third: int, fourth: int, load: str | None = None, **more: object
) -> Exposure:
    """Four sets: the third at the full load, the fourth at `load`, or at the full load too."""
    full = str(asked.load).removesuffix(" kg").removesuffix(" lb")
    unit = " lb" if str(asked.load).endswith("lb") else ""
    made = done(days_ago, asked, f"10 6 {third} {fourth}", **more)
    loads = [str(float(full) / 2), str(float(full) * 0.75), full, load or full]
    sets = tuple(
        one.model_copy(update={"load": Load.of(each, unit.strip() or "kg")})
        for one, each in zip(made.sets, loads, strict=True)
    )
    return made.model_copy(update={"sets": sets})


def shown(plan: SetPlan | None) -> str:
    assert plan is not None
    first = ", ".join(f"{one.load} x {one.reps}{'+' if one.to_limit else ''}" for one in plan.sets)
    return f"{plan.table}: {first}; " + ", ".join(f"{one.reps_from}: {one.load}" for one in plan.last)


@pytest.mark.parametrize(
    ("key", "asked", "expected"),
    [
        (
            "back-squat",
            SIX,
            "APRE 6: 50 kg x 10, 75 kg x 6, 100 kg x 6+; 0: 95 kg, 3: 97.5 kg, 5: 100 kg, 8: 102.5 kg, 13: 105 kg",
        ),
        # A press rises by 2.5 kg at once at most, whatever the table says.
        (
            "bench-press",
            SIX,
            "APRE 6: 50 kg x 10, 75 kg x 6, 100 kg x 6+; 0: 95 kg, 3: 97.5 kg, 5: 100 kg, 8: 102.5 kg",
        ),
        (
            "back-squat",
            by(WayKind.APRE_3),
            "APRE 3: 50 kg x 6, 75 kg x 3, 100 kg x 3+; 0: 95 kg, 3: 100 kg, 5: 102.5 kg, 7: 105 kg",
        ),
        (
            "back-squat",
            by(WayKind.APRE_10),
            (
                "APRE 10: 50 kg x 12, 75 kg x 10, 100 kg x 10+; 0: 95 kg, 7: 97.5 kg, 9: 100 kg, 12: 102.5 kg, "
                "17: 105 kg"
            ),
        ),
        (
            "back-squat",
            by(WayKind.DAPRE),
            "DAPRE: 50 kg x 10, 75 kg x 6, 100 kg x 6+; 0: 95 kg, 3: 97.5 kg, 5: 100 kg, 7: 102.5 kg, 11: 105 kg",
        ),
        (
            "back-squat",
            by(WayKind.DAPRE_LATER),
            (
                "DAPRE, later bands: 50 kg x 10, 75 kg x 6, 100 kg x 6+; 0: 95 kg, 3: 97.5 kg, 5: 100 kg, "
                "8: 102.5 kg, 13: 105 kg"
            ),
        ),
        # On a light lift the steps of the table are over the cap, and nothing is under the empty bar.
        (
            "bench-press",
            by(WayKind.APRE_6, "22.5"),
            "APRE 6: 20 kg x 10, 20 kg x 6, 22.5 kg x 6+; 0: 20 kg, 5: 22.5 kg",
        ),
    ],
)
def test_the_four_sets_of_the_first_time(key: str, asked: Dose, expected: str) -> None:
    decision = decide(key, asked)

    assert (decision.kind, decision.sets, decision.left) == (Kind.START, 4, None)
    assert shown(decision.plan) == expected


def test_the_fourth_set_is_read_off_after_the_third() -> None:
    plan = decide("back-squat", SIX).plan
    assert plan is not None

    assert [str(plan.fourth(reps)) for reps in (0, 2, 3, 6, 8, 30)] == [
        "95 kg", "95 kg", "97.5 kg", "100 kg", "102.5 kg", "105 kg",
    ]  # fmt: skip


@each_row(
    ("key", "asked", "history", "expected"),
    [
        # From the fourth set, not from the third.
        ("back-squat", SIX, (tabled(3, SIX, 6, 8),), "raise 102.5 kg 4x6: table raise"),
        ("back-squat", SIX, (tabled(3, SIX, 8, 6, "102.5"),), "raise 102.5 kg 4x6: table raise"),
        ("back-squat", SIX, (tabled(3, SIX, 6, 6),), "hold 100 kg 4x6: table same"),
        ("back-squat", SIX, (tabled(3, SIX, 6, 4),), "lower 97.5 kg 4x6: table lower"),
        ("back-squat", SIX, (tabled(3, SIX, 3, 2, "97.5"),), "lower 92.5 kg 4x6: table lower"),
        # 8 in the third, 13 in the fourth at 102.5: 107.5 by the table, 105 by the cap.
        ("back-squat", SIX, (tabled(3, SIX, 8, 13, "102.5"),), "raise 105 kg 4x6: cap, table raise"),
        ("bench-press", SIX, (tabled(3, SIX, 13, 13, "102.5"),), "raise 102.5 kg 4x6: cap, table raise"),
        (
            "back-squat",
            by(WayKind.APRE_10),
            (tabled(3, by(WayKind.APRE_10), 9, 3),),
            "lower 95 kg 4x10: table below",
        ),
        (
            "back-squat",
            by(WayKind.DAPRE),
            (tabled(3, by(WayKind.DAPRE), 6, 5),),
            "raise 102.5 kg 4x6: table raise",
        ),
        (
            "back-squat",
            by(WayKind.DAPRE),
            (tabled(3, by(WayKind.DAPRE), 6, 4),),
            "hold 100 kg 4x6: table same",
        ),
        # Sets three and four are needed; what was not done for time is no miss.
        ("back-squat", SIX, (done(3, SIX, "10 6 6"),), "hold 100 kg 4x6: not all done"),
        ("back-squat", SIX, (done(3, SIX, "10 6"),), "hold 100 kg 4x6: not all done"),
        ("back-squat", SIX, (tabled(3, SIX, 2, 2, cause=Cause.GRIP),), "hold 100 kg 4x6: not all done"),
        ("back-squat", SIX, (tabled(3, SIX, 6, 2, cause=Cause.TIME),), "hold 100 kg 4x6: table same"),
        # On a light lift five kilograms less would be half of it: at most a tenth comes off, or a step of the kit.
        (
            "curl",
            by(WayKind.APRE_6, "10"),
            (tabled(3, by(WayKind.APRE_6, "10"), 6, 2),),
            "lower 9 kg 4x6: table lower",
        ),
        # A very hard session brakes a raise, and nothing else.
        ("back-squat", SIX, (tabled(3, SIX, 6, 8, effort=5),), "hold 100 kg 4x6: hard session"),
        ("back-squat", SIX, (tabled(3, SIX, 6, 4, effort=5),), "lower 97.5 kg 4x6: table lower"),
        ("back-squat", SIX, (tabled(3, SIX, 6, 8, effort=4, left=0),), "raise 102.5 kg 4x6: table raise"),
        # From other reps to the table: the step of the phase, capped like any other.
        (
            "back-squat",
            SIX,
            (done(3, dose(3, "8", "100"), "8 8 8", left=2),),
            "raise 105 kg 4x6: cap, reps changed",
        ),
        # A load that was looked for.
        (
            "back-squat",
            SIX,
            (done(3, by(WayKind.APRE_6, "find"), "6 6 6 6", loads="70 80 90 90"),),
            "hold 90 kg 4x6: found",
        ),
    ],
)
def test_what_the_next_session_is(
    key: str, asked: Dose, history: tuple[Exposure, ...], expected: str
) -> None:
    told = decide(key, asked, *history)

    assert brief(told) == expected
    assert told.plan is not None


def test_facts_name_the_table_the_reps_and_both_loads() -> None:
    raised = decide("back-squat", SIX, tabled(3, SIX, 8, 8, "102.5")).reasons

    assert raised[0].facts == {"table": "APRE 6", "reps": "8", "load": "102.5 kg", "next": "105 kg"}


def test_in_pounds_the_steps_are_of_five() -> None:
    asked = by(WayKind.APRE_3, "300 lb")
    first = decide("back-squat", asked, kit=POUNDS)

    assert shown(first.plan) == (
        "APRE 3: 150 lb x 6, 225 lb x 3, 300 lb x 3+; 0: 290 lb, 3: 300 lb, 5: 305 lb, 7: 310 lb"
    )
    # A printed example comes to 320-325 lb; ours is capped at 5 kg, about 11 lb, from session to session.
    then = decide("back-squat", asked, tabled(3, asked, 7, 6, "315"), kit=POUNDS)
    assert brief(then) == "raise 310 lb 4x3: cap, table raise"


def test_the_weaker_side_is_read() -> None:
    asked = by(WayKind.APRE_10, "20")
    sets = tuple(
        SetDone(row_id=10 * number + place, set_no=number, side=side, load=Load.of(20), reps=reps)
        for number, pair in enumerate([(12, 12), (10, 10), (11, 12), (11, 13)], 1)
        for place, (side, reps) in enumerate(zip(Side, pair, strict=True))
    )
    past = Exposure(session_id=1, on=day(3), week_no=1, dose=asked, sets=sets)

    assert brief(decide("one-arm-row", asked, past)) == "hold 20 kg 4x10: table same"


BARRED: list[tuple[str, dict[str, object]]] = [
    ("first months", {"lifter": Lifter(new=True)}),
    ("pregnancy", {"lifter": Lifter(pregnant=True)}),
    ("pressure", {"lifter": Lifter(pressure_untreated=True)}),
    ("sixty", {"lifter": Lifter(age_band="60+")}),
    ("pain", {"pain": (hurt(2, Site.KNEE, 2),)}),
    ("deload", {"deload": True}),
    ("comeback", {"last_trained": day(9)}),
    ("alone", {"kit": GYM.model_copy(update={"safety_arms": False})}),
]


@pytest.mark.parametrize(("why", "more"), BARRED)
def test_nobody_goes_to_the_limit_who_must_not(why: str, more: dict[str, object]) -> None:
    last = tabled(9 if why == "comeback" else 3, SIX, 6, 6)
    told = decide("back-squat", SIX, last, **more)

    assert told.plan is None
    assert told.sets <= 2
    assert told.left is not None
    assert told.left >= 2
    # Six with two left: 100 x 36 / 38.
    assert str(told.load) in ("92.5 kg", "90 kg")
    assert "no limit" in codes(told)


def test_a_birth_an_order_and_a_merged_session_bar_it_too() -> None:
    found = inputs("back-squat", SIX, tabled(3, SIX, 6, 6))
    ease = CoachOrder(row_id=1, kind=OrderKind.EASE, percent=10)
    moment = found.moment.model_copy(update={"merged": True})
    after = Lifter(birth=Birth(on=day(90), released_on=day(5)))

    for changed in ({"orders": (ease,)}, {"moment": moment}, {"lifter": after}):
        assert next_decision(found.model_copy(update=changed)).plan is None


def test_from_sixty_on_the_coach_may_order_it() -> None:
    ordered = decide("back-squat", SIX, lifter=Lifter(age_band="60+"), policy=Policy(limit_from_60=True))

    assert ordered.plan is not None
    assert shown(ordered.plan).endswith("5: 100 kg, 8: 102.5 kg")


def test_straight_sets_in_its_place_are_done_by_tap_and_go_on_by_the_usual_rule() -> None:
    new = Lifter(new=True)
    first = decide("back-squat", SIX, lifter=new)
    given = given_dose(SIX, first)
    assert brief(first) == "start 92.5 kg 2x6 left 2: no limit, start written, rounded down"
    assert (given.way, given.told_by_tap, given.sets) == (None, True, 2)
    assert not given_dose(SIX, decide("back-squat", SIX)).told_by_tap

    straight = by(WayKind.APRE_6, "92.5", 2).model_copy(update={"left": 2})
    again = (done(6, straight, "6 6", left=2), done(3, straight, "6 6", left=2))
    assert (
        brief(decide("back-squat", SIX, *again, lifter=new))
        == "raise 95 kg 2x6 left 2: raise done twice, no limit"
    )


def test_when_it_is_allowed_again_the_straight_sets_are_no_step_down() -> None:
    straight = by(WayKind.APRE_6, "92.5", 2).model_copy(update={"left": 2})
    table, plain = tabled(9, SIX, 6, 6), done(3, straight, "6 6", left=2)

    assert brief(decide("back-squat", SIX, table, plain)) == "hold 100 kg 4x6: table same"
    assert brief(decide("back-squat", SIX, plain)) == "hold 92.5 kg 4x6: work changed"
    missed = done(3, straight, "6 4")
    assert brief(decide("back-squat", SIX, table, missed)) == "hold 92.5 kg 4x6: miss first"


def test_the_fourth_set_stays_under_a_clinicians_limit() -> None:
    limit = Limit(row_id=1, kind=LimitKind.MOST_LOAD, mass=Mass.of(102), since=day(9))
    told = next_decision(inputs("back-squat", SIX).model_copy(update={"limits": (limit,)}))

    assert told.plan is not None
    assert max(one.load.mass for one in told.plan.last if one.load.mass is not None) <= Mass.of(102)


@pytest.mark.parametrize("key", ["push-up", "band-pull-apart"])
def test_an_equal_without_a_load_goes_on_by_the_usual_rule(key: str) -> None:
    load = Load.bodyweight() if key == "push-up" else None
    asked = SIX.model_copy(update={"load": load})
    told: Decision = decide(key, asked, done(3, asked, "6 6 6 6", left=2))

    assert told.plan is None
    assert codes(told) == ["done once"]


def test_a_decision_by_a_table_is_replayed_to_the_same_bytes() -> None:
    made = inputs("back-squat", SIX, tabled(3, SIX, 8, 13, "102.5"))

    assert replay(made.model_dump_json()) == next_decision(made).model_dump_json()
    assert Decision.model_validate_json(replay(made.model_dump_json())) == next_decision(made)
