"""Short ways to write what was asked, what was done, and what hurt."""

from datetime import UTC, date, datetime, time, timedelta

from core.checkin.pain import Felt, PainReport
from core.loads.decision import (
    Cause,
    Decision,
    Exposure,
    Inputs,
    Lifter,
    Moment,
    Outcome,
    SetDone,
    next_decision,
)
from core.loads.equipment import Kit, default_kit
from core.policy import Policy
from core.programme.catalogue import exercise
from core.programme.exercises import Side, Site
from core.programme.prescription import Dose, Load, Span
from core.units import Unit

TODAY = date(2026, 4, 14)
GYM = default_kit("both", Unit.KG).model_copy(update={"safety_arms": True})
HOME = default_kit("dumbbells", Unit.KG)
BARE = default_kit("bodyweight", Unit.KG)


def load_of(text: str | None) -> Load | None:
    """`92.5`, `20 lb`, `bw`, `bw+5`, `bw-10`, `find`."""
    if text is None or text == "find":
        return None if text is None else Load.find()
    if text.startswith("bw"):
        return Load.bodyweight(Load.of(text[2:]).mass if len(text) > 2 else None)
    number, _, unit = text.partition(" ")
    return Load.of(number, unit or "kg")


def span_of(text: str) -> Span:
    low, _, high = text.partition("-")
    return Span(low=int(low), high=int(high or low))


def dose(sets: int, reps: str, load: str | None = None, left: int | None = 2, *, timed: bool = False) -> Dose:
    counted = {"seconds" if timed else "reps": span_of(reps)}
    return Dose(sets=sets, load=load_of(load), left=None if timed else left, **counted)


def day(days_ago: int) -> date:
    return TODAY - timedelta(days=days_ago)


def done(
    days_ago: int,
    asked: Dose,
    counts: str,
    *,
    loads: str | None = None,
    left: int | None = None,
    tap: bool = False,
    cause: Cause | None = None,
    effort: int | None = None,
    deload: bool = False,
    sides: str = "",
    outcome: Outcome = Outcome.DONE,
    written: str | None = None,
) -> Exposure:
    """One past session: `counts` as `8 8 7`, `loads` as `90 90 85` where they differ from what was asked."""
    numbers = [int(each) for each in counts.split()]
    lifted = loads.split() if loads else []
    order = list(sides) or [""] * len(numbers)
    seen: dict[str, int] = {}
    sets = []
    for place, count in enumerate(numbers):
        side = order[place]
        seen[side] = seen.get(side, 0) + 1
        sets.append(
            SetDone(
                row_id=1000 - 10 * days_ago + place,
                set_no=seen[side],
                side=Side(side) if side else None,
                load=load_of(lifted[place]) if lifted else asked.load,
                reps=count if asked.seconds is None else None,
                seconds=count if asked.seconds is not None else None,
                left=left if place == len(numbers) - 1 else None,
            )
        )
    return Exposure(
        session_id=1000 - days_ago,
        on=day(days_ago),
        week_no=1,
        dose=asked,
        sets=tuple(sets),
        by_tap=tap,
        outcome=outcome,
        cause=cause,
        effort=effort,
        deload=deload,
        written=load_of(written),
    )


def hurt(
    days_ago: int, site: Site, score: int | None, *, felt: Felt = Felt.DURING, row: int = 1, **more: object
) -> PainReport:
    on = day(days_ago)
    return PainReport(
        row_id=row, site=site, score=score, felt=felt, on=on, at=datetime.combine(on, time(18), UTC), **more
    )


def inputs(
    key: str,
    asked: Dose,
    *history: Exposure,
    kit: Kit = GYM,
    lifter: Lifter | None = None,
    pain: tuple[PainReport, ...] = (),
    policy: Policy | None = None,
    deload: bool = False,
    last_trained: date | None = None,
    comeback_set_on: date | None = None,
    trained_on: tuple[date, ...] = (),
) -> Inputs:
    return Inputs(
        exercise=exercise(key),
        dose=asked,
        history=history,
        kit=kit,
        policy=policy or Policy(),
        lifter=(lifter or Lifter()).model_copy(update={"pain": pain}),
        moment=Moment(today=TODAY, week_no=2, deload=deload),
        last_trained=last_trained,
        comeback_set_on=comeback_set_on,
        trained_on=trained_on,
    )


def decide(key: str, asked: Dose, *history: Exposure, **more: object) -> Decision:
    return next_decision(inputs(key, asked, *history, **more))


def codes(decision: Decision) -> list[str]:
    return [str(one.code) for one in decision.reasons]


def brief(decision: Decision) -> str:
    """`raise 92.5 kg 5x8 left 2: raise done twice`: the decision in one line."""
    load = "-" if decision.load is None else str(decision.load)
    left = "" if decision.left is None else f" left {decision.left}"
    bridge = " bridge" if decision.bridge else ""
    return f"{decision.kind} {load} {decision.sets}x{decision.target}{left}{bridge}: {', '.join(codes(decision))}"
