"""Work by a table: who may do it today, what its four sets are, and what its last set makes of the next session.

Sets to the limit are never for the first three months, a comeback, pain at a loaded site, a pregnancy, the year after a
birth, untreated blood pressure or somebody alone under a bar; from 60 on only by the coach's order. In their place are
two straight sets that leave two in hand. Our proposal after a practising coach's review.
"""

from dataclasses import replace
from decimal import Decimal

from core.loads.asked import SAFE_LEFT, Asked, is_alone_under_bar, is_older, load_text
from core.loads.autoregulation import SHARES, Change, Table, change, table_for, was_by_table
from core.loads.health_line import is_after_birth
from core.loads.load_line import Standing
from core.loads.one_rep_max import per_load
from core.loads.outcome import Ceiling, LastSet, PlannedSet, SetPlan
from core.loads.past import Inputs
from core.loads.performance import EXCUSED, Performance, Verdict, at_set
from core.loads.proposals import HARDEST, Proposal, reason
from core.loads.reasons import ReasonCode
from core.programme.prescription import Load, LoadKind
from core.units import Mass

MOST_FALL = Decimal("0.10")
"""Most that a table takes off at once; its pounds and kilograms are too much for light lifts. [fraction] Our proposal,
as for a second miss."""
STRAIGHT_SETS = 2
"""Sets in the place of the two that would go to the limit. Our proposal."""


def is_barred(inputs: Inputs, standing: Standing) -> bool:
    """Return whether no set may go to the limit today."""
    lifter = inputs.lifter
    held = standing.holds or standing.pain.half_speed
    by_body = lifter.new or lifter.pregnant or lifter.pressure_untreated or is_after_birth(inputs)
    by_age = is_older(inputs) and not inputs.policy.limit_from_60
    return held or by_body or by_age or is_alone_under_bar(inputs)


def straight_share(table: Table) -> Decimal:
    """Return the share of a table's full load that leaves two in hand at its reps. Source: [Epley1985]. [fraction]"""
    return per_load(table.reps) / per_load(table.reps + SAFE_LEFT)


def barred_ceiling(
    asked: Asked, past: tuple[Performance, ...], found: Proposal, table: Table
) -> Ceiling | None:
    """Return the ceiling on straight sets in the place of a table's; None where they are what was done last."""
    last = past[-1].exposure if past else None
    straight = last is not None and past[-1].span == asked.span and not _by_table(asked, past[-1])
    if straight:
        return None
    told = reason(ReasonCode.NO_LIMIT, left=str(SAFE_LEFT))
    return Ceiling(reason=told, mass=found.load * straight_share(table))


def _by_table(asked: Asked, one: Performance) -> bool:
    return was_by_table(one.exposure.dose, asked.exercise) is not None


def before_straight(asked: Asked, past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return what counts for a table: straight sets that stood in for its own, and were done, are no step down."""
    kept = [
        one
        for one in past
        if one.verdict is not Verdict.DONE
        or table_for(one.exposure.dose, asked.exercise) is None
        or _by_table(asked, one)
    ]
    return tuple(kept) or past


def full_again(asked: Asked, counted: tuple[Performance, ...], found: Proposal, *, barred: bool) -> Proposal:
    """Return the proposal for a table whose own sets are allowed again after straight ones: their load, for now.

    Straight sets left some in hand, so the first full load is rather too light; the table makes it right.
    """
    last = counted[-1]
    straight = table_for(last.exposure.dose, asked.exercise) is not None and not _by_table(asked, last)
    if asked.table is None or barred or not straight or last.verdict is not Verdict.DONE:
        return found
    told = reason(ReasonCode.WORK_CHANGED, load=load_text(last.load, asked.exercise))
    return replace(found, load=last.load, target=asked.span.low, reasons=(told,), earned=False, bridge=False)


def by_table(asked: Asked, last: Performance) -> Proposal | None:
    """Return what the last set of a table makes of the load; None where the last exposure was none of it.

    Args:
        asked: Today's task.
        last: The newest exposure, with all its sets done.
    """
    table = asked.table
    if table is None or was_by_table(last.exposure.dose, asked.exercise) is not table:
        return None
    load, reps = at_set(last.exposure, 4, last.load)
    found = change(table.then, reps)
    unit = asked.ladder.steps[0].unit
    lowest = asked.ladder.at_or_under(last.load * (1 - MOST_FALL)) or asked.ladder.steps[0]
    then = max(load + found.given(unit), lowest)
    if last.exposure.cause in EXCUSED:
        then = max(then, last.load)
    facts = {"table": table.name, "reps": str(reps), "load": load_text(load, asked.exercise)}
    if _hard(last) and then > last.load:
        effort = str(last.exposure.effort)
        return Proposal(last.load, table.reps, (reason(ReasonCode.HARD_SESSION, effort=effort),))
    code = _code(found, then, last.load)
    told = reason(code, **facts, next=load_text(then, asked.exercise))
    return Proposal(then, table.reps, (told,))


def _hard(last: Performance) -> bool:
    return last.exposure.effort is not None and last.exposure.effort >= HARDEST


def _code(found: Change, then: Mass, now: Mass) -> ReasonCode:
    if found.below and then < now:
        return ReasonCode.TABLE_BELOW
    if then > now:
        return ReasonCode.TABLE_RAISE
    return ReasonCode.TABLE_SAME if then == now else ReasonCode.TABLE_LOWER


def set_plan(asked: Asked, table: Table, load: Mass, most: Mass | None) -> SetPlan:
    """Return the four sets of a table at a full load.

    Args:
        asked: Today's task.
        table: Whose.
        load: The full load that is given.
        most: The most that the fourth set may be, by every ceiling but the log's own; None where there is none.
    """
    lightest = asked.ladder.steps[0]
    sets = [
        (asked.ladder.at_or_under(load * share) or lightest, reps, False)
        for share, reps in zip(SHARES, (table.first, table.second), strict=True)
    ]
    sets.append((load, table.reps, True))
    planned = tuple(
        PlannedSet(load=Load(LoadKind.MASS, mass), reps=reps, to_limit=to_limit)
        for mass, reps, to_limit in sets
    )
    return SetPlan(table=table.name, sets=planned, last=_last_sets(asked, table, load, most))


def _last_sets(asked: Asked, table: Table, load: Mass, most: Mass | None) -> tuple[LastSet, ...]:
    unit, lightest = asked.ladder.steps[0].unit, asked.ladder.steps[0]
    at_once = asked.most_at_once(load, 1)
    highest = max(load, at_once if most is None else min(most, at_once))
    found: list[LastSet] = []
    for reps in dict.fromkeys((0, *(band.least for band in table.today))):
        lowest = asked.ladder.at_or_under(load * (1 - MOST_FALL)) or lightest
        meant = max(load + change(table.today, reps).given(unit), lowest)
        mass = asked.ladder.at_or_under(min(meant, highest)) or lightest
        if not found or found[-1].load.mass != mass:
            found.append(LastSet(reps_from=reps, load=Load(LoadKind.MASS, mass)))
    return tuple(found)
