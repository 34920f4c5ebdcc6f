"""Two sides that are apart: one behind the other in two sessions running. It is told, and changes no load by itself.

The weaker side already decides what counts; from now on it goes first, and the stronger matches it. Common practice, no
source; the size and the two sessions are our proposal after a practising coach's review.
"""

from core.loads.outcome import Reason
from core.loads.performance import Performance
from core.loads.proposals import reason
from core.loads.reasons import ReasonCode
from core.programme.exercises import Side

APART = 3
"""Reps by which a side is behind in a set that is said. [reps] Our proposal."""
SESSIONS = 2
"""Sessions running in which it has to be so. Our proposal."""
_NAMES = {Side.LEFT: "left", Side.RIGHT: "right"}


def sides_apart(past: tuple[Performance, ...]) -> tuple[Reason, ...]:
    """Return that one side is behind, if the same one was so in the last two sessions that logged both.

    Args:
        past: Oldest first.
    """
    both = [gaps for one in past if (gaps := _gaps(one))][-SESSIONS:]
    if len(both) < SESSIONS:
        return ()
    for side in Side:
        behind = min(gaps.get(side, 0) for gaps in both)
        if behind >= APART:
            return (reason(ReasonCode.SIDES_APART, side=_NAMES[side], reps=str(behind)),)
    return ()


def _gaps(one: Performance) -> dict[Side, int]:
    """Return by how much each side was behind, at most, in a set at one load; empty where no set has both. [reps]"""
    counted = [
        (each.set_no, each.side, each.load, each.reps)
        for each in one.exposure.sets
        if each.side is not None and each.reps is not None
    ]
    by_set: dict[int, dict[Side, tuple[str, int]]] = {}
    for set_no, side, load, reps in counted:
        by_set.setdefault(set_no, {})[side] = (str(load), reps)
    found: dict[Side, int] = {}
    for sides in by_set.values():
        if len(sides) < 2 or sides[Side.LEFT][0] != sides[Side.RIGHT][0]:
            continue
        lead = sides[Side.RIGHT][1] - sides[Side.LEFT][1]
        found[Side.LEFT] = max(found.get(Side.LEFT, 0), lead)
        found[Side.RIGHT] = max(found.get(Side.RIGHT, 0), -lead)
    return found
