"""What follows work that was all done, by the way up that the coach wrote; the defaults are in `progression`.

Our proposal after a practising coach's review, under the sources beside each rule.
"""

from dataclasses import dataclass, replace
from datetime import timedelta

from core.loads.asked import Asked, count_facts, load_text
from core.loads.outcome import Reason
from core.loads.performance import Performance, Verdict, total_done
from core.loads.proposals import Proposal, braked, reason
from core.loads.reasons import ReasonCode
from core.programme.ways_up import WayKind
from core.units import Mass, plain

WEEK = timedelta(days=6)
"""Days after a load was first done from which the next counts as a week later. Our proposal: a day of slack."""
OVER = 2
"""Reps over the goal in the last set, twice running, that earn the next load. [reps] Source: [NSCA]."""


@dataclass(frozen=True, slots=True)
class Rise:
    """The next load is earned.

    Attributes:
        code: Why.
        facts: Beside load, reps, sets and the next load.
        used: Exposures it rests on.
        to: The load, where the writing names it; otherwise the next that can be made.
    """

    code: ReasonCode
    facts: dict[str, str]
    used: tuple[Performance, ...]
    to: Mass | None = None


def by_way(asked: Asked, past: tuple[Performance, ...], same: int) -> Rise | Proposal | None:
    """Return what the way up makes of work that was all done; None where the default rule goes on.

    Args:
        asked: Today's task.
        past: Oldest first; the last was done, and nothing brakes it.
        same: The target that makes no more work than last time.
    """
    last, meant = past[-1], asked.meant
    if meant.step is not None:
        return Rise(ReasonCode.RAISE_STEP, {}, past[-1:], last.load + meant.step)
    match meant.way:
        case WayKind.UNCHANGED:
            return _hold(asked, last, same, ReasonCode.UNCHANGED)
        case WayKind.VARIANTS if last.fewest >= asked.span.high:
            return _next_variant(asked, last, same)
        case WayKind.EACH_WEEK:
            return _each_week(asked, past, same)
        case WayKind.BY_LEFT:
            return _by_left(asked, last, same)
        case WayKind.LAST_SET:
            return _by_last_set(asked, past)
        case WayKind.TOTAL_REPS:
            return _by_total(asked, last)
        case _:
            return None


def _hold(
    asked: Asked, last: Performance, same: int, code: ReasonCode, facts: dict[str, str] | None = None
) -> Proposal:
    told = reason(code, load=load_text(last.load, asked.exercise), **(facts or {}))
    return Proposal(last.load, same, (told,))


def _next_variant(asked: Asked, last: Performance, same: int) -> Proposal:
    """Return that the harder exercise is next: the coach writes it, nothing is put in its place by itself."""
    target = min(same, asked.span.high)
    facts = count_facts(asked, asked.span.high)
    if asked.meant.next_variant is None:
        return _hold(asked, last, target, ReasonCode.VARIANT_LAST, facts)
    named = asked.meant.next_variant.replace("-", " ")
    return _hold(asked, last, target, ReasonCode.VARIANT_NEXT, {**facts, "next": named})


def _each_week(asked: Asked, past: tuple[Performance, ...], same: int) -> Rise | Proposal:
    """Return the next load over the least that was done since a week ago. Common practice, no source.

    Other reps are a step of their own, and the week begins with them: no weekly raise comes on top of it. A heavier
    load that was taken meanwhile does not begin the week anew.
    """
    last, today = past[-1], asked.meant.today
    least, since = last.load, last
    for one in reversed(past):
        is_older = today is not None and today - since.exposure.on >= WEEK
        if is_older or one.span != last.span or not _leads_to(asked, one.load, last.load):
            break
        least, since = min(least, one.load), one
    if today is not None and today - since.exposure.on < WEEK:
        return _hold(asked, last, same, ReasonCode.WEEK_HOLD, {"date": since.exposure.on.isoformat()})
    return Rise(ReasonCode.RAISE_WEEK, {}, past[-1:], asked.ladder.over(least))


