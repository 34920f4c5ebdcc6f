"""One set of any exercise, as far as it says what another could begin with."""

from datetime import date

from pydantic import Field

from core.units import Mass
from core.value import Value


class Lift(Value):
    """One set of any exercise that was done, or that the coach knows of.

    Attributes:
        exercise: Key in the catalogue.
        load: As lifted, in the exercise's basis; what is added for bodyweight lifts.
        reps: Done. [>= 1]
        left: Reps left; None where no number was given, and then none is taken to have been left.
        on: The client's local date.
    """

    exercise: str
    load: Mass
    reps: int = Field(ge=1)
    left: int | None = Field(default=None, ge=0)
    on: date
