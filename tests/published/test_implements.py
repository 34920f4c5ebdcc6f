"""Bars, plates and what can be loaded: [Pound1959], [IWF]; gym sets are common practice, no source."""

from decimal import Decimal

import pytest

from core.loads.equipment import Kit, Plates, default_kit, ladder_for, plates_for
from core.programme.catalogue import exercise
from core.units import Mass, Unit


@pytest.mark.parametrize(
    ("pounds", "kilograms"),
    [
        ("1", "0.45359237"),
        ("5", "2.26796185"),
        ("35", "15.87573295"),
        ("45", "20.41165665"),
        ("225", "102.05828325"),
    ],
)
def test_pounds_in_kilograms(pounds: str, kilograms: str) -> None:
    assert Mass.of(pounds, "lb").kg == Decimal(kilograms)


def test_a_hundred_kilograms_in_pounds() -> None:
    assert Mass.of(100).to(Unit.LB).value.quantize(Decimal("0.000001")) == Decimal("220.462262")


def test_a_bar_of_45_pounds_is_no_bar_of_20_kilograms() -> None:
    assert (Mass.of(45, "lb") - Mass.of(20)).kg.quantize(Decimal("0.01")) == Decimal("0.41")


@pytest.mark.parametrize(
    ("unit", "total", "side"),
    [
        (Unit.KG, "20", []),
        (Unit.KG, "60", ["20"]),
        (Unit.KG, "62.5", ["20", "1.25"]),
        (Unit.KG, "100", ["25", "15"]),
        (Unit.KG, "142.5", ["25", "25", "10", "1.25"]),
        (Unit.KG, "57.5", ["15", "2.5", "1.25"]),
        (Unit.LB, "135", ["45"]),
        (Unit.LB, "185", ["45", "25"]),
        (Unit.LB, "225", ["45", "45"]),
        (Unit.LB, "315", ["45", "45", "45"]),
    ],
)
def test_with_plenty_of_plates(unit: Unit, total: str, side: list[str]) -> None:
    found = plates_for(Mass.of(total, unit), default_kit("bar", unit))
    assert found == tuple(Mass.of(each, unit) for each in side)


@pytest.mark.parametrize(("unit", "total"), [(Unit.KG, "101"), (Unit.LB, "187")])
def test_what_cannot_be_loaded(unit: Unit, total: str) -> None:
    kit = default_kit("bar", unit)
    assert plates_for(Mass.of(total, unit), kit) is None
    assert Mass.of(total, unit) not in ladder_for(exercise("deadlift"), kit).steps


@pytest.mark.parametrize(
    ("plates", "total", "side"),
    [
        ([("25", 1), ("15", 2)], "80", ["15", "15"]),  # the greedy way stops at 25 and falls 5 short
        ([("25", 1), ("20", 2)], "100", ["20", "20"]),  # the greedy way stops at 25 and falls 15 short
    ],
)
def test_with_limited_plates_the_exact_way_finds_what_the_greedy_one_misses(
    plates: list[tuple[str, int]], total: str, side: list[str]
) -> None:
    kit = Kit(
        place="boathouse",
        unit=Unit.KG,
        bar=Mass.of(20),
        plates=tuple(Plates(mass=Mass.of(mass), pairs=pairs) for mass, pairs in plates),
    )
    assert plates_for(Mass.of(total), kit) == tuple(Mass.of(each) for each in side)
    assert Mass.of(total) in ladder_for(exercise("deadlift"), kit).steps


@pytest.mark.parametrize(
    ("smallest", "unit", "step"),
    [("1.25", "kg", "2.5"), ("0.5", "kg", "1"), ("2.5", "lb", "5"), ("1.25", "lb", "2.5")],
)
def test_the_smallest_step_is_two_of_the_smallest_plate(smallest: str, unit: str, step: str) -> None:
    kit = Kit(
        place="gym", unit=Unit(unit), bar=Mass.of(20, unit), plates=(Plates(mass=Mass.of(smallest, unit)),)
    )
    ladder = ladder_for(exercise("deadlift"), kit)
    assert ladder.steps[1] - ladder.steps[0] == Mass.of(step, unit)


@pytest.mark.parametrize(
    ("key", "steps", "now", "percent"),
    [
        ("curl", ("4", "5"), "4", "25.0"),
        ("curl", ("8", "10"), "8", "25.0"),
        ("curl", ("10", "12"), "10", "20.0"),
        ("curl", ("12", "14"), "12", "16.7"),
        ("curl", ("20", "22.5"), "20", "12.5"),
        ("curl", ("30", "32.5"), "30", "8.3"),
        ("kettlebell-swing", ("8", "12"), "8", "50.0"),
        ("kettlebell-swing", ("12", "16"), "12", "33.3"),
        ("kettlebell-swing", ("16", "20"), "16", "25.0"),
        ("kettlebell-swing", ("24", "28"), "24", "16.7"),
        ("kettlebell-swing", ("28", "32"), "28", "14.3"),
    ],
)
def test_the_jump_to_the_next_one(key: str, steps: tuple[str, ...], now: str, percent: str) -> None:
    masses = tuple(Mass.of(each) for each in steps)
    kit = Kit(place="home", unit=Unit.KG, dumbbells=masses, kettlebells=masses)
    jump = ladder_for(exercise(key), kit).jump(Mass.of(now))
    assert jump is not None
    assert (jump * 100).quantize(Decimal("0.1")) == Decimal(percent)
