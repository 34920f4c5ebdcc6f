"""What a written percentage is of: the maximum estimated from the log, or the heaviest single in it."""

from core.loads.one_rep_max import Formula
from core.loads.past import Exposure, SetDone
from core.loads.session_maximum import best_estimate
from core.programme.prescription import LoadKind, PercentOf
from core.units import Mass

LOOKED_AT = 3
"""Newest exposures with an estimate that one is taken from: the best of them. Our proposal: an older best may be gone,
and one session alone may have been a bad day."""


def reference(
    history: tuple[Exposure, ...], of: PercentOf, *, formula: Formula = Formula.EPLEY
) -> Mass | None:
    """Return the maximum that a percentage is of; None where the log has none.

    Args:
        history: Exposures of one exercise on one kit, in any order.
        of: Estimate or heaviest single.
        formula: One for an exercise's whole history.
    """
    newest = sorted(history, key=lambda one: (one.on, one.session_id), reverse=True)
    return _estimated(newest, formula) if of is PercentOf.ESTIMATE else _heaviest_single(newest)


def _estimated(newest: list[Exposure], formula: Formula) -> Mass | None:
    """Return the best estimate of the newest exposures that have one."""
    found: list[Mass] = []
    for one in newest:
        best = best_estimate(one, formula)
        if best is not None:
            found.append(best.mass)
        if len(found) == LOOKED_AT:
            break
    return max(found, default=None)


def _heaviest_single(newest: list[Exposure]) -> Mass | None:
    """Return the heaviest single; None where something heavier was done for more reps: then it was no maximum."""
    done = [(mass, each.reps) for one in newest for each in one.sets if (mass := _lifted(each)) is not None]
    single = max((mass for mass, reps in done if reps == 1), default=None)
    heaviest = max((mass for mass, reps in done if reps), default=None)
    return single if single is not None and single == heaviest else None


def _lifted(done: SetDone) -> Mass | None:
    if done.load is None or done.load.kind is not LoadKind.MASS:
        return None
    return done.load.mass
