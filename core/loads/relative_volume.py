"""Intensity-relative volume of one exercise: sets x reps x share of the maximum. Source: [CSCCa2019]."""

from collections import defaultdict
from collections.abc import Iterable
from decimal import Decimal

from core.loads.past import SetDone
from core.programme.exercises import Side
from core.programme.prescription import LoadKind
from core.units import Mass

MOST_SHARE = Decimal("1.5")
"""Greatest share of a maximum that can be meant: more than that is a percentage. [fraction] Our proposal."""


def relative_volume(sets: int, reps: int, intensity: Decimal) -> Decimal:
    """Return sets x reps x share of the maximum, of one exercise and never of a whole session. Source: [CSCCa2019].

    Args:
        sets: Working sets.
        reps: Of a set.
        intensity: Load as a share of the maximum: 0.7, never 70. [0..1.5]

    Raises:
        ValueError: It is no share.
    """
    if not 0 <= intensity <= MOST_SHARE:
        raise ValueError(f"a share of the maximum runs from 0 to {MOST_SHARE}, not {intensity}")
    return sets * reps * intensity


def relative_volume_done(sets: Iterable[SetDone], maximum: Mass) -> Decimal | None:
    """Return the intensity-relative volume of the sets that were done; None where none has reps at a mass.

    One-sided work counts once, by the side that did more.

    Args:
        sets: Of one exercise in one session.
        maximum: Its maximum, in the basis of the loads. [over 0]

    Raises:
        ValueError: A load is over one and a half times the maximum: one of them cannot be right.

    Source: [CSCCa2019].
    """
    by_side: dict[Side | None, Decimal] = defaultdict(Decimal)
    for one in sets:
        mass = one.load.mass if one.load is not None and one.load.kind is LoadKind.MASS else None
        if one.reps is not None and mass is not None:
            by_side[one.side] += relative_volume(1, one.reps, mass.ratio(maximum))
    if not by_side:
        return None
    both = by_side.pop(None, Decimal(0))
    return both + max(by_side.values(), default=Decimal(0))
