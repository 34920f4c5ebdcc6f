"""The most that could be lifted once, from a set of several; and the load for a set, from that.

Reps left are folded in once: `total` is reps done plus reps left, the reps to failure. Logging never depends on
an estimate: a set of 30 is kept, it only gives none.
"""

from decimal import ROUND_HALF_EVEN, Context, Decimal, localcontext
from enum import StrEnum

from core.loads.lifted import BasesMixed, Lifted
from core.programme.exercises import Basis
from core.units import Mass
from core.value import Value


class Formula(StrEnum):
    """Which formula; one for an exercise's whole history."""

    EPLEY = "Epley"
    """1 + r / 30. Source: [Epley1985]."""
    BRZYCKI = "Brzycki"
    """36 / (37 - r). Source: [Brzycki1993]."""
    LOMBARDI = "Lombardi"
    """r to the power of 0.10. Source: [Lombardi1989]."""
    MAYHEW = "Mayhew"
    """100 / (52.2 + 41.9 exp(-0.055 r)), made for the bench press. Source: [Mayhew1992]."""
    OCONNER = "O'Conner"
    """1 + 0.025 r. Source: [OConner1989]."""
    WATHAN = "Wathan"
    """100 / (48.8 + 53.8 exp(-0.075 r)). Source: [Wathan1994]."""
    LANDER = "Lander"
    """100 / (101.3 - 2.67123 r). Source: [Lander1985]."""


RANGES = {
    Formula.EPLEY: (2, 10),
    Formula.BRZYCKI: (1, 10),
    Formula.LOMBARDI: (2, 10),
    Formula.MAYHEW: (5, 15),
    Formula.OCONNER: (2, 10),
    Formula.WATHAN: (2, 15),
    Formula.LANDER: (2, 10),
}
"""Fewest and most reps to failure that a formula is meant for. [reps] Source: secondary pages on [Epley1985],
[Brzycki1993], [Lombardi1989], [Mayhew1992], [OConner1989], [Wathan1994], [Lander1985]."""


class Trust(StrEnum):
    """How far an estimate is to be believed."""

    GOOD = "good"
    """At most 8 reps and 3 left."""
    ROUGH = "rough"
    """9-12 reps, 4 left, or fewer reps than the formula is meant for: shown with a tilde."""
    DOUBTFUL = "doubtful"
    """13-15 in all, or more than 4 left: shown as doubtful, and no rule uses it."""


class Estimate(Value):
    """An estimated maximum.

    Attributes:
        mass: In the unit and basis of the load.
        formula: What made it.
        trust: How far to believe it.
        in_range: False where the reps to failure lie outside what the formula is meant for.
        basis: How the load is counted; None where that was not said.
    """

    mass: Mass
    formula: Formula
    trust: Trust
    in_range: bool
    basis: Basis | None = None

    @property
    def usable(self) -> bool:
        """True when a rule may compute with it."""
        return self.trust is not Trust.DOUBTFUL

    def change_from(self, earlier: "Estimate") -> Decimal:
        """Return the change since an earlier one as a fraction of that (0.05 is 5 % up).

        Raises:
            BasesMixed: They are counted in two ways.
            ValueError: They come from two formulas: the step between those is no change of the lifter.
        """
        if self.basis is not earlier.basis:
            raise BasesMixed(self.basis, earlier.basis)
        if self.formula is not earlier.formula:
            raise ValueError(f"{self.formula} and {earlier.formula} are not to be set beside each other")
        return self.mass.ratio(earlier.mass) - 1


MOST_TOTAL = 15
"""Reps done and left past which no estimate is made. [reps] Our proposal."""
POLE = 37
"""Reps at which Brzycki's line meets zero, and Lander's nearly. No formula is asked from there on. [reps]
Source: [Brzycki1993], [Lander1985]."""

_WORKING = Context(prec=38, rounding=ROUND_HALF_EVEN)
_GIVEN = Context(prec=28, rounding=ROUND_HALF_EVEN)
"""Results have 28 significant digits, worked out with ten more, whatever the context of the caller."""
_SURE = Context(prec=24, rounding=ROUND_HALF_EVEN)
"""After a multiple was rounded and used, the last four of 28 digits are no longer sure."""
_SHORT = 16
"""Digits of a number that somebody could have meant: 60 x 4/3 is 80, and not 79.99999999999999999999999998."""


