"""What comes next for one exercise of one client: a pure decision with its reasons."""

from dataclasses import replace
from decimal import ROUND_FLOOR

from core.loads.asked import (
    SAFE_LEFT,
    ZERO,
    Asked,
    as_load,
    asked_for,
    count_facts,
    eased,
    is_alone_under_bar,
    is_older,
    is_without_end,
    load_text,
)
from core.loads.comeback import Comeback, comeback
from core.loads.load_line import Standing, ceilings, comeback_reason
from core.loads.meaning import meaning_of, settled
from core.loads.merged_line import after_merge, before_merge
from core.loads.order import FEWER_SETS, eased_by, paused_by
from core.loads.order_line import after_ease, before_ease, eased_sets
from core.loads.outcome import RULES_VERSION, Ceiling, Decision, Kind, LoadLine, Reason
from core.loads.pain_line import PainLine, before_fewer_reps, pain_line
from core.loads.past import Cause, Exposure, Inputs, Lifter, Moment, Outcome, SetDone
from core.loads.performance import Performance, Verdict, performances
from core.loads.progression import proposal
from core.loads.proposals import Proposal, braked, reason
from core.loads.reasons import ReasonCode
from core.loads.rewritten import before_lighter_week, lighter_over
from core.loads.start import is_search, search_left, start_reason
from core.loads.telling import CAPS, rounding, told_reasons
from core.programme.lighter_weeks import DELOAD_LEFT, deload_sets
from core.programme.prescription import Load
from core.units import Mass

__all__ = [
    "RULES_VERSION",
    "Cause",
    "Ceiling",
    "Decision",
    "Exposure",
    "Inputs",
    "Kind",
    "Lifter",
    "LoadLine",
    "Moment",
    "Outcome",
    "Reason",
    "SetDone",
    "next_decision",
    "replay",
]


def next_decision(inputs: Inputs) -> Decision:
    """Decide load, sets and one rep target for one exercise.

    Pure: the same inputs give the same decision, whatever order things were logged in.
    """
    meant = meaning_of(inputs)
    inputs = settled(inputs, meant)
    asked = asked_for(inputs, meant)
    if inputs.lifter.frozen:
        return _stopped(inputs, asked, Kind.PAUSE, (reason(ReasonCode.FROZEN),))
    past = performances(inputs.history, inputs.exercise)
    pain = pain_line(inputs, asked, past)
    if pain.forbids:
        return _stopped(inputs, asked, Kind.PAUSE, tuple(one.reason for one in pain.ceilings), pain)
    if paused_by(inputs.orders, inputs.exercise) is not None:
        return _stopped(inputs, asked, Kind.PAUSE, (reason(ReasonCode.COACH_PAUSED),), pain)
    if not asked.ladder.steps:
        return _stopped(inputs, asked, Kind.SWAP, (reason(ReasonCode.NO_KIT, place=inputs.kit.place),), pain)
    order = eased_by(inputs.orders, inputs.exercise)
    standing = Standing(pain, comeback(inputs, past), inputs.moment.deload, order, inputs.moment.merged)
    if not past and is_search(asked, inputs.dose.load):
        return _search(inputs, asked, standing)
    if past:
        whole = before_fewer_reps(before_ease(before_merge(past)))
        counted = before_lighter_week(inputs, whole)
        found = proposal(asked, counted, inputs.dose.load, inputs.policy)
        found = replace(found, over=lighter_over(asked, counted) if len(counted) < len(whole) else ())
        found = after_ease(asked, past, found)
        found = after_merge(asked, past, found)
        found = _with_comeback(asked, past, found, standing.back)
    else:
        told = start_reason(asked, inputs.dose.load)
        found = Proposal(asked.written or ZERO, asked.span.low, (told,), same=asked.span.low)
    return _decided(inputs, asked, past, found, standing)


def replay(inputs_json: str) -> str:
    """Return the decision for stored inputs, as JSON: the same bytes as when it was made.

    Args:
        inputs_json: What `Inputs.model_dump_json()` wrote.
    """
    return next_decision(Inputs.model_validate_json(inputs_json)).model_dump_json()


