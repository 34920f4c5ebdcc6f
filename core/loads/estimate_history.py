"""The estimate of a session as a point in time, from what was logged."""

from core.loads.body_maximum import moves_whole_body
from core.loads.dated_estimates import DatedEstimate
from core.loads.one_rep_max import Formula
from core.loads.past import Exposure
from core.loads.session_maximum import best_estimate
from core.programme.exercises import Exercise
from core.units import Mass


def dated_estimate(
    exposure: Exposure,
    exercise: Exercise,
    formula: Formula = Formula.EPLEY,
    *,
    body: Mass | None = None,
    kit: str = "",
    comeback: bool = False,
) -> DatedEstimate | None:
    """Return the best estimate of a session with its facts; None where no set gives one that may be believed.

    Of equal sets it is the one whose reps left are known.

    Held back is a session that the coach had eased, that took in a lift of another day, or of which was said why less
    was done: pain, illness, time, kit or grip.

    Args:
        exposure: The session.
        exercise: What was done.
        formula: One for an exercise's whole history.
        body: The person's mass on that day; needed for what hangs, where it is part of the estimate.
        kit: Where, or on what, it was done.
        comeback: True on the way back from a break.
    """
    best: DatedEstimate | None = None
    for one in exposure.sets:
        alone = exposure.model_copy(update={"sets": (one,)})
        found = best_estimate(alone, formula, exercise=exercise, body=body)
        if found is None or one.reps is None:
            continue
        mass = found.mass + body if body is not None and moves_whole_body(exercise) else found.mass
        told_more = best is not None and mass == best.mass and best.left is None and one.left is not None
        if best is None or mass > best.mass or told_more:
            best = DatedEstimate(
                session_id=exposure.session_id,
                on=exposure.on,
                mass=mass,
                formula=formula,
                total=one.reps + (one.left or 0),
                effort=exposure.effort,
                left=one.left,
                kit=kit,
                deload=exposure.deload or exposure.dose.lighter,
                comeback=comeback,
                held_back=exposure.eased or exposure.merged or exposure.cause is not None,
            )
    return best
