"""What the coach wrote anew since last time: other reps, another load, a lighter week that is over."""

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

from core.loads.asked import ZERO, Asked, amount, load_text
from core.loads.outcome import Reason
from core.loads.past import Inputs
from core.loads.performance import Performance, Verdict
from core.loads.proposals import Proposal, braked, reason
from core.loads.reasons import ReasonCode
from core.programme.prescription import Load

LIGHTER = timedelta(days=21)
"""How long a lighter stretch may be, from the last heavier work to its own last. [days] Our proposal."""

MOST_BELIEVED = 12
"""Reps done and left past which the formula is believed no further. [reps] Our proposal under [Reynolds2006]."""


def before_lighter_week(inputs: Inputs, past: tuple[Performance, ...]) -> tuple[Performance, ...]:
    """Return `past` without a lighter stretch that the coach had written, and that is over today.

    She wrote less for a while and now writes more again: what went before it is where the load goes on from, and
    no cap is counted from the lighter load. It stays when anything in it was not done. Our proposal; a deload feeds
    no progress either [Bell2023].
    """
    hers, exercise = amount(inputs.dose.load, inputs.exercise), inputs.exercise
    lighter = amount(past[-1].exposure.written, exercise)
    if hers is None or lighter is None or hers <= lighter:
        return past
    start = len(past)
    while start and amount(past[start - 1].exposure.written, exercise) == lighter:
        start -= 1
    if start == 0 or any(one.verdict is not Verdict.DONE for one in past[start:]):
        return past
    given = [amount(one.exposure.dose.load, exercise) for one in past[start:]]
    if any(mass is not None and mass > past[start - 1].load for mass in given):
        return past  # What she wrote as lighter was more than the client had come to.
    before = past[start - 1].exposure
    heavier = amount(before.written, exercise)
    if heavier is None or heavier <= lighter or before.on < past[-1].exposure.on - LIGHTER:
        return past
    return past[:start]


def lighter_over(asked: Asked, counted: tuple[Performance, ...]) -> tuple[Reason, ...]:
    """Return that a lighter week is over, and from where the load goes on."""
    before = counted[-1]
    facts = {"load": load_text(before.load, asked.exercise), "date": before.exposure.on.isoformat()}
    return (reason(ReasonCode.LIGHTER_OVER, **facts),)


def at_other_reps(asked: Asked, last: Performance) -> Proposal:
    """Return the load at another number of reps, by the formula; one capped step like any other.

    Up only after work that was done and within 12 reps in all, where the formula may be believed.
    Source: [Epley1985], [Stone1981].
    """
    before_left = last.exposure.dose.left if last.exposure.dose.left is not None else asked.left
    before = min(last.fewest, last.span.high) + (before_left or 0)
    now = asked.span.low + (asked.left or 0)
    if before > now:
        # More than the formula is believed for counts as the most that it is: one rep more never gives less.
        before = max(now, min(before, MOST_BELIEVED))
    factor = Decimal(1) if asked.timed else Decimal(30 + before) / (30 + now)
    sure = last.verdict is Verdict.DONE and braked(last, asked.left) is None
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
    """Return the proposal after what the coach newly wrote: lower always wins, higher only after work all done.

    Where the next step of the kit is over the cap, reps earn it first, whatever is written.
    """
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
    step = asked.ladder.over(last.load)
    if step is not None and step > asked.most_at_once(last.load, 1):
        return found
    if hers > found.load and last.verdict is Verdict.DONE and braked(last, asked.left) is None:
        facts = {
            "load": load_text(last.load, asked.exercise),
            "next": load_text(hers, asked.exercise),
            "written": load_text(hers, asked.exercise),
        }
        told = reason(ReasonCode.RAISE_WRITTEN, **facts)
        return replace(found, load=hers, target=asked.span.low, reasons=(told,), bridge=False)
    return found
