"""What a session counts for that took in a lift of another day: more work than written, so nothing rises from it.

Our proposal after a practising coach's review.
"""

from dataclasses import replace

from core.loads.asked import Asked
from core.loads.load_line import merged_reason
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal


def before_merge(past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return what counts for the next load: merged sessions that were done are no step up.

    One that was merged and not done counts like any other.
    """
    kept = [one for one in past if not (one.exposure.merged and _is_done_merged(one))]
    return tuple(kept) or past


def after_merge(asked: Asked, past: tuple[Performance, ...], found: Proposal) -> Proposal:
    """Return the proposal where there are merged sessions alone: the same again."""
    if not (found.rises or found.target > found.same) or not all(_is_done_merged(one) for one in past):
        return found
    told = merged_reason(asked, past[-1].load)
    return replace(found, load=past[-1].load, target=found.same, reasons=(told,), earned=False, bridge=False)


def _is_done_merged(one: Performance) -> bool:
    return one.exposure.merged and one.verdict is Verdict.DONE
