"""Ways up by a table: four sets, the last two to the limit, and what their reps make of the load.

The third set says what the fourth is loaded with, the fourth what the next session is. Tables as published, in steps
of 5 lb or 2.5 kg; caps and kit come after them. DAPRE: [Knight1979], [Knight1985], read in copies that agree on the
column for the next session; later copies have other bands, kept under a name of their own. APRE: [Mann2010], the
table of APRE 3 and the first two sets read in copies, the rows of APRE 6 and APRE 10 and their kilograms from memory.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import Dose
from core.programme.ways_up import BY_TABLE, TABLE_REPS, TABLE_SETS, WORDS, WayKind
from core.units import Mass, Unit

STEP = MappingProxyType({Unit.KG: Mass.of("2.5"), Unit.LB: Mass.of(5, Unit.LB)})
"""A step of the tables in the unit of the kit. Source: [Knight1979], [Mann2010]; printed beside each other."""
BELOW = -2
"""Steps down where there were fewer reps than the table has: the coach decides then. [steps] Our proposal."""


@dataclass(frozen=True, slots=True)
class Band:
    """One row of a table.

    Attributes:
        least: Fewest reps of it; it goes up to the next row.
        low: Least change. [steps]
        high: Most change. [steps]
    """

    least: int
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Change:
    """What a table makes of some reps.

    Attributes:
        low: The lighter end: the smaller raise, the greater fall. It is the one that is given. [steps]
        high: The heavier end. [steps]
        below: True where the table has no row for so few reps.
    """

    low: int
    high: int
    below: bool = False

    def given(self, unit: Unit) -> Mass:
        """Return the change that is given: the lighter end. Our proposal; the tables leave a range."""
        return STEP[unit] * self.low


@dataclass(frozen=True, slots=True)
class Table:
    """A named table with its sets.

    Attributes:
        name: As the trade writes it.
        reps: Reps that the full load is for.
        first: Reps of the first set, at half of it.
        second: Reps of the second, at three quarters.
        today: From the reps of the third set to the load of the fourth, by rising reps.
        then: From the reps of the fourth set to the load of the next session, by rising reps.
    """

    name: str
    reps: int
    first: int
    second: int
    today: tuple[Band, ...]
    then: tuple[Band, ...]

    @property
    def enough(self) -> int:
        """Fewest reps of the third set at which the load was right. [reps]"""
        return next(band.least for band in self.today if band.high >= 0 and band.low >= 0)


SHARES = (Decimal("0.50"), Decimal("0.75"))
"""Of the full load in the first set and the second. [fraction] Source: [Knight1979], [Mann2010]."""


def change(bands: tuple[Band, ...], reps: int) -> Change:
    """Return what a column of a table makes of some reps.

    Args:
        bands: By rising reps.
        reps: Of the set that is read. [0..]
    """
    rows = [band for band in bands if band.least <= reps]
    return Change(rows[-1].low, rows[-1].high) if rows else Change(BELOW, BELOW, below=True)


def _bands(*rows: tuple[int, int, int]) -> tuple[Band, ...]:
    return tuple(Band(*row) for row in rows)


def _dapre(kind: WayKind, upper: tuple[int, int]) -> Table:
    more, most = upper
    return Table(
        name=WORDS[kind],
        reps=TABLE_REPS[kind],
        first=10,
        second=6,
        today=_bands((0, -2, -1), (3, -1, 0), (5, 0, 0), (more, 1, 2), (most, 2, 3)),
        then=_bands((0, -2, -1), (3, 0, 0), (5, 1, 2), (more, 1, 3), (most, 2, 4)),
    )


def _apre(kind: WayKind, first: int, bands: tuple[Band, ...]) -> Table:
    """Return a table whose two columns are one, and whose second set has the reps of the full load."""
    return Table(WORDS[kind], TABLE_REPS[kind], first, TABLE_REPS[kind], bands, bands)


_APRE_3 = _bands((1, -2, -1), (3, 0, 0), (5, 1, 2), (7, 2, 3))
_APRE_6 = _bands((0, -2, -1), (3, -1, 0), (5, 0, 0), (8, 1, 2), (13, 2, 3))
_APRE_10 = _bands((4, -2, -1), (7, -1, 0), (9, 0, 0), (12, 1, 2), (17, 2, 3))

TABLES: Mapping[WayKind, Table] = MappingProxyType(
    {
        WayKind.APRE_3: _apre(WayKind.APRE_3, 6, _APRE_3),
        WayKind.APRE_6: _apre(WayKind.APRE_6, 10, _APRE_6),
        WayKind.APRE_10: _apre(WayKind.APRE_10, 12, _APRE_10),
        WayKind.DAPRE: _dapre(WayKind.DAPRE, (7, 11)),
        WayKind.DAPRE_LATER: _dapre(WayKind.DAPRE_LATER, (8, 13)),
    }
)
"""Each table under the way up that names it."""


def table_for(dose: Dose, exercise: Exercise) -> Table | None:
    """Return the table that a dose goes by; None where it goes by none, or nothing is loaded that it could change.

    An equal that stands in with the body or a band has no table, whatever is written for what it stands in for.
    """
    # No way up that follows from what is written is a table: one that is not written need not be worked out.
    if dose.way is None or dose.way.kind not in BY_TABLE:
        return None
    if exercise.basis is Basis.BODYWEIGHT or exercise.implement is Implement.BAND:
        return None
    table = TABLES[dose.way.kind]
    fits = dose.reps is not None and dose.reps.fixed and dose.reps.low == table.reps
    return table if fits and not dose.or_more else None


def was_by_table(dose: Dose, exercise: Exercise) -> Table | None:
    """Return the table that a past dose went by: with its four sets, not with the straight ones in their place."""
    return table_for(dose, exercise) if dose.sets == TABLE_SETS else None
