"""What the coach wrote anew since last time: other reps, another load."""

from dataclasses import replace
from decimal import Decimal

from core.loads.asked import ZERO, Asked, load_text
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, braked, reason
from core.loads.reasons import ReasonCode
from core.programme.prescription import Load


def at_other_reps(asked: Asked, last: Performance) -> Proposal:
    """Return the load at another number of reps, by the formula; one capped step like any other.

    Up only after work that was done and within 12 reps in all, where the formula may be believed.
    Source: [Epley1985], [Stone1981].
    """
    before_left = last.exposure.dose.left if last.exposure.dose.left is not None else asked.left
    before = min(last.fewest, last.span.high) + (before_left or 0)
    now = asked.span.low + (asked.left or 0)
    factor = Decimal(1) if asked.timed else Decimal(30 + before) / (30 + now)
    sure = last.verdict is Verdict.DONE and braked(last, asked.left) is None and max(before, now) <= 12
    if factor > 1 and not sure:
        factor = Decimal(1)
    base = last.load
    # Bare bodyweight and assistance are left as they are: the reps alone have changed.
    scaled = base * factor if base > ZERO else base
    change = (factor - 1) if scaled is not base else Decimal(0)
    facts = {"before": str(last.span), "now": str(asked.span), "percent": f"{(change * 100):+.1f}"}
    told = reason(
        ReasonCode.REPS_CHANGED,
        load=load_text(base, asked.exercise),
        next=load_text(scaled, asked.exercise),
        **facts,
    )
    return Proposal(scaled, asked.span.low, (told,))


def with_written(
    asked: Asked, past: tuple[Performance, ...], found: Proposal, written: Load | None
) -> Proposal:
    """Return the proposal after what the coach newly wrote: lower always wins, higher only after work all done."""
    last, hers = past[-1], asked.written
    before = last.exposure.written
    if hers is None or before is None or before == written:
        return found
    if hers < found.load:
        told = reason(
            ReasonCode.COACH_LOWER,
            load=load_text(hers, asked.exercise),
            log=load_text(found.load, asked.exercise),
        )
        return replace(found, load=hers, target=asked.span.low, reasons=(told,), earned=False, bridge=False)
    if hers > found.load and last.verdict is Verdict.DONE and braked(last, asked.left) is None:
        facts = {
            "load": load_text(last.load, asked.exercise),
            "next": load_text(hers, asked.exercise),
            "written": load_text(hers, asked.exercise),
        }
        told = reason(ReasonCode.RAISE_WRITTEN, **facts)
        return replace(found, load=hers, target=asked.span.low, reasons=(told,), earned=False, bridge=False)
    return found
