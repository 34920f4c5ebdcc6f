"""Kinds of sets: ascending, descending, rest-pause, cluster. Straight sets have no style."""

from decimal import Decimal
from enum import StrEnum

from pydantic import Field, model_validator

from core.units import plain
from core.value import Value

DROP_PERCENT = "20-25"
"""Fall of the load from step to step of descending sets, where none is written. [%] Common practice, no source."""
PAUSE_S = 15
"""Pause inside rest-pause and cluster sets, where none is written. [s] Common practice, no source."""


class StyleKind(StrEnum):
    """How sets follow each other where they are not straight."""

    ASCENDING = "ascending"
    """The load goes up each set as long as form holds; what is written is the load of the last set."""
    DESCENDING = "descending"
    """After the sets at the load: steps down without a rest, lighter each, the reps rise."""
    REST_PAUSE = "rest-pause"
    """The reps of a set are made with short pauses in it."""
    CLUSTER = "cluster"
    """A set is made in parts with a short pause between them."""


class SetStyle(Value):
    """A kind of sets, with what belongs to it.

    Attributes:
        kind: Which.
        steps: Descending only: steps down after the sets at the load. [1..5]
        drop: Descending only: fall of the load from step to step; None where the coach wrote none. [%, 5..50]
        pause_s: Rest-pause and cluster only: pause inside a set; None where the coach wrote none. [s, 5..60]
        parts: Cluster only: reps of each part of a set, two parts or more.
    """

    kind: StyleKind
    steps: int = Field(default=0, ge=0, le=5)
    drop: Decimal | None = Field(default=None, ge=5, le=50)
    pause_s: int | None = Field(default=None, ge=5, le=60)
    parts: tuple[int, ...] = ()

    @model_validator(mode="after")
    def _belongs(self) -> "SetStyle":
        descends = self.kind is StyleKind.DESCENDING
        clusters = self.kind is StyleKind.CLUSTER
        pauses = clusters or self.kind is StyleKind.REST_PAUSE
        strays = (
            descends is not bool(self.steps)
            or (self.drop is not None and not descends)
            or (self.pause_s is not None and not pauses)
            or clusters is not (len(self.parts) > 1)
            or any(not 1 <= part <= 100 for part in self.parts)
        )
        if strays:
            raise ValueError(
                "steps and drop belong to descending sets, pauses to rest-pause, parts to clusters"
            )
        return self

    @property
    def pause(self) -> int:
        """Pause inside a set, as written or usual. [s]"""
        return PAUSE_S if self.pause_s is None else self.pause_s

    @property
    def drop_text(self) -> str:
        """Fall from step to step as text, as written or usual. [%]"""
        return DROP_PERCENT if self.drop is None else plain(self.drop)

    @property
    def feeds_estimate(self) -> bool:
        """True where a set says something about the most that could be lifted once.

        Sets with pauses in them, and those that follow on each other lighter, have inflated reps. Common practice,
        no source.
        """
        return self.kind is StyleKind.ASCENDING
