"""Our own prep drills, and which of them can be done with what there is.

Common practice, no source. Every function takes the drills as an argument, so that a coach's own stand beside ours.
"""

from collections.abc import Collection, Mapping
from types import MappingProxyType

from core.programme.drill import Drill
from core.programme.drills_lower import LOWER_DRILLS
from core.programme.drills_upper import UPPER_DRILLS
from core.programme.exercises import Implement, Level, Station
from core.programme.restrictions import Restriction
from core.programme.written_names import WrittenNames

DRILLS: Mapping[str, Drill] = MappingProxyType({row.key: row for row in (*LOWER_DRILLS, *UPPER_DRILLS)})
"""Every drill of ours by its key."""

_NAMES = WrittenNames((row.name for row in DRILLS.values()), {})
_BY_NAME = {row.name: row for row in DRILLS.values()}


def drill_named(text: str) -> Drill | None:
    """Return the drill that is written `text`, by name or key; None when there is none."""
    name = _NAMES.named(text)
    return DRILLS.get(text) if name is None else _BY_NAME[name]


def drills_like(text: str) -> str:
    """Return names of drills that are like `text`, likest first, with `; ` between them; at most two."""
    return _NAMES.near(text)


def drills_that_fit(
    kit: Collection[Implement | Station],
    restrictions: Collection[Restriction] = (),
    level: Level = Level.FIRST_MONTH,
    drills: Mapping[str, Drill] = DRILLS,
) -> tuple[Drill, ...]:
    """Return the drills that this kit allows and no restriction forbids, in the order of the list.

    Args:
        kit: Implements and stations that there are; the body is always there.
        restrictions: Limits that were given; a drill that breaks one is left out.
        level: What the client may do; somebody trained may do all.
        drills: To choose from.
    """
    lifted = {Implement.BODYWEIGHT, *kit}
    return tuple(
        drill
        for drill in drills.values()
        if drill.implement in lifted
        and drill.needs <= lifted
        and drill.breaks.isdisjoint(restrictions)
        and level in (drill.level, Level.TRAINED)
    )
