"""The report of a block: what was planned and done, where the lifts went, what hurt, and what may come next."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from decimal import Decimal

from core.loads.dated_estimates import DatedEstimate
from core.loads.hard_sets import hard_sets_by_muscle
from core.loads.stall import is_falling, is_stalled
from core.loads.trend import Direction, Trend, trend
from core.loads.work_done import WorkDone
from core.oversight.misses import Tally, is_due
from core.oversight.options import EndFacts, options
from core.oversight.report_parts import (
    DoneOnDay,
    LiftRun,
    MuscleWeek,
    PainAt,
    Report,
    SetSeen,
    TargetMet,
    Told,
    WeekDone,
)
from core.policy import Policy
from core.programme.block import Block, Target
from core.programme.exercises import Exercise
from core.programme.muscles import Muscle
from core.programme.prescription import Load
from core.programme.volume import sets_by_muscle, working_sets

LATE = timedelta(days=14)
"""Days before the end in which pain counts as of now. [days] Our proposal."""


def report(
    told: Told,
    block: Block,
    sessions: Sequence[DoneOnDay],
    points: Mapping[str, Sequence[DatedEstimate]],
    catalogue: Mapping[str, Exercise],
    policy: Policy,
) -> Report:
    """Return the report of a block, so far or as it ended.

    Args:
        told: Who, when, and what was said.
        block: As it was for the client at its end.
        sessions: All that are over or open.
        points: Estimates of lifts in that time, by exercise.
        catalogue: The coach's exercises.
        policy: Her thresholds.
    """
    seen = max(min(week := _week_now(told, block), block.weeks), 0)
    by_week = tuple(_week(each, block, sessions) for each in range(1, block.weeks + 1))
    kept = sum((each.counted for each in by_week), Tally())
    lifts = _lifts(block, sessions, points, catalogue, policy)
    targets = tuple(_target(each, sessions, catalogue, over=week > each.week) for each in block.targets)
    facts = EndFacts(
        held=told.held,
        **_by_trend(lifts),
        kept=kept,
        **_pain(told.pain, min(told.today, told.last)),
        **_reached(targets),
        reps=mean_reps(block, seen, catalogue),
        weeks_since_lighter=seen - max((each for each in block.lighter_weeks if each <= seen), default=0),
    )
    return Report(
        name=told.name,
        block=block.name,
        first=told.first,
        last=told.last,
        today=told.today,
        week=week,
        weeks=block.weeks,
        by_week=by_week,
        kept=kept,
        lifts=lifts,
        muscles=_muscles(block, seen, sessions, catalogue),
        targets=targets,
        pain=told.pain,
        answers=told.answers,
        options=options(facts, policy),
        policy=policy,
    )


def _week_now(told: Told, block: Block) -> int:
    """Return the week that a client is in; one more than the block has when it is over."""
    return (told.today - told.first).days // 7 + 1 if told.today <= told.last else block.weeks + 1


def _reached(targets: Iterable[TargetMet]) -> dict[str, int]:
    """Return how many targets were reached, of those whose week is over or that were reached before."""
    kept = tuple(targets)
    return {
        "reached": sum(each.met is not None for each in kept),
        "targets": sum(each.over or each.met is not None for each in kept),
    }


def _week(week: int, block: Block, sessions: Iterable[DoneOnDay]) -> WeekDone:
    asked = [each for day in block.days for each in day.in_week(week)]
    mine = [each for each in sessions if each.week == week]
    done = sum(
        len({one.set_no for one in work.exposure.sets if any((one.reps, one.seconds, one.metres))})
        for each in mine
        for work in each.work
    )
    return WeekDone(
        week=week,
        lighter=week in block.lighter_weeks,
        sessions=sum(bool(day.in_week(week)) for day in block.days),
        counted=Tally(
            kept=sum(each.past.state in ("done", "partial") for each in mine),
            due=sum(is_due(each.past) for each in mine),
        ),
        sets=sum(working_sets(each.dose) for each in asked),
        done=done,
    )


def _lifts(
    block: Block,
    sessions: Iterable[DoneOnDay],
    points: Mapping[str, Sequence[DatedEstimate]],
    catalogue: Mapping[str, Exercise],
    policy: Policy,
) -> tuple[LiftRun, ...]:
    tops: dict[str, list[SetSeen]] = {}
    full: dict[str, SetSeen] = {}
    for each in sorted(sessions, key=lambda one: (one.past.on, one.past.session_id)):
        for work in each.work:
            top = _top(sets_seen(work, each))
            if work.exercise.main_lift and top is not None:
                tops.setdefault(work.exercise.key, []).append(top)
                if not _is_light(work, each, block):
                    full[work.exercise.key] = top
    found = []
    for key, seen in tops.items():
        mine = tuple(points.get(key, ()))
        found.append(
            LiftRun(
                exercise=catalogue[key],
                first=seen[0],
                last=seen[-1],
                full=full.get(key),
                sessions=len(seen),
                points=mine,
                trend=trend(mine, policy),
                stalled=is_stalled(mine, policy),
                falling=is_falling(mine, policy),
            )
        )
    return tuple(sorted(found, key=lambda each: (-each.sessions, each.exercise.name)))


def _is_light(work: WorkDone, session: DoneOnDay, block: Block) -> bool:
    """Return whether less was asked for on purpose, so that the next block must not begin from that load."""
    done = work.exposure
    return session.week in block.lighter_weeks or done.deload or done.eased or done.dose.lighter


def sets_seen(work: WorkDone, session: DoneOnDay) -> tuple[SetSeen, ...]:
    """Return the sets of an exercise that have reps, with their date and week."""
    return tuple(
        SetSeen(on=work.exposure.on, week=session.week, load=one.load, reps=one.reps)
        for one in work.exposure.sets
        if one.reps
    )


def _top(sets: Sequence[SetSeen]) -> SetSeen | None:
    return max(sets, key=lambda each: (_kg(each.load), each.reps), default=None)


def _kg(load: Load | None) -> Decimal:
    return load.mass.kg if load is not None and load.mass is not None else Decimal(0)


def _target(
    target: Target, sessions: Iterable[DoneOnDay], catalogue: Mapping[str, Exercise], *, over: bool
) -> TargetMet:
    sets = [
        one
        for each in sorted(sessions, key=lambda one: (one.past.on, one.past.session_id))
        for work in each.work
        if work.exercise.key == target.exercise and each.week <= target.week
        for one in sets_seen(work, each)
    ]
    met = next((each for each in sets if _reaches(each, target)), None)
    near = [each for each in sets if each.reps >= target.reps] or sets
    return TargetMet(
        target=target,
        exercise=catalogue[target.exercise],
        met=met,
        best=None if met is not None else _top(near),
        over=over,
    )


def _reaches(one: SetSeen, target: Target) -> bool:
    if one.load is None or one.load.kind is not target.load.kind or one.reps < target.reps:
        return False
    return _kg(one.load) >= _kg(target.load)


def _muscles(
    block: Block, seen: int, sessions: Iterable[DoneOnDay], catalogue: Mapping[str, Exercise]
) -> tuple[MuscleWeek, ...]:
    if not seen:
        return ()
    planned: dict[Muscle, Decimal] = {}
    for week in range(1, seen + 1):
        for muscle, sets in sets_by_muscle(block, week, catalogue).items():
            planned[muscle] = planned.get(muscle, Decimal(0)) + sets
    done = hard_sets_by_muscle(work for each in sessions for work in each.work)
    return tuple(
        MuscleWeek(
            muscle=muscle,
            planned=planned.get(muscle, Decimal(0)) / seen,
            done=done.get(muscle, Decimal(0)) / seen,
        )
        for muscle in Muscle
        if muscle in planned or muscle in done
    )


def mean_reps(block: Block, week: int, catalogue: Mapping[str, Exercise]) -> Decimal | None:
    """Return the mean reps that the main lifts ask for in a set; None where they ask for none.

    Of the last week up to `week` that is no lighter one.
    """
    full = [each for each in range(1, week + 1) if each not in block.lighter_weeks]
    asked = [
        Decimal(each.dose.reps.low + each.dose.reps.high) / 2
        for day in block.days
        for each in (day.in_week(full[-1]) if full else ())
        if catalogue[each.exercise].main_lift and each.dose.reps is not None
    ]
    return sum(asked, Decimal(0)) / len(asked) if asked else None


def _by_trend(lifts: Iterable[LiftRun]) -> dict[str, tuple[str, ...]]:
    """Return names of lifts by where they go; one that falls is no more called stalled."""
    found: dict[str, list[str]] = {"rising": [], "falling": [], "stalled": [], "unknown": []}
    for each in lifts:
        known = each.trend if isinstance(each.trend, Trend) else None
        if each.falling or (known is not None and known.direction is Direction.FALLING):
            found["falling"].append(each.exercise.name)
        elif known is not None and known.direction is Direction.RISING:
            found["rising"].append(each.exercise.name)
        elif each.stalled:
            found["stalled"].append(each.exercise.name)
        elif known is None:
            found["unknown"].append(each.exercise.name)
    return {key: tuple(names) for key, names in found.items()}


def _pain(pain: Iterable[PainAt], until: date) -> dict[str, int | None]:
    said = [one for each in pain for one in each.felt]
    return {
        "pain": len(said),
        "pain_worst": max((score for _, score in said if score is not None), default=None),
        "pain_late": sum(on > until - LATE and score != 0 for on, score in said),
    }
