"""Missed sessions: when one is missed, what is kept of what was due, and who must hear of it."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from enum import StrEnum

from core.local_time import instant_of
from core.policy import Policy
from core.value import Value

KEPT = frozenset({"done", "partial"})
SETTLED = KEPT | {"left_out", "missed"}
OPEN = frozenset({"sent", "started", "asking"})
EXCUSED = frozenset({"ill", "away", "holiday", "coach"})
"""Reasons that take a session out of what was due: sick, away, a holiday, cancelled by the coach. Never another."""


class Past(Value):
    """A session of the log as far as it matters here.

    Attributes:
        session_id: Its row.
        on: The client's local date.
        state: As kept: "done", "missed", "held" and so on.
        reason: Why it was left out or missed, where it was said.
        sent_at: When its card went out; None when it never did.
    """

    session_id: int
    on: date
    state: str
    reason: str | None = None
    sent_at: datetime | None = None


class Tally(Value):
    """Sessions kept of due.

    Attributes:
        kept: Done, in full or in part.
        due: Kept, left out or missed, without what was excused. What is held, was never sent or moved to another
            day is not due.
        pending: Sent, and still time for it.
    """

    kept: int = 0
    due: int = 0
    pending: int = 0

    def __add__(self, other: "Tally") -> "Tally":
        return Tally(
            kept=self.kept + other.kept, due=self.due + other.due, pending=self.pending + other.pending
        )


class Question(StrEnum):
    """What a client is asked after a miss."""

    REASON = "reason"
    """What was in the way?"""
    SILENCE = "silence"
    """The same after two cards without a word."""
    STOPPED = "stopped"
    """No more cards come until she says something."""


class Concern(StrEnum):
    """Why a coach must hear of missed sessions, the gravest first."""

    SILENT = "silent"
    RUN = "run"
    HALF = "half"
    FIRST_WEEKS = "first weeks"


class Standing(Value):
    """How a client stands with missed sessions.

    Attributes:
        run: Misses in a row up to now, oldest first; what was excused neither counts nor breaks a row.
        unanswered: How many of them came after the last word or tap of hers.
        recent: Kept of due in the last days that the policy names.
        concern: Why the coach must hear of it; None when she need not.
    """

    run: tuple[Past, ...]
    unanswered: int
    recent: Tally
    concern: Concern | None

    @property
    def question(self) -> Question | None:
        """What the client is asked; None when nothing was missed last."""
        if not self.run:
            return None
        if self.concern is Concern.SILENT:
            return Question.STOPPED
        return Question.SILENCE if self.unanswered > 1 else Question.REASON


def grace_end(on: date, zone: str, policy: Policy) -> datetime:
    """Return when a session of a local date counts as missed: hours after that day has ended where she lives.

    Raises:
        UnknownZone: No zone has this name.
    """
    midnight = instant_of(on + timedelta(days=1), time(0), zone)
    return midnight + timedelta(hours=policy.miss_grace)


def is_due(past: Past) -> bool:
    """Return whether a session counts: it is over, and neither sickness, absence nor the coach took it out."""
    return past.state in KEPT or (past.state in SETTLED and past.reason not in EXCUSED)


def tally(sessions: Sequence[Past], first: date, last: date) -> Tally:
    """Count sessions kept of due from `first` to `last`, both included."""
    within = [each for each in sessions if first <= each.on <= last]
    return Tally(
        kept=sum(each.state in KEPT for each in within),
        due=sum(is_due(each) for each in within),
        pending=sum(each.state in OPEN for each in within),
    )


def percentage(counted: Tally, policy: Policy) -> int | None:
    """Return kept of due in whole per cent; None where too few were due for a percentage to mean something."""
    if counted.due < policy.percent_from:
        return None
    return (200 * counted.kept + counted.due) // (2 * counted.due)


def standing(
    sessions: Sequence[Past], began_on: date | None, heard_at: datetime | None, today: date, policy: Policy
) -> Standing:
    """Return how a client stands with missed sessions on `today`.

    Args:
        sessions: Her sessions of the last weeks, in any order.
        began_on: Date of her very first session; None when she has had none.
        heard_at: Instant of her last word or tap; None when she was never heard.
        today: Her local date.
        policy: The coach's thresholds.
    """
    run = _run(sessions)
    unanswered = sum(
        each.sent_at is not None and (heard_at is None or heard_at < each.sent_at) for each in run
    )
    recent = tally(sessions, today - timedelta(days=policy.miss_window - 1), today)
    new = began_on is not None and today - began_on < timedelta(days=policy.miss_first_days)
    return Standing(
        run=run,
        unanswered=unanswered,
        recent=recent,
        concern=_concern(len(run), unanswered, recent, policy, new=new),
    )


def _run(sessions: Sequence[Past]) -> tuple[Past, ...]:
    run: list[Past] = []
    for each in sorted(sessions, key=lambda one: (one.on, one.session_id), reverse=True):
        if not is_due(each):
            continue
        if each.state != "missed":
            break
        run.append(each)
    return tuple(reversed(run))


def _concern(run: int, unanswered: int, recent: Tally, policy: Policy, *, new: bool) -> Concern | None:
    if unanswered >= policy.silent_stop:
        return Concern.SILENT
    if run >= policy.miss_run:
        return Concern.RUN
    if recent.due >= policy.miss_least_due and 2 * recent.kept < recent.due:
        return Concern.HALF
    return Concern.FIRST_WEEKS if run and new else None
