"""A dose as the client is given it: the decided load, sets and one target, and nothing that no longer holds."""

from core.loads.outcome import Decision, Kind
from core.loads.reasons import ReasonCode
from core.programme.lighter_weeks import calmed
from core.programme.prescription import Dose, Load, LoadKind, Span
from core.programme.set_styles import StyleKind
from core.programme.ways_up import BY_TABLE

BY_REPS = frozenset({ReasonCode.PAIN_DROP, ReasonCode.PAIN_RELEASED})
"""Reasons that ease by reps where the load cannot fall: open reps get a number then."""


def given_dose(dose: Dose, decision: Decision) -> Dose:
    """Return the dose as it stands on the card.

    An RPE or a range of reps left goes where another number is asked for; an open last set and steps down go in a
    lighter week, and where fewer reps than written are given. Parts of a cluster and turns from side to side go
    where they do not come out even.
    """
    eased = dose.to_left and any(one.code in BY_REPS for one in decision.reasons)
    fewer = eased or (dose.reps is not None and decision.target < dose.reps.low)
    lightened = any(one.code == ReasonCode.COACH_LIGHTER for one in decision.reasons)
    kept = calmed(dose) if dose.lighter or lightened or fewer else dose
    target = Span(low=decision.target, high=decision.target)
    other = decision.left != dose.left
    style = kept.style
    way = dose.way
    if way is not None and way.kind in BY_TABLE and decision.plan is None:
        way = None  # Straight sets stand in for those of the table: what was done can be told by a tap.
    if style is not None and style.kind is StyleKind.CLUSTER and sum(style.parts) != decision.target:
        style = None
    return kept.model_copy(
        update={
            "sets": decision.sets,
            "load": _load(dose, decision),
            "left": decision.left,
            "left_high": None if other else dose.left_high,
            "rpe": None if other else dose.rpe,
            "reps": target if dose.reps is not None or eased else None,
            "seconds": target if dose.seconds is not None else None,
            "metres": target if dose.metres is not None else None,
            "portion": None if dose.portion is None or decision.target % dose.portion else dose.portion,
            "to_left": dose.to_left and not eased,
            "style": style,
            "way": way,
        }
    )


def _load(dose: Dose, decision: Decision) -> Load | None:
    """Return the decided load; a band keeps its name, which no decision is about."""
    banded = dose.load is not None and dose.load.kind is LoadKind.BAND
    return (
        dose.load if banded and decision.load is None and decision.kind is not Kind.PAUSE else decision.load
    )
