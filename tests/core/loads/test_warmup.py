from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.equipment import Bar, Handles, Kit, Ladder, Plates, default_kit, ladder_for
from core.loads.warmup import Ramp, RampSet, lies_low, ramp, ramp_for
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Basis
from core.units import Mass, Unit

BAR = Ladder(steps=tuple(Mass.of(Decimal(20) + step * Decimal("2.5")) for step in range(80)))

# Working load and reps against (load, reps) of each step; 40, 60, 75, 90 % at or under the next 2.5 kg.
# Common practice, no source.
RAMPS = [
    ("100", 5, [("40", 8), ("60", 5), ("75", 3), ("90", 1)]),
    ("100", 8, [("40", 8), ("60", 5), ("75", 3)]),
    ("140", 3, [("55", 8), ("82.5", 5), ("105", 3), ("125", 1)]),
    ("60", 5, [("22.5", 8), ("35", 5), ("45", 3), ("52.5", 1)]),
    ("30", 5, [("20", 8), ("22.5", 3), ("25", 1)]),
    ("27.5", 5, []),
    ("20", 5, []),
]


@pytest.mark.parametrize(("work", "reps", "steps"), RAMPS)
def test_a_ramp_rises_in_steps_that_the_bar_makes(work, reps, steps):
    found = ramp(Mass.of(work), reps, BAR)

    assert [(each.load, each.reps) for each in found] == [(Mass.of(load), count) for load, count in steps]


def test_there_is_no_ramp_where_nothing_can_be_loaded():
    assert ramp(Mass.of(50), 5, Ladder(steps=())) == ()


@given(st.integers(0, 300), st.integers(1, 20))
def test_a_ramp_only_rises_and_stays_under_the_work(step, reps):
    work = Mass.of(Decimal(20) + step * Decimal("0.5"))

    loads = [each.load for each in ramp(work, reps, BAR)]

    assert loads == sorted(set(loads))
    assert all(load < work and load in BAR.steps for load in loads)


@pytest.mark.parametrize(
    ("work", "reps", "steps"),
    [("100", 5, [("60", 5)]), ("100", 10, [("60", 5)]), ("30", 5, [("20", 5)]), ("27.5", 5, [])],
)
def test_a_pattern_that_was_warmed_has_one_set_or_none(work, reps, steps):
    found = ramp(Mass.of(work), reps, BAR, warmed=True)

    assert [(each.load, each.reps) for each in found] == [(Mass.of(load), count) for load, count in steps]


GYM = default_kit("both", Unit.KG)
SMALL = Kit(place="home", unit=Unit.KG, bar=Mass.of(20), plates=(Plates(mass=Mass.of(5), pairs=2),))


@given(st.sampled_from(sorted(CATALOGUE)), st.integers(1, 600), st.integers(1, 20), st.booleans())
def test_a_ramp_of_any_exercise_holds_only_what_the_kit_makes(key, halves, reps, warmed):
    work, steps = Mass.of(Decimal(halves) / 2), ladder_for(exercise(key), GYM).steps

    found = ramp_for(exercise(key), work, reps, GYM, warmed=warmed)

    assert found.sets == () or not found.bar_too_heavy
    assert all(each.load in steps and each.load < work for each in found.sets)
    assert [each.load for each in found.sets] == sorted({each.load for each in found.sets})
    assert len(found.sets) <= (1 if warmed else 4)


def test_only_a_pull_from_the_floor_asks_for_full_size_discs():
    assert [each.low_bar for each in ramp_for(exercise("deadlift"), Mass.of(60), 5, SMALL).sets] == [True] * 3
    assert not any(each.low_bar for each in ramp_for(exercise("back-squat"), Mass.of(60), 5, SMALL).sets)


@pytest.mark.parametrize(
    ("load", "full_size", "low"),
    [
        ("40", (), True),
        ("40", ("5",), False),
        ("40", ("10",), True),
        ("20", ("5",), True),
        ("41", ("5",), True),  # cannot be made, so that nobody knows
    ],
)
def test_the_kit_says_which_discs_are_of_full_size(load, full_size, low):
    kit = SMALL.model_copy(update={"full_size": tuple(Mass.of(each) for each in full_size)})

    assert lies_low(Mass.of(load), exercise("deadlift"), kit) is low


DUMBBELLS = {"dumbbells": (Mass.of(4), Mass.of(6))}


@pytest.mark.parametrize(
    ("key", "work", "more", "instead"),
    [
        ("bench-press", "15", DUMBBELLS, "dumbbell-bench-press"),
        ("bench-press", "8", DUMBBELLS, "dumbbell-bench-press"),
        # Two of 4 kg are more than 7 kg; what moves no counted load is always lighter.
        ("bench-press", "7", DUMBBELLS, "push-up"),
        ("bench-press", "15", {}, "push-up"),
        ("back-squat", "15", DUMBBELLS, "goblet-squat"),
        ("barbell-curl", "7", DUMBBELLS, None),
        ("barbell-curl", "7", {**DUMBBELLS, "bands": ("light",)}, "band-curl"),
        ("barbell-curl", "8", DUMBBELLS, "curl"),
    ],
)
def test_where_the_empty_bar_is_too_heavy_another_implement_is_named(key, work, more, instead):
    kit = SMALL.model_copy(update=more)

    assert ramp_for(exercise(key), Mass.of(work), 8, kit) == Ramp(bar_too_heavy=True, instead=instead)


def test_an_equal_that_one_hand_holds_is_held_against_the_bar_by_what_it_weighs():
    lift = exercise("barbell-row").model_copy(update={"equals": ("gone", "deadlift", "one-arm-row")})
    kit = SMALL.model_copy(update={"dumbbells": (Mass.of(14),)})

    assert ramp_for(lift, Mass.of(15), 8, kit).instead == "one-arm-row"
    assert ramp_for(lift, Mass.of(13), 8, kit).instead is None


@pytest.mark.parametrize("key", ["pull-up", "push-up", "dip"])
def test_where_the_body_is_the_load_there_is_no_ramp_of_what_is_added(key):
    assert ramp_for(exercise(key), Mass.of(20), 5, GYM) == Ramp()


def test_a_lighter_bar_is_a_bar_all_the_same():
    kit = SMALL.model_copy(update={"bars": (Bar(name="light bar", mass=Mass.of(10)),)})

    assert ramp_for(exercise("bench-press"), Mass.of(15), 8, kit) == Ramp(
        sets=(RampSet(load=Mass.of(10), reps=8),)
    )


def test_a_side_of_the_bar_is_never_too_light_for_it():
    a_side = exercise("barbell-row").model_copy(update={"basis": Basis.PER_SIDE})

    assert ramp_for(a_side, Mass.of(5), 8, SMALL) == Ramp(sets=(RampSet(load=Mass.of(0), reps=8),))


def test_dumbbells_that_are_made_up_ramp_by_their_discs():
    handles = Handles(
        mass=Mass.of(2), plates=(Plates(mass=Mass.of(1), pairs=8), Plates(mass=Mass.of(5), pairs=4))
    )
    kit = Kit(place="home", unit=Unit.KG, handles=handles)

    found = ramp_for(exercise("dumbbell-bench-press"), Mass.of(20), 5, kit)

    assert [(str(each.load), each.reps) for each in found.sets] == [
        ("8 kg", 8),
        ("12 kg", 5),
        ("14 kg", 3),
        ("18 kg", 1),
    ]
