"""Ways up: how an exercise gets harder from session to session, in the coach's words."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from pydantic import model_validator

from core.value import Value


class WayKind(StrEnum):
    """Each way up. The default follows from what is written: `Dose.way_up`."""

    DONE_TWICE = "done twice"
    """Every set done in two sessions running, then the next load. The default of fixed reps and fixed time."""
    ADD_REPS = "add reps"
    """More reps (or time, or metres) up to the top of the range in every set, then the next load. The default of
    ranges. Source: [Plotkin2022]."""
    EACH_WEEK = "each week"
    """The next load once a week, as long as every set is done. Common practice, no source."""
    BY_LEFT = "by reps left"
    """The next load when more reps are left than asked. Source: [Zourdos2016]; our proposal."""
    LAST_SET = "last set"
    """The next load when the open last set had two reps over in two sessions running. The default where the last set
    is written as open. Source: [NSCA]."""
    AS_WRITTEN = "as written"
    """The load of the row and no other. The default of percentages, of
    steps up from last time, and of clusters."""
    VARIANTS = "variants"
    """Reps up to the top of the range, then a harder exercise of the path, and never more load."""
    UNCHANGED = "unchanged"
    """The same again."""


class WayUp(Value):
    """A way up.

    Attributes:
        kind: Which.
        path: Keys of exercises from easier to harder, two or more; of variants only.
    """

    kind: WayKind
    path: tuple[str, ...] = ()

    @model_validator(mode="after")
    def _path_of_variants(self) -> "WayUp":
        if (self.kind is WayKind.VARIANTS) is not (len(self.path) > 1):
            raise ValueError("a path of two exercises or more belongs to variants, and to them alone")
        return self


WORDS: Mapping[WayKind, str] = MappingProxyType(
    {
        WayKind.DONE_TWICE: "all sets twice, then load",
        WayKind.ADD_REPS: "add reps, then load",
        WayKind.EACH_WEEK: "load each week",
        WayKind.BY_LEFT: "by reps left",
        WayKind.LAST_SET: "by the last set",
        WayKind.AS_WRITTEN: "as written",
        WayKind.VARIANTS: "easier to harder",
        WayKind.UNCHANGED: "unchanged",
    }
)
"""Words of each way up as they are to be written; after those of variants stand a colon and the path."""
