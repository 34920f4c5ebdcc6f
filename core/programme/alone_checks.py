"""Sets to the limit under a bar, for people who train alone."""

from collections.abc import Iterator, Mapping

from core.programme.block import Block
from core.programme.exercises import Exercise
from core.programme.prescription import Dose
from core.programme.problems import Code, Place, Problem, problem
from core.programme.set_styles import StyleKind
from core.programme.ways_up import BY_TABLE

SAFE_LEFT = 2
"""Fewest reps left under a bar without safeties. [reps] Our proposal."""
OPEN, DESCENDING, TABLE = "an open set", "descending sets", "sets by a table"


def limits_under_bar(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[Problem]:
    """Yield each exercise that is unsafe to fail alone and is asked to fewer than two left, once a day."""
    for day in block.days:
        least: dict[str, int] = {}
        for line in day.lines:
            asked = line.prescription
            left = asked.dose.left
            if left is not None and left < SAFE_LEFT and catalogue[asked.exercise].needs_safeties:
                least[asked.exercise] = min(left, least.get(asked.exercise, left))
        for key, left in least.items():
            facts = {"exercise": catalogue[key].name, "day": day.name, "left": left}
            yield problem(Code.LIMIT_UNDER_BAR, Place(), **facts)


def open_under_bar(block: Block, catalogue: Mapping[str, Exercise]) -> Iterator[Problem]:
    """Yield each exercise that is unsafe to fail alone, and whose sets go on until no more can be done, once a day.

    An open set that is to end with two or more left is none of these; one that is to end with fewer is told as that.
    """
    for day in block.days:
        told: dict[tuple[str, str], None] = {}
        for line in day.lines:
            asked = line.prescription
            how = _to_the_limit(asked.dose)
            if how is not None and catalogue[asked.exercise].needs_safeties:
                told[asked.exercise, how] = None
        for key, how in told:
            yield problem(Code.OPEN_UNDER_BAR, Place(), exercise=catalogue[key].name, day=day.name, how=how)


def _to_the_limit(dose: Dose) -> str | None:
    """Return what goes to the limit where nothing says when it ends; None where nothing does."""
    if dose.left is not None:
        return None
    if dose.open_at_end:
        return OPEN
    if dose.way_up.kind in BY_TABLE:
        return TABLE
    descends = dose.style is not None and dose.style.kind is StyleKind.DESCENDING
    return DESCENDING if descends else None
