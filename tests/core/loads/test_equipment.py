from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.equipment import Kit, Ladder, Plates, default_kit, ladder_for, plates_for
from core.programme.catalogue import exercise
from core.programme.exercises import Basis
from core.units import Mass, Unit

COUNTED = st.lists(
    st.tuples(st.sampled_from(["25", "20", "15", "10", "5", "2.5", "1.25", "0.5"]), st.integers(0, 3)),
    max_size=5,
    unique_by=lambda one: one[0],
)


def bar_with(plates: list[tuple[str, int]]) -> Kit:
    return Kit(
        place="boathouse",
        unit=Unit.KG,
        bar=Mass.of(20),
        plates=tuple(Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in plates),
    )


def every_side(plates: list[tuple[str, int]]) -> dict[Decimal, list[tuple[Decimal, ...]]]:
    """Every sum of one side and every way to it, by trying all."""
    ways: dict[Decimal, list[tuple[Decimal, ...]]] = {}
    for counts in product(*(range(pairs + 1) for _, pairs in plates)):
        way = tuple(
            sorted(
                (
                    Decimal(mass)
                    for (mass, _), count in zip(plates, counts, strict=True)
                    for _ in range(count)
                ),
                reverse=True,
            )
        )
        ways.setdefault(sum(way, Decimal(0)), []).append(way)
    return ways


@given(COUNTED)
def test_the_ladder_of_a_bar_is_every_sum_of_its_plates(plates: list[tuple[str, int]]) -> None:
    steps = ladder_for(exercise("back-squat"), bar_with(plates)).steps
    assert [step.value for step in steps] == sorted(20 + 2 * side for side in every_side(plates))


@given(COUNTED)
def test_every_step_has_its_plates_and_they_are_the_fewest_heaviest_first(
    plates: list[tuple[str, int]],
) -> None:
    kit, ways = bar_with(plates), every_side(plates)
    for step in ladder_for(exercise("back-squat"), kit).steps:
        found = plates_for(step, kit)
        assert found is not None
        best = max(ways[(step.value - 20) / 2], key=lambda way: (-len(way), way))
        assert tuple(each.value for each in found) == best


@given(COUNTED, st.decimals(min_value=0, max_value=300, places=2))
def test_what_is_no_step_has_no_plates(plates: list[tuple[str, int]], total: Decimal) -> None:
    kit = bar_with(plates)
    steps = ladder_for(exercise("back-squat"), kit).steps
    assert (plates_for(Mass.of(total), kit) is not None) == (Mass.of(total) in steps)


@given(
    st.lists(st.decimals(min_value=0, max_value=100, places=1), unique=True, max_size=8),
    st.decimals(0, 120, places=1),
)
def test_a_ladder_finds_the_steps_around_a_mass(values: list[Decimal], value: Decimal) -> None:
    ladder, mass = Ladder(steps=tuple(Mass.of(each) for each in sorted(values))), Mass.of(value)
    under, over = ladder.at_or_under(mass), ladder.over(mass)
    assert under == max((Mass.of(each) for each in values if each <= value), default=None)
    assert over == min((Mass.of(each) for each in values if each > value), default=None)


def test_a_jump_is_the_next_step_as_a_fraction() -> None:
    ladder = ladder_for(exercise("curl"), default_kit("dumbbells", Unit.KG))
    assert ladder.jump(Mass.of(8)) == Decimal("0.125")
    assert ladder.jump(Mass.of(10)) == Decimal("0.2")
    assert ladder.jump(Mass.of(30)) is None
    assert ladder.jump(Mass.of(0)) is None


@pytest.mark.parametrize(
    ("kind", "unit", "key", "first", "second", "top"),
    [
        ("bar", Unit.KG, "back-squat", "20 kg", "22.5 kg", "520 kg"),
        ("bar", Unit.LB, "back-squat", "45 lb", "50 lb", "1145 lb"),
        ("both", Unit.KG, "curl", "1 kg", "2 kg", "50 kg"),
        ("both", Unit.LB, "curl", "2.5 lb", "5 lb", "100 lb"),
        ("dumbbells", Unit.KG, "goblet-squat", "1 kg", "2 kg", "30 kg"),
        ("both", Unit.KG, "kettlebell-swing", "8 kg", "12 kg", "32 kg"),
        ("bar", Unit.KG, "leg-press", "5 kg", "10 kg", "300 kg"),
        ("bar", Unit.LB, "leg-press", "10 lb", "20 lb", "600 lb"),
        ("dumbbells", Unit.KG, "push-up", "0 kg", "2 kg", "100 kg"),
        ("bar", Unit.KG, "pull-up", "-60 kg", "-55 kg", "100 kg"),
        ("bar", Unit.KG, "push-up", "0 kg", "2.5 kg", "100 kg"),
    ],
)
def test_default_kits_give_the_usual_steps(
    kind: str, unit: Unit, key: str, first: str, second: str, top: str
) -> None:
    steps = ladder_for(exercise(key), default_kit(kind, unit)).steps
    assert [str(step) for step in (steps[0], steps[1], steps[-1])] == [first, second, top]


@pytest.mark.parametrize(
    ("kind", "key", "steps"),
    [
        ("bodyweight", "push-up", 1),
        ("bodyweight", "pull-up", 1),
        ("bodyweight", "back-squat", 0),
        ("bodyweight", "curl", 0),
        ("dumbbells", "leg-press", 0),
        ("dumbbells", "kettlebell-swing", 0),
        ("both", "band-pull-apart", 0),
    ],
)
def test_what_is_not_there_cannot_be_loaded(kind: str, key: str, steps: int) -> None:
    assert len(ladder_for(exercise(key), default_kit(kind, Unit.KG)).steps) == steps


def test_a_kind_of_kit_that_is_not_known_is_refused() -> None:
    with pytest.raises(ValueError, match="'boat'"):
        default_kit("boat", Unit.KG)


def test_a_side_of_the_bar_is_counted_without_the_bar() -> None:
    a_side = exercise("barbell-row").model_copy(update={"basis": Basis.PER_SIDE})
    steps = ladder_for(a_side, bar_with([("20", 1), ("5", 1)])).steps
    assert [str(step) for step in steps] == ["0 kg", "5 kg", "20 kg", "25 kg"]


def test_a_bar_in_pounds_with_plates_in_kilograms_is_exact() -> None:
    kit = Kit(
        place="slipway",
        unit=Unit.KG,
        bar=Mass.of(45, "lb"),
        plates=(Plates(mass=Mass.of(10), pairs=1),),
    )
    steps = ladder_for(exercise("back-squat"), kit).steps
    assert [str(step) for step in steps] == ["20.41165665 kg", "40.41165665 kg"]
    assert plates_for(steps[1], kit) == (Mass.of(10),)


def test_without_a_bar_nothing_is_put_on() -> None:
    assert plates_for(Mass.of(60), default_kit("dumbbells", Unit.KG)) is None
    assert plates_for(Mass.of(15), default_kit("bar", Unit.KG)) is None
    assert plates_for(Mass.of(900), default_kit("bar", Unit.KG)) is None
