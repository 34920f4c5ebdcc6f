"""What the log asks for, before anything else has its say, and what brakes it."""

from dataclasses import dataclass

from core.loads.asked import SOURCE_OF
from core.loads.outcome import Reason
from core.loads.performance import Performance
from core.loads.reasons import ReasonCode
from core.units import Mass

HARDEST = 5
"""The session's effort at which nothing rises. [1..5] Our proposal."""
RISES = frozenset(
    {
        ReasonCode.RAISE_DONE_TWICE,
        ReasonCode.RAISE_TOP,
        ReasonCode.RAISE_EARNED,
        ReasonCode.RAISE_WRITTEN,
        ReasonCode.RAISE_STEP,
        ReasonCode.RAISE_WEEK,
        ReasonCode.RAISE_LEFT,
        ReasonCode.RAISE_LAST_SET,
        ReasonCode.RAISE_TOTAL,
        ReasonCode.TABLE_RAISE,
    }
)
"""Reasons that are true only when the load does rise."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """What the log asks for.

    Attributes:
        load: What would be put on; zero where nothing is counted.
        target: Reps or seconds.
        reasons: Why, first the one to tell.
        used: Exposures it rests on.
        base: The load now; None with no history.
        same: The target that makes no more work than last time.
        earned: True when one step of the kit was earned with reps: caps yield to it, and to no more than it.
        bridge: True when reps are used up and the step is still too big.
        over: What is over now, and is told first: a lighter week.
    """

    load: Mass
    target: int
    reasons: tuple[Reason, ...]
    used: tuple[Performance, ...] = ()
    base: Mass | None = None
    same: int = 1
    earned: bool = False
    bridge: bool = False
    over: tuple[Reason, ...] = ()

    @property
    def rises(self) -> bool:
        """True when the load would rise."""
        return self.base is not None and self.load > self.base


def reason(code: ReasonCode, **facts: str) -> Reason:
    """Return a reason with the published source that stands beside its rule."""
    return Reason(code=code, facts=facts, source=SOURCE_OF.get(code))


def braked(last: Performance, asked_left: int | None) -> Reason | None:
    """Return why work that was all done still earns no more; None when nothing brakes it.

    Two reps fewer left than asked, or none where some were asked. Source: [Zourdos2016]; the size is our proposal
    above the usual error of one rep [Halperin2022].
    """
    effort = last.exposure.effort
    wanted = last.exposure.dose.left if last.exposure.dose.left is not None else asked_left
    if last.left is not None and wanted and (last.left == 0 or last.left <= wanted - 2):
        return reason(ReasonCode.FEW_LEFT, left=str(last.left), asked=str(wanted))
    if effort is not None and effort >= HARDEST:
        return reason(ReasonCode.HARD_SESSION, effort=str(effort))
    return None
