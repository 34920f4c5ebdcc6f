"""A dose as it is asked for of another exercise: what stands in is counted, loaded and sided as it can be."""

from decimal import ROUND_CEILING, Decimal

from core.programme.duration import METRE_S, OPEN_REPS, REP_S
from core.programme.exercises import Basis, Exercise, Implement
from core.programme.prescription import Dose, Load, Span
from core.programme.set_styles import StyleKind
from core.programme.way_cells import misfit

METRES_A_REP = 2
"""Metres of a way that a rep stands for, of a side where it is done a side at a time. [m] Our proposal: two steps."""
MOST_REPS = 20
"""Most reps that a way or a time is turned into. [reps] Our proposal: more is endurance, and was not asked for."""
STEPPED = frozenset({StyleKind.ASCENDING, StyleKind.DESCENDING})
"""Sets whose load goes from step to step: not without a load that is counted."""


def carried_over(dose: Dose, exercise: Exercise) -> Dose:
    """Return what is asked for of an exercise that stands in for the one that a dose was written for.

    Sets, reps, reps left and the kind of sets stay. The load is that of another exercise, so it is found; bodyweight
    where the body is the load, none where a band is. A time becomes reps and a way becomes time or reps, where the
    other is counted so. A path of variants belongs to the exercise that was written, and a way up that no longer fits
    gives room to the usual one. Our proposal.
    """
    bare = exercise.basis is Basis.BODYWEIGHT or exercise.implement is Implement.BAND
    style = dose.style if dose.style is None or not (bare and dose.style.kind in STEPPED) else None
    changed: dict[str, object] = {
        "load": _load(exercise),
        "each_side": exercise.each_side,
        "portion": dose.portion if exercise.each_side else None,
        "style": style,
    }
    carried = dose.model_copy(update=changed | _counted(dose, exercise))
    way = dose.way
    if way is not None and (way.path or misfit(way, carried, exercise.key) is not None):
        return carried.model_copy(update={"way": None})
    return carried


def _load(exercise: Exercise) -> Load | None:
    if exercise.basis is Basis.BODYWEIGHT:
        return Load.bodyweight()
    return None if exercise.implement is Implement.BAND else Load.find()


def _counted(dose: Dose, exercise: Exercise) -> dict[str, object]:
    """Return the counts that change, because the other exercise is counted otherwise."""
    if dose.metres is not None:
        if exercise.by_distance:
            return {}
        if exercise.timed:
            return _as_time(dose.metres, METRE_S)
        return _as_reps(dose.metres, METRES_A_REP)
    if dose.seconds is not None and not exercise.timed:
        return _as_reps(dose.seconds, REP_S)
    if exercise.timed and dose.seconds is None:
        return _as_time(dose.reps or Span(low=OPEN_REPS, high=OPEN_REPS), REP_S)
    return {}


def _as_reps(span: Span, each: int) -> dict[str, object]:
    low, high = (min(MOST_REPS, _over(count, each)) for count in (span.low, span.high))
    return {"reps": Span(low=low, high=high), "seconds": None, "metres": None}


def _as_time(span: Span, each: int) -> dict[str, object]:
    """Return a time instead of reps or a way; what belongs to reps alone goes with them."""
    low, high = (min(1000, count * each) for count in (span.low, span.high))
    gone = dict.fromkeys(("reps", "metres", "left", "left_high", "rpe", "portion", "style"))
    return {**gone, "seconds": Span(low=low, high=high), "to_left": False, "or_more": False}


def _over(count: int, each: int) -> int:
    return int((Decimal(count) / each).to_integral_value(ROUND_CEILING))