def _stopped(
    inputs: Inputs, asked: Asked, kind: Kind, reasons: tuple[Reason, ...], pain: PainLine | None = None
) -> Decision:
    """Return a decision that gives no load."""
    return Decision(
        kind=kind,
        load=None,
        sets=inputs.dose.sets,
        target=asked.span.low,
        left=asked.left,
        line=LoadLine(mass=None, ceilings=tuple(Ceiling(reason=one, mass=None) for one in reasons)),
        reasons=reasons,
        pain_used=_pain_rows(pain),
    )


def _search(inputs: Inputs, asked: Asked, standing: Standing) -> Decision:
    """Return a search for a load; none while what it loads hurts 4 or more."""
    pain = standing.pain
    if pain.holds and pain.ceilings[0].reason.code != ReasonCode.PAIN_HOLD:
        known = {key: pain.ceilings[0].reason.facts.get(key) for key in ("site", "date", "score")}
        told = reason(ReasonCode.PAIN_NO_FINDING, **{key: fact for key, fact in known.items() if fact})
        return _stopped(inputs, asked, Kind.PAUSE, (told,), pain)
    held = tuple(one.reason for one in pain.ceilings)
    sets = deload_sets(inputs.dose.sets) if standing.deload else inputs.dose.sets
    if standing.order is not None:
        sets, held = eased_sets(sets), (*held, reason(ReasonCode.COACH_EASED, sets=str(FEWER_SETS)))
    return Decision(
        kind=Kind.START,
        load=Load.find(),
        sets=sets,
        target=asked.span.low,
        left=search_left(asked.left),
        line=LoadLine(mass=None),
        reasons=(*held, start_reason(asked, inputs.dose.load)),
        pain_used=_pain_rows(pain),
    )


def _with_comeback(
    asked: Asked, past: tuple[Performance, ...], found: Proposal, back: Comeback | None
) -> Proposal:
    """Return the proposal that goes up the steps of a way back, as long as the last one was done well."""
    if back is None or back.coach or back.step == 0:
        return found
    last = past[-1]
    share = asked.ladder.at_or_under(eased(back.good, back.share))
    if share is None or share <= found.load or last.verdict is not Verdict.DONE:
        return found
    if braked(last, asked.left) is not None or found.reasons[0].code == ReasonCode.COACH_LOWER:
        return found
    told = comeback_reason(asked, back)
    return replace(found, load=share, target=asked.span.low, reasons=(told,), earned=False)


def _decided(
    inputs: Inputs, asked: Asked, past: tuple[Performance, ...], found: Proposal, standing: Standing
) -> Decision:
    """Return the greatest load of the kit that is not over the load line, with sets, target and reasons."""
    listed = ceilings(inputs, asked, past, found, standing)
    line = min(one.mass for one in listed if one.mass is not None)
    load = asked.ladder.at_or_under(line)
    if load is None:
        return _too_light(inputs, asked, listed, line, standing)
    target = _target(asked, found, load, standing)
    left, left_reasons = _left(inputs, asked, standing)
    told = told_reasons(asked, found, listed, standing, load, target)
    rounded = rounding(asked, listed, line, load)
    return Decision(
        kind=_kind(found, load, target, standing),
        load=as_load(load, asked.exercise),
        sets=_sets(inputs, asked, target, left, standing),
        target=target,
        left=left,
        line=LoadLine(mass=None if asked.loadless else line, ceilings=_shown(listed, asked)),
        reasons=(*_over(found, standing), *told, *left_reasons, *rounded)
        or (_nothing_heavier(asked, load, target),),
        used=tuple(sorted({row for one in found.used for row in one.rows})),
        pain_used=_pain_rows(standing.pain),
        bridge=found.bridge and load == found.load and not standing.holds,
    )


def _over(found: Proposal, standing: Standing) -> tuple[Reason, ...]:
    """Return what is over, where nothing else decides."""
    return () if standing.holds else found.over


