"""The first time: what an exercise starts with when the log says nothing yet."""

from core.loads.asked import SAFE_LEFT, ZERO, Asked, Counted, amount, count_facts, is_older, load_text
from core.loads.outcome import Reason
from core.loads.past import Inputs
from core.loads.reasons import ReasonCode
from core.loads.sister_lifts import Search, Start, StartCode, starting_load
from core.programme.exercises import Region
from core.programme.prescription import Load, LoadKind

FIND_LEFT = 3
"""Reps left at which the search ends. [reps] Our proposal."""
FIND_SETS = 5
"""Sets that a load is looked for in, at most. Our proposal."""
FIND_RISE = {Region.UPPER: ("5", "10"), Region.LOWER: ("10", "20"), Region.TRUNK: ("5", "10")}
"""How much heavier from set to set while a load is looked for. [%] Our proposal; the trunk as the upper body."""


def is_search(asked: Asked, written: Load | None) -> bool:
    """Return whether a load has to be found: `find` was written, or none for a lift that has one."""
    if asked.loadless or amount(written, asked.exercise) is not None:
        return False
    return written is None or written.kind is LoadKind.FIND


def start_reason(asked: Asked, written: Load | None, inputs: Inputs) -> Reason:
    """Return why an exercise starts as it does. A search is told as facts: where to begin, how to rise, when to end."""
    if is_search(asked, written):
        low, high = FIND_RISE[asked.exercise.region]
        begun = _begun(asked, inputs)
        first = max(asked.ladder.steps[0], ZERO) if begun.load is None else begun.load
        facts = {
            "left": str(max(FIND_LEFT, asked.left or 0)),
            "sets": str(FIND_SETS),
            "low": low,
            "high": high,
            "first": load_text(first, asked.exercise),
        }
        if begun.code is StartCode.SISTER:
            facts |= {"sister": begun.facts["exercise"].replace("-", " ")}
        return Reason(code=ReasonCode.START_FIND, facts={**count_facts(asked, asked.span.low), **facts})
    if asked.written is not None and asked.written != ZERO:
        facts = {"load": load_text(asked.written, asked.exercise)}
        return Reason(code=ReasonCode.START_WRITTEN, facts=facts)
    bare = written is None and asked.loadless and asked.exercise.body_share is None
    code = ReasonCode.START_NO_LOAD if bare else ReasonCode.START_BODYWEIGHT
    return Reason(code=code, facts=count_facts(asked, asked.span.low))


def _begun(asked: Asked, inputs: Inputs) -> Start:
    """Return where the search begins, by what is known of other lifts."""
    search = Search(
        exercise=asked.exercise,
        reps=asked.span.low if asked.counted is Counted.REPS else None,
        left=search_left(asked.left),
        ladder=asked.ladder,
        today=inputs.moment.today,
        older=is_older(inputs),
    )
    return starting_load(search, inputs.lifts, inputs.lifter.pain)


def search_left(left: int | None) -> int:
    """Return the reps left at which a search ends: three, or more where more are asked."""
    return max(FIND_LEFT, SAFE_LEFT, left or 0)
