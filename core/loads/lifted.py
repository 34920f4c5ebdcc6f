"""A load that carries how it is counted: whole, a hand, a side of the bar, a stack's mark, or beside the body."""

from decimal import Decimal

from core.programme.exercises import Basis
from core.units import Mass
from core.value import Value


class BasesMixed(ValueError):
    """Two loads that are counted in two ways were set beside each other: a mistake of the program."""

    def __init__(self, one: Basis | None, other: Basis | None) -> None:
        said = " and ".join("not said" if basis is None else f"{basis}" for basis in (one, other))
        super().__init__(f"loads that are counted in two ways are never mixed: {said}")


class Lifted(Value):
    """A load with its basis. Loads of two bases are never equal, and comparing them by size is an error.

    Attributes:
        mass: As written.
        basis: How it is counted.
    """

    mass: Mass
    basis: Basis

    def ratio(self, other: "Lifted") -> Decimal:
        """How many times `other` this load is; `other` is not zero.

        Raises:
            BasesMixed: They are counted in two ways.
        """
        return self.mass.ratio(self._like(other))

    def __lt__(self, other: "Lifted") -> bool:
        return self.mass < self._like(other)

    def __le__(self, other: "Lifted") -> bool:
        return self.mass <= self._like(other)

    def __sub__(self, other: "Lifted") -> Mass:
        return self.mass - self._like(other)

    def _like(self, other: "Lifted") -> Mass:
        if self.basis is not other.basis:
            raise BasesMixed(self.basis, other.basis)
        return other.mass

    def whole(self, bar: Mass | None = None, *, hands: int = 2) -> Mass:
        """Return all that is moved, for tonnage: two 20 kg dumbbells are 40 kg. Never for an estimate.

        Args:
            bar: The empty bar with its collars; needed for a side of it.
            hands: Hands that hold one each.

        Raises:
            ValueError: A side without its bar, or what is beside a body: that is only part of what is moved.
        """
        match self.basis:
            case Basis.PER_HAND:
                return self.mass * hands
            case Basis.PER_SIDE if bar is not None:
                return bar + self.mass * 2
            case Basis.TOTAL | Basis.STACK:
                return self.mass
            case _:
                raise ValueError(f"{self.mass} {self.basis} is only part of what is moved")
