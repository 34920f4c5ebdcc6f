from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.checkin.pain import Band
from core.loads.decision import Kind, next_decision
from core.oversight.attendance import Attendance
from core.oversight.rehearsal import main_lifts, rehearsal
from core.oversight.rehearsal_result import MuscleWeek, Rehearsal, RuleCount, Spread, Wait
from core.oversight.rehearsal_rules import Breach, Rule
from core.oversight.simulated_client import Played, Told, played
from core.programme.block import Block
from core.programme.muscles import Muscle
from core.programme.problems import Code, Place, problem
from core.units import Mass, Unit
from tests.core.loads.lifts import dose, inputs
from tests.core.oversight.simulated import FULL, block_of, lifter

SQUAT = block_of(("back-squat", dose(3, "5", "60")), weeks=2)
KEPT, MISSED, AWAY = Attendance.KEPT, Attendance.MISSED, Attendance.AWAY


def told(*codes: str, exercise: str = "back-squat", week: int = 1, **more: object) -> Told:
    plain = {"kind": Kind.HOLD, "binding": codes[0], "waits": None}
    return Told(exercise=exercise, week=week, codes=codes, **(plain | more))  # type: ignore[arg-type]


def run(*decisions: Told, number: int = 1, **more: object) -> Played:
    plain: dict[str, object] = {
        "lifter": lifter(),
        "instead": {},
        "sessions": ((1, KEPT),),
        "loads": {},
        "sets": {},
        "pains": (),
        "breaches": (),
    }
    return Played(number=number, told=decisions, **(plain | more))  # type: ignore[arg-type]


def gathered(*runs: Played, block: Block = SQUAT) -> Rehearsal:
    return rehearsal(block, block.weeks, runs)


@pytest.mark.parametrize(
    ("numbers", "expected"),
    [((5,), (5, 5, 5)), ((1, 2), (1.25, 1.5, 1.75)), ((4, 1, 3, 2, 5), (2, 3, 4)), ((1, 1, 9, 9), (1, 5, 9))],
)
def test_the_band_holds_the_middle_half(numbers: tuple[int, ...], expected: tuple[float, ...]) -> None:
    found = Spread.of(map(Decimal, numbers))

    assert (found.low, found.middle, found.high) == expected


@given(st.lists(st.integers(-200, 2000), min_size=1, max_size=60))
def test_the_band_is_that_of_numpy(numbers: list[int]) -> None:
    found = Spread.of(Decimal(one) / 4 for one in numbers)

    expected = np.percentile(np.array(numbers) / 4, [25, 50, 75])
    assert [float(found.low), float(found.middle), float(found.high)] == pytest.approx(expected)


def test_main_lifts_are_those_of_the_catalogue_or_what_days_begin_with() -> None:
    small = block_of(("curl", dose(3, "8")), ("pushdown", dose(3, "8")))
    bands = block_of(("band-pull-apart", dose(3, "8")), ("curl", dose(3, "8")))

    assert main_lifts(FULL) == ("back-squat", "bench-press", "pull-up")
    assert main_lifts(small) == ("curl",)
    assert main_lifts(bands) == ()
    assert (
        main_lifts(small.model_copy(update={"days": (small.days[0].model_copy(update={"lines": ()}),)})) == ()
    )


def test_loads_of_a_lift_are_those_of_who_did_it_in_the_unit_of_the_first() -> None:
    found = gathered(
        run(loads={("back-squat", 1): Mass.of("60"), ("back-squat", 2): Mass.of("62.5")}),
        run(loads={("back-squat", 1): Mass.of("70")}),
        run(instead={"back-squat": "goblet-squat"}, loads={("goblet-squat", 1): Mass.of("20")}),
        run(instead={"back-squat": None}),
    )
    (lift,) = found.lifts

    assert (lift.exercise, lift.unit, lift.instead, lift.unplaced) == ("back-squat", Unit.KG, 1, 1)
    assert [(one.week, one.clients) for one in lift.weeks] == [(1, 2), (2, 1)]
    assert lift.weeks[0].load == Spread(low=Decimal("62.5"), middle=Decimal(65), high=Decimal("67.5"))
    assert lift.weeks[1].load == Spread.of([Decimal("62.5")])


def test_a_lift_that_nobody_did_has_no_load() -> None:
    (lift,) = gathered(run()).lifts

    assert [(one.clients, one.load) for one in lift.weeks] == [(0, None), (0, None)]
    assert lift.unit is Unit.KG


