from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.dose_text import dose_text, parse_planned
from core.programme.exercises import Basis, Exercise, Implement, Pattern, Region
from core.programme.prescription import Dose, Load, Span
from core.units import Mass, Unit


def exercise(basis: Basis = Basis.TOTAL, *, each_side: bool = False, timed: bool = False) -> Exercise:
    return Exercise(
        key="lift",
        name="Lift",
        pattern=Pattern.HINGE,
        region=Region.LOWER,
        basis=basis,
        implement=Implement.BARBELL,
        each_side=each_side,
        timed=timed,
    )


def reps(sets: int, low: int, load: Load | None = None, high: int | None = None) -> Dose:
    return Dose(sets=sets, reps=Span(low=low, high=high or low), load=load)


LINES = [
    ("5x8 @ 92.5 kg", reps(5, 8, Load.of("92.5"))),
    ("5x8 @ 92,5kg", reps(5, 8, Load.of("92.5"))),
    ("5 x 8 @ 92.5", reps(5, 8, Load.of("92.5"))),
    ("5×8 at 92.5 kilos", reps(5, 8, Load.of("92.5"))),
    ("3x8-10 @ bw", reps(3, 8, Load.bodyweight(), 10)),
    ("3x8–10 reps @ bodyweight", reps(3, 8, Load.bodyweight(), 10)),
    ("3x8 @ bw+5 kg", reps(3, 8, Load.bodyweight(Mass.of(5)))),
    ("3x8 @ bw - 10", reps(3, 8, Load.bodyweight(Mass.of(-10)))),
    ("3x8 @ +5 lb", reps(3, 8, Load.bodyweight(Mass.of(5, "lb")))),
    ("3x8 @ find", reps(3, 8, Load.find())),
    ("3x8", reps(3, 8)),
    ("3 sets of 8", reps(3, 8)),
    ("3x30s", Dose(sets=3, seconds=Span(low=30, high=30))),
    ("3x1 min", Dose(sets=3, seconds=Span(low=60, high=60))),
    ("4x6 @ 100 lb, 2 left", reps(4, 6, Load.of(100, "lb")).model_copy(update={"left": 2})),
    ("3x8, 1 rir", reps(3, 8).model_copy(update={"left": 1})),
    ("3x10 each side @ 16 kg", reps(3, 10, Load.of(16)).model_copy(update={"each_side": True})),
    ("3x10/leg @ 16 kg a hand", reps(3, 10, Load.of(16)).model_copy(update={"each_side": True})),
]


@pytest.mark.parametrize(("text", "expected"), LINES)
def test_a_planned_line_is_read(text: str, expected: Dose) -> None:
    assert parse_planned(text, Unit.KG, exercise()) == expected
    assert parse_planned(text, Unit.KG, None) == expected


@pytest.mark.parametrize(
    "text",
    [
        "",
        "8",
        "x8",
        "5x",
        "0x8",
        "21x8",
        "3x0",
        "3x10-8",
        "3x1001",
        "3x8 @ heavy",
        "3x8 @ 80 kg, 6 left",
        "3x8 @ 80 kg kg",
        "5x8x3",
    ],
)
def test_what_is_no_planned_line_is_not_read(text: str) -> None:
    assert parse_planned(text, Unit.KG, exercise()) is None


def test_a_number_without_a_unit_is_in_the_unit_given() -> None:
    assert parse_planned("3x8 @ 135", Unit.LB, None) == reps(3, 8, Load.of(135, "lb"))


def test_an_exercise_tells_seconds_sides_and_what_a_load_is_added_to() -> None:
    plank = exercise(Basis.BODYWEIGHT, each_side=True, timed=True)

    assert parse_planned("3x30 @ 5", Unit.KG, plank) == Dose(
        sets=3, seconds=Span(low=30, high=30), load=Load.bodyweight(Mass.of(5)), each_side=True
    )


masses = st.builds(
    Mass, st.integers(1, 99_999).map(lambda number: Decimal(number) / 100), st.sampled_from(Unit)
)
loads = st.one_of(
    st.none(),
    st.just(Load.find()),
    masses.map(lambda mass: Load.of(mass.value, mass.unit)),
    st.just(Load.bodyweight()),
    st.tuples(masses, st.sampled_from([1, -1])).map(lambda pair: Load.bodyweight(pair[0] * pair[1])),
)
spans = st.tuples(st.integers(1, 500), st.integers(0, 500)).map(
    lambda pair: Span(low=pair[0], high=sum(pair))
)


@given(st.integers(1, 20), spans, st.booleans(), loads, st.none() | st.integers(0, 5), st.booleans())
def test_every_dose_is_written_and_read_back(
    sets: int, span: Span, timed: bool, load: Load | None, left: int | None, each_side: bool
) -> None:
    dose = Dose(
        sets=sets,
        reps=None if timed else span,
        seconds=span if timed else None,
        load=load,
        left=left,
        each_side=each_side,
    )

    assert parse_planned(dose_text(dose), Unit.KG, None) == dose


@given(st.text(max_size=200))
def test_no_line_raises(text: str) -> None:
    dose = parse_planned(text, Unit.KG, None)

    assert dose is None or parse_planned(dose_text(dose), Unit.KG, None) == dose
