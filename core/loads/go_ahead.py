"""A coach's word that loads may rise at a place that hurts a little and stays so.

Pain of 1 to 3 holds what loads the place. Where it is steady and has settled by the morning the coach is asked once
whether raises go on there. Her silence holds; what she allows ends with the first report above it, and it never
reaches pain of 4 and over.
"""

from collections.abc import Collection, Iterable, Sequence
from datetime import date, datetime, timedelta

from pydantic import Field

from core.checkin.pain import Felt, PainReport, flares
from core.checkin.pain_course import same_place
from core.programme.exercises import Side, Site
from core.value import Value

HELD_SESSIONS = 2
"""Sessions that pain of 1-3 holds. Our proposal."""
HIGHEST_LOW = 3
"""Highest score at which raises may go on. [0..10] Our proposal."""
STEADY_WITHIN = timedelta(days=28)
"""Time in which nothing at the place may have been 4 and over. [days] Our proposal."""


class GoAhead(Value):
    """What a coach has allowed.

    Attributes:
        row_id: Row it is kept in.
        site: Where it hurts.
        side: Left or right; None for both, or where there is none.
        score: The most that it may hurt. [1..3]
        at: When she said so.
    """

    row_id: int
    site: Site
    side: Side | None = None
    score: int = Field(ge=1, le=HIGHEST_LOW)
    at: datetime


def goes_on(report: PainReport, go_aheads: Iterable[GoAhead], reports: Sequence[PainReport]) -> bool:
    """Return whether a coach lets raises go on at what a report says.

    Args:
        report: Of 1 to 3.
        go_aheads: What she has allowed.
        reports: All that are known; one of the place that is above ends what was allowed before it.
    """
    return any(_covers(one, report) and not ended(one, reports) for one in go_aheads)


def _covers(allowed: GoAhead, report: PainReport) -> bool:
    if flares(report) or report.painkiller or report.score is None or report.score > allowed.score:
        return False
    # A side that was not said may be the other one.
    return allowed.site is report.site and allowed.side is report.side


def ended(allowed: GoAhead, reports: Iterable[PainReport]) -> bool:
    """Return whether a report that came after a coach's word is above it."""
    return any(
        one.at > allowed.at
        and one.site is allowed.site
        and (allowed.side is None or one.side in (None, allowed.side))
        and (flares(one) or one.painkiller or one.score is None or one.score > allowed.score)
        for one in reports
    )


def steady_at(
    report: PainReport, reports: Iterable[PainReport], today: date, trained: Collection[date]
) -> int | None:
    """Return the most that a place has hurt while it was steady and settled by the morning; None where it was not.

    Steady: on at least as many days of training as pain of 1 to 3 holds, never 4 and over in four weeks, no painkiller,
    and at the end no more than at the beginning. Settled: the morning after the last of those days was told of, and no
    morning was worse than its day.

    Args:
        report: Says which place.
        reports: Of any place.
        today: The client's local date.
        trained: Dates on which anything was trained.
    """
    found = [one for one in reports if same_place(one, report) and today - one.on < STEADY_WITHIN]
    if any(flares(one) or one.painkiller or one.score is None for one in found):
        return None
    days: dict[date, int] = {}
    for one in found:
        if one.felt is not Felt.MORNING:
            days[one.on] = max(days.get(one.on, 0), one.score or 0)
    hurting = sorted(on for on, worst in days.items() if worst and on in trained)
    mornings = {one.on: one.score or 0 for one in found if one.felt is Felt.MORNING}
    if len(hurting) < HELD_SESSIONS or days[hurting[-1]] > days[hurting[0]]:
        return None
    after = hurting[-1] + timedelta(days=1)
    calm = all(score <= days.get(on - timedelta(days=1), 0) for on, score in mornings.items())
    return max(days.values()) if calm and after in mornings else None
