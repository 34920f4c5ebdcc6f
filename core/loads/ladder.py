"""The loads that can be made, rising; and masses as they are written, for what is kept by them."""

from bisect import bisect_right
from collections.abc import Iterable
from decimal import Decimal

from core.units import Mass, Unit
from core.value import Value


class Ladder(Value):
    """Every load that can be made for one exercise with one kit, rising.

    Attributes:
        steps: Rising, distinct, in the exercise's basis; what is added for bodyweight lifts. As marked; a sum of what
            is marked in two units is in kilograms, in which alone it is exact. Empty when nothing can be loaded.
    """

    steps: tuple[Mass, ...]

    def at_or_under(self, mass: Mass) -> Mass | None:
        """Return the greatest load not over `mass`; None when even the lightest is over it."""
        place = bisect_right(self.steps, mass)
        return self.steps[place - 1] if place else None

    def over(self, mass: Mass) -> Mass | None:
        """Return the least load over `mass`; None at the top."""
        place = bisect_right(self.steps, mass)
        return self.steps[place] if place < len(self.steps) else None

    def jump(self, mass: Mass) -> Decimal | None:
        """Return the next step over `mass` as a fraction of it (0.05 is 5 %); None at the top.

        None also where `mass` is not positive and a fraction of it means nothing.
        """
        step = self.over(mass)
        return None if step is None or mass.value <= 0 else step.ratio(mass) - 1


def ladder_of(masses: Iterable[Mass]) -> Ladder:
    """Return the ladder of these masses; of equal ones the first."""
    return Ladder(steps=tuple(sorted(dict.fromkeys(masses))))


Written = tuple[str, Unit]
"""A mass by its digits: 2.5 and 2.50 are equal, and yet not the same bytes when a decision is replayed. What is kept
from call to call is kept by these."""


def written(mass: Mass) -> Written:
    """Return a mass by its digits."""
    return str(mass.value), mass.unit


def mass_of(text: Written) -> Mass:
    """Return the mass that is written so."""
    return Mass(Decimal(text[0]), text[1])


def common_unit(unit: Unit, masses: Iterable[Mass | None]) -> Unit:
    """Return the unit in which sums of `masses` are exact: `unit` where all are marked in it, else kilograms."""
    return unit if all(one is None or one.unit is unit for one in masses) else Unit.KG
