import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.programme.catalogue import CATALOGUE
from core.programme.load_cells import load_in
from core.programme.prescription import Load, PercentOf
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
    ("75 % of estimate", "bench-press", None, Load.share(75, PercentOf.ESTIMATE)),
    ("72,5% of the estimated max", "bench-press", None, Load.share("72.5", PercentOf.ESTIMATE)),
    ("80 % e1RM", "dumbbell-bench-press", None, Load.share(80, PercentOf.ESTIMATE)),
    ("80 % of max", "bench-press", None, Load.share(80, PercentOf.MAX)),
    ("80 % max", "bench-press", None, Load.share(80, PercentOf.MAX)),
    ("+2.5 kg", "bench-press", None, Load.up(Mass.of("2.5"))),
    ("+ 2,5", "bench-press", KG, Load.up(Mass.of("2.5"))),
    ("+5 lb over last time", "bench-press", KG, Load.up(Mass.of(5, "lb"))),
    ("+2.5 kg from last session", "pull-up", None, Load.up(Mass.of("2.5"))),
    ("-20 kg", "pull-up", None, Load.bodyweight(Mass.of(-20))),
    ("Light band", "band-pull-apart", None, Load.banded("light")),
    ("dark-green 2 band", "band-pull-apart", KG, Load.banded("dark-green 2")),
]


@each_row(("text", "exercise", "unit", "load"), LOADS)
def test_loads_are_read(text: str, exercise: str, unit: Unit | None, load: Load) -> None:
    assert read(text, exercise, unit) == load


def test_a_number_takes_the_blocks_unit_with_all_its_decimals() -> None:
    assert read("1.125", unit=KG, kind=CellKind.NUMBER) == Load.of("1.125")


@pytest.mark.parametrize(("number", "percent"), [("0.75", "75"), ("0.725", "72.5"), ("1.05", "105")])
def test_a_number_that_was_typed_as_a_percentage_is_not_taken_for_a_load(number: str, percent: str) -> None:
    with pytest.raises(UnreadError) as caught:
        read(number, unit=KG, kind=CellKind.NUMBER)

    assert (caught.value.code, caught.value.facts) == (
        "load_or_percent",
        {"written": number, "percent": percent},
    )


def test_one_kilogram_is_one_kilogram() -> None:
    assert read("1", unit=KG, kind=CellKind.NUMBER) == Load.of(1)


def test_the_load_of_an_exercise_that_was_not_understood_is_read_all_the_same() -> None:
    assert load_in(Cell(2, 7, CellKind.TEXT, "bw+5 kg"), None, None) == Load.bodyweight(Mass.of(5))


PROBLEMS = [
    ("80", "bench-press", None, "load_without_unit"),
    ("bw+5", "pull-up", None, "load_without_unit"),
    ("heavy", "bench-press", KG, "load_unreadable"),
    ("1,250 kg", "bench-press", KG, "load_unreadable"),
    ("75 %", "bench-press", KG, "percent_of"),
    ("75 % of 1RM", "bench-press", KG, "load_unreadable"),
    ("29 % of max", "bench-press", KG, "percent_outside"),
    ("106 % of max", "bench-press", KG, "percent_outside"),
    ("75 % of estimate", "pull-up", KG, "percent_on_bodyweight"),
    ("75 % of estimate", "band-pull-apart", KG, "load_on_band"),
    ("-5 kg", "bench-press", KG, "load_down"),
    ("-5 kg from last time", "pull-up", KG, "load_down"),
    ("+5 kg", "band-pull-apart", KG, "load_on_band"),
    ("+5 from last time", "bench-press", None, "load_without_unit"),
    ("light band", "bench-press", KG, "band_on_other"),
    ("light band", "pull-up", KG, "band_on_other"),
    ("band", "band-pull-apart", KG, "load_unreadable"),
    ("a b c d e f g h i j k l m n o p q band", "band-pull-apart", KG, "text_too_long"),
    ("60-70 kg", "bench-press", KG, "load_unreadable"),
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


@each_row(("text", "exercise", "unit", "code"), PROBLEMS)
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
