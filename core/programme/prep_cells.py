"""What may stand beside Prep: the drills of a day, `Lower A: Ankle rock, Hip switch`, or `Push: none`."""

from typing import NamedTuple

from core.programme.block import Block
from core.programme.block_sheet import PREP, Head, day_key
from core.programme.drills import DRILLS, drill_named, drills_like
from core.programme.prep import MOST
from core.programme.problems import Code, Problem, problem
from core.programme.sheets import UnreadError

NONE = "none"
"""The word for a day without prep."""


class DayPrep(NamedTuple):
    """The prep of a day.

    Attributes:
        day: Its key.
        drills: Keys, in the order written; empty for none.
    """

    day: str
    drills: tuple[str, ...]


def day_prep(text: str, head: Head) -> DayPrep:
    """Return the drills that are written for a day.

    Args:
        text: `Lower A: Ankle rock, Leg swing`.
        head: Says which days there are.

    Raises:
        UnreadError: No day stands before a colon, the block has no such day, or a drill is not known.
    """
    name, _, listed = text.rpartition(":")
    key = day_key(name)
    names = [part.strip() for part in listed.split(",") if part.strip()]
    if not key or not names:
        raise UnreadError(Code.PREP_UNREADABLE, written=text)
    if head.days and key not in head.days:
        raise UnreadError(Code.DAY_UNKNOWN, written=name.strip(), known=", ".join(head.days.values()))
    if len(names) == 1 and names[0].casefold() == NONE:
        return DayPrep(key, ())
    keys: list[str] = []
    for one in names:
        drill = drill_named(one)
        if drill is None:
            raise UnreadError(Code.DRILL_UNKNOWN, written=one, suggestions=drills_like(one))
        if drill.key in keys:
            raise UnreadError(Code.DRILL_TWICE, written=one)
        keys.append(drill.key)
    if len(keys) > MOST:
        raise UnreadError(Code.PREP_TOO_LONG, day=name.strip(), found=len(keys), limit=MOST)
    return DayPrep(key, tuple(keys))


def preps_of(head: Head, found: list[DayPrep], problems: list[Problem]) -> dict[str, tuple[str, ...]]:
    """Return the drills by the key of their day; a day that has them twice is added to `problems`."""
    preps: dict[str, tuple[str, ...]] = {}
    for day, drills in found:
        if day in preps:
            problems.append(problem(Code.PREP_TWICE, head.plan[PREP][0][0], day=head.days.get(day, day)))
        preps.setdefault(day, drills)
    return preps


def preps_text(block: Block) -> str:
    """Return the preps as `day_prep` reads them back: `Lower A: Ankle rock, Leg swing; Push: none`.

    A day with a semicolon in its name is written by its key, for the semicolon stands between the days.
    """
    return "; ".join(
        f"{day.key if ';' in day.name else day.name}: "
        f"{', '.join(DRILLS[key].name for key in day.prep) or NONE}"
        for day in block.days
        if day.prep is not None
    )
