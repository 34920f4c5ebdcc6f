import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.catalogue import CATALOGUE
from core.programme.load_cells import load_in
from core.programme.prescription import Load
from core.programme.sheets import Cell, CellKind, UnreadError
from core.units import Mass, Unit

KG, LB = Unit.KG, Unit.LB


def read(
    text: str, exercise: str = "bench-press", unit: Unit | None = None, kind: CellKind = CellKind.TEXT
) -> Load:
    return load_in(Cell(2, 7, kind, text), unit, CATALOGUE[exercise])


LOADS = [
    ("80 kg", "bench-press", None, Load.of(80)),
    ("80kg", "bench-press", LB, Load.of(80)),
    ("82,5 kg", "bench-press", None, Load.of("82.5")),
    ("82.5 KG", "bench-press", None, Load.of("82.5")),
    ("135 lb", "bench-press", None, Load.of(135, "lb")),
    ("135 lbs", "bench-press", KG, Load.of(135, "lb")),
    ("135 pounds", "bench-press", KG, Load.of(135, "lb")),
    ("80", "bench-press", KG, Load.of(80)),
    ("80", "bench-press", LB, Load.of(80, "lb")),
    ("find", "bench-press", None, Load.find()),
    ("Find", "band-pull-apart", None, Load.find()),
    ("bw", "pull-up", None, Load.bodyweight()),
    ("Bodyweight", "pull-up", None, Load.bodyweight()),
    ("bw+5 kg", "pull-up", None, Load.bodyweight(Mass.of(5))),
    ("BW + 2,5 kg", "pull-up", None, Load.bodyweight(Mass.of("2.5"))),
    ("bw-20 kg", "pull-up", None, Load.bodyweight(Mass.of(-20))),
    ("bw−20 kg", "pull-up", None, Load.bodyweight(Mass.of(-20))),
    ("bw+5", "pull-up", KG, Load.bodyweight(Mass.of(5))),
    ("bw+0 kg", "pull-up", None, Load.bodyweight()),
    ("+5 kg", "pull-up", None, Load.bodyweight(Mass.of(5))),
    ("bw", "split-squat", None, Load.bodyweight()),
    ("20 kg a hand", "dumbbell-bench-press", None, Load.of(20)),
    ("20 kg per hand", "dumbbell-bench-press", None, Load.of(20)),
    ("20 kg each", "dumbbell-bench-press", None, Load.of(20)),
    ("2x20 kg", "dumbbell-bench-press", None, Load.of(20)),
    ("2 × 20 kg", "dumbbell-bench-press", None, Load.of(20)),
    ("60 kg total", "bench-press", None, Load.of(60)),
]


@pytest.mark.parametrize(("text", "exercise", "unit", "load"), LOADS)
def test_loads_are_read(text: str, exercise: str, unit: Unit | None, load: Load) -> None:
    assert read(text, exercise, unit) == load


def test_a_number_takes_the_blocks_unit_with_all_its_decimals() -> None:
    assert read("1.125", unit=KG, kind=CellKind.NUMBER) == Load.of("1.125")


def test_the_load_of_an_exercise_that_was_not_understood_is_read_all_the_same() -> None:
    assert load_in(Cell(2, 7, CellKind.TEXT, "bw+5 kg"), None, None) == Load.bodyweight(Mass.of(5))


PROBLEMS = [
    ("80", "bench-press", None, "load_without_unit"),
    ("bw+5", "pull-up", None, "load_without_unit"),
    ("heavy", "bench-press", KG, "load_unreadable"),
    ("1,250 kg", "bench-press", KG, "load_unreadable"),
    ("75 %", "bench-press", KG, "load_unreadable"),
    ("60-70 kg", "bench-press", KG, "load_unreadable"),
    ("+5 kg", "bench-press", KG, "load_unreadable"),
    ("0 kg", "bench-press", KG, "load_out_of_range"),
    ("1001 kg", "bench-press", KG, "load_out_of_range"),
    ("2205 lb", "bench-press", KG, "load_out_of_range"),
    ("bw-1000 kg", "pull-up", KG, "load_out_of_range"),
    ("+1001 kg", "pull-up", KG, "load_out_of_range"),
    ("40 kg total", "dumbbell-bench-press", None, "load_basis"),
    ("40 kg a hand", "bench-press", None, "load_basis"),
    ("2x20 kg", "bench-press", None, "load_basis"),
    ("20 kg a side", "bench-press", None, "load_basis"),
    ("10 kg", "pull-up", None, "load_needs_bw"),
    ("5 kg", "band-pull-apart", None, "load_on_band"),
    ("bw", "band-pull-apart", None, "load_on_band"),
    ("bw+5 kg", "split-squat", None, "bw_added_to_loaded"),
]


@pytest.mark.parametrize(("text", "exercise", "unit", "code"), PROBLEMS)
def test_a_load_that_cannot_be_meant_is_a_problem(
    text: str, exercise: str, unit: Unit | None, code: str
) -> None:
    with pytest.raises(UnreadError) as caught:
        read(text, exercise, unit)

    assert caught.value.code == code


@given(st.text(), st.sampled_from(sorted(CATALOGUE)), st.sampled_from([None, KG, LB]))
def test_any_text_is_a_load_or_a_problem(text: str, exercise: str, unit: Unit | None) -> None:
    try:
        load: Load | None = read(text, exercise, unit)
    except UnreadError:
        load = None

    assert load is None or load_in(Cell(2, 7, CellKind.TEXT, str(load)), None, CATALOGUE[exercise]) == load