def by_formula(total: Decimal | int, formula: Formula = Formula.EPLEY) -> Decimal:
    """Return what a formula itself gives, as a multiple of the load: at one rep too, where most give more than 1.

    Args:
        total: Reps to failure. [1..36]
        formula: Which.

    Raises:
        ValueError: Outside that range.
    """
    total = Decimal(total)
    if not 1 <= total < POLE:
        raise ValueError(f"reps to failure run from 1 to under {POLE}, not {total}")
    with localcontext(_WORKING):
        found = _multiple(total, formula)
    return _GIVEN.plus(found)


def _multiple(total: Decimal, formula: Formula) -> Decimal:
    match formula:
        case Formula.EPLEY:
            return (30 + total) / 30
        case Formula.BRZYCKI:
            return 36 / (37 - total)
        case Formula.LOMBARDI:
            return total ** Decimal("0.10")
        case Formula.MAYHEW:
            return 100 / (Decimal("52.2") + Decimal("41.9") * (Decimal("-0.055") * total).exp())
        case Formula.OCONNER:
            return 1 + Decimal("0.025") * total
        case Formula.WATHAN:
            return 100 / (Decimal("48.8") + Decimal("53.8") * (Decimal("-0.075") * total).exp())
        case _:
            return 100 / (Decimal("101.3") - Decimal("2.67123") * total)


def per_load(total: Decimal | int, formula: Formula = Formula.EPLEY) -> Decimal:
    """Return the maximum as a multiple of a load that can be lifted `total` times.

    One rep is the maximum itself: Epley's line alone would add 3 %, Mayhew's curve 9 %.

    Args:
        total: Reps to failure. [1..36]
        formula: One for an exercise's whole history.

    Raises:
        ValueError: Outside that range.

    Source: beside each formula; one rep is our own rule.
    """
    return Decimal(1) if total == 1 else by_formula(total, formula)


def unworn(mass: Mass) -> Mass:
    """Return a mass as it is meant: the short number that it is only a hair off, or the mass itself.

    A hair under a load that the kit makes would be rounded down to the one before it.
    """
    sure = _SURE.plus(mass.value)
    if sure == mass.value or len(sure.normalize(_SURE).as_tuple().digits) > _SHORT:
        return mass
    return Mass(sure.quantize(mass.value, context=_WORKING), mass.unit)


def estimate(
    load: Mass,
    reps: int,
    left: Decimal | int = 0,
    formula: Formula = Formula.EPLEY,
    *,
    basis: Basis | None = None,
) -> Estimate | None:
    """Return the estimated maximum; None when the set can give none.

    None for no reps, for a load that is not positive, and for more than 15 reps done and left.

    Args:
        load: As lifted.
        reps: Done. [reps]
        left: Reps left. [reps]
        formula: One for an exercise's whole history.
        basis: How the load is counted.

    Source: beside each formula; how far to believe it is our proposal under [Reynolds2006] and [Halperin2022].
    """
    total = reps + left
    if reps < 1 or left < 0 or load.value <= 0 or total > MOST_TOTAL:
        return None
    return Estimate(
        mass=unworn(load * per_load(total, formula)),
        formula=formula,
        trust=_trust(reps, left, formula),
        in_range=total == 1 or RANGES[formula][0] <= total <= RANGES[formula][1],
        basis=basis,
    )


def _trust(reps: int, left: Decimal | int, formula: Formula) -> Trust:
    total = reps + left
    if total > 12 or left > 4:
        return Trust.DOUBTFUL
    under = 1 < total < RANGES[formula][0]
    return Trust.ROUGH if reps > 8 or left > 3 or under else Trust.GOOD


def estimate_of(
    lifted: Lifted, reps: int, left: Decimal | int = 0, formula: Formula = Formula.EPLEY
) -> Estimate | None:
    """Return the estimated maximum of a load that carries its basis, in that basis; None as `estimate` does."""
    return estimate(lifted.mass, reps, left, formula, basis=lifted.basis)


def load_for(maximum: Mass, reps: int, left: Decimal | int = 0, formula: Formula = Formula.EPLEY) -> Mass:
    """Return the load that gives `reps` with `left` to spare: the inverse of the estimate.

    Raises:
        ValueError: Reps and reps left are not 1 to 36 together.

    Source: beside each formula.
    """
    return unworn(maximum / per_load(reps + left, formula))
