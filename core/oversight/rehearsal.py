"""A block played against simulated clients before anyone is sent it: what came of it, gathered from all of them.

It shows how a block goes on under the rules: how loads move, which rules speak, what waits for a step, what is done of
what is planned. It is no forecast of anybody's strength, and it cannot tell whether a block's first loads are right.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from decimal import Decimal

from core.checkin.pain import Band
from core.loads.decision import Kind
from core.loads.reasons import ReasonCode
from core.oversight.attendance import Attendance
from core.oversight.rehearsal_result import (
    LiftLoads,
    MuscleWeek,
    PainCount,
    Rehearsal,
    RuleCount,
    SessionCount,
    Spread,
    Wait,
    WeekLoad,
)
from core.oversight.simulated_client import Played
from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Implement
from core.programme.muscles import Muscle
from core.programme.problems import Problem
from core.programme.volume import sets_by_muscle
from core.units import Unit


def rehearsal(
    block: Block,
    weeks: int,
    runs: Sequence[Played],
    warnings: Sequence[Problem] = (),
    catalogue: Mapping[str, Exercise] = CATALOGUE,
) -> Rehearsal:
    """Return what came of the first weeks of a block.

    Args:
        block: As written.
        weeks: How many were played.
        runs: One for each client, at least one.
        warnings: What the file and the block's own checks warn of.
        catalogue: Exercises that may be named.
    """
    told = [one for run in runs for one in run.told]
    return Rehearsal(
        block=block.name,
        weeks=weeks,
        clients=len(runs),
        new=sum(run.lifter.new for run in runs),
        older=sum(run.lifter.age_band == "60+" for run in runs),
        kits=Counter(sorted(run.lifter.kit_kind for run in runs)),
        decisions=len(told),
        kinds=Counter(sorted(one.kind for one in told)),
        lifts=tuple(_lift(key, weeks, runs) for key in main_lifts(block, catalogue)),
        rules=_rules(runs),
        waits=_waits(runs),
        muscles=_muscles(block, weeks, runs, catalogue),
        sessions=_sessions(runs),
        pain=_pain(runs),
        warnings=tuple(warnings),
        breaches=tuple(breach for run in runs for breach in run.breaches),
    )


def main_lifts(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE) -> tuple[str, ...]:
    """Return the main lifts of a block in the order written; without any, what its days begin with and has a load."""
    lines = [line.prescription for day in block.days for line in day.lines]
    main = [one.exercise for one in lines if catalogue[one.exercise].main_lift]
    first = [day.lines[0].prescription.exercise for day in block.days if day.lines]
    loaded = [key for key in first if catalogue[key].implement is not Implement.BAND]
    return tuple(dict.fromkeys(main or loaded))


def _lift(key: str, weeks: int, runs: Sequence[Played]) -> LiftLoads:
    by_week = [
        [run.loads[key, week] for run in runs if (key, week) in run.loads] for week in range(1, weeks + 1)
    ]
    unit = next((mass.unit for masses in by_week for mass in masses), Unit.KG)
    return LiftLoads(
        exercise=key,
        unit=unit,
        weeks=tuple(
            WeekLoad(
                week=week,
                clients=len(masses),
                load=Spread.of(mass.to(unit).value for mass in masses) if masses else None,
            )
            for week, masses in enumerate(by_week, 1)
        ),
        instead=sum(run.instead.get(key, key) not in (key, None) for run in runs),
        unplaced=sum(key in run.instead and run.instead[key] is None for run in runs),
    )


def _rules(runs: Sequence[Played]) -> tuple[RuleCount, ...]:
    first = Counter(one.codes[0] for run in runs for one in run.told)
    binding = Counter(one.binding for run in runs for one in run.told)
    heard = Counter(code for run in runs for code in {code for one in run.told for code in one.codes})
    counts = (
        RuleCount(code=code, first=first[code], binding=binding[code], clients=heard[code])
        for code in sorted({*first, *heard, *(code for code in binding if code is not None)})
    )
    return tuple(sorted(counts, key=lambda one: (-one.first, -one.binding, one.code)))


def _waits(runs: Sequence[Played]) -> tuple[Wait, ...]:
    clients: Counter[str] = Counter()
    sessions: Counter[str] = Counter()
    earned: Counter[str] = Counter()
    bridges: Counter[str] = Counter()
    jumps: dict[str, Counter[str]] = {}
    for run in runs:
        waited = [(one.exercise, one.waits) for one in run.told if one.waits is not None]
        clients.update({key for key, _ in waited})
        sessions.update(key for key, _ in waited)
        for key, percent in waited:
            jumps.setdefault(key, Counter())[percent] += 1
        earned.update(one.exercise for one in run.told if ReasonCode.RAISE_EARNED in one.codes)
        bridges.update(one.exercise for one in run.told if ReasonCode.BRIDGE in one.codes)
    counts = (
        Wait(
            exercise=key,
            clients=clients[key],
            sessions=sessions[key],
            earned=earned[key],
            bridges=bridges[key],
            percent=max(jumps[key].items(), key=lambda one: (one[1], one[0]))[0],
        )
        for key in sorted(clients)
    )
    return tuple(sorted(counts, key=lambda one: (-one.clients, -one.sessions, one.exercise)))


def _muscles(
    block: Block, weeks: int, runs: Sequence[Played], catalogue: Mapping[str, Exercise]
) -> tuple[MuscleWeek, ...]:
    planned = {week: sets_by_muscle(block, week, catalogue) for week in range(1, weeks + 1)}
    found = []
    for muscle in Muscle:
        for week in range(1, weeks + 1):
            done = sum((run.sets.get((week, muscle), Decimal(0)) for run in runs), Decimal(0)) / len(runs)
            asked = planned[week].get(muscle, Decimal(0))
            found.append(MuscleWeek(muscle=muscle, week=week, planned=asked, done=done))
    trained = {one.muscle for one in found if one.planned or one.done}
    return tuple(one for one in found if one.muscle in trained)


def _sessions(runs: Sequence[Played]) -> SessionCount:
    came = Counter(attendance for run in runs for _, attendance in run.sessions)
    kept = [Decimal(sum(attendance is Attendance.KEPT for _, attendance in run.sessions)) for run in runs]
    return SessionCount(
        due=came.total(),
        kept=came[Attendance.KEPT],
        missed=came[Attendance.MISSED],
        away=came[Attendance.AWAY],
        each=Spread.of(kept),
    )


def _pain(runs: Sequence[Played]) -> PainCount:
    bands = Counter(each for run in runs for each in run.pains)
    of_pain = [one for run in runs for one in run.told if any(code.startswith("pain ") for code in one.codes)]
    return PainCount(
        clients=sum(bool(run.pains) for run in runs),
        low=bands[Band.LOW],
        middle=bands[Band.MIDDLE],
        high=bands[Band.HIGH],
        held=len(of_pain),
        locked=sum(one.kind is Kind.PAUSE for one in of_pain),
    )
