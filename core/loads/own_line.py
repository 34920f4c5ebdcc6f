"""An exercise that comes with different reps in turn: each number of reps goes on from its own last time.

A heavy day and a lighter day of one lift are two lines of work. Reckoning one from the other by a formula, to and fro,
would lose a step with each rounding down to what can be loaded.
"""

from datetime import timedelta

from core.loads.asked import Asked, load_text
from core.loads.outcome import Reason
from core.loads.performance import Performance
from core.loads.proposals import reason
from core.loads.reasons import ReasonCode

OWN_LINE = timedelta(days=28)
"""How long ago the same reps may have been trained for the load to go on from there. [days] Our proposal: after four
weeks of other reps a block has moved on to them."""


def of_these_reps(asked: Asked, past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return `past` without what was done for other reps, where both came in turn of late; else all of it.

    Where these reps were last trained more than four weeks before the newest work, or never, the newest work counts,
    whatever its reps. Common practice, no source.
    """
    low, high, counted = asked.span.low, asked.span.high, asked.counted
    own: list[Performance] = []
    others: list[Performance] = []
    for one in past:
        is_own = one.counted is counted and one.span.low == low and one.span.high == high
        (own if is_own else others).append(one)
    if not own or not others:
        return past
    newest = past[-1].exposure.on
    since = next((one.exposure.on for one in own if newest - one.exposure.on < OWN_LINE), None)
    if since is None or not any(one.exposure.on >= since for one in others):
        return past
    return tuple(own)


def gone_on_from(
    asked: Asked, counted: tuple[Performance, ...], whole: tuple[Performance, ...]
) -> tuple[Reason, ...]:
    """Return from where the load goes on, told where that is not the newest work."""
    own, newest = counted[-1], whole[-1]
    if own is newest or own.load == newest.load:
        return ()
    facts = {
        "load": load_text(own.load, asked.exercise),
        "date": own.exposure.on.isoformat(),
        "count": str(own.span),
    }
    return (reason(ReasonCode.OWN_REPS, **facts),)
