"""Ways up and down from the log alone: what would come next if nothing else stood in the way.

Fixed reps rise when every set was done in two sessions running at one load, a range when every set is at its
top. Where the next step is over the cap, reps rise first until they have earned it. All of it is our proposal
after a practising coach's review, under [ACSM2009] and [NSCA]; adding reps does about as well as adding load
[Plotkin2022].
"""

from dataclasses import replace
from datetime import timedelta

from core.loads.asked import Asked, Counted, count_facts, load_text, percent, reps_that_earn, system_mass
from core.loads.outcome import Reason
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, braked, reason
from core.loads.reasons import ReasonCode
from core.loads.rewritten import at_other_reps, with_written
from core.loads.set_plan import by_table
from core.loads.ways import by_way, following_row
from core.policy import Policy
from core.programme.prescription import Load
from core.units import Mass

BREAK = timedelta(days=14)
"""Days apart after which two sessions are not running any more. Our proposal, as for a way back."""
RUNNING = 2
"""Sessions running that earn a raise of fixed reps. Our proposal under [ACSM2009]."""
SECONDS_MORE = 5
"""How much longer timed sets become at once. [s] Our proposal."""
METRES_MORE = 10
"""How much farther sets over a distance go at once. [m] Our proposal."""


def proposal(asked: Asked, past: tuple[Performance, ...], written: Load | None, policy: Policy) -> Proposal:
    """Return what the log asks for next; `past` is not empty.

    Args:
        asked: Today's task.
        past: Oldest first.
        written: The load as written today, to be told from the one before.
        policy: The coach's settings.
    """
    last = past[-1]
    found = _from_log(asked, past, policy)
    found = replace(found, base=last.load, same=_same_work(asked, last), used=found.used or (last,))
    follows = asked.meant.follows_row
    found = following_row(asked, last, found) if follows else with_written(asked, past, found, written)
    if found.rises and rests_on_taps(past):
        held = reason(ReasonCode.TAPS_ALONE, load=load_text(last.load, asked.exercise))
        return replace(found, load=last.load, target=found.same, reasons=(held,), earned=False)
    return found


def rests_on_taps(past: tuple[Performance, ...]) -> bool:
    """Return whether both the last raise and one now would rest on taps alone, with no number of reps left."""
    plateaus: list[list[Performance]] = []
    for one in past:
        if plateaus and plateaus[-1][0].load == one.load:
            plateaus[-1].append(one)
        else:
            plateaus.append([one])
    if len(plateaus) < 2:
        return False
    before, now = plateaus[-2:]
    rose = now[0].load > before[0].load
    return rose and not any(one.shown for one in (*before, *now))


def _same_work(asked: Asked, last: Performance) -> int:
    """Return the target that asks for no more than last time, and for no less than the range does."""
    if last.counted is not asked.counted:
        return asked.span.low
    if last.span != asked.span:
        return max(asked.span.low, min(last.fewest, asked.span.high))
    return max(asked.span.low, last.fewest)


def _from_log(asked: Asked, past: tuple[Performance, ...], policy: Policy) -> Proposal:
    last = past[-1]
    text = load_text(last.load, asked.exercise)
    hold = Proposal(last.load, asked.span.low, ())
    if last.counted is not asked.counted:
        return replace(hold, reasons=(reason(ReasonCode.WORK_CHANGED, load=text),))
    if last.span != asked.span:
        return _at_other_reps(asked, last, policy)
    ruled = by_table(asked, last) if last.verdict in (Verdict.DONE, Verdict.MISSED) else None
    if ruled is not None:
        return ruled
    if last.verdict is Verdict.MISSED:
        return _missed(asked, past, policy)
    if last.verdict is Verdict.SHORT:
        facts = {"load": text, "done": str(last.sets_done), "sets": str(last.exposure.dose.sets)}
        if last.exposure.cause is not None:
            facts["cause"] = last.exposure.cause.value
        return replace(
            hold, target=_same_work(asked, last), reasons=(reason(ReasonCode.NOT_ALL_DONE, **facts),)
        )
    if last.verdict is Verdict.LIGHTER:
        wanted = last.exposure.dose.load
        return replace(hold, reasons=(reason(ReasonCode.LIGHTER_CHOSEN, load=text, asked=str(wanted)),))
    if last.verdict is Verdict.FOUND:
        facts = {"load": text, **count_facts(asked, asked.span.low)}
        return replace(hold, reasons=(reason(ReasonCode.FOUND, **facts),))
    brake = braked(last, asked.left)
    if brake is not None:
        return replace(hold, target=_same_work(asked, last), reasons=(brake,))
    return _done(asked, past, policy)


