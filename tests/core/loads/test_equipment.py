from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.equipment import (
    HOME,
    Kit,
    Ladder,
    Stack,
    default_kit,
    is_likely_there,
    ladder_for,
    stations_likely_there,
)
from core.programme.catalogue import exercise
from core.programme.exercises import Station
from core.units import Mass, Unit


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
    assert ladder.jump(Mass.of(1)) == 1
    assert ladder.jump(Mass.of(0)) is None
    assert ladder.jump(Mass.of(-5)) is None


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


def test_a_band_is_likely_there_once_it_has_a_name() -> None:
    bare = Kit(place="home", unit=Unit.KG)
    banded = bare.model_copy(update={"bands": ("light",)})

    assert not is_likely_there(exercise("band-pull-apart"), bare)
    assert is_likely_there(exercise("band-pull-apart"), banded)
    assert not is_likely_there(exercise("band-assisted-pull-up"), banded)  # nothing to hang from
    assert is_likely_there(exercise("push-up"), bare)


def test_beside_machines_everything_is_likely_there() -> None:
    stack = Stack(start=Mass.of(5), step=Mass.of(5), top=Mass.of(50))
    described = Kit(place="gym", unit=Unit.KG, stacks=(stack,))

    assert stations_likely_there(described) == set(Station)
    assert stations_likely_there(default_kit("bar", Unit.KG)) == set(Station)
    assert Station.CABLE not in stations_likely_there(default_kit("dumbbells", Unit.KG))


def test_what_needs_all_that_a_home_has_is_likely_there() -> None:
    bare, push_up = Kit(place="home", unit=Unit.KG), exercise("push-up")

    assert is_likely_there(push_up.model_copy(update={"needs": HOME}), bare)
    assert not is_likely_there(push_up.model_copy(update={"needs": HOME | {Station.CABLE}}), bare)
