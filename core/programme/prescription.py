"""What one exercise asks for: sets, reps or time or metres, load, reps left."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from pydantic import Field, SerializerFunctionWrapHandler, model_serializer, model_validator

from core.programme.set_styles import SetStyle, StyleKind
from core.programme.ways_up import BY_TABLE, WayKind, WayUp
from core.units import Mass, Unit, plain
from core.value import Value


class LoadKind(StrEnum):
    """What kind of load is written."""

    MASS = "mass"
    BODYWEIGHT = "bodyweight"
    FIND = "find"
    PERCENT = "percent"
    UP = "up"
    BAND = "band"


class PercentOf(StrEnum):
    """What a percentage is of."""

    ESTIMATE = "estimate"
    """The maximum estimated from the log."""
    MAX = "max"
    """The heaviest single in the log."""


@dataclass(frozen=True, slots=True)
class Load:
    """A load: a mass, bodyweight with something added or taken off, a share, a step up, a band, or `find`.

    Attributes:
        kind: What kind of load it is.
        mass: The mass; with bodyweight what is added (negative for assistance), with `up` the step over the load
            of last time; otherwise None, as for bare bodyweight.
        percent: The share. [%]
        percent_of: What it is a share of.
        band: Name of the band, in lower case: `light`.
    """

    kind: LoadKind
    mass: Mass | None = None
    percent: Decimal | None = None
    percent_of: PercentOf | None = None
    band: str | None = None

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

    @classmethod
    def share(cls, percent: Decimal | int | str, of: PercentOf) -> "Load":
        """Build a share of a maximum. [%]"""
        return cls(LoadKind.PERCENT, percent=Decimal(percent), percent_of=of)

    @classmethod
    def up(cls, step: Mass) -> "Load":
        """Build a step over the load of last time."""
        return cls(LoadKind.UP, step)

    @classmethod
    def banded(cls, name: str) -> "Load":
        """Build a band by its name, as its owner calls it."""
        return cls(LoadKind.BAND, band=name)

    @model_serializer(mode="wrap")
    def _only_what_it_has(self, rest: SerializerFunctionWrapHandler) -> dict[str, object]:
        """Write the fields that loads of every kind have, and of the others those that hold something."""
        fields: dict[str, object] = rest(self)
        return {
            name: value for name, value in fields.items() if value is not None or name in ("kind", "mass")
        }

    def __str__(self) -> str:
        match self.kind:
            case LoadKind.FIND:
                return "find"
            case LoadKind.BAND:
                return f"{self.band} band"
            case LoadKind.PERCENT:
                return f"{plain(self.percent or Decimal(0))} % of {self.percent_of}"
            case LoadKind.UP:
                return f"+{self.mass} from last time"
            case LoadKind.BODYWEIGHT:
                return f"bw{_signed(self.mass)}"
            case _:
                return str(self.mass)


def _signed(mass: Mass | None) -> str:
    if mass is None:
        return ""
    return f"{'-' if mass.value < 0 else '+'}{plain(abs(mass.value))} {mass.unit}"


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


class Rpe(Value):
    """An RPE as the coach wrote it; `low == high` when it is one.

    Attributes:
        low: [6..10], halves too. Under 6 it says too little about reps left. Source: [Zourdos2016].
        high: [low..10].
    """

    low: Decimal = Field(ge=6, le=10)
    high: Decimal = Field(ge=6, le=10)

    @model_validator(mode="after")
    def _ordered(self) -> "Rpe":
        if self.high < self.low or self.low % Decimal("0.5") or self.high % Decimal("0.5"):
            raise ValueError("an RPE is in halves, and a range runs from less to more")
        return self

    @property
    def left(self) -> tuple[int, int]:
        """Fewest and most reps left that it stands for, halves rounded down. [reps] Source: [Zourdos2016]."""
        return int(10 - self.high), int(10 - self.low)

    def __str__(self) -> str:
        low, high = plain(self.low), plain(self.high)
        return f"RPE {low}" if low == high else f"RPE {low}-{high}"


class Dose(Value):
    """Sets of reps, seconds or metres at a load.

    Exactly one of `reps`, `seconds`, `metres` and `to_left` is given.

    Attributes:
        sets: Working sets; of descending sets those at the load. [1..20]
        reps: Reps of a set, of a side where the exercise is done a side at a time.
        seconds: Length of a set. [s]
        load: None where the exercise has none or it was left open.
        left: Reps left asked for at the end of a set (RIR), the fewest of a range. [0..5]
        each_side: True when written for each side.
        metres: Way of a set. [m]
        to_left: True when the reps are open: each set goes on until `left` are left.
        or_more: True when the last set is open: `reps` or more.
        portion: Reps in a row on one side before the sides change; None where a side is done in one go.
        left_high: Most reps left of a range; None where it is one number. [left..5]
        rpe: The effort as the coach wrote it, where she wrote an RPE.
        style: None for straight sets.
        way: The way up as written; None where nothing is, and `way_up` gives the default.
        lighter: True in a planned lighter week that the row was not written for.
    """

    sets: int = Field(ge=1, le=20)
    reps: Span | None = None
    seconds: Span | None = None
    load: Load | None = None
    left: int | None = Field(default=None, ge=0, le=5)
    each_side: bool = False
    metres: Span | None = None
    to_left: bool = False
    or_more: bool = False
    portion: int | None = Field(default=None, ge=1, le=100)
    left_high: int | None = Field(default=None, ge=0, le=5)
    rpe: Rpe | None = None
    style: SetStyle | None = None
    way: WayUp | None = None
    lighter: bool = False

    @model_validator(mode="after")
    def _counted_once(self) -> "Dose":
        counted = [one for one in (self.reps, self.seconds, self.metres) if one is not None]
        if len(counted) + self.to_left != 1:
            raise ValueError("a dose counts one of reps, seconds and metres, or its reps are open")
        return self

    @property
    def span(self) -> Span | None:
        """Reps, seconds or metres; None where the reps are open."""
        return self.reps or self.seconds or self.metres

    @property
    def open_at_end(self) -> bool:
        """True where nobody knows before how many reps a set will have."""
        return self.to_left or self.or_more

    @property
    def told_by_tap(self) -> bool:
        """True where "done as written" says all that was done: no open set, no load to find, one load."""
        ascends = self.style is not None and self.style.kind is StyleKind.ASCENDING
        kind = self.load.kind if self.load is not None else None
        by_table = self.way is not None and self.way.kind in BY_TABLE
        apart = ascends and kind is LoadKind.MASS
        return not (self.open_at_end or kind is LoadKind.FIND or apart or by_table)

    @property
    def way_up(self) -> WayUp:
        """The way up, as written or by what is written."""
        if self.way is not None:
            return self.way
        is_cluster = self.style is not None and self.style.kind is StyleKind.CLUSTER
        if is_cluster or (self.load is not None and self.load.kind in (LoadKind.PERCENT, LoadKind.UP)):
            return WayUp(kind=WayKind.AS_WRITTEN)
        if self.to_left:
            return WayUp(kind=WayKind.UNCHANGED)
        if self.or_more:
            return WayUp(kind=WayKind.LAST_SET)
        ranged = self.span is not None and not self.span.fixed
        return WayUp(kind=WayKind.ADD_REPS if ranged else WayKind.DONE_TWICE)


class Prescription(Value):
    """One line of a session as the coach wrote it.

    Attributes:
        order: Letter and number in the session: `A`, `B1`.
        exercise: Key in the catalogue.
        dose: Sets, reps, load, reps left, way up.
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

    @property
    def way_up(self) -> WayUp:
        """The way up, as written or by what is written."""
        return self.dose.way_up