def _leads_to(asked: Asked, before: Mass, now: Mass) -> bool:
    """Return whether the load now is no step from the one before, nor a fall."""
    step = asked.ladder.over(before)
    return before <= now and (step is None or step > now)


def _by_total(asked: Asked, last: Performance) -> Rise | None:
    """Return the next load where all sets together have the reps of all sets at the top; None where more are due.

    Common practice, no source.
    """
    done, goal = total_done(last), last.exposure.dose.sets * asked.span.high
    if done < goal:
        return None
    return Rise(ReasonCode.RAISE_TOTAL, {"done": str(done), "goal": str(goal)}, (last,))


def _by_left(asked: Asked, last: Performance, same: int) -> Rise | Proposal:
    """Return the next load where more were left than asked. Source: [Zourdos2016]; a rep over is our proposal."""
    wanted = asked.meant.left_high if asked.meant.left_high is not None else asked.left or 0
    if last.left is None:
        return _hold(asked, last, same, ReasonCode.LEFT_UNKNOWN)
    facts = {"left": str(last.left), "asked": str(wanted)}
    if last.left <= wanted:
        return _hold(asked, last, same, ReasonCode.LEFT_HOLD, facts)
    return Rise(ReasonCode.RAISE_LEFT, facts, (last,))


def _by_last_set(asked: Asked, past: tuple[Performance, ...]) -> Rise | Proposal:
    """Return the next load where the last set had two over in two sessions running at one load. Source: [NSCA]."""
    last, goal = past[-1], asked.span.low + OVER
    judged = [one for one in past if one.verdict is not Verdict.SHORT][-2:]
    alike = len(judged) == 2 and all(
        one.verdict is Verdict.DONE and _leads_to(asked, one.load, last.load) and one.span == last.span
        for one in judged
    )
    done = _last_set(last)
    if alike and min(_last_set(one) for one in judged) >= goal:
        step = asked.ladder.over(min(one.load for one in judged))
        return Rise(ReasonCode.RAISE_LAST_SET, {"done": str(done)}, tuple(judged), step)
    return _hold(
        asked, last, asked.span.low, ReasonCode.LAST_SET_HOLD, {"done": str(done), "goal": str(goal)}
    )


def _last_set(one: Performance) -> int:
    """Return the reps of the last set, of the weaker side where there are two. [reps]"""
    number = max(each.set_no for each in one.exposure.sets)
    return min(each.reps or 0 for each in one.exposure.sets if each.set_no == number)


def following_row(asked: Asked, last: Performance, found: Proposal) -> Proposal:
    """Return the load of the row in place of what the log would make of it.

    Lower or the same as written, always; higher only after work that was all done. Where nothing is written, or a
    share of a maximum that the log does not have, the load stays.

    Args:
        asked: Today's task, in which the load follows the row.
        last: The newest exposure.
        found: What the log asks for.
    """
    hers, base = asked.written, last.load
    good = last.verdict in (Verdict.DONE, Verdict.FOUND) and braked(last, asked.left) is None
    lower = hers is not None and hers < base
    if not good and (not lower or (hers is not None and found.load < hers)):
        return found
    same = asked.span.low if lower or asked.span.fixed else min(found.same, asked.span.high)
    load = base if hers is None else hers
    return replace(found, load=load, target=same, reasons=(_as_written(asked),), earned=False, bridge=False)


def _as_written(asked: Asked) -> Reason:
    meant = asked.meant
    if meant.percent is None or meant.percent_of is None:
        return reason(ReasonCode.AS_WRITTEN)
    facts = {"percent": plain(meant.percent), "of": meant.percent_of.value}
    if meant.maximum is None:
        return reason(ReasonCode.NO_MAXIMUM, **facts)
    return reason(ReasonCode.PERCENT, **facts, maximum=load_text(meant.maximum, asked.exercise))
