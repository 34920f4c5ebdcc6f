from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.units import Mass, Unit, plain

VALUES = st.decimals(min_value=-2000, max_value=2000, places=3)
UNITS = st.sampled_from(Unit)
MASSES = st.builds(Mass, VALUES, UNITS)


def test_a_pound_is_exact() -> None:
    assert Mass.of(225, "lb").kg == Decimal("102.05828325")
    assert Mass.of(225, "lb") == Mass.of("102.05828325")


def test_a_binary_float_is_refused() -> None:
    with pytest.raises(TypeError, match="never a binary float"):
        Mass.of(92.5)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("number", "text"), [("92.50", "92.5"), ("100", "100"), ("1E+2", "100"), ("0.0", "0"), ("-10.0", "-10")]
)
def test_a_number_is_written_plainly(number: str, text: str) -> None:
    assert plain(Decimal(number)) == text


@pytest.mark.parametrize(
    ("mass", "step", "shown"),
    [
        (Mass.of("22.5"), "1", "23 kg"),
        (Mass.of("61.25"), "2.5", "62.5 kg"),
        (Mass.of("63.75"), "2.5", "65 kg"),
        (Mass.of("102.05828325"), "0.1", "102.1 kg"),
        (Mass.of("-2.5"), "1", "-3 kg"),
    ],
)
def test_rounding_for_showing_is_half_up_and_never_half_to_even(mass: Mass, step: str, shown: str) -> None:
    assert str(mass.rounded(Decimal(step))) == shown


def test_arithmetic_keeps_the_unit_of_the_left_side() -> None:
    assert str(Mass.of(100) + Mass.of(10, "lb")) == "104.5359237 kg"
    assert str(Mass.of(100) - Mass.of("2.5")) == "97.5 kg"
    assert str(Mass.of(45, "lb") * 2) == "90 lb"
    assert str(Mass.of(45, "lb") / 2) == "22.5 lb"
    assert Mass.of(90).ratio(Mass.of(120)) == Decimal("0.75")
    assert Mass.of(100).to(Unit.KG) == Mass.of(100)


def test_masses_of_both_units_are_compared_through_the_exact_pound() -> None:
    assert Mass.of(45, "lb") > Mass.of(20)
    assert Mass.of(44, "lb") < Mass.of(20)
    assert Mass.of(20) != "20 kg"
    assert len({Mass.of(225, "lb"), Mass.of("102.05828325"), Mass.of(102)}) == 2


@given(MASSES)
def test_going_to_pounds_and_back_loses_less_than_a_microgram(mass: Mass) -> None:
    assert abs(mass.to(Unit.LB).to(Unit.KG).kg - mass.kg) < Decimal("1e-9")


@given(MASSES, MASSES)
def test_order_and_equality_agree(one: Mass, other: Mass) -> None:
    assert (one < other) + (one == other) + (one > other) == 1
    assert (one != other) or hash(one) == hash(other)
