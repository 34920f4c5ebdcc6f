"""How far a reply is from the plan and from anything before.

Every bound is our proposal: over 20 % above the best, plan included, or under half of the least, is asked about.
"""

from dataclasses import dataclass
from decimal import Decimal

from core.checkin.reading import Context
from core.programme.exercises import Basis
from core.programme.prescription import Dose, Load, LoadKind
from core.units import Mass, Unit

ABOVE = Decimal("1.2")
"""A load over this many times the heaviest known is asked about."""
CLOSE = Decimal("0.8")
"""In another unit a load is offered from this many times one that is known."""
ABOVE_KG = Decimal("2.5")
"""A load this much over the heaviest known is never far off: small dumbbells. [kg]"""
BELOW = Decimal("0.5")
"""A load under this many times the lightest known is asked about."""
HEAVIEST_KG = Decimal(500)
"""No load over this is offered as a reading. [kg]"""
MOST_ADDED_KG = Decimal(200)
"""No more than this, added to bodyweight, is offered as a reading. [kg]"""
MOST_COUNT = 200
"""No set of more reps is offered as a reading."""
MOST_SECONDS = 3600
"""No longer set is offered as a reading. [s]"""
MOST_SETS = 30
"""No more sets are read from one reply."""
UNPLANNED_COUNT = 30
"""Without a plan a bare number over this is a load."""
ADDED_KG = Decimal(10)
"""Added to bodyweight, this much more or less than known is not far off. [kg]"""


@dataclass(frozen=True, slots=True)
class Known:
    """What is known before a reply is read.

    Attributes:
        loads: Planned and last loads. [kg]; on bodyweight lifts what is added.
        bodyweight: True when loads are added to bodyweight; None when nothing says so.
        unit: The client's unit.
        sets: Planned sets.
        low: Fewest planned reps or seconds.
        high: Most planned.
        most: Most reps ever done in a set.
        timed: True when a bare count is seconds.
        find: True when the load is yet to be found.
        planned: The planned load, when it is a mass. [kg]
        sided: True when the exercise is done a side at a time.
    """

    loads: tuple[Decimal, ...]
    bodyweight: bool | None
    unit: Unit
    sets: int | None
    low: int | None
    high: int | None
    most: int
    timed: bool
    find: bool
    planned: Decimal | None
    sided: bool

    def kg(self, value: Decimal, unit: Unit | None) -> Decimal:
        """Return a load as written in kilograms; without a unit it is in the client's."""
        return Mass(value, unit or self.unit).kg

    def fits(self, kg: Decimal) -> bool:
        """Return whether a load is near the plan or the last ones. [kg]"""
        if not self.loads:
            return abs(kg) <= HEAVIEST_KG
        top, least = max(self.loads), min(self.loads)
        if self.bodyweight:
            return least - ADDED_KG <= kg <= max(top * ABOVE, top + ADDED_KG)
        return least * BELOW <= kg <= max(top * ABOVE, top + ABOVE_KG)

    def count_fits(self, count: Decimal) -> bool:
        """Return whether a number may be the reps, or seconds, of a set."""
        return count == int(count) and 0 <= count <= self.count_bound

    @property
    def count_bound(self) -> int:
        """Return the most reps or seconds that need no question."""
        if self.high is None:
            return 600 if self.timed else UNPLANNED_COUNT
        room = 60 if self.timed else 5
        return max(2 * self.high + room, self.most + 5)

    def sets_fit(self, sets: int) -> bool:
        """Return whether this many sets need no question."""
        return 1 <= sets <= (20 if self.sets is None else 2 * self.sets + 2)

    def in_span(self, count: Decimal) -> bool:
        """Return whether a number is in the planned range."""
        return self.low is not None and self.high is not None and self.low <= count <= self.high


def planned_sets(dose: Dose | None) -> int | None:
    """Return how many sets a reply is likely to have: with steps down those too; None where nothing is planned."""
    if dose is None:
        return None
    return dose.sets + (dose.style.steps if dose.style is not None else 0)


def counted_load(dose: Dose | None) -> Load | None:
    """Return a planned load that is counted; none for a band, a share or a step, which say no number."""
    load = dose.load if dose is not None else None
    if load is None or load.kind in (LoadKind.BAND, LoadKind.PERCENT, LoadKind.UP):
        return None
    return load


def known(context: Context) -> Known:
    """Gather what is known from a context; loads that cannot be read are left out."""
    dose, exercise = context.dose, context.exercise
    load = counted_load(dose)
    is_mass = load is not None and load.kind is LoadKind.MASS
    planned = load.mass.kg if load and load.mass else None
    bodyweight = load.kind is LoadKind.BODYWEIGHT if load and load.kind is not LoadKind.FIND else None
    if bodyweight is None and exercise is not None:
        bodyweight = exercise.basis is Basis.BODYWEIGHT or None
    loads = [planned] if planned is not None else [Decimal(0)] if bodyweight else []
    loads += [
        kg for text in context.last_loads if (kg := _kg(text, context.unit, bool(bodyweight))) is not None
    ]
    span = dose.span if dose else None
    return Known(
        loads=tuple(loads),
        bodyweight=False if is_mass else bodyweight,
        unit=context.unit,
        sets=planned_sets(dose),
        low=span.low if span else None,
        high=span.high if span else None,
        most=context.best_reps or 0,
        timed=dose.seconds is not None if dose else bool(exercise and exercise.timed),
        find=load is not None and load.kind is LoadKind.FIND,
        planned=planned,
        sided=bool(exercise and exercise.each_side) or bool(dose and dose.each_side),
    )


def _kg(text: str, unit: Unit, bodyweight: bool) -> Decimal | None:
    number = text.strip().lower().removeprefix("bw") or "0"
    try:
        value = Decimal(number)
    except ArithmeticError:
        return None
    usable = value.is_finite() and (bodyweight or value > 0)
    return Mass(value, unit).kg if usable else None


def likely_loads(value: Decimal, unit: Unit | None, facts: Known) -> tuple[tuple[Decimal, Unit | None], ...]:
    """Return what a far-off load may have been meant to be: the other unit, a lost or a misplaced decimal mark."""
    if not facts.loads or facts.bodyweight:
        return ()
    other = Unit.LB if (unit or facts.unit) is Unit.KG else Unit.KG
    shifted = ((value / 10, unit), (value * 10, unit), (value / 100, unit))
    fitting = [guess for guess in shifted if facts.fits(facts.kg(*guess))]
    meant = facts.kg(value, other)
    is_other = any(known_kg * CLOSE <= meant <= known_kg * ABOVE for known_kg in facts.loads)
    return ((value, other), *fitting) if is_other else tuple(fitting)
