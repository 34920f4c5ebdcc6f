"""What one exercise asks for: sets, reps or time, load, reps left."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from pydantic import Field, model_validator

from core.units import Mass, Unit, plain
from core.value import Value


class LoadKind(StrEnum):
    """What kind of load is written."""

    MASS = "mass"
    BODYWEIGHT = "bodyweight"
    FIND = "find"


@dataclass(frozen=True, slots=True)
class Load:
    """A load: a mass, bodyweight with something added or taken off, or `find`.

    Attributes:
        kind: What kind of load it is.
        mass: The mass; with bodyweight what is added (negative for assistance), None for bare bodyweight and
            `find`.
    """

    kind: LoadKind
    mass: Mass | None = None

    @classmethod
    def of(cls, value: Decimal | int | str, unit: Unit | str = Unit.KG) -> "Load":
        """Build a plain mass."""
        return cls(LoadKind.MASS, Mass.of(value, unit))

    @classmethod
    def bodyweight(cls, added: Mass | None = None) -> "Load":
        """Build a bodyweight load; `added` is negative for assistance."""
        return cls(LoadKind.BODYWEIGHT, added if added and added.value else None)

    @classmethod
    def find(cls) -> "Load":
        """Build the load that is yet to be found in the session."""
        return cls(LoadKind.FIND)

    def __str__(self) -> str:
        if self.kind is LoadKind.FIND:
            return "find"
        if self.kind is LoadKind.BODYWEIGHT:
            if self.mass is None:
                return "bw"
            sign = "-" if self.mass.value < 0 else "+"
            return f"bw{sign}{plain(abs(self.mass.value))} {self.mass.unit}"
        return str(self.mass)


class Span(Value):
    """A closed range of reps, or of seconds; `low == high` when it is fixed.

    Attributes:
        low: Fewest. [1..1000]
        high: Most. [low..1000]
    """

    low: int = Field(ge=1, le=1000)
    high: int = Field(ge=1, le=1000)

    @model_validator(mode="after")
    def _ordered(self) -> "Span":
        if self.high < self.low:
            raise ValueError("a range runs from fewer to more")
        return self

    @property
    def fixed(self) -> bool:
        """True when there is one number."""
        return self.low == self.high

    def __str__(self) -> str:
        return str(self.low) if self.fixed else f"{self.low}-{self.high}"


class Dose(Value):
    """Sets of reps or seconds at a load.

    Exactly one of `reps` and `seconds` is given.

    Attributes:
        sets: Working sets. [1..20]
        reps: Reps of a set, of a side where the exercise is done a side at a time.
        seconds: Length of a set. [s]
        load: None where the exercise has none or it was left open.
        left: Reps left asked for at the end of a set (RIR). [0..5]
        each_side: True when written for each side.
    """

    sets: int = Field(ge=1, le=20)
    reps: Span | None = None
    seconds: Span | None = None
    load: Load | None = None
    left: int | None = Field(default=None, ge=0, le=5)
    each_side: bool = False

    @model_validator(mode="after")
    def _counted_once(self) -> "Dose":
        if (self.reps is None) == (self.seconds is None):
            raise ValueError("a dose counts either reps or seconds")
        return self


class Prescription(Value):
    """One line of a session as the coach wrote it.

    Attributes:
        order: Letter and number in the session: `A`, `B1`.
        exercise: Key in the catalogue.
        dose: Sets, reps, load, reps left.
        rest_s: Rest between sets. [s]
        tempo: Trade notation, slow lowering first: `3110`, `30X1`.
        cue: The coach's words, at most 200 characters.
        instead: Keys of the coach's own equals, best first.
        link: Address of a clip.
    """

    order: str
    exercise: str
    dose: Dose
    rest_s: int | None = Field(default=None, ge=0, le=1200)
    tempo: str | None = None
    cue: str | None = None
    instead: tuple[str, ...] = ()
    link: str | None = None