def _nothing_heavier(asked: Asked, load: Mass, target: int) -> Reason:
    """Return the reason where what was meant cannot be loaded and no ceiling has words for it."""
    return reason(ReasonCode.TOP_OF_KIT, load=load_text(load, asked.exercise), **count_facts(asked, target))


def _too_light(
    inputs: Inputs, asked: Asked, listed: tuple[Ceiling, ...], line: Mass, standing: Standing
) -> Decision:
    """Return a swap: even the lightest load of the kit is over the line."""
    lightest = asked.ladder.steps[0]
    facts = {"lightest": load_text(lightest, asked.exercise), "line": load_text(line, asked.exercise)}
    binding = tuple(one.reason for one in listed if one.mass == line)
    told = (*binding, reason(ReasonCode.NOTHING_LIGHT_ENOUGH, **facts))
    return _stopped(inputs, asked, Kind.SWAP, told, standing.pain).model_copy(
        update={"line": LoadLine(mass=line, ceilings=listed)}
    )


def _target(asked: Asked, found: Proposal, load: Mass, standing: Standing) -> int:
    """Return one number of reps or seconds.

    The proposal's own where its load is given; the fewest where the load came down; no more than last time
    where a raise was stopped or where pain or a break holds; fewer where only reps can ease what hurts.
    """
    if standing.pain.drop and load == ZERO and found.load == ZERO:
        share = (found.same * (1 - standing.pain.drop)).to_integral_value(ROUND_FLOOR)
        return max(1, int(share))
    if standing.deload or (found.base is not None and load < found.base):
        return asked.span.low
    if load == found.load:
        held = standing.pain.holds or standing.order is not None or standing.merged
        calm = not held and (standing.back is None or found.rises)
        return found.target if calm else min(found.target, found.same)
    return max(found.same, asked.span.low) if load == found.base else asked.span.low


def _left(inputs: Inputs, asked: Asked, standing: Standing) -> tuple[int | None, tuple[Reason, ...]]:
    """Return the reps left asked for, and why they are more than written."""
    left, told = asked.left, []
    if standing.deload and left is not None:
        left = min(5, left + DELOAD_LEFT)
    elif standing.back is not None and left is not None:
        left = min(5, left + standing.back.row.left_more)
    limit = is_without_end(inputs.dose) and (inputs.lifter.new or standing.holds)
    floors = (
        (ReasonCode.NO_LIMIT, limit),
        (ReasonCode.ALONE_UNDER_BAR, is_alone_under_bar(inputs)),
        (ReasonCode.AGE, is_older(inputs)),
    )
    for code, stands in floors:
        if stands and not asked.timed and (left is None or left < SAFE_LEFT):
            told.append(reason(code, left=str(SAFE_LEFT)))
    return (SAFE_LEFT if told else left), tuple(told)


def _sets(inputs: Inputs, asked: Asked, target: int, left: int | None, standing: Standing) -> int:
    planned = inputs.dose.sets
    counts = [planned]
    if standing.deload:
        counts.append(deload_sets(planned))
    if standing.back is not None:
        counts.append(standing.back.sets(planned, 0 if asked.timed else target, left or 0))
    return min(counts) if standing.order is None else eased_sets(min(counts))


def _kind(found: Proposal, load: Mass, target: int, standing: Standing) -> Kind:
    if found.base is None:
        return Kind.START
    if load > found.base:
        return Kind.RAISE
    eased_by_reps = bool(standing.pain.drop) and target < found.same
    return Kind.LOWER if load < found.base or eased_by_reps else Kind.HOLD


def _shown(listed: tuple[Ceiling, ...], asked: Asked) -> tuple[Ceiling, ...]:
    """Return the ceilings as they are kept: caps and steps mean nothing where there is no load."""
    return tuple(one for one in listed if not asked.loadless or one.reason.code not in CAPS)


def _pain_rows(pain: PainLine | None) -> tuple[int, ...]:
    return tuple(sorted({one.row_id for one in pain.used})) if pain is not None else ()
