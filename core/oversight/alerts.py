"""What of the log is a matter for the coach: when, how soon she must hear it, and when it has grown.

Pure: what was asked and done in, a matter or None out. Nothing here is a verdict on anybody: numbers and dates only.
The words are in `bot.render.alerts`, who is told when in `bot.usecases.alerting`. Our proposals unless a source is
named.
"""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta

from core.loads.dated_estimates import DatedEstimate
from core.loads.ladder import Ladder
from core.loads.outcome import Decision
from core.loads.past import Exposure, Outcome
from core.loads.stall import FALL_SESSIONS, fall, stall
from core.oversight.waiting import LiftCourse
from core.policy import Policy
from core.programme.set_styles import StyleKind
from core.units import Mass
from core.value import Value

TOLD_AGAIN = (timedelta(minutes=15), timedelta(minutes=60))
"""After so long a matter that cannot wait is told again while it is unseen. Our proposal."""
TO_LIMIT = frozenset({StyleKind.DESCENDING, StyleKind.REST_PAUSE})
"""Sets that end with none left by the way they are done."""
SECOND_AFTER = timedelta(minutes=75)
"""After so long the second person is told. Our proposal: a quarter of an hour after the coach was told last."""


class OverLine(Value):
    """A set far over the load line.

    Attributes:
        load: What was lifted.
        line: The most that was to be given.
        grown: Tenths of the line that it was over, at least 1.
    """

    load: Mass
    line: Mass
    grown: int


class LeftUnder(Value):
    """No reps left where some were asked for, twice running or more.

    Attributes:
        asked: Fewest reps left that were asked for in the run. [reps]
        first: Date of the first of the run.
        times: Exposures in the run.
    """

    asked: int
    first: date
    times: int

    @property
    def grown(self) -> int:
        """Told again when twice as many have come."""
        return self.times // 2


class Unanswered(Value):
    """Check-ins that were asked and not answered, up to the newest.

    Attributes:
        first: Date of the first of them.
        times: How many.
    """

    first: date
    times: int


def next_telling(told_at: datetime, reminded: int, now: datetime | None = None) -> datetime | None:
    """Return when a matter that cannot wait is looked at again while it is unseen; None when nobody is left to tell.

    Args:
        told_at: When it was told first.
        reminded: How often it was told again: 0 to 2 the coach, then the second person.
        now: When it is told again just now: after an outage the next one follows no sooner than the first would.
    """
    after = (*TOLD_AGAIN, SECOND_AFTER)
    if reminded >= len(after):
        return None
    at = told_at + after[reminded]
    return at if now is None else max(at, now + TOLD_AGAIN[0])


def falling(
    exercise: str, estimates: Iterable[DatedEstimate], policy: Policy
) -> tuple[LiftCourse, int] | None:
    """Return how a lift falls, with what it has grown to; None where that may not be said.

    It has grown when twice, three times as much is lost as it takes to be called falling.

    Args:
        exercise: Key in the catalogue.
        estimates: Of one exercise and one formula.
        policy: The coach's thresholds.
    """
    found = fall(estimates, policy)
    if found.why_not is not None or found.by is None:
        return None
    course = LiftCourse(exercise=exercise, since=found.dates[0], by=found.by, times=FALL_SESSIONS)
    return course, int(found.by / policy.fall_share)


def stalled(
    exercise: str, estimates: Iterable[DatedEstimate], policy: Policy
) -> tuple[LiftCourse, int] | None:
    """Return how long a lift has stalled, with what it has grown to; None where that may not be said.

    It has grown when twice, three times as many days have gone by as it takes to be called stalled.

    Args:
        exercise: Key in the catalogue.
        estimates: Of one exercise and one formula.
        policy: The coach's thresholds.
    """
    found = stall(estimates, policy)
    if found.why_not is not None or found.best_on is None:
        return None
    course = LiftCourse(exercise=exercise, since=found.best_on, times=found.exposures)
    return course, found.days // policy.stall_days