def _at_other_reps(asked: Asked, last: Performance, policy: Policy) -> Proposal:
    """Return what follows other reps: the load for them, or where its step is over the cap more reps first."""
    found = at_other_reps(asked, last)
    step = asked.ladder.over(last.load)
    coarse = step is not None and step > asked.most_at_once(last.load, 1)
    if step is None or found.load <= last.load or last.fewest < asked.span.high:
        return found
    if coarse:
        return _towards_jump(asked, last, step, policy)
    earned = not asked.timed and last.fewest >= _earns(asked, last.load, step)
    return replace(found, load=max(found.load, step), earned=True) if earned else found


def _missed(asked: Asked, past: tuple[Performance, ...], policy: Policy) -> Proposal:
    """Return what follows a miss: the first repeats, the second lowers, the third is the coach's."""
    misses: list[Performance] = []
    for one in reversed(past):
        if one.verdict is Verdict.SHORT:
            continue
        if one.verdict is not Verdict.MISSED:
            break
        misses.append(one)
    last, used = past[-1], tuple(reversed(misses))
    text = load_text(last.load, asked.exercise)
    hold = Proposal(last.load, asked.span.low, (), used)
    if len(misses) == 1:
        facts = {"load": text, "asked": str(last.span.low), **count_facts(asked, last.fewest)}
        return replace(hold, reasons=(reason(ReasonCode.MISS_FIRST, **facts),))
    if len(misses) > 2:
        return replace(hold, reasons=(reason(ReasonCode.MISS_THIRD, load=text, times=str(len(misses))),))
    body = system_mass(last.load, asked.exercise)
    lower = asked.ladder.at_or_under(last.load - body * policy.miss_drop)
    if lower is None:
        return replace(hold, reasons=(reason(ReasonCode.MISS_THIRD, load=text, times=str(len(misses))),))
    fall = 1 - system_mass(lower, asked.exercise).ratio(body)
    told = reason(
        ReasonCode.MISS_SECOND, load=text, next=load_text(lower, asked.exercise), percent=percent(fall)
    )
    return replace(hold, load=lower, reasons=(told,))


def _done(asked: Asked, past: tuple[Performance, ...], policy: Policy) -> Proposal:
    """Return what follows work that was all done."""
    last, span = past[-1], asked.span
    base, used = last.load, past[-1:]
    facts = {"load": load_text(base, asked.exercise), **count_facts(asked, last.fewest)}
    ruled = by_way(asked, past, _same_work(asked, last))
    if isinstance(ruled, Proposal):
        return ruled
    more = {"sessions": str(RUNNING)} if span.fixed else {}
    if ruled is not None:
        step, code, used, more = ruled.to or asked.ladder.over(base), ruled.code, ruled.used, ruled.facts
    elif span.fixed and last.fewest >= span.low:
        running = _running(past)
        if len(running) < RUNNING:
            return Proposal(base, span.low, (reason(ReasonCode.DONE_ONCE, **facts),), running)
        used = running
        step = asked.ladder.over(min(one.load for one in used))
        if step is not None and step <= base:
            return Proposal(base, span.low, (reason(ReasonCode.DONE_ONCE, **facts),), used)
        code = ReasonCode.RAISE_DONE_TWICE
    elif last.fewest >= span.high:
        step, code = asked.ladder.over(base), ReasonCode.RAISE_TOP
    else:
        return _more(asked, last, span.high, ())
    if step is None:
        return _top(asked, last, policy)
    if step <= asked.most_at_once(base, 1):
        sets = {"sets": str(last.exposure.dose.sets), "next": load_text(step, asked.exercise)}
        told = reason(code, **facts, **sets, **more)
        earned = not asked.timed and last.fewest >= _earns(asked, base, step)
        return Proposal(step, span.low, (told,), used, earned=earned)
    return replace(_towards_jump(asked, last, step, policy), used=used)


