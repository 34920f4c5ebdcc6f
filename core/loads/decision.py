"""What comes next for one exercise of one client: a pure decision with its reasons."""

from dataclasses import replace

from core.loads.amounts import kind_of, reps_left, target_reps, working_sets
from core.loads.asked import ZERO, Asked, as_load, asked_for, count_facts, eased, load_text
from core.loads.comeback import Comeback, comeback
from core.loads.health_line import (
    after_illness,
    before_illness,
    found_anew,
    half_sets,
    health_line,
    health_stop,
    started_anew,
)
from core.loads.limit_line import limit_ceilings, limit_stop
from core.loads.load_line import Standing, ceilings, comeback_reason
from core.loads.meaning import meaning_of, settled, taken_out
from core.loads.merged_line import after_merge, before_merge
from core.loads.order import FEWER_SETS, OrderKind, eased_by, lightened_by, paused_by, standing_on
from core.loads.order_line import after_ease, before_ease, eased_sets
from core.loads.ordered_load import order_ceilings, order_in_force, ordered_mass, waiting, with_order
from core.loads.outcome import RULES_VERSION, Ceiling, Decision, Kind, LoadLine, Reason
from core.loads.own_line import gone_on_from, of_these_reps
from core.loads.pain_line import PainLine, before_fewer_reps, pain_line
from core.loads.past import Cause, Exposure, Inputs, Lifter, Moment, Outcome, SetDone
from core.loads.performance import Performance, Verdict, performances
from core.loads.progression import proposal
from core.loads.proposals import Proposal, braked, reason
from core.loads.reasons import ReasonCode
from core.loads.rewritten import before_lighter_week, lighter_over
from core.loads.set_plan import barred_ceiling, before_straight, full_again, is_barred, set_plan
from core.loads.sides import sides_apart
from core.loads.start import is_search, search_left, start_reason
from core.loads.telling import CAPS, rounding, told_reasons
from core.programme.lighter_weeks import deload_sets
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
    inputs = settled(started_anew(inputs), meant)
    asked = asked_for(inputs, meant)
    past = performances(inputs.history, inputs.exercise)
    stopped = _stop(inputs, asked, past)
    if isinstance(stopped, Decision):
        return stopped
    pain, today = stopped, inputs.moment
    orders, mass = standing_on(inputs.orders, today.today), ordered_mass(inputs, asked)
    planned = today.deload or (today.deload_due and inputs.policy.deload_by_itself)
    by_order = not planned and lightened_by(orders, inputs.exercise)
    standing = Standing(
        pain=pain,
        back=comeback(inputs, past),
        deload=planned or by_order,
        health=health_line(inputs, past),
        order=eased_by(orders, inputs.exercise),
        merged=today.merged,
        kept=order_in_force(inputs, OrderKind.HOLD) is not None,
        mass=mass,
        lightened=by_order,
        full=taken_out(inputs),
    )
    written = inputs.dose.load if past else found_anew(inputs, asked)
    if not past and is_search(asked, written) and (mass is None or standing.holds):
        return _search(inputs, asked, standing, written)
    if past:
        found = _from_log(inputs, asked, past, standing)
    else:
        told = start_reason(asked, inputs.dose.load, inputs)
        found = Proposal(asked.written or ZERO, asked.span.low, (told,), same=asked.span.low)
        found = with_order(asked, found, mass, held=standing.holds, hurts=pain.holds)
    return _decided(inputs, asked, past, found, standing)


def _stop(inputs: Inputs, asked: Asked, past: tuple[Performance, ...]) -> Decision | PainLine:
    """Return the decision that gives no load, or what pain leaves where one may be given; in order of authority."""
    if inputs.lifter.frozen:
        return _stopped(inputs, asked, Kind.PAUSE, (reason(ReasonCode.FROZEN),))
    held = health_stop(inputs) or limit_stop(inputs)
    if held is not None:
        return _stopped(inputs, asked, Kind.PAUSE, (held,))
    pain = pain_line(inputs, asked, past)
    if pain.forbids:
        return _stopped(inputs, asked, Kind.PAUSE, tuple(one.reason for one in pain.ceilings), pain)
    if paused_by(standing_on(inputs.orders, inputs.moment.today), inputs.exercise) is not None:
        return _stopped(inputs, asked, Kind.PAUSE, (reason(ReasonCode.COACH_PAUSED),), pain)
    if not asked.ladder.steps:
        return _stopped(inputs, asked, Kind.SWAP, (reason(ReasonCode.NO_KIT, place=inputs.kit.place),), pain)
    return pain


