"""Chance that is handed in, and what is drawn from it.

A rehearsal makes no chance of its own: it is given a stream of numbers, and the same stream gives the same rehearsal.
"""

from collections.abc import Sequence
from math import exp
from statistics import NormalDist
from typing import Protocol, Self, TypeVar

T = TypeVar("T")

_BELL = NormalDist()
_LEAST = 2.0**-54
"""In place of a zero, of which the bell curve knows no place."""


class Chance(Protocol):
    """A stream of chance, as `numpy.random.Generator` is one."""

    def random(self) -> float:
        """Return the next number, each as likely. [0..1)"""
        ...

    def spawn(self, n_children: int, /) -> Sequence[Self]:
        """Return streams of their own: what is drawn from one changes nothing in another."""
        ...


def happens(chance: Chance, share: float) -> bool:
    """Return whether something happens that does so in a share of all cases; one number is drawn. [0..1]

    With the same stream, whatever happens at a share happens at every greater one too.
    """
    return chance.random() < share


def between(chance: Chance, low: float, high: float) -> float:
    """Return a number from `low` to `high`, each as likely."""
    return low + (high - low) * chance.random()


def whole(chance: Chance, low: int, high: int) -> int:
    """Return a whole number from `low` to `high`, both included, each as likely."""
    return low + int(chance.random() * (high - low + 1))


def bell(chance: Chance, spread: float) -> float:
    """Return a number of a bell curve about 0; `spread` is its standard deviation."""
    return spread * _BELL.inv_cdf(max(chance.random(), _LEAST))


def factor(chance: Chance, spread: float) -> float:
    """Return a positive factor about 1, twice as often as a half; `spread` is that of its natural logarithm."""
    return exp(bell(chance, spread))


def chosen(chance: Chance, things: Sequence[T]) -> T:
    """Return one of some things, each as likely."""
    return things[int(chance.random() * len(things))]


def by_share(chance: Chance, shares: Sequence[tuple[T, float]]) -> T:
    """Return one of some things, each as likely as its share; the last takes what is left of 1."""
    left = chance.random()
    for thing, share in shares[:-1]:
        left -= share
        if left < 0:
            return thing
    return shares[-1][0]