def _running(past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return the last exposures running, two at most, done at one load and dose, a lighter one before allowed."""
    last, found = past[-1], []
    later = last.exposure.on
    for one in reversed(past):
        broken, later = later - one.exposure.on >= BREAK, one.exposure.on
        if broken or (one.verdict is not Verdict.SHORT and not _runs_on(one, last)):
            break
        if one.verdict is not Verdict.SHORT:
            found.append(one)
        if len(found) == RUNNING:
            break
    return tuple(reversed(found))


def _runs_on(one: Performance, last: Performance) -> bool:
    return one.verdict is Verdict.DONE and one.span == last.span and one.load <= last.load


def _earns(asked: Asked, base: Mass, step: Mass) -> int:
    """Return the reps in every set that earn a step. [reps]"""
    jump = (step - base).ratio(system_mass(base, asked.exercise))
    return reps_that_earn(asked.span.low, asked.left or 0, jump)


def _towards_jump(asked: Asked, last: Performance, step: Mass, policy: Policy) -> Proposal:
    """Return what follows where the next step is over the cap: more reps, the earned step, or a bridge."""
    base = last.load
    jump = (step - base).ratio(system_mass(base, asked.exercise))
    earns = _earns(asked, base, step)
    facts = {
        "load": load_text(base, asked.exercise),
        "next": load_text(step, asked.exercise),
        "percent": percent(jump),
    }
    if asked.timed or (earns > policy.long_reps and last.fewest >= policy.long_reps):
        told = reason(ReasonCode.BRIDGE, **facts, **count_facts(asked, last.fewest))
        return Proposal(base, _most_count(asked, last, policy), (told,), bridge=True)
    if last.fewest >= earns:
        told = reason(ReasonCode.RAISE_EARNED, **facts, reps=str(last.fewest), earned=str(earns))
        return Proposal(step, asked.span.low, (told,), earned=True)
    most = load_text(asked.most_at_once(base, 1), asked.exercise)
    cap = reason(ReasonCode.CAP, **facts, cap=most, reps=str(earns))
    return _more(asked, last, min(earns, policy.long_reps), (cap,))


def _top(asked: Asked, last: Performance, policy: Policy) -> Proposal:
    """Return what follows at the end of the ladder: more reps up to the long range, then a bridge."""
    facts = {"load": load_text(last.load, asked.exercise), **count_facts(asked, last.fewest)}
    if asked.timed or last.fewest >= policy.long_reps:
        told = reason(ReasonCode.BRIDGE, **facts)
        return Proposal(last.load, _most_count(asked, last, policy), (told,), bridge=True)
    beside = () if asked.loadless else (reason(ReasonCode.TOP_OF_KIT, **facts),)
    return _more(asked, last, policy.long_reps, beside)


def _most_count(asked: Asked, last: Performance, policy: Policy) -> int:
    """Return the target of a bridge: what was done, not over the long range or the top of the time."""
    most = asked.span.high if asked.timed else max(policy.long_reps, asked.span.high)
    return max(asked.span.low, min(last.fewest, most))


def _more(asked: Asked, last: Performance, most: int, beside: tuple[Reason, ...]) -> Proposal:
    """Return the same load with one more rep, or some seconds, in every set, up to `most`."""
    more = {Counted.SECONDS: SECONDS_MORE, Counted.METRES: METRES_MORE}.get(asked.counted, 1)
    target = max(asked.span.low, min(last.fewest + more, most))
    code = ReasonCode.ADD_SECONDS if asked.timed else ReasonCode.ADD_REP
    told = reason(code, load=load_text(last.load, asked.exercise), **count_facts(asked, target))
    return Proposal(last.load, target, (told, *beside))
