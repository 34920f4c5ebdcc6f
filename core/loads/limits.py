"""A clinician's limits: what a doctor or a physiotherapist has said may not be done, or not heavier than so much.

A limit is kept to, never weighed, and nothing here ends one: it ends on the day that the clinician named, or when the
coach takes it out. A day to look at it again ends nothing. Common practice, no source.
"""

from datetime import date
from enum import StrEnum

from pydantic import model_validator

from core.checkin.pain import loads_site
from core.programme.exercises import Exercise, Pattern, Site
from core.programme.restrictions import Restriction
from core.units import Mass
from core.value import Value


class Clinician(StrEnum):
    """Whose limit it is."""

    DOCTOR = "doctor"
    PHYSIOTHERAPIST = "physiotherapist"
    MIDWIFE = "midwife"
    OTHER = "clinician"


class LimitKind(StrEnum):
    """What a limit says."""

    MOST_LOAD = "most load"
    """Not heavier than so much in all: both hands, both sides; of bodyweight what is added."""
    FORBIDDEN = "forbidden"
    """Not at all."""
    RESTRICTION = "restriction"
    """Nothing that the body would have to do for it: no arms overhead, no loaded hinge."""


class Limit(Value):
    """One limit that a clinician has set.

    Attributes:
        row_id: Row it is kept in.
        kind: What it says.
        by: Who said it.
        exercise: Key of the exercise it is about, if one.
        pattern: Pattern it is about, if one.
        site: Site of which all that loads it is meant, if one; with none of the three, everything is.
        restriction: What the body must not do; of restrictions only.
        mass: The most; of `MOST_LOAD` only. [>= 0]
        since: First day it holds.
        until: Last day it holds, where the clinician named one; None while it stands.
        review_on: When it is to be looked at again; it stands on after that day.
    """

    row_id: int
    kind: LimitKind
    by: Clinician = Clinician.OTHER
    exercise: str | None = None
    pattern: Pattern | None = None
    site: Site | None = None
    restriction: Restriction | None = None
    mass: Mass | None = None
    since: date
    until: date | None = None
    review_on: date | None = None

    @model_validator(mode="after")
    def _belongs(self) -> "Limit":
        loads = self.kind is LimitKind.MOST_LOAD
        restricts = self.kind is LimitKind.RESTRICTION
        aimed = any(one is not None for one in (self.exercise, self.pattern, self.site))
        if loads is not (self.mass is not None) or restricts is not (self.restriction is not None):
            raise ValueError("a most load has a mass, a restriction says what; nothing else has either")
        if (restricts and aimed) or (self.mass is not None and self.mass.value < 0):
            raise ValueError("a restriction names no exercise, and no mass is under nothing")
        return self

    def stands(self, today: date) -> bool:
        """Return whether it holds on a day."""
        return self.since <= today and (self.until is None or today <= self.until)

    def bears_on(self, exercise: Exercise) -> bool:
        """Return whether it is about an exercise."""
        if self.restriction is not None:
            return self.restriction in exercise.breaks
        if self.of_everything:
            return True
        named = self.exercise == exercise.key or self.pattern is exercise.pattern
        return named or (self.site is not None and loads_site(exercise, self.site))

    @property
    def of_everything(self) -> bool:
        """True where it is about all training: no exercise, pattern, place or thing to avoid is named."""
        named = (self.exercise, self.pattern, self.site, self.restriction)
        return all(each is None for each in named)

    @property
    def forbids(self) -> bool:
        """True where it leaves nothing of what it bears on."""
        return self.kind is not LimitKind.MOST_LOAD
