"""Whether signs ask for a lighter week that the block does not plan: told to the coach, who plans one or does not.

Two signs of four. Nothing here makes a week lighter by itself. Our proposal after a practising coach's review; that
deloads are also made on a stall or on aches is from [Rogerson2024].
"""

from collections.abc import Iterable
from datetime import date, timedelta
from enum import StrEnum

from pydantic import Field

from core.checkin.pain import Band, PainReport, band
from core.loads.past import Exposure
from core.programme.exercises import Site
from core.value import Value

WEEK = timedelta(days=7)
"""How far back effort and aches are looked at. [days]"""
LIFTS = 2
"""Lifts that are down for a sign. Our proposal."""
EFFORT_OVER = 2
"""Reps left under what was asked, on average over a week, for a sign. [reps] Our proposal."""
SESSIONS = 2
"""Days of a week on which reps left were given, for a sign of effort. Our proposal: one hard day says little."""
SITES = 2
"""Sites that ache for a sign. Our proposal."""
SIGNS = 2
"""Signs that ask for a lighter week. Our proposal."""


class Sign(StrEnum):
    """What asks for a lighter week."""

    LIFTS_DOWN = "lifts down"
    EFFORT = "effort over what was asked"
    ACHES = "aches at two sites"
    ASKED = "the client asks"


class WeekBehind(Value):
    """What is known of the week behind.

    Attributes:
        lifts_down: Lifts that fall, by their trend.
        effort: Reps left that were asked and given, with the day, of each exercise that gave a number.
        sites: Sites that ached.
        asked: True when the client asks for an easier week.
        new: True in the first three months: none is scheduled then.
        away: True when part of the week was spent away.
        due: Sessions that were due.
        kept: Sessions that were kept. [0..due]
    """

    lifts_down: int = Field(default=0, ge=0)
    effort: tuple[tuple[date, int, int], ...] = ()
    sites: tuple[Site, ...] = ()
    asked: bool = False
    new: bool = False
    away: bool = False
    due: int = Field(default=0, ge=0)
    kept: int = Field(default=0, ge=0)


def deload_due(week: WeekBehind) -> tuple[Sign, ...]:
    """Return the signs that ask for a lighter week, two or more; none where there are fewer.

    None either for somebody new, and none after a week away or one of which half or more was missed: that was lighter
    already.
    """
    if week.new or light_already(week):
        return ()
    stands = {
        Sign.LIFTS_DOWN: week.lifts_down >= LIFTS,
        Sign.EFFORT: _is_hard(week),
        Sign.ACHES: len(set(week.sites)) >= SITES,
        Sign.ASKED: week.asked,
    }
    found = tuple(sign for sign, is_so in stands.items() if is_so)
    return found if len(found) >= SIGNS else ()


def light_already(week: WeekBehind) -> bool:
    """Return whether a week was lighter by itself: spent away, or half of it or more missed."""
    return week.away or (week.due > 0 and 2 * week.kept <= week.due)


def _is_hard(week: WeekBehind) -> bool:
    if len({on for on, _, _ in week.effort}) < SESSIONS:
        return False
    over = sum(asked - left for _, asked, left in week.effort)
    return over >= EFFORT_OVER * len(week.effort)


def effort_of_week(exposures: Iterable[Exposure], today: date) -> tuple[tuple[date, int, int], ...]:
    """Return the reps left that were asked and last given in each exposure of the last seven days, oldest first.

    Args:
        exposures: Of any exercises, in any order.
        today: The client's local date.
    """
    found = []
    for one in sorted(exposures, key=lambda each: (each.on, each.session_id)):
        said = [each.left for each in sorted(one.sets, key=lambda each: each.set_no) if each.left is not None]
        if today - WEEK < one.on <= today and one.dose.left is not None and said:
            found.append((one.on, one.dose.left, said[-1]))
    return tuple(found)


def aching_sites(reports: Iterable[PainReport], today: date) -> tuple[Site, ...]:
    """Return the sites that ached in the last seven days, in their order; a score of 0 is no ache."""
    ached = {one.site for one in reports if today - WEEK < one.on <= today and band(one) is not Band.NONE}
    return tuple(sorted(ached))