def test_rules_are_counted_as_told_first_as_lowest_ceiling_and_by_client() -> None:
    found = gathered(
        run(told("done once"), told("done once", "age", binding="cap"), told("few left", binding=None)),
        run(told("few left"), told("few left", "done once")),
    )

    assert found.rules == (
        RuleCount(code="few left", first=3, binding=2, clients=2),
        RuleCount(code="done once", first=2, binding=1, clients=2),
        RuleCount(code="cap", first=0, binding=1, clients=0),
        RuleCount(code="age", first=0, binding=0, clients=1),
    )
    assert (found.decisions, found.kinds) == (5, {Kind.HOLD: 5})


def test_raises_that_wait_are_counted_by_exercise() -> None:
    wait = told("add a rep", "cap", exercise="curl", waits="12.5")
    found = gathered(
        run(
            wait, wait, told("add a rep", exercise="curl", waits="25"), told("raise earned", exercise="curl")
        ),
        run(wait, told("bridge", exercise="curl"), told("cap", exercise="face-pull", waits="9")),
        run(told("raise earned", exercise="pushdown")),
    )

    assert found.waits == (
        Wait(exercise="curl", clients=2, sessions=4, earned=1, bridges=1, percent="12.5"),
        Wait(exercise="face-pull", clients=1, sessions=1, earned=0, bridges=0, percent="9"),
    )


def test_sets_are_what_is_written_and_what_all_did_on_the_average() -> None:
    found = gathered(
        run(sets={(1, Muscle.QUADS): Decimal(3), (2, Muscle.BICEPS): Decimal(1)}),
        run(sets={(1, Muscle.QUADS): Decimal(2)}),
    )

    assert [one for one in found.muscles if one.muscle in (Muscle.QUADS, Muscle.BICEPS)] == [
        MuscleWeek(muscle=Muscle.BICEPS, week=1, planned=Decimal(0), done=Decimal(0)),
        MuscleWeek(muscle=Muscle.BICEPS, week=2, planned=Decimal(0), done=Decimal("0.5")),
        MuscleWeek(muscle=Muscle.QUADS, week=1, planned=Decimal(3), done=Decimal("2.5")),
        MuscleWeek(muscle=Muscle.QUADS, week=2, planned=Decimal(3), done=Decimal(0)),
    ]
    assert Muscle.CALVES not in {one.muscle for one in found.muscles}


def test_sessions_are_counted_by_what_became_of_them() -> None:
    found = gathered(
        run(sessions=((1, KEPT), (1, KEPT), (2, MISSED))), run(sessions=((1, AWAY), (1, AWAY), (2, KEPT)))
    ).sessions

    assert (found.due, found.kept, found.missed, found.away) == (6, 3, 1, 2)
    assert found.each.middle == Decimal("1.5")


def test_pain_is_counted_with_what_it_held() -> None:
    found = gathered(
        run(
            told("pain hold"),
            told("pain locked", kind=Kind.PAUSE),
            told("coach paused", kind=Kind.PAUSE),
            told("done once", "pain way back"),
            pains=(Band.LOW, Band.LOW, Band.HIGH),
        ),
        run(told("done once"), pains=(Band.MIDDLE,)),
        run(told("done once")),
    ).pain

    assert (found.clients, found.low, found.middle, found.high) == (2, 2, 1, 1)
    assert (found.held, found.locked) == (3, 1)


def test_people_warnings_and_breaches_are_handed_on() -> None:
    rested = inputs("back-squat", dose(3, "5", "60"))
    breach = Breach(client=2, rule=Rule.OVER_LINE, inputs=rested, decision=next_decision(rested))
    warning = problem(Code.LONG_WITHOUT_DELOAD, Place(), weeks="1-9", count=9, most=8)
    runs = (
        run(lifter=lifter("bar", new=True)),
        run(lifter=lifter("dumbbells", age_band="60+"), breaches=(breach,)),
        run(lifter=lifter("bar")),
    )
    found = rehearsal(SQUAT, 1, runs, [warning])

    assert (found.block, found.weeks, found.clients, found.new, found.older) == ("Slipway", 1, 3, 1, 1)
    assert found.kits == {"bar": 2, "dumbbells": 1}
    assert found.warnings == (warning,)
    assert found.breaches == (breach,)


@settings(max_examples=5, deadline=None)
@given(st.integers(0, 2**32))
def test_the_same_seed_gives_the_same_bytes_and_the_first_clients_are_the_same(seed: int) -> None:
    def runs(count: int) -> list[Played]:
        streams = (
            np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(one,))) for one in range(count)
        )
        return [played(FULL, 2, number, stream) for number, stream in enumerate(streams, 1)]

    few, many = runs(3), runs(6)

    assert many[:3] == few
    assert rehearsal(FULL, 2, few).model_dump_json() == rehearsal(FULL, 2, many[:3]).model_dump_json()
    assert rehearsal(FULL, 2, many).breaches == ()
