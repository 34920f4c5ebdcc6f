"""The maximum that a session shows: that of its best set, since the later ones carry the tiredness of the first.

Each set stands for itself: which sets a raise goes by, and which one the next target goes by, are other questions.
"""

from collections.abc import Iterator

from core.loads.body_maximum import added_maximum
from core.loads.one_rep_max import Estimate, Formula, Trust, estimate
from core.loads.past import Exposure, SetDone
from core.programme.exercises import Exercise
from core.programme.prescription import LoadKind
from core.units import Mass


def best_estimate(
    exposure: Exposure,
    formula: Formula = Formula.EPLEY,
    *,
    exercise: Exercise | None = None,
    body: Mass | None = None,
) -> Estimate | None:
    """Return the best estimate of a session that a rule may use; None where no set gives one.

    Steps down and sets with pauses in them give none, whatever was lifted. Reps left that were not said count as none,
    so that the estimate is rather too low.

    Args:
        exposure: The session.
        formula: One for an exercise's whole history.
        exercise: Tells how the loads are counted; needed for what hangs.
        body: The person's mass on that day; needed for what hangs.
    """
    usable = (one for one in _estimates(exposure, formula, exercise, body) if one.usable)
    return max(usable, key=lambda one: (one.mass, one.trust is Trust.GOOD), default=None)


def _estimates(
    exposure: Exposure, formula: Formula, exercise: Exercise | None, body: Mass | None
) -> Iterator[Estimate]:
    style = exposure.dose.style
    if style is not None and not style.feeds_estimate:
        return
    for each in exposure.sets:
        made = _of_set(each, formula, exercise, body)
        if made is not None:
            yield made


def _of_set(done: SetDone, formula: Formula, exercise: Exercise | None, body: Mass | None) -> Estimate | None:
    if done.load is None or done.reps is None:
        return None
    mass, left = done.load.mass, done.left or 0
    if done.load.kind is LoadKind.MASS and mass is not None:
        return estimate(mass, done.reps, left, formula, basis=None if exercise is None else exercise.basis)
    if done.load.kind is LoadKind.BODYWEIGHT and exercise is not None and body is not None:
        return added_maximum(exercise, body, mass or Mass.of(0), done.reps, left, formula)
    return None
