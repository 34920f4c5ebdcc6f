from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.loads.equipment import Handles, Kit, Plates, Run, ladder_for
from core.loads.hands import discs_an_end, takes_two
from core.programme.catalogue import CATALOGUE, exercise
from core.programme.exercises import Implement
from core.units import Mass, Unit

COUNTED = st.lists(
    st.tuples(st.sampled_from(["5", "2.5", "2", "1.25", "0.5"]), st.integers(0, 5)),
    max_size=4,
    unique_by=lambda one: one[0],
)


def discs(plates: list[tuple[str, int]]) -> tuple[Plates, ...]:
    return tuple(Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in plates)


def home(**more: object) -> Kit:
    return Kit(place="home", unit=Unit.KG, **more)


@pytest.mark.parametrize(
    ("key", "two"),
    [
        ("curl", True),
        ("farmer-carry", True),
        ("kettlebell-carry", True),
        ("split-squat", True),
        ("step-up", True),
        ("one-leg-hinge", True),
        ("one-arm-row", False),
        ("suitcase-carry", False),
        ("kettlebell-press", False),
        ("goblet-squat", False),
        ("lateral-lunge", False),
        ("kettlebell-swing", False),
    ],
)
def test_whether_an_exercise_takes_two_at_a_time(key: str, two: bool) -> None:
    assert takes_two(exercise(key)) is two


@pytest.mark.parametrize(
    ("key", "steps"), [("curl", "4 6 8"), ("goblet-squat", "4 6 8 20"), ("one-arm-row", "4 6 8 20")]
)
def test_a_lone_dumbbell_serves_where_one_is_held(key: str, steps: str) -> None:
    kit = home(
        dumbbells=(Mass.of(6),),
        dumbbell_runs=(Run(first=Mass.of(4), last=Mass.of(8), step=Mass.of(2)),),
        lone_dumbbells=(Mass.of(20),),
    )

    assert ladder_for(exercise(key), kit).steps == tuple(Mass.of(each) for each in steps.split())


@pytest.mark.parametrize(("key", "steps"), [("kettlebell-carry", "12"), ("kettlebell-swing", "12 16")])
def test_a_lone_kettlebell_serves_where_one_is_held(key: str, steps: str) -> None:
    kit = home(kettlebells=(Mass.of(12),), lone_kettlebells=(Mass.of(16),))

    assert ladder_for(exercise(key), kit).steps == tuple(Mass.of(each) for each in steps.split())


def test_a_kettlebell_marked_in_kilograms_stays_so_in_a_gym_of_pounds() -> None:
    kit = Kit(place="gym", unit=Unit.LB, kettlebells=(Mass.of(35, "lb"), Mass.of(12)))

    assert [str(step) for step in ladder_for(exercise("kettlebell-swing"), kit).steps] == ["12 kg", "35 lb"]


