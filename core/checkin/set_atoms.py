"""The parts of a line of sets: numbers and what is written to them, before anyone decides which is the load.

`92.5kg 3x8 @8` is a load, a cross and an effort. What a bare number means is left to `set_readings`.
"""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from core.checkin.words import Mark
from core.programme.exercises import Side
from core.units import Unit


class Role(StrEnum):
    """What a number is, where that was written: `REPS` is a count that cannot be seconds."""

    LOAD = "load"
    COUNT = "count"
    REPS = "reps"
    SETS = "sets"
    SECONDS = "seconds"


class Per(StrEnum):
    """What a load is said to be counted by."""

    SIDE = "side"
    HAND = "hand"
    TOTAL = "total"


@dataclass(frozen=True, slots=True)
class Num:
    """A number and what was written to it.

    Attributes:
        value: As written.
        role: What it was said to be; None when it is bare.
        unit: Unit of a load.
        bodyweight: True when it is added to bodyweight, or taken off.
        per: What the load was said to be counted by.
    """

    value: Decimal
    role: Role | None = None
    unit: Unit | None = None
    bodyweight: bool = False
    per: Per | None = None


@dataclass(frozen=True, slots=True)
class Cross:
    """Numbers joined by times: `80x8x3`; a single number stands alone."""

    nums: tuple[Num, ...]


@dataclass(frozen=True, slots=True)
class Pair:
    """Two numbers joined by a slash: `10/9`."""

    left: Num
    right: Num


@dataclass(frozen=True, slots=True)
class Every:
    """The same count in every planned set: `all 5s`."""

    num: Num


@dataclass(frozen=True, slots=True)
class AtNumber:
    """A bare number after `@`: a load, or an RPE."""

    num: Num


@dataclass(frozen=True, slots=True)
class SideMark:
    """Left or right, as a word."""

    side: Side


@dataclass(frozen=True, slots=True)
class Said:
    """Effort as written.

    Attributes:
        scale: `Mark.RIR` or `Mark.RPE`.
        value: The number.
        upto: The other end of a range.
        unsure: True when "left" could be a side as well.
    """

    scale: Mark
    value: Decimal
    upto: Decimal | None = None
    unsure: bool = False


Settled = Cross | Pair | Every | Said
"""Parts in which every number has its role."""
Unsided = Settled | AtNumber
"""Parts without words for sides."""
Atom = Unsided | SideMark
"""Parts as written."""