def over_line(lifted: Iterable[Mass], line: Mass | None, ladder: Ladder, policy: Policy) -> OverLine | None:
    """Return the heaviest set where it was far over the load line: more than one step over it, or a share of it.

    A line of nothing, or under it where a machine takes weight off, has no share; there the step counts alone.

    Args:
        lifted: Loads of the sets, as masses of the exercise's basis.
        line: The load line; None where there was none.
        ladder: Loads that can be made, for what one step is; where the line is at its top, the share counts alone.
        policy: The coach's thresholds.
    """
    top = max(lifted, default=None)
    if top is None or line is None or top <= line:
        return None
    step = ladder.over(line)
    share = top.ratio(line) - 1 if line.value > 0 else None
    by_step = step is not None and top > step
    if not by_step and (share is None or share <= policy.over_line):
        return None
    return OverLine(load=top, line=line, grown=max(1, int(share * 10)) if share is not None else 1)


def most_given(decision: Decision, given: Mass | None) -> Mass | None:
    """Return the most that a card gave: the load line, or what was given over it; None where there was no line.

    A set that a table made heavier, or that a coach ordered, was asked for.

    Args:
        decision: What the card was made of.
        given: The load on the card.
    """
    if decision.line.mass is None:
        return None
    plan = decision.plan
    planned = [] if plan is None else [each.load for each in plan.sets] + [each.load for each in plan.last]
    loads = [each.mass for each in planned if each.mass is not None]
    return max([decision.line.mass, *loads, *([] if given is None else [given])])


def left_under(history: Sequence[Exposure], policy: Policy) -> LeftUnder | None:
    """Return the run of exposures, up to the newest, that ended with no reps left where some were asked for.

    One counts where the client gave a number; one where nothing was said, or where sets go to the limit by
    themselves, ends the run.

    Args:
        history: Exposures of one exercise, oldest first.
        policy: The coach's thresholds.
    """
    trained = [one for one in history if one.sets and one.outcome is not Outcome.SKIPPED]
    run: list[Exposure] = []
    for one in reversed(trained):
        if not _ended_at_none(one, policy):
            break
        run.append(one)
    if len(run) < 2:
        return None
    asked = min(_asked(one, policy) for one in run)
    return LeftUnder(asked=asked, first=run[-1].on, times=len(run))


def _asked(one: Exposure, policy: Policy) -> int:
    return policy.left_default if one.dose.left is None else one.dose.left


def _ended_at_none(one: Exposure, policy: Policy) -> bool:
    said = [each.left for each in one.sets if each.left is not None]
    to_limit = one.dose.or_more or (one.dose.style is not None and one.dose.style.kind in TO_LIMIT)
    return bool(said) and said[-1] == 0 and not to_limit and _asked(one, policy) >= policy.left_asked


def video_told_at(since: datetime, policy: Policy) -> datetime:
    """Return when a video that came then, and was not answered, is told the same day."""
    return since + timedelta(days=policy.video_days)


def is_late(since: datetime, now: datetime, policy: Policy) -> bool:
    """Return whether a video without an answer stands in the digest."""
    return now - since >= timedelta(hours=policy.video_hours)


def unanswered(asked: Sequence[tuple[date, bool]], today: date, policy: Policy) -> Unanswered | None:
    """Return the check-ins that went unanswered for too long, up to the newest; None where it is not long.

    Args:
        asked: Date and whether anything was answered, oldest first; the one of today is not among them.
        today: Date on the client's calendar.
        policy: The coach's thresholds.
    """
    run: list[date] = []
    for on, is_answered in reversed(asked):
        if is_answered:
            break
        run.append(on)
    if len(run) < 2 or (today - run[-1]).days < policy.check_in_days:
        return None
    return Unanswered(first=run[-1], times=len(run))


def block_told_on(starts: date, ends: date, policy: Policy) -> date:
    """Return the date on which the end of a block is told; of a short one not in its first three days."""
    return max(ends - timedelta(days=policy.block_last_days), starts + SETTLES)


SETTLES = timedelta(days=3)
"""A block that has just begun is not told to end. Our proposal."""
