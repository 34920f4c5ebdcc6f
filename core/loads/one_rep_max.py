"""The most that could be lifted once, from a set of several; and the load for a set, from that.

Reps left are folded in once: `total` is reps done plus reps left, the reps to failure. Logging never depends on
an estimate: a set of 30 is kept, it only gives none.
"""

from decimal import Decimal
from enum import StrEnum

from core.units import Mass
from core.value import Value


class Formula(StrEnum):
    """Which formula; one for an exercise's whole history."""

    EPLEY = "Epley"
    BRZYCKI = "Brzycki"


class Trust(StrEnum):
    """How far an estimate is to be believed."""

    GOOD = "good"
    """At most 8 reps and 3 left."""
    ROUGH = "rough"
    """9-12 in all, or 4 left: shown with a tilde."""
    DOUBTFUL = "doubtful"
    """13-15 in all: shown as doubtful, and no rule uses it."""


class Estimate(Value):
    """An estimated maximum.

    Attributes:
        mass: In the unit and basis of the load.
        formula: What made it.
        trust: How far to believe it.
    """

    mass: Mass
    formula: Formula
    trust: Trust

    @property
    def usable(self) -> bool:
        """True when a rule may compute with it."""
        return self.trust is not Trust.DOUBTFUL


MOST_TOTAL = 15
"""Reps done and left past which no estimate is made. [reps] Our proposal."""
POLE = 37
"""Reps at which Brzycki's line meets zero. [reps] Source: [Brzycki1993]."""


def per_load(total: Decimal | int, formula: Formula = Formula.EPLEY) -> Decimal:
    """Return the maximum as a multiple of a load that can be lifted `total` times.

    One rep is the maximum itself: Epley's line alone would add 3 %.

    Args:
        total: Reps to failure. [1..36]

    Raises:
        ValueError: Outside that range.

    Source: [Epley1985], [Brzycki1993].
    """
    total = Decimal(total)
    if not 1 <= total < POLE:
        raise ValueError(f"reps to failure run from 1 to under {POLE}, not {total}")
    if total == 1:
        return Decimal(1)
    return (30 + total) / 30 if formula is Formula.EPLEY else 36 / (POLE - total)


def estimate(
    load: Mass, reps: int, left: Decimal | int = 0, formula: Formula = Formula.EPLEY
) -> Estimate | None:
    """Return the estimated maximum; None when the set can give none.

    None for no reps, for a load that is not positive, and for more than 15 reps done and left.

    Args:
        load: As lifted.
        reps: Done. [reps]
        left: Reps left. [reps]
        formula: One for an exercise's whole history.

    Source: [Epley1985], [Brzycki1993]; the ranges are our proposal under [Reynolds2006] and [Halperin2022].
    """
    total = reps + left
    if reps < 1 or left < 0 or load.value <= 0 or total > MOST_TOTAL:
        return None
    near = Trust.GOOD if reps <= 8 and left <= 3 else Trust.ROUGH
    trust = Trust.DOUBTFUL if total > 12 else near
    return Estimate(mass=load * per_load(total, formula), formula=formula, trust=trust)


def load_for(maximum: Mass, reps: int, left: Decimal | int = 0, formula: Formula = Formula.EPLEY) -> Mass:
    """Return the load that gives `reps` with `left` to spare: the inverse of the estimate.

    Raises:
        ValueError: Reps and reps left are not 1 to 36 together.

    Source: [Epley1985], [Brzycki1993].
    """
    return maximum / per_load(reps + left, formula)
