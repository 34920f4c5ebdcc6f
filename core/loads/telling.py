"""Which reasons are told with a decision: all that are true of what is given, none that is not."""

from core.loads.asked import ZERO, Asked, count_facts, load_text
from core.loads.load_line import Standing
from core.loads.outcome import Ceiling, Reason
from core.loads.proposals import RISES, Proposal, reason
from core.loads.reasons import ReasonCode
from core.units import Mass

GIVEN_NEXT = RISES | {
    ReasonCode.REPS_CHANGED,
    ReasonCode.MISS_SECOND,
    ReasonCode.TABLE_LOWER,
    ReasonCode.TABLE_BELOW,
}
"""Reasons whose fact `next` is the load given, after every ceiling."""

PROMISES = frozenset(
    {
        ReasonCode.DONE_ONCE,
        ReasonCode.ADD_REP,
        ReasonCode.ADD_SECONDS,
        ReasonCode.BRIDGE,
        ReasonCode.CAP,
        ReasonCode.LAST_SET_HOLD,
        ReasonCode.VARIANT_NEXT,
    }
)
"""Reasons that say what comes next or soon: untrue while pain, a break or a lighter week holds."""

TRUE_AT_ANY_LOAD = frozenset(
    {ReasonCode.REPS_CHANGED, ReasonCode.WORK_CHANGED, ReasonCode.COACH_LOWER, ReasonCode.MISS_THIRD}
)
"""Reasons of the log that stay true where something else brings the load under what the log gives."""
AS_THE_ROW = frozenset({ReasonCode.AS_WRITTEN, ReasonCode.PERCENT})
"""Reasons that are true only where the load of the row is given, or the next lighter that can be made."""
CAPS = frozenset({ReasonCode.CAP, ReasonCode.CAP_WEEK, ReasonCode.CAP_FOUR_WEEKS})
WHERE_THEY_BITE = CAPS | {ReasonCode.LIMIT_LOAD}
"""Ceilings that are told only where they keep the load under what the log gives."""


def told_reasons(
    asked: Asked, found: Proposal, listed: tuple[Ceiling, ...], standing: Standing, load: Mass, target: int
) -> tuple[Reason, ...]:
    """Return the reasons in order of authority: what pain, breaks and plan say, a cap that bites, then the log.

    What the log would have given is not told where it is not given: no raise that was stopped, and no promise of
    one while something holds.
    """
    told = [
        _with_reps(asked, one.reason, load, target)
        for one in listed[:-1]
        if one.reason.code not in WHERE_THEY_BITE or _bites(asked, found, one, load)
    ]
    from_log = [one for one in found.reasons if one.code not in {each.code for each in told}]
    if found.base is not None and load <= found.base:
        untrue = RISES | PROMISES if standing.holds else RISES
        from_log = [one for one in from_log if one.code not in untrue]
        if load < found.load and told:
            from_log = [one for one in from_log if one.code in TRUE_AT_ANY_LOAD]
    if told and load < found.load:
        from_log = [one for one in from_log if one.code not in AS_THE_ROW]
    if standing.order is not None and load < found.load:
        from_log = [one for one in from_log if one.code in TRUE_AT_ANY_LOAD]
    return (*told, *(_with_next(asked, one, load) for one in from_log))


def _bites(asked: Asked, found: Proposal, cap: Ceiling, load: Mass) -> bool:
    """Return whether a cap by itself keeps the load under what the log gives."""
    if cap.mass is None or load >= found.load:
        return False
    return asked.ladder.at_or_under(cap.mass) == load and asked.ladder.over(cap.mass) is not None


def _with_next(asked: Asked, told: Reason, load: Mass) -> Reason:
    """Return a reason of the log with the load that is really given, where it names the next one."""
    if told.code not in GIVEN_NEXT:
        return told
    return told.model_copy(update={"facts": {**told.facts, "next": load_text(load, asked.exercise)}})


def _with_reps(asked: Asked, told: Reason, load: Mass, target: int) -> Reason:
    """Return a reason of pain with the target as a fact, where the load itself cannot fall."""
    drops = told.code in (ReasonCode.PAIN_DROP, ReasonCode.PAIN_RELEASED)
    if not drops or load != ZERO:
        return told
    return told.model_copy(update={"facts": {**told.facts, **count_facts(asked, target)}})


def rounding(asked: Asked, listed: tuple[Ceiling, ...], line: Mass, load: Mass) -> tuple[Reason, ...]:
    """Return why the load is not the line itself, where the kit is the cause; a cap says so on its own."""
    if load == line or any(one.mass == line and one.reason.code in CAPS for one in listed):
        return ()
    facts = {"wanted": load_text(line, asked.exercise), "load": load_text(load, asked.exercise)}
    return (reason(ReasonCode.ROUNDED_DOWN, **facts),)