def every_end(plates: list[tuple[str, int]], share: int) -> set[Decimal]:
    """Every sum of one end, by trying all."""
    counts = (range(pairs // share + 1) for _, pairs in plates)
    return {
        sum((Decimal(mass) * count for (mass, _), count in zip(plates, some, strict=True)), Decimal(0))
        for some in product(*counts)
    }


@given(COUNTED, st.sampled_from([("goblet-squat", 1), ("curl", 2)]))
def test_a_dumbbell_is_made_up_to_every_sum_that_its_discs_allow(
    plates: list[tuple[str, int]], which: tuple[str, int]
) -> None:
    key, share = which
    kit = home(handles=Handles(mass=Mass.of(2), plates=discs(plates), most=Mass.of(200)))

    steps = ladder_for(exercise(key), kit).steps

    assert [step.value for step in steps] == sorted(2 + 2 * end for end in every_end(plates, share))
    for step in steps:
        on = discs_an_end(step, exercise(key), kit)
        assert on is not None
        assert 2 + 2 * sum(each.value for each in on) == step.value
        assert all(
            share * on.count(Mass.of(mass)) <= pairs for mass, pairs in plates
        )  # for all dumbbells together there are discs enough


def test_a_handle_takes_the_discs_of_the_bar_where_it_has_none_of_its_own() -> None:
    kit = home(plates=discs([("5", 2)]), handles=Handles(mass=Mass.of(2)))

    assert [str(step) for step in ladder_for(exercise("curl"), kit).steps] == ["2 kg", "12 kg"]


def test_a_dumbbell_is_made_up_no_further_than_it_goes() -> None:
    kit = home(handles=Handles(mass=Mass.of(2), plates=(Plates(mass=Mass.of(1)),), most=Mass.of(9)))

    assert [str(step) for step in ladder_for(exercise("curl"), kit).steps] == ["2 kg", "4 kg", "6 kg", "8 kg"]
    assert discs_an_end(Mass.of(10), exercise("curl"), kit) is None


@pytest.mark.parametrize(("unit", "top"), [(Unit.KG, 80), (Unit.LB, 180)])
def test_where_nobody_said_how_far_it_goes_a_dumbbell_ends_where_hardly_anybody_lifts(
    unit: Unit, top: int
) -> None:
    halves = (Plates(mass=Mass.of("0.5", unit)),)
    kit = Kit(place="home", unit=unit, handles=Handles(mass=Mass.of(2, unit), plates=halves))

    steps = ladder_for(exercise("curl"), kit).steps

    assert (steps[0], steps[-1]) == (Mass.of(2, unit), Mass.of(top, unit))
    assert discs_an_end(steps[0], exercise("curl"), kit) == ()
    assert discs_an_end(steps[-1], exercise("curl"), kit) == (Mass.of("0.5", unit),) * (top - 2)
    assert discs_an_end(Mass.of(top + 1, unit), exercise("curl"), kit) is None


def test_a_handle_heavier_than_it_may_be_made_up_to_stays_as_it_is() -> None:
    kit = home(handles=Handles(mass=Mass.of(3), plates=discs([("1", 2)]), most=Mass.of(2)))

    assert ladder_for(exercise("curl"), kit).steps == (Mass.of(3),)


def test_one_handle_makes_no_pair() -> None:
    kit = home(handles=Handles(mass=Mass.of(2), count=1, plates=discs([("5", 4)])))

    assert ladder_for(exercise("curl"), kit).steps == ()
    assert discs_an_end(Mass.of(12), exercise("curl"), kit) is None
    assert discs_an_end(Mass.of(12), exercise("goblet-squat"), kit) == (Mass.of(5),)


def test_discs_that_are_written_twice_are_shared_as_one_heap() -> None:
    kit = home(handles=Handles(mass=Mass.of(2), plates=discs([("5", 1), ("5.0", 1)])))

    assert ladder_for(exercise("curl"), kit).steps == (Mass.of(2), Mass.of(12))


def test_what_is_not_made_up_has_no_discs() -> None:
    assert discs_an_end(Mass.of(12), exercise("curl"), home(dumbbells=(Mass.of(12),))) is None
    kit = home(handles=Handles(mass=Mass.of(2), plates=discs([("5", 4)])))
    assert discs_an_end(Mass.of(13), exercise("curl"), kit) is None
    assert discs_an_end(Mass.of(1), exercise("curl"), kit) is None
    assert discs_an_end(Mass.of(12), exercise("kettlebell-swing"), kit) is None


def test_handles_in_pounds_with_discs_in_both_units_are_exact_and_told_as_marked() -> None:
    plates = (*discs([("5", 2)]), Plates(mass=Mass.of("2.5", "lb"), pairs=2))
    kit = home(handles=Handles(mass=Mass.of(5, "lb"), plates=plates))

    steps = ladder_for(exercise("curl"), kit).steps

    assert [str(step) for step in steps] == [
        "2.26796185 kg",
        "4.5359237 kg",
        "12.26796185 kg",
        "14.5359237 kg",
    ]
    assert [str(disc) for disc in discs_an_end(steps[3], exercise("curl"), kit) or ()] == ["5 kg", "2.5 lb"]


@each_row("key", [each.key for each in CATALOGUE.values() if each.implement is Implement.DUMBBELL])
def test_whoever_holds_two_needs_no_more_dumbbells_than_whoever_holds_one(key: str) -> None:
    kit = home(lone_dumbbells=(Mass.of(9),), dumbbells=(Mass.of(5),))
    steps = ladder_for(exercise(key), kit).steps

    assert (Mass.of(9) in steps) is not takes_two(exercise(key))
    assert Mass.of(5) in steps


def test_more_than_two_handles_serve_as_two_do() -> None:
    two, four = (
        home(handles=Handles(mass=Mass.of(2), count=count, plates=discs([("5", 4)]))) for count in (2, 4)
    )

    assert ladder_for(exercise("curl"), four) == ladder_for(exercise("curl"), two)
    assert discs_an_end(Mass.of(12), exercise("curl"), four) == (Mass.of(5),)


def test_a_dumbbell_goes_as_far_as_was_said_to_half_a_disc() -> None:
    kit = home(handles=Handles(mass=Mass.of(2), plates=discs([("2.5", 4)]), most=Mass.of(7)))

    assert ladder_for(exercise("curl"), kit).steps == (Mass.of(2), Mass.of(7))


def test_a_handle_alone_has_no_discs_on_even_where_it_is_more_than_may_be_made_up() -> None:
    kit = home(handles=Handles(mass=Mass.of(2), plates=discs([("5", 4)]), most=Mass.of(1)))

    assert discs_an_end(Mass.of(2), exercise("curl"), kit) == ()
