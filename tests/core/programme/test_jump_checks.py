from decimal import Decimal

import pytest
from rows import each_row

from core.policy import Policy
from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.jump_checks import load_jumps, rep_jumps, set_jumps
from core.programme.prescription import Load
from core.units import Mass
from tests.core.programme.written import one_day, row

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


def jumps(written: Block, policy: Policy | None = None) -> list[dict[str, str]]:
    return [one.facts for one in load_jumps(written, CATALOGUE, policy or Policy())]


@each_row(("exercise", "load", "reps", "then", "then_reps", "told"), JUMPS)
def test_a_rise_of_a_written_load_over_the_cap_is_told(
    exercise: str, load: Load, reps: int, then: Load | None, then_reps: int, told: bool
) -> None:
    written = one_day(row(exercise, 1, load=load, reps=reps), row(exercise, 2, load=then, reps=then_reps))

    assert bool(jumps(written)) is told


def test_a_jump_is_told_with_its_weeks_loads_and_cap() -> None:
    rows = (
        row("farmer-carry", 1, load=KG(20)),
        row("farmer-carry", 4, load=KG(30)),
        row("farmer-carry", 4, load=KG(24)),
    )

    assert jumps(one_day(*rows, weeks=4), Policy(cap_lower=Decimal("0.08"))) == [
        {
            "exercise": "Farmer carry",
            "day": "All",
            "from_week": "1",
            "from_load": "20 kg",
            "to_week": "4",
            "to_load": "30 kg",
            "cap": "8 %",
        }
    ]


@pytest.mark.parametrize(("then", "told"), [(30, True), (22, False)])
def test_timed_sets_have_no_reps_to_take_away(then: int, told: bool) -> None:
    rows = [
        row("farmer-carry", week, load=KG(load), reps=None, seconds={"low": 30, "high": 30})
        for week, load in ((1, 20), (2, then))
    ]

    assert bool(jumps(one_day(*rows))) is told
    assert list(rep_jumps(one_day(*rows), CATALOGUE)) == []


@pytest.mark.parametrize(
    ("between", "told"), [([90], False), ([95], False), ([90, 90], True), ([90, 100], False)]
)
def test_a_rise_is_measured_from_before_a_lighter_week_but_not_from_before_two(
    between: list[int], told: bool
) -> None:
    loads = [100, *between, 105]
    rows = (row("back-squat", week, load=KG(load)) for week, load in enumerate(loads, 1))

    assert bool(jumps(one_day(*rows, weeks=len(loads)))) is told


# At most two reps or a fifth more, the greater of the two, at a load that is no lower: our proposal.
@pytest.mark.parametrize(
    ("weeks", "told"),
    [
        ([(60, 8), (60, 10)], False),
        ([(60, 8), (60, 11)], True),
        ([(60, 8), (62, 11)], True),
        ([(60, 8), (59, 12)], False),
        ([(60, 15), (60, 18)], False),
        ([(60, 15), (60, 19)], True),
        ([(60, 10), (50, 6), (60, 10)], False),
        ([(60, 10), (50, 6), (50, 6), (60, 10)], True),
    ],
)
def test_a_rise_of_reps_over_the_cap_is_told(weeks: list[tuple[int, int]], told: bool) -> None:
    rows = (row("bench-press", week, load=KG(load), reps=reps) for week, (load, reps) in enumerate(weeks, 1))

    assert bool(list(rep_jumps(one_day(*rows, weeks=len(weeks)), CATALOGUE))) is told


def test_a_rise_of_reps_is_told_with_its_weeks() -> None:
    rows = (row("bench-press", 1, load=KG(60), reps=8), row("bench-press", 2, load=KG(60), reps=12))

    assert [one.facts for one in rep_jumps(one_day(*rows), CATALOGUE)] == [
        {
            "exercise": "Bench press",
            "day": "All",
            "from_week": "1",
            "from_reps": "8",
            "to_week": "2",
            "to_reps": "12",
        }
    ]


# At most two sets or a fifth more for a muscle, the greater of the two: our proposal.
@pytest.mark.parametrize(
    ("sets", "told"),
    [
        ([4, 6], False),
        ([4, 7], True),
        ([15, 18], False),
        ([15, 19], True),
        ([6, 3, 6], False),
        ([6, 3, 3, 6], True),
    ],
)
def test_a_rise_of_sets_over_the_cap_is_told(sets: list[int], told: bool) -> None:
    rows = (row("leg-extension", week, sets=each) for week, each in enumerate(sets, 1))

    assert bool(list(set_jumps(one_day(*rows, weeks=len(sets)), CATALOGUE, Policy()))) is told


def test_muscles_that_rise_in_one_week_are_told_together_and_weeks_of_tests_are_left_out() -> None:
    rows = (
        row("leg-extension", 1, sets=3),
        row("leg-extension", 3, sets=6),
        row("leg-curl", 3, sets=4),
        row("leg-extension", 2, sets=9),
    )
    written = one_day(*rows, weeks=3, tests=[2])
    (found,) = set_jumps(written, CATALOGUE, Policy())

    assert found.facts["week"] == "3"
    assert "hamstrings 0 to 4" in found.facts["muscles"]
    assert "quads 3 to 6" in found.facts["muscles"]
    assert (found.facts["more"], found.facts["share"]) == ("2", "20 %")
