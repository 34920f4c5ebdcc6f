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
    TOTAL_REPS = "total reps"
    """More reps up to the top of the range in all sets together, then the next load. Common practice, no source."""
    APRE_3 = "apre 3"
    """By the table for sets of three. Source: [Mann2010]; the tables stand in `core.loads.autoregulation`."""
    APRE_6 = "apre 6"
    """By the table for sets of six."""
    APRE_10 = "apre 10"
    """By the table for sets of ten."""
    DAPRE = "dapre"
    """By the older table. Source: [Knight1979], [Knight1985]."""
    DAPRE_LATER = "dapre later"
    """By the older table with the bands of later copies."""


BY_TABLE = frozenset({WayKind.APRE_3, WayKind.APRE_6, WayKind.APRE_10, WayKind.DAPRE, WayKind.DAPRE_LATER})
"""Ways up by a table: four sets, the last two to the limit."""
TABLE_SETS = 4
"""Sets of every table."""
TABLE_REPS: Mapping[WayKind, int] = MappingProxyType(
    {WayKind.APRE_3: 3, WayKind.APRE_6: 6, WayKind.APRE_10: 10, WayKind.DAPRE: 6, WayKind.DAPRE_LATER: 6}
)
"""Reps that the full load of a table is for."""


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
        WayKind.TOTAL_REPS: "add reps in all, then load",
        WayKind.APRE_3: "APRE 3",
        WayKind.APRE_6: "APRE 6",
        WayKind.APRE_10: "APRE 10",
        WayKind.DAPRE: "DAPRE",
        WayKind.DAPRE_LATER: "DAPRE, later bands",
    }
)
"""Words of each way up as they are to be written; after those of variants stand a colon and the path."""