def _from_log(inputs: Inputs, asked: Asked, past: tuple[Performance, ...], standing: Standing) -> Proposal:
    """Return what the log asks for, without what is no step up or down in it."""
    usual = before_ease(before_merge(before_illness(inputs, past)))
    whole = before_straight(asked, before_fewer_reps(usual))
    unlightened = before_lighter_week(inputs, whole)
    counted = of_these_reps(asked, unlightened)
    found = proposal(asked, counted, inputs.dose.load, inputs.policy)
    over = lighter_over(asked, unlightened) if len(unlightened) < len(whole) else ()
    over = over or gone_on_from(asked, counted, unlightened)
    found = replace(found, over=over) if over else found
    found = full_again(asked, counted, found, barred=is_barred(inputs, standing))
    found = after_ease(asked, past, found)
    found = after_illness(inputs, asked, past, found)
    found = after_merge(asked, past, found)
    found = _with_comeback(asked, past, found, standing.back)
    return with_order(asked, found, standing.mass, held=standing.holds, hurts=standing.pain.holds)


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


def _search(inputs: Inputs, asked: Asked, standing: Standing, written: Load | None) -> Decision:
    """Return a search for a load; none while what it loads hurts 4 or more.

    It ends at a clinician's most load, and after a birth at what is written.
    """
    pain = standing.pain
    if pain.holds and pain.ceilings[0].reason.code != ReasonCode.PAIN_HOLD:
        known = {key: pain.ceilings[0].reason.facts.get(key) for key in ("site", "date", "score")}
        told = reason(ReasonCode.PAIN_NO_FINDING, **{key: fact for key, fact in known.items() if fact})
        return _stopped(inputs, asked, Kind.PAUSE, (told,), pain)
    limits = (*limit_ceilings(inputs, asked), *order_ceilings(inputs, asked, None, standing.mass))
    if asked.written is not None:
        anew = reason(ReasonCode.START_ANEW, load=load_text(asked.written, asked.exercise))
        limits = (*limits, Ceiling(reason=anew, mass=asked.written))
    most = min((one.mass for one in limits if one.mass is not None), default=None)
    if most is not None and asked.ladder.at_or_under(most) is None:
        return _too_light(inputs, asked, limits, most, standing)
    held = tuple(one.reason for one in (*limits, *pain.ceilings))
    sets = deload_sets(inputs.dose.sets) if standing.deload else inputs.dose.sets
    sets = half_sets(sets) if standing.health.is_light else sets
    held = (*held, reason(ReasonCode.COACH_FULL)) if standing.full else held
    if standing.lightened:
        held = (*held, reason(ReasonCode.COACH_LIGHTER, sets=str(sets)))
    if standing.order is not None:
        sets, held = eased_sets(sets), (*held, reason(ReasonCode.COACH_EASED, sets=str(FEWER_SETS)))
    return Decision(
        kind=Kind.START,
        load=Load.find(),
        sets=sets,
        target=asked.span.low,
        left=search_left(asked.left),
        line=LoadLine(mass=most, ceilings=limits),
        reasons=(*held, start_reason(asked, written, inputs)),
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
    barred = asked.table is not None and is_barred(inputs, standing)
    beside = barred_ceiling(asked, past, found, asked.table) if barred and asked.table else None
    listed = ceilings(inputs, asked, past, found, standing, beside)
    line = min(one.mass for one in listed if one.mass is not None)
    load = asked.ladder.at_or_under(line)
    if load is None:
        return _too_light(inputs, asked, listed, line, standing)
    held = waiting(inputs, asked, found, load)
    if held is not None and found.base is not None:
        listed = (*listed[:-1], Ceiling(reason=held, mass=found.base), listed[-1])
        line, load = found.base, asked.ladder.at_or_under(found.base) or found.base
    target = target_reps(asked, found, load, standing)
    left, left_reasons = reps_left(inputs, asked, standing, barred=barred)
    sets, sets_reasons = working_sets(inputs, asked, target, left, standing, barred=barred)
    told = told_reasons(asked, found, listed, standing, load, target)
    others = (*left_reasons, *sets_reasons, *sides_apart(past), *rounding(asked, listed, line, load))
    plan = None
    if asked.table is not None and not barred:
        most = min((one.mass for one in listed[:-1] if one.mass is not None), default=None)
        plan = set_plan(asked, asked.table, load, most)
    return Decision(
        kind=kind_of(found, load, target, standing),
        load=as_load(load, asked.exercise),
        sets=sets,
        target=target,
        left=left if plan is None else None,
        line=LoadLine(mass=None if asked.loadless else line, ceilings=_shown(listed, asked)),
        reasons=(*_over(found, standing), *told, *(one for one in others if one not in told))
        or (_nothing_heavier(asked, load, target),),
        used=tuple(sorted({row for one in found.used for row in one.rows})),
        pain_used=_pain_rows(standing.pain),
        bridge=found.bridge and load == found.load and not standing.holds,
        plan=plan,
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


def _shown(listed: tuple[Ceiling, ...], asked: Asked) -> tuple[Ceiling, ...]:
    """Return the ceilings as they are kept: caps and steps mean nothing where there is no load."""
    return tuple(one for one in listed if not asked.loadless or one.reason.code not in CAPS)


def _pain_rows(pain: PainLine | None) -> tuple[int, ...]:
    return tuple(sorted({one.row_id for one in pain.used})) if pain is not None else ()
