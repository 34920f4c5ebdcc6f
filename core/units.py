"""Masses as they were written, compared exactly."""

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from typing import Self

POUND_IN_KG = Decimal("0.45359237")
"""Kilograms in a pound, exactly. Source: [Pound1959]."""


class Unit(StrEnum):
    """A unit of mass that people train with."""

    KG = "kg"
    LB = "lb"


def plain(number: Decimal) -> str:
    """Write a decimal without exponent or trailing zeros: `92.5`, `100`."""
    text = format(number, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


@dataclass(frozen=True, slots=True, eq=False)
class Mass:
    """A mass with the unit it was written in; may be negative (assistance).

    Two masses compare through the exact pound, so 225 lb == 102.05828325 kg. Conversions never replace what was
    written.

    Attributes:
        value: The number as written. [unit]
        unit: Kilograms or pounds.
    """

    value: Decimal
    unit: Unit

    @classmethod
    def of(cls, value: Decimal | int | str, unit: Unit | str = Unit.KG) -> Self:
        """Build a mass from an exact number; a binary float is refused."""
        if isinstance(value, float):
            raise TypeError("a mass is never a binary float")
        return cls(Decimal(value), Unit(unit))

    @property
    def kg(self) -> Decimal:
        """The exact mass. [kg]"""
        return self.value if self.unit is Unit.KG else self.value * POUND_IN_KG

    def to(self, unit: Unit) -> "Mass":
        """Express in `unit`: exact towards kilograms, 28 digits towards pounds. For comparing only."""
        if unit is self.unit:
            return self
        return Mass(self.kg if unit is Unit.KG else self.kg / POUND_IN_KG, unit)

    def rounded(self, step: Decimal = Decimal("0.1")) -> "Mass":
        """Round half up to a multiple of `step`, for showing. [unit]"""
        return Mass((self.value / step).quantize(Decimal(1), ROUND_HALF_UP) * step, self.unit)

    def __add__(self, other: "Mass") -> "Mass":
        more = other.value if other.unit is self.unit else other.to(self.unit).value
        return Mass(self.value + more, self.unit)

    def __sub__(self, other: "Mass") -> "Mass":
        less = other.value if other.unit is self.unit else other.to(self.unit).value
        return Mass(self.value - less, self.unit)

    def __mul__(self, factor: Decimal | int) -> "Mass":
        return Mass(self.value * factor, self.unit)

    def __truediv__(self, divisor: Decimal | int) -> "Mass":
        return Mass(self.value / divisor, self.unit)

    def ratio(self, other: "Mass") -> Decimal:
        """How many times `other` this mass is; `other` is not zero."""
        return self.kg / other.kg

    # Written out rather than derived, and of one unit without converting: decisions compare masses all the time.

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Mass):
            return NotImplemented
        return self.value == other.value if self.unit is other.unit else self.kg == other.kg

    def __lt__(self, other: "Mass") -> bool:
        return self.value < other.value if self.unit is other.unit else self.kg < other.kg

    def __le__(self, other: "Mass") -> bool:
        return self.value <= other.value if self.unit is other.unit else self.kg <= other.kg

    def __gt__(self, other: "Mass") -> bool:
        return self.value > other.value if self.unit is other.unit else self.kg > other.kg

    def __ge__(self, other: "Mass") -> bool:
        return self.value >= other.value if self.unit is other.unit else self.kg >= other.kg

    def __hash__(self) -> int:
        return hash(self.kg)

    def __str__(self) -> str:
        return f"{plain(self.value)} {self.unit}"
