"""Who needs a word from the coach, and why: safety first, then silence and misses, then what is hers to decide."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from enum import StrEnum

from core.checkin.pain import PainReport, alert_level, flares, is_locking
from core.loads.reasons import ReasonCode
from core.oversight.facts import ClientFacts
from core.oversight.misses import Concern, Tally, standing
from core.policy import Policy
from core.value import Value

PAIN_DAYS = timedelta(days=6)
"""From the first day of the digest's week to its last."""


class WhyCode(StrEnum):
    """Why somebody needs a word, the gravest first."""

    STOP_SIGN = "stop sign"
    HEALTH_QUESTION = "health question"
    LOCKED = "locked"
    PAIN = "pain"
    SILENT = "silent"
    UNREACHABLE = "unreachable"
    RUN = "run"
    HALF = "half"
    FIRST_WEEKS = "first weeks"
    COACH_DECIDES = "coach decides"


ORDER = tuple(WhyCode)
SAFETY = frozenset({WhyCode.STOP_SIGN, WhyCode.HEALTH_QUESTION, WhyCode.LOCKED, WhyCode.PAIN})
HERS = frozenset({ReasonCode.MISS_THIRD.value, ReasonCode.COMEBACK_COACH.value})
"""Reasons of decisions that wait for the coach."""


class Why(Value):
    """One reason, with the facts that its code has.

    Attributes:
        code: What it is.
        on: Since when a plan is on hold, or cards are stopped.
        pain: The gravest report of a place.
        since: Score of the newest later report of the same place; None when there is none.
        misses: Sessions missed in a row.
        recent: Kept of due in the days of the policy.
        exercise: Key of the exercise that waits for the coach.
    """

    code: WhyCode
    on: date | None = None
    pain: PainReport | None = None
    since: int | None = None
    misses: int = 0
    recent: Tally | None = None
    exercise: str | None = None

    @property
    def rank(self) -> int:
        """Place in the order of urgency, from 0."""
        return ORDER.index(self.code)

    @property
    def is_safety(self) -> bool:
        """Whether it may never be cut."""
        return self.code in SAFETY


def reasons_for_a_word(client: ClientFacts, on: date, policy: Policy) -> tuple[Why, ...]:
    """Return why a client needs a word on a date, the gravest first; empty when she needs none."""
    found = [*_held(client), *_hurt(client.pain, on), *_away(client, on, policy), *_undecided(client)]
    return tuple(sorted(found, key=lambda each: each.rank))


def _held(client: ClientFacts) -> Iterator[Why]:
    if client.frozen_on is not None:
        code = WhyCode.HEALTH_QUESTION if client.frozen_by_health else WhyCode.STOP_SIGN
        yield Why(code=code, on=client.frozen_on)


def _hurt(pain: Sequence[PainReport], on: date) -> Iterator[Why]:
    """Return a reason for each place that locks something, or that flared in the week."""
    places = dict.fromkeys((each.site, each.side) for each in pain)
    for place in places:
        mine = [each for each in pain if (each.site, each.side) == place and each.on <= on]
        locked = [each for each in mine if is_locking(each)]
        flared = [each for each in mine if flares(each) and each.on >= on - PAIN_DAYS]
        if locked or flared:
            worst = max(locked or flared, key=lambda each: (alert_level(each), each.score or 0, each.at))
            later = [each.score for each in mine if each.at > worst.at and each.score is not None]
            code = WhyCode.LOCKED if locked else WhyCode.PAIN
            yield Why(code=code, pain=worst, since=later[-1] if later else None)


def _away(client: ClientFacts, on: date, policy: Policy) -> Iterator[Why]:
    """Return why a client who does not come needs a word: one reason, the gravest. Not while her plan is on hold."""
    if not client.reachable:
        yield Why(code=WhyCode.UNREACHABLE)
        return
    if client.frozen_on is not None or client.paused_until is not None:
        return
    found = standing(client.past, client.began_on, client.heard_at, on, client.policy or policy)
    if client.state == "paused" or found.concern is Concern.SILENT:
        silent = found.run[-found.unanswered :] if found.unanswered else found.run
        since = silent[0].on if silent else None
        yield Why(code=WhyCode.SILENT, on=since, misses=len(found.run))
    elif found.concern is not None:
        yield Why(code=WhyCode(found.concern.value), misses=len(found.run), recent=found.recent)


def _undecided(client: ClientFacts) -> Iterator[Why]:
    for each in client.ahead:
        if client.frozen_on is None and any(reason.code in HERS for reason in each.decision.reasons):
            yield Why(code=WhyCode.COACH_DECIDES, exercise=each.exercise)
