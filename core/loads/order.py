"""What a coach has ordered for a client beside the block: something eased once, or an exercise paused.

An order only ever lowers. It stands over the block and the log, and under a stop sign and pain.
"""

from enum import StrEnum

from pydantic import Field

from core.checkin.pain import loads_site
from core.programme.exercises import Exercise, Site
from core.value import Value


class OrderKind(StrEnum):
    """What is ordered."""

    EASE = "ease"
    """One session lighter and shorter."""
    PAUSE = "pause"
    """An exercise left out until the coach takes it up again."""


class CoachOrder(Value):
    """One order that stands.

    Attributes:
        row_id: Row it is kept in.
        kind: What is ordered.
        exercise: Key of the exercise it is about, if one.
        site: Site of which all that loads it is meant, if one; with neither, everything is.
        percent: How much lighter. [%] Our proposal: 10 to 20.
    """

    row_id: int
    kind: OrderKind
    exercise: str | None = None
    site: Site | None = None
    percent: int = Field(default=0, ge=0, le=20)

    def bears_on(self, exercise: Exercise) -> bool:
        """Return whether the order is about this exercise."""
        if self.exercise is None and self.site is None:
            return True
        return self.exercise == exercise.key or (self.site is not None and loads_site(exercise, self.site))


FEWER_SETS = 1
"""Sets that an eased session has fewer. [sets] Our proposal."""


def paused_by(orders: tuple[CoachOrder, ...], exercise: Exercise) -> CoachOrder | None:
    """Return the order that pauses an exercise, if one stands."""
    return next((one for one in orders if one.kind is OrderKind.PAUSE and one.bears_on(exercise)), None)


def eased_by(orders: tuple[CoachOrder, ...], exercise: Exercise) -> CoachOrder | None:
    """Return the order that eases an exercise most, if one stands."""
    found = [one for one in orders if one.kind is OrderKind.EASE and one.bears_on(exercise)]
    return max(found, key=lambda one: (one.percent, -one.row_id), default=None)
