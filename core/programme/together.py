"""What is done together: a day's prescriptions grouped by the letter of their order."""

from collections.abc import Iterable
from enum import StrEnum
from itertools import groupby

from core.programme.block import session_order
from core.programme.prescription import Prescription
from core.value import Value

TAKEN_IN = "+"
"""Stands behind the order of a lift that a session takes in from another day, so that no two have the same."""


class Grouping(StrEnum):
    """How many are done in turn. Common practice, no source."""

    ALONE = "alone"
    SUPERSET = "superset"
    """Two in turn."""
    CIRCUIT = "circuit"
    """Three or more in turn."""


class Group(Value):
    """Prescriptions that are done together, a set of each in turn.

    Attributes:
        letter: Of their order: `B` of `B1` and `B2`.
        members: In the order they are done.
    """

    letter: str
    members: tuple[Prescription, ...]

    @property
    def grouping(self) -> Grouping:
        """Alone, two in turn, or more."""
        if len(self.members) == 1:
            return Grouping.ALONE
        return Grouping.SUPERSET if len(self.members) == 2 else Grouping.CIRCUIT

    @property
    def rounds(self) -> int:
        """Most sets that any of them has: one set of each makes a round. [rounds]"""
        return max(member.dose.sets for member in self.members)

    @property
    def rest_s(self) -> int | None:
        """Rest after the round: what the last of them says, or else the longest. [s]"""
        last = self.members[-1].rest_s
        written = [member.rest_s for member in self.members if member.rest_s is not None]
        return last if last is not None else max(written, default=None)

    def in_round(self, number: int) -> tuple[Prescription, ...]:
        """Return who has a set in round `number`, from 1; those with fewer sets stop sooner."""
        return tuple(member for member in self.members if member.dose.sets >= number)


def groups(prescriptions: Iterable[Prescription]) -> tuple[Group, ...]:
    """Return a day's prescriptions grouped by letter, in session order: A, then B1 with B2, then C.

    A lift that was taken in from another day is in turn with nothing.
    """
    in_order = sorted(prescriptions, key=lambda one: (letter_of(one), session_order(one.order)))
    return tuple(
        Group(letter=letter, members=tuple(members))
        for (letter, _), members in groupby(in_order, key=letter_of)
    )


def letter_of(one: Prescription) -> tuple[str, bool]:
    """Return what those have in common that are done in turn: their letter, and whether they were taken in."""
    return session_order(one.order)[0], one.order.endswith(TAKEN_IN)
