from decimal import Decimal

import pytest

from core.policy import Policy
from core.programme.block import Block, Day, Line
from core.programme.checks import block_warnings
from core.programme.exercises import Pattern
from core.programme.prescription import Dose, Load, Prescription, Span
from core.programme.volume import HIP, KNEE, PULL, PUSH, Balance, balance, sets_by_pattern
from core.units import Mass


def line(
    exercise: str,
    *weeks: int,
    load: Load | None = None,
    reps: int = 8,
    sets: int = 3,
    left: int | None = None,
) -> Line:
    dose = Dose(sets=sets, reps=Span(low=reps, high=reps), load=load, left=left)
    return Line(weeks=frozenset(weeks), prescription=Prescription(order="A", exercise=exercise, dose=dose))


def block(*lines: Line, weeks: int = 2) -> Block:
    return Block(name="Slipway", weeks=weeks, days=(Day(key="all", name="All", lines=lines),))


def codes(written: Block, policy: Policy | None = None) -> list[str]:
    return [found.code for found in block_warnings(written, policy=policy or Policy())]


# The usual band of pushes to pulls is 0.67 to 1.5: common practice, no source.
@pytest.mark.parametrize(
    ("push", "pull", "even"),
    [
        (10, 15, True),
        (9, 15, False),
        (15, 10, True),
        (16, 10, False),
        (0, 0, True),
        (3, 0, False),
        (0, 3, False),
    ],
)
def test_sides_are_even_from_two_thirds_to_one_and_a_half(push: int, pull: int, even: bool) -> None:
    assert Balance(push, pull).even is even


def test_sets_are_counted_by_pattern_and_a_one_sided_set_once() -> None:
    written = block(
        line("bench-press", 1, 2, sets=4), line("push-up", 1), line("split-squat", 1), line("dip", 2)
    )
    sets = sets_by_pattern(written, 1)

    assert sets == {Pattern.LUNGE: 3, Pattern.HORIZONTAL_PRESS: 7}
    assert balance(sets, PUSH, PULL) == (7, 0)
    assert balance(sets, KNEE, HIP) == (3, 0)
    assert sets_by_pattern(written, 3) == {}


def test_uneven_weeks_are_told_once_for_the_same_figures() -> None:
    written = block(
        line("bench-press", 1, 2, 3),
        line("barbell-row", 2),
        line("back-squat", 1, 2, 3),
        line("deadlift", 1, 2, 3),
        weeks=3,
    )
    found = block_warnings(written)

    assert [(one.code, one.facts) for one in found] == [
        ("push_to_pull", {"push": "3", "pull": "0", "weeks": "1, 3"})
    ]
    assert codes(block(line("back-squat", 1, 2))) == ["knee_to_hip"]


def test_a_week_that_asks_nothing_of_a_day_is_told() -> None:
    found = block_warnings(block(line("plank", 2), weeks=4))

    assert [(one.code, one.facts) for one in found] == [
        ("day_empty_in_week", {"day": "All", "weeks": "1, 3-4"})
    ]


@pytest.mark.parametrize(
    ("exercise", "left", "told"),
    [
        ("front-squat", 1, True),
        ("front-squat", 0, True),
        ("front-squat", 2, False),
        ("front-squat", None, False),
        ("leg-press", 0, False),
    ],
)
def test_few_reps_left_under_a_bar_are_told(exercise: str, left: int | None, told: bool) -> None:
    written = block(line(exercise, 1, 2, left=left), line("deadlift", 1, 2))

    assert ("limit_under_bar" in codes(written)) is told


def test_the_fewest_reps_left_of_an_exercise_are_told_once() -> None:
    written = block(line("back-squat", 1, left=1), line("back-squat", 2, left=0), line("deadlift", 1, 2))

    assert [found.facts["left"] for found in block_warnings(written)] == ["0"]


KG = Load.of
# Caps as the policy has them: 5 % and 2.5 kg for the upper body, 10 % and 5 kg for the lower; the smaller wins.
JUMPS = [
    ("bench-press", KG(60), 8, KG("62.5"), 8, False),
    ("bench-press", KG(60), 8, KG(63), 8, True),
    ("bench-press", KG(60), 8, KG(62), 8, False),
    ("bench-press", KG(40), 8, KG(42), 8, False),
    ("bench-press", KG(40), 8, KG("42.5"), 8, True),
    ("back-squat", KG(40), 8, KG(44), 8, False),
    ("back-squat", KG(40), 8, KG(45), 8, True),
    ("back-squat", KG(100), 8, KG(105), 8, False),
    ("back-squat", KG(100), 8, KG(106), 8, True),
    ("back-squat", KG(100), 8, KG(110), 5, False),
    ("back-squat", KG(100), 8, KG(119), 5, False),
    ("back-squat", KG(100), 8, KG(120), 5, True),
    ("back-squat", KG(100), 8, KG(90), 8, False),
    ("back-squat", KG(100), 8, KG("225", "lb"), 8, False),
    ("pull-up", Load.bodyweight(Mass.of(5)), 8, Load.bodyweight(Mass.of(20)), 8, False),
    ("back-squat", KG(100), 8, Load.find(), 8, False),
    ("back-squat", KG(100), 8, None, 8, False),
]


@pytest.mark.parametrize(("exercise", "load", "reps", "then", "then_reps", "told"), JUMPS)
def test_a_rise_of_a_written_load_over_the_cap_is_told(
    exercise: str, load: Load, reps: int, then: Load | None, then_reps: int, told: bool
) -> None:
    written = block(line(exercise, 1, load=load, reps=reps), line(exercise, 2, load=then, reps=then_reps))

    assert ("load_jump" in codes(written)) is told


def test_a_jump_is_told_with_its_weeks_loads_and_cap() -> None:
    rows = (
        line("farmer-carry", 1, load=KG(20)),
        line("farmer-carry", 4, load=KG(30)),
        line("farmer-carry", 4, load=KG(24)),
    )
    found = block_warnings(block(*rows, weeks=4), policy=Policy(cap_lower=Decimal("0.08")))
    jump = next(one for one in found if one.code == "load_jump")

    assert jump.facts == {
        "exercise": "Farmer carry",
        "day": "All",
        "from_week": "1",
        "from_load": "20 kg",
        "to_week": "4",
        "to_load": "30 kg",
        "cap": "8 %",
    }


def test_timed_sets_have_no_reps_to_take_away() -> None:
    def timed(week: int, load: int) -> Line:
        dose = Dose(sets=3, seconds=Span(low=30, high=30), load=KG(load))
        return Line(
            weeks=frozenset({week}), prescription=Prescription(order="A", exercise="farmer-carry", dose=dose)
        )

    assert codes(block(timed(1, 20), timed(2, 30))) == ["load_jump"]
    assert codes(block(timed(1, 20), timed(2, 22))) == []
