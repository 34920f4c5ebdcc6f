"""What a prep drill is: what it loosens, wakes up or rehearses before a session."""

from enum import StrEnum
from typing import Annotated

from pydantic import PlainSerializer, model_validator

from core.programme.exercises import Implement, Level, Pattern, Sites, Stations
from core.programme.restrictions import Restrictions
from core.value import Value

Patterns = Annotated[frozenset[Pattern], PlainSerializer(sorted, return_type=list[Pattern])]
"""A set of patterns; written in order, as sites are."""

REP_S = 3
"""How long a repetition of a drill takes. [s] Our proposal."""
CHANGE_S = 10
"""How long getting into the next drill takes. [s] Our proposal."""


class Stage(StrEnum):
    """What a drill is for, in the order in which a routine has them. Common practice, no source."""

    LOOSEN = "loosen"
    WAKE = "wake up"
    REHEARSE = "rehearse"


class Drill(Value):
    """A prep drill. It prepares for training; it treats nothing.

    Attributes:
        key: Stable identifier, lower case with dashes.
        name: As shown.
        stage: What it is for.
        sites: Joints and muscles that it serves.
        prepares: Patterns that it gets ready for.
        implement: What is held or worn; nothing is bodyweight.
        needs: What it needs besides.
        reps: How often, a side where it has sides; None where it is held.
        seconds: How long it is held, a side where it has sides. [s]
        each_side: True when it is done a side at a time.
        level: From when on it is usual.
        breaks: Restrictions that forbid it.
        cue: One cue in our own words.
        link: Where it is shown, if anywhere.
    """

    key: str
    name: str
    stage: Stage
    sites: Sites
    prepares: Patterns
    implement: Implement = Implement.BODYWEIGHT
    needs: Stations = frozenset()
    reps: int | None = None
    seconds: int | None = None
    each_side: bool = False
    level: Level = Level.FIRST_MONTH
    breaks: Restrictions = frozenset()
    cue: str
    link: str | None = None

    @model_validator(mode="after")
    def _is_counted_or_held(self) -> "Drill":
        if (self.reps is None) is (self.seconds is None):
            raise ValueError(f"{self.key}: reps or seconds, one of them")
        return self

    @property
    def takes_s(self) -> int:
        """How long it takes with both sides and the change to it. [s]"""
        once = self.seconds if self.reps is None else self.reps * REP_S
        return (once or 0) * (2 if self.each_side else 1) + CHANGE_S
