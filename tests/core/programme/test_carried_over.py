from decimal import Decimal

import pytest

from core.programme.carried_over import carried_over
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, PercentOf, Rpe, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.ways_up import WayKind, WayUp
from core.units import Mass


def span(low: int, high: int | None = None) -> Span:
    return Span(low=low, high=high or low)


def over(exercise: str, **dose: object) -> Dose:
    return carried_over(Dose.model_validate({"sets": 3, **dose}), CATALOGUE[exercise])


@pytest.mark.parametrize(
    "load",
    [
        Load.of(80),
        Load.find(),
        Load.bodyweight(Mass.of(5)),
        Load.share(75, PercentOf.ESTIMATE),
        Load.up(Mass.of("2.5")),
        Load.banded("light"),
        None,
    ],
)
def test_the_load_of_another_exercise_is_found_anew(load: Load | None) -> None:
    assert over("goblet-squat", reps=span(8), load=load).load == Load.find()
    assert over("push-up", reps=span(8), load=load).load == Load.bodyweight()
    assert over("band-row", reps=span(8), load=load).load is None


def test_sets_reps_effort_and_an_open_end_stay() -> None:
    rpe = Rpe(low=Decimal(8), high=Decimal(8))
    found = over(
        "goblet-squat", reps=span(8, 10), load=Load.of(80), left=2, left_high=3, rpe=rpe, or_more=True
    )

    assert found == Dose(
        sets=3, reps=span(8, 10), load=Load.find(), left=2, left_high=3, rpe=rpe, or_more=True
    )


def test_sides_are_those_of_the_exercise_that_is_done() -> None:
    assert over("split-squat", reps=span(8)).each_side
    assert over("split-squat", reps=span(8), each_side=True, portion=4).portion == 4
    found = over("goblet-squat", reps=span(8), each_side=True, portion=4)
    assert (found.each_side, found.portion) == (False, None)


@pytest.mark.parametrize(
    ("exercise", "written", "expected"),
    [
        ("farmer-carry", {"metres": span(20, 40)}, {"metres": span(20, 40)}),
        ("plank", {"metres": span(20, 40)}, {"seconds": span(20, 40)}),
        ("split-squat", {"metres": span(15)}, {"reps": span(8)}),
        ("split-squat", {"metres": span(100)}, {"reps": span(20)}),
        ("plank", {"seconds": span(30)}, {"seconds": span(30)}),
        ("dead-bug", {"seconds": span(30, 45)}, {"reps": span(8, 12)}),
        ("plank", {"reps": span(8, 10), "left": 2, "or_more": True}, {"seconds": span(32, 40)}),
        ("plank", {"reps": span(500)}, {"seconds": span(1000)}),
        ("plank", {"to_left": True, "left": 2}, {"seconds": span(48)}),
    ],
)
def test_a_way_becomes_time_or_reps_and_a_time_reps_where_the_other_is_counted_so(
    exercise: str, written: dict[str, object], expected: dict[str, object]
) -> None:
    found = over(exercise, **written)

    counted = {name: getattr(found, name) for name in ("reps", "seconds", "metres") if getattr(found, name)}
    assert counted == expected
    assert Dose.model_validate(found.model_dump()) == found
    assert found.seconds is None or (found.left, found.open_at_end) == (None, False)


STEPS = SetStyle(kind=StyleKind.DESCENDING, steps=2)
PAUSES = SetStyle(kind=StyleKind.REST_PAUSE)


@pytest.mark.parametrize(
    ("exercise", "style", "expected"),
    [
        ("cable-curl", STEPS, STEPS),
        ("band-curl", STEPS, None),
        ("push-up", SetStyle(kind=StyleKind.ASCENDING), None),
        ("push-up", PAUSES, PAUSES),
        ("plank", PAUSES, None),
        ("push-up", None, None),
    ],
)
def test_loads_that_go_in_steps_need_a_load_that_is_counted(
    exercise: str, style: SetStyle | None, expected: SetStyle | None
) -> None:
    assert over(exercise, reps=span(10), style=style).style == expected


TWICE = WayUp(kind=WayKind.DONE_TWICE)
BY_LEFT = WayUp(kind=WayKind.BY_LEFT)


@pytest.mark.parametrize(
    ("exercise", "way", "expected"),
    [
        ("goblet-squat", None, None),
        ("goblet-squat", TWICE, TWICE),
        ("goblet-squat", BY_LEFT, BY_LEFT),
        ("plank", BY_LEFT, None),
        ("push-up", WayUp(kind=WayKind.VARIANTS, path=("incline-push-up", "push-up")), None),
    ],
)
def test_a_way_up_goes_where_it_no_longer_fits(
    exercise: str, way: WayUp | None, expected: WayUp | None
) -> None:
    assert over(exercise, reps=span(8), left=2, way=way).way == expected
