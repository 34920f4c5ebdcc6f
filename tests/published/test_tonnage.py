"""Tonnage: worked examples of [BMJMil2020], the exact pound of [Pound1959], and pint beside it."""

from decimal import Decimal
from functools import cache
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.tonnage import tonnage
from core.loads.work_done import WorkDone
from core.programme.catalogue import exercise
from core.sources import SOURCES, Mark
from core.units import Mass, Unit
from tests.core.loads.lifts import done, dose


@cache
def units() -> Any:
    import pint

    return pint.UnitRegistry(non_int_type=Decimal)


def moved(key: str, counts: str, loads: str, *, sides: str = "") -> Mass | None:
    sets = len(counts.split())
    written = loads.split(",")
    asked = dose(sets, "8", written[0])
    exposure = done(0, asked, counts, sides=sides)
    lifted = tuple(
        one.model_copy(update={"load": dose(1, "8", load).load})
        for one, load in zip(exposure.sets, written * sets, strict=False)
    )
    work = WorkDone(exercise=exercise(key), exposure=exposure.model_copy(update={"sets": lifted}))
    return tonnage([work]).mass


@pytest.mark.parametrize(
    ("counts", "loads", "kg"),
    [
        ("8 8 8", "65", "1560"),  # table 1: 3 x 8 x 65
        ("10 8 6", "55,65,75", "1520"),  # table 1: 10 x 55 + 8 x 65 + 6 x 75
        ("10", "55", "550"),
        ("8", "65", "520"),
        ("6", "75", "450"),
    ],
)
def test_the_worked_examples(counts: str, loads: str, kg: str) -> None:
    assert SOURCES["BMJMil2020"].mark is Mark.TEXT
    assert moved("bench-press", counts, loads) == Mass.of(kg)


@pytest.mark.parametrize(
    ("key", "counts", "sides", "kg"),
    [  # a load of 20 kg as it is written; common practice, no source, where no example stands
        ("dumbbell-bench-press", "8 8 8", "", "960"),  # two 20 kg dumbbells: 3 x 8 x 40
        ("goblet-squat", "8 8 8", "", "480"),  # one dumbbell, held by both hands
        ("one-arm-row", "8 8 8", "", "960"),  # one dumbbell, 8 a side: 3 x 16 x 20
        ("one-arm-row", "8 8 8 8 8 8", "LRLRLR", "960"),
        ("split-squat", "8 8 8", "", "1920"),  # two dumbbells, 8 a side: 3 x 16 x 40
        ("split-squat", "8 8 8 8 8 8", "LRLRLR", "1920"),
        ("leg-press", "8 8 8", "", "480"),  # a stack as it is marked
    ],
)
def test_the_same_number_moves_by_how_it_is_written(key: str, counts: str, sides: str, kg: str) -> None:
    assert moved(key, counts, "20", sides=sides) == Mass.of(kg)


@pytest.mark.parametrize(
    ("pounds", "kg"),
    [
        ("225", "102.05828325"),
        ("45", "20.41165665"),
        ("35", "15.87573295"),
        ("5", "2.26796185"),
        ("1", "0.45359237"),
    ],
)
def test_a_rep_in_pounds_in_exact_kilograms(pounds: str, kg: str) -> None:
    found = moved("bench-press", "1", f"{pounds} lb")

    assert SOURCES["Pound1959"].year == 1959
    assert found is not None
    assert (found.unit, found.value, found.kg) == (Unit.LB, Decimal(pounds), Decimal(kg))
    assert found.kg == units().Quantity(Decimal(pounds), "pound").to("kilogram").magnitude


HALVES = st.integers(1, 800).map(lambda one: str(Decimal(one) / 2))


@given(HALVES, HALVES, st.integers(1, 30), st.integers(1, 30))
def test_mixed_units_as_pint_adds_them(kilos: str, pounds: str, first: int, second: int) -> None:
    theirs = units().Quantity(Decimal(kilos), "kilogram") * first
    theirs += units().Quantity(Decimal(pounds), "pound") * second
    found = moved("bench-press", f"{first} {second}", f"{kilos},{pounds} lb")

    assert found is not None
    assert found.unit is Unit.KG
    assert found.value == theirs.to("kilogram").magnitude
