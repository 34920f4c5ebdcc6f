"""What no decision of a rehearsal may do, looked at from outside the rules that made it.

A breach is a fault of the program and of nobody's block: nothing over the load line, nothing that cannot be loaded, no
rise through pain of 4 and over, nothing given that is locked.
"""

from enum import StrEnum

from core.checkin.pain import bears_on, flares, locks
from core.loads.asked import ZERO, amount
from core.loads.decision import Decision, Inputs, Kind
from core.loads.equipment import ladder_for
from core.loads.pain_line import CALM_SESSIONS
from core.programme.exercises import Basis, Implement
from core.programme.prescription import Load
from core.units import Mass
from core.value import Value


class Rule(StrEnum):
    """What may not be broken."""

    OVER_LINE = "over the load line"
    NOT_LOADABLE = "cannot be loaded"
    THROUGH_PAIN = "rises through pain"
    LOCKED = "is locked by pain"


class Breach(Value):
    """A decision that broke a rule.

    Attributes:
        client: Number of the simulated client, from 1.
        rule: Which.
        inputs: What it rests on.
        decision: What was decided.
    """

    client: int
    rule: Rule
    inputs: Inputs
    decision: Decision


def broken_rules(inputs: Inputs, decision: Decision) -> tuple[Rule, ...]:
    """Return the rules that a decision breaks; none, as long as the program is right."""
    masses = [mass for load in _loads(decision) if (mass := amount(load, inputs.exercise)) is not None]
    found = {
        Rule.OVER_LINE: any(_is_over(mass, decision) for mass in masses),
        Rule.NOT_LOADABLE: any(not _can_be_made(mass, inputs) for mass in masses),
        Rule.THROUGH_PAIN: _rises(masses, inputs, decision) and _hurt_lately(inputs),
        Rule.LOCKED: decision.kind is not Kind.PAUSE
        and any(locks(report, inputs.exercise) for report in inputs.lifter.pain),
    }
    return tuple(rule for rule, broken in found.items() if broken)


def _loads(decision: Decision) -> list[Load]:
    """Return every load of the day that is known beforehand."""
    plan = decision.plan
    planned = [one.load for one in plan.sets] if plan is not None else []
    return [*([decision.load] if decision.load is not None else []), *planned]


def _is_over(mass: Mass, decision: Decision) -> bool:
    most = decision.line.mass
    ceilings = decision.line.ceilings
    return (most is not None and mass > most) or any(one.mass is None or mass > one.mass for one in ceilings)


def _can_be_made(mass: Mass, inputs: Inputs) -> bool:
    exercise = inputs.exercise
    if mass in ladder_for(exercise, inputs.kit).steps:
        return True
    bare = exercise.basis is Basis.BODYWEIGHT or exercise.implement is Implement.BAND
    return mass == ZERO and (bare or _was_bare(inputs))


def _was_bare(inputs: Inputs) -> bool:
    """Return whether a lift that has a load is written, or was last done, with nothing."""
    last = [one.load for past in inputs.history[-1:] for one in past.sets]
    return any(load == Load.bodyweight() for load in (inputs.dose.load, *last))


def _rises(masses: list[Mass], inputs: Inputs, decision: Decision) -> bool:
    """Return whether a load rises: as the decision says itself, or over everything that the log has."""
    lifted = [amount(one.load, inputs.exercise) for past in inputs.history for one in past.sets]
    known = [mass for mass in lifted if mass is not None]
    return decision.kind is Kind.RAISE or (bool(known) and bool(masses) and max(masses) > max(known))


def _hurt_lately(inputs: Inputs) -> bool:
    """Return whether something that the exercise loads hurt 4 or more, and was not followed by two sessions yet."""
    worst = [one for one in inputs.lifter.pain if bears_on(one, inputs.exercise) and flares(one)]
    since = max((one.on for one in worst), default=None)
    if since is None or since > inputs.moment.today:
        return False
    return sum(bool(past.sets) and past.on > since for past in inputs.history) < CALM_SESSIONS
