"""The maximum where the body is the load: from all that hangs, or from reps where only part of the body moves.

Only where the whole body hangs or is dipped does bodyweight count as the load: then the estimate is made of body and
what is added together, and the body is taken off again. Common practice, no source. A push-up moves a share that
differs from one person and one arm's length to the next, so that reps at the same load are compared instead:
`core.loads.same_load`.
"""

from decimal import Decimal
from typing import NamedTuple

from core.loads.one_rep_max import Estimate, Formula, estimate
from core.programme.exercises import Basis, Exercise
from core.units import Mass


class Shares(NamedTuple):
    """Least and most of bodyweight that moves. [fraction]"""

    least: Decimal
    most: Decimal


PARTS = {
    "push-up": Shares(Decimal("0.69"), Decimal("0.75")),
    "knee-push-up": Shares(Decimal("0.54"), Decimal("0.62")),
}
"""Share of bodyweight on the hands, by exercise. [fraction] From memory; means that were measured with arms straight
and bent lie on both sides of the lower ends. Source: [Mier2014]."""


def moves_whole_body(exercise: Exercise) -> bool:
    """Return whether bodyweight counts as load: where all of it hangs, or is dipped."""
    return exercise.basis is Basis.BODYWEIGHT and exercise.body_share == 1


def moved(exercise: Exercise, body: Mass, added: Mass) -> tuple[Mass, Mass] | None:
    """Return the least and the most mass that moves; None where nobody knows the share.

    Args:
        exercise: A bodyweight exercise.
        body: The person, on the day of the set: an older mass makes a loss of weight look like a loss of strength.
        added: What is added; negative for assistance.
    """
    if moves_whole_body(exercise):
        return body + added, body + added
    shares = PARTS.get(exercise.key)
    return None if shares is None else (body * shares.least + added, body * shares.most + added)


def added_maximum(
    exercise: Exercise,
    body: Mass,
    added: Mass,
    reps: int,
    left: Decimal | int = 0,
    formula: Formula = Formula.EPLEY,
) -> Estimate | None:
    """Return the most that could be added once, negative where it is less than the body; None for no telling.

    None where only part of the body moves, and as `estimate` does: where too many reps were done and left, or where
    more is taken off than the body weighs.

    Args:
        exercise: What was done.
        body: The person, on the day of the set.
        added: What was added; negative for assistance.
        reps: Done. [reps]
        left: Reps left. [reps]
        formula: One for an exercise's whole history.
    """
    if not moves_whole_body(exercise):
        return None
    found = estimate(body + added, reps, left, formula, basis=Basis.BODYWEIGHT)
    return None if found is None else found.model_copy(update={"mass": found.mass - body})
