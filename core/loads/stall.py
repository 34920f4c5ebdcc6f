"""A lift that falls, and one that stalls: what the estimates say, and why they do not say it.

Both are for the coach to look at, never for a rule to act on. Our proposal after a practising coach's review.
"""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from core.loads.dated_estimates import DatedEstimate, believed, on_newest_kit
from core.policy import Policy
from core.value import Value

FALL_SESSIONS = 3
"""Sessions over which a fall is looked for. [sessions] Our proposal: one low estimate is no news [Grgic2020]."""
LOOKED_BACK = timedelta(days=84)
"""How far back the best estimate may lie that a stall is counted from. [days] Our proposal."""


class NotFalling(StrEnum):
    """Why a lift is not called falling; the first that holds."""

    FEW = "few"
    """There are not three estimates."""
    DELOAD = "deload"
    COMEBACK = "comeback"
    HELD_BACK = "held back"
    KIT = "kit"
    """They are not all from one kit."""
    NOT_EACH = "not each lower"
    """One of them is no lower than the one before."""
    LITTLE = "little"
    """They fell by less than the policy names."""
    LESS_EFFORT = "less effort"
    """The lower ones took less effort: then it may be no strength that is lost."""
    EFFORT_UNKNOWN = "effort unknown"
    """Nobody said how hard they were, so that less effort cannot be ruled out."""


class Fall(Value):
    """How the last three sessions of an exercise went.

    Attributes:
        why_not: Why it is not falling; None when it is.
        dates: Of the sessions, oldest first; empty when there are not three.
        by: Share lost from the first to the last, negative when it rose; None when there are not three. [fraction]
    """

    why_not: NotFalling | None
    dates: tuple[date, ...] = ()
    by: Decimal | None = None


class NotStalled(StrEnum):
    """Why a lift is not called stalled; the first that holds."""

    NONE = "none"
    """There is no estimate to count from."""
    GAIN = "gain"
    """There was a gain within the exposures that the policy names."""
    SOON = "soon"
    """There were exposures enough, and not yet days enough."""


class Stall(Value):
    """How long an exercise has gone without a gain.

    Attributes:
        why_not: Why it is not stalled; None when it is.
        best_on: When its best estimate was first reached; None when there is none.
        exposures: Exposures since, none of them above it.
        days: Days from then to the newest. [days]
    """

    why_not: NotStalled | None
    best_on: date | None = None
    exposures: int = 0
    days: int = 0


def fall(estimates: Iterable[DatedEstimate], policy: Policy) -> Fall:
    """Return whether the last three sessions of an exercise fell, or why that may not be said.

    Falling: each lower than the one before, by 6 % or more in all, with effort no lower and without deload, comeback,
    change of kit or anything that held back. Effort is no lower where neither the session's effort nor the reps left
    of the set says so, and one of them was given in all three.

    Args:
        estimates: Of one exercise, in any order; flagged ones are left out.
        policy: The coach's thresholds.

    Raises:
        ValueError: More than one formula made the estimates.
    """
    last = believed(estimates)[-FALL_SESSIONS:]
    if len(last) < FALL_SESSIONS:
        return Fall(why_not=NotFalling.FEW)
    by = 1 - last[-1].mass.ratio(last[0].mass)
    return Fall(why_not=_why_not_falling(last, policy), dates=tuple(one.on for one in last), by=by)


def is_falling(estimates: Iterable[DatedEstimate], policy: Policy) -> bool:
    """Return whether the last three sessions of an exercise fell; `fall` says why not."""
    return fall(estimates, policy).why_not is None


def _why_not_falling(last: Sequence[DatedEstimate], policy: Policy) -> NotFalling | None:
    masses = [one.mass for one in last]
    found = (
        (NotFalling.DELOAD, any(one.deload for one in last)),
        (NotFalling.COMEBACK, any(one.comeback for one in last)),
        (NotFalling.HELD_BACK, any(one.held_back for one in last)),
        (NotFalling.KIT, len({one.kit for one in last}) > 1),
        (NotFalling.NOT_EACH, not masses[0] > masses[1] > masses[2]),
        (NotFalling.LITTLE, masses[2] > masses[0] * (1 - policy.fall_share)),
    )
    return next((why for why, holds in found if holds), None) or _by_effort(last)


def _by_effort(last: Sequence[DatedEstimate]) -> NotFalling | None:
    """Return what effort says against a fall. More reps left are less effort."""
    efforts = [one.effort for one in last if one.effort is not None]
    lefts = [-one.left for one in last if one.left is not None]
    known = [each for each in (efforts, lefts) if len(each) == FALL_SESSIONS]
    if not known:
        return NotFalling.EFFORT_UNKNOWN
    return NotFalling.LESS_EFFORT if any(min(each[1:]) < each[0] for each in known) else None


def stall(estimates: Iterable[DatedEstimate], policy: Policy) -> Stall:
    """Return whether an exercise has made no gain for long, or why that may not be said.

    Stalled: since its best estimate of the last twelve weeks there were 4 exposures or more over 4 weeks or more, and
    none was above it. Counted on the newest kit, after the last comeback, without deloads and work that was held back.

    Args:
        estimates: Of one exercise, in any order; flagged ones are left out.
        policy: The coach's thresholds.

    Raises:
        ValueError: More than one formula made the estimates.
    """
    points = _since_comeback(believed(estimates))
    usual = [one for one in on_newest_kit(points) if one.usual]
    recent = [one for one in usual if usual[-1].on - one.on <= LOOKED_BACK]
    if not recent:
        return Stall(why_not=NotStalled.NONE)
    # Of equals the first: to reach it again is no gain.
    best = max(range(len(recent)), key=lambda place: (recent[place].mass, -place))
    since, days = len(recent) - 1 - best, (recent[-1].on - recent[best].on).days
    why_not = NotStalled.GAIN if since < policy.stall_exposures else None
    if why_not is None and days < policy.stall_days:
        why_not = NotStalled.SOON
    return Stall(why_not=why_not, best_on=recent[best].on, exposures=since, days=days)


def is_stalled(estimates: Iterable[DatedEstimate], policy: Policy) -> bool:
    """Return whether an exercise has made no gain for long; `stall` says why not."""
    return stall(estimates, policy).why_not is None


def _since_comeback(points: Sequence[DatedEstimate]) -> Sequence[DatedEstimate]:
    """Return what came after the last comeback: what was lifted before a break is no mark for what comes after."""
    back = max((place for place, one in enumerate(points) if one.comeback), default=-1)
    return points[back + 1 :]
