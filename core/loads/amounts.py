"""How many sets, reps and reps left go with the load that is given."""

from decimal import ROUND_FLOOR

from core.loads.asked import SAFE_LEFT, ZERO, Asked, is_alone_under_bar, is_older, is_without_end
from core.loads.health_line import half_sets, is_after_birth
from core.loads.load_line import Standing
from core.loads.order_line import eased_sets
from core.loads.outcome import Kind, Reason
from core.loads.past import Inputs
from core.loads.proposals import Proposal, reason
from core.loads.reasons import ReasonCode
from core.loads.set_plan import STRAIGHT_SETS
from core.loads.sets_line import sets_line
from core.programme.lighter_weeks import DELOAD_LEFT, deload_sets
from core.units import Mass

PREGNANT_LEFT = 3
"""Fewest reps left in a pregnancy. [reps] Our proposal after a practising coach's review, never loosened."""
MOST_LEFT = 5
"""Most reps left that are asked for. [reps]"""


def target_reps(asked: Asked, found: Proposal, load: Mass, standing: Standing) -> int:
    """Return one number of reps, seconds or metres.

    The proposal's own where its load is given; the fewest where the load came down; no more than last time
    where a raise was stopped or where something holds; fewer where only reps can ease what hurts.
    """
    if standing.pain.drop and load == ZERO and found.load == ZERO:
        share = (found.same * (1 - standing.pain.drop)).to_integral_value(ROUND_FLOOR)
        return max(1, int(share))
    if standing.deload or (found.base is not None and load < found.base):
        return asked.span.low
    if load == found.load:
        by_coach = standing.order is not None or standing.kept or standing.full
        held = standing.pain.holds or by_coach or standing.merged or standing.health.holds
        calm = not held and (standing.back is None or found.rises)
        return found.target if calm else min(found.target, found.same)
    return max(found.same, asked.span.low) if load == found.base else asked.span.low


def reps_left(
    inputs: Inputs, asked: Asked, standing: Standing, *, barred: bool
) -> tuple[int | None, tuple[Reason, ...]]:
    """Return the reps left asked for, and why they are more than written. [reps]

    Args:
        inputs: With who lifts, and what was written.
        asked: Today's task.
        standing: What bears on today.
        barred: True where work by a table may not go to the limit.
    """
    left, told = asked.left, []
    if standing.deload and left is not None:
        left = min(MOST_LEFT, left + DELOAD_LEFT)
    elif standing.back is not None and left is not None:
        left = min(MOST_LEFT, left + standing.back.row.left_more)
    if asked.timed:
        return left, ()
    least = left
    for code, stands, fewest in _floors(inputs, standing, barred=barred):
        if stands and (left is None or left < fewest):
            told.append(reason(code, left=str(fewest)))
            least = max(fewest, least or 0)
    return least, tuple(told)


def _floors(inputs: Inputs, standing: Standing, *, barred: bool) -> tuple[tuple[ReasonCode, bool, int], ...]:
    """Return what asks for reps left, whether it stands, and how many. None of them is ever loosened."""
    lifter = inputs.lifter
    to_limit = is_without_end(inputs.dose) and (lifter.new or standing.holds or is_after_birth(inputs))
    return (
        (ReasonCode.NO_LIMIT, to_limit or barred, SAFE_LEFT),
        (ReasonCode.PREGNANT_LEFT, lifter.pregnant, PREGNANT_LEFT),
        (ReasonCode.PRESSURE, lifter.pressure_untreated, SAFE_LEFT),
        (ReasonCode.ALONE_UNDER_BAR, is_alone_under_bar(inputs), SAFE_LEFT),
        (ReasonCode.AGE, is_older(inputs) and not inputs.policy.limit_from_60, SAFE_LEFT),
    )


def working_sets(
    inputs: Inputs, asked: Asked, target: int, left: int | None, standing: Standing, *, barred: bool
) -> tuple[int, tuple[Reason, ...]]:
    """Return the working sets, and why they are fewer where nothing else that is told says so.

    Args:
        inputs: With the hard sets of the weeks before.
        asked: Today's task.
        target: Reps of a set.
        left: Reps left asked for.
        standing: What bears on today.
        barred: True where two straight sets stand in for those of a table.
    """
    planned = min(inputs.dose.sets, STRAIGHT_SETS) if barred else inputs.dose.sets
    counts = [planned]
    if standing.deload:
        counts.append(deload_sets(planned))
    if standing.health.is_light:
        counts.append(half_sets(planned))
    if standing.back is not None:
        counts.append(standing.back.sets(planned, 0 if asked.timed else target, left or 0))
    usual = min(counts) if standing.order is None else eased_sets(min(counts))
    week = sets_line(inputs, left)
    by_table = asked.table is not None and not barred
    if week is None or week.most >= usual or by_table:
        return usual, ()
    return week.most, (week.told,)


def kind_of(found: Proposal, load: Mass, target: int, standing: Standing) -> Kind:
    """Return whether the load rises, stays, falls or begins; fewer reps for what hurts are a fall."""
    if found.base is None:
        return Kind.START
    if load > found.base:
        return Kind.RAISE
    eased_by_reps = bool(standing.pain.drop) and target < found.same
    return Kind.LOWER if load < found.base or eased_by_reps else Kind.HOLD
