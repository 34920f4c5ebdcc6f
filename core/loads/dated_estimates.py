"""Estimated maxima over time, with what must be known before one is held against another."""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal

from pydantic import Field, model_validator

from core.loads.one_rep_max import Formula
from core.units import Mass
from core.value import Value

MOST_TOTAL = 12
"""Reps done and left past which an estimate is flagged, and left out of everything over time. [reps] Our proposal
under [Reynolds2006]: the formulas part from each other there."""


class DatedEstimate(Value):
    """The best estimate of one exercise in one session.

    Attributes:
        session_id: Session it is from.
        on: The client's local date.
        mass: Estimated maximum, in the exercise's basis; where the body is the load, of body and what is added
            together, since a share of what is added alone means nothing. [over 0]
        formula: What made it; one for the whole history.
        total: Reps done and left of the set it is from. [reps]
        effort: The session's effort, 1 very easy to 5 very hard; None where not given.
        left: Reps left of the set it is from, where the client gave a number. [reps]
        kit: Which kit it was done on: another machine is another exercise.
        deload: True in a planned deload.
        comeback: True on the way back from a break.
        held_back: True where something other than strength held the load or the reps down: pain, illness, an order of
            the coach, too little time, kit or grip.
    """

    session_id: int
    on: date
    mass: Mass
    formula: Formula
    total: Decimal
    effort: int | None = Field(default=None, ge=1, le=5)
    left: int | None = Field(default=None, ge=0)
    kit: str = ""
    deload: bool = False
    comeback: bool = False
    held_back: bool = False

    @model_validator(mode="after")
    def _is_something(self) -> "DatedEstimate":
        if self.mass.value <= 0:
            raise ValueError(f"a maximum over time is more than nothing, not {self.mass}")
        return self

    @property
    def flagged(self) -> bool:
        """True where the estimate may not be believed over time."""
        return self.total > MOST_TOTAL

    @property
    def usual(self) -> bool:
        """True in a session that shows strength: no deload, no comeback, nothing that held back."""
        return not (self.deload or self.comeback or self.held_back)


def believed(points: Iterable[DatedEstimate]) -> tuple[DatedEstimate, ...]:
    """Return the estimates without the flagged ones, oldest first, whatever order they came in.

    Raises:
        ValueError: More than one formula made them: two histories, that may not be mixed.
    """
    kept = sorted((one for one in points if not one.flagged), key=lambda one: (one.on, one.session_id))
    if len({one.formula for one in kept}) > 1:
        raise ValueError("one formula for the whole history of an exercise")
    return tuple(kept)


def on_newest_kit(points: Sequence[DatedEstimate]) -> tuple[DatedEstimate, ...]:
    """Return the estimates of the kit that the newest is from."""
    return tuple(one for one in points if one.kit == points[-1].kit)
