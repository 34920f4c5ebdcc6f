"""A short routine for every day, for somebody with a history: what a coach asks for, and the drills it comes to.

It keeps moving what was trouble once. It is no treatment: a drill that moves what hurts now is left out.
"""

from collections.abc import Collection, Mapping, Sequence

from pydantic import Field

from core.programme.drill import Drill
from core.programme.drills import DRILLS
from core.programme.exercises import Implement, Level, Site, Station
from core.programme.prep import DAILY_MINUTES, MOST, PrepStep, daily_for, step_of
from core.value import Value

LONGEST = 15
"""Longest daily routine. [min] Our proposal: a longer one is a session."""


class DailyPrep(Value):
    """What a coach asks for.

    Attributes:
        sites: To keep moving, first things first.
        drills: Keys of drills that she named; they come before what the sites ask for.
        minutes: How long it is, save for drills that she named. [1..15 min]
    """

    sites: tuple[Site, ...] = ()
    drills: tuple[str, ...] = ()
    minutes: int = Field(default=DAILY_MINUTES, ge=1, le=LONGEST)


def daily_steps(
    asked: DailyPrep,
    kit: Collection[Implement | Station] = (),
    *,
    hurting: Collection[Site] = (),
    level: Level = Level.FIRST_MONTH,
    drills: Mapping[str, Drill] = DRILLS,
) -> tuple[PrepStep, ...]:
    """Return the drills of a daily routine.

    Args:
        asked: What the coach asks for.
        kit: What there is for drills that she did not name; the body is always there.
        hurting: Sites that hurt now: no drill moves them, named or not.
        level: What the client may do.
        drills: To choose from.

    The same arguments give the same routine. It is empty where nothing is left.
    """
    named = written_steps(asked.drills, hurting=hurting, drills=drills)
    calm = {
        key: each
        for key, each in drills.items()
        if not each.sites.intersection(hurting) and key not in asked.drills
    }
    left = asked.minutes - -(-sum(step.takes_s for step in named) // 60)
    sites = [site for site in asked.sites if site not in hurting]
    return (*named, *daily_for(sites, kit, max(0, left), level=level, drills=calm))[:MOST]


def written_steps(
    keys: Sequence[str], *, hurting: Collection[Site] = (), drills: Mapping[str, Drill] = DRILLS
) -> tuple[PrepStep, ...]:
    """Return drills that a coach named, in her order, without those that move what hurts.

    Args:
        keys: Of drills; one that there is no more is passed over.
        hurting: Sites that hurt now.
        drills: All there are.
    """
    found = (drills[key] for key in keys if key in drills)
    return tuple(step_of(each) for each in found if not each.sites.intersection(hurting))


def merged(daily: Sequence[PrepStep], day: Sequence[PrepStep]) -> tuple[PrepStep, ...]:
    """Return a client's daily routine and the day's own as one, no drill twice."""
    known = {step.drill for step in daily}
    return (*daily, *(step for step in day if step.drill not in known))
