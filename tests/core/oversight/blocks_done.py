"""A block of two days and what was done in it, for reports."""

from collections.abc import Iterable
from datetime import date, timedelta

from core.loads.dated_estimates import DatedEstimate
from core.loads.estimate_history import dated_estimate
from core.loads.past import Exposure, SetDone
from core.loads.work_done import WorkDone
from core.oversight.misses import Past
from core.oversight.report import report
from core.oversight.report_parts import DoneOnDay, PainAt, Report, Told
from core.policy import Policy
from core.programme.block import Block, Day, Line, Target
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Dose, Load, Prescription, Span

FIRST = date(2026, 4, 7)
LIFTS = {"lower": ("hip-thrust", "leg-curl"), "upper": ("bench-press", "lateral-raise")}


def block(weeks: int = 8, *targets: Target, reps: int = 8, lighter: Iterable[int] = (5,)) -> Block:
    """Two days a week, four sets of each exercise."""
    days = []
    for key, exercises in LIFTS.items():
        lines = tuple(
            Line(
                weeks=frozenset(range(1, weeks + 1)),
                prescription=Prescription(order="AB"[place], exercise=exercise, dose=dose("60", reps)),
            )
            for place, exercise in enumerate(exercises)
        )
        days.append(Day(key=key, name=key.title(), lines=lines, lighter_weeks=frozenset(lighter)))
    return Block(name="Harbour strength", weeks=weeks, days=tuple(days), targets=targets)


def dose(load: str, reps: int = 8) -> Dose:
    return Dose(sets=4, reps=Span(low=reps, high=reps), load=Load.of(load), left=2)


def work(
    exercise: str, on: date, week: int, load: str | None, *counts: int, light: str | None = None
) -> WorkDone:
    sets = tuple(
        SetDone(
            row_id=number,
            set_no=number,
            load=Load.of(load) if load is not None else None,
            reps=count,
            left=2,
        )
        for number, count in enumerate(counts, 1)
    )
    exposure = Exposure(
        session_id=on.toordinal(),
        on=on,
        week_no=week,
        dose=dose(load or "60"),
        sets=sets,
        deload=light == "deload",
        eased=light == "eased",
    )
    return WorkDone(exercise=CATALOGUE[exercise], exposure=exposure)


def day(
    week: int,
    state: str = "done",
    *done: tuple[str, str | None, tuple[int, ...]],
    later: int = 0,
    light: str | None = None,
) -> DoneOnDay:
    """A session of a week, `later` days after its first; `light` in a lighter week by order, or eased."""
    on = FIRST + timedelta(days=7 * (week - 1) + later)
    past = Past(session_id=on.toordinal(), on=on, state=state)
    made = tuple(work(name, on, week, load, *counts, light=light) for name, load, counts in done)
    return DoneOnDay(past=past, week=week, work=made)


def points_of(sessions: Iterable[DoneOnDay]) -> dict[str, tuple[DatedEstimate, ...]]:
    found: dict[str, list[DatedEstimate]] = {}
    for each in sessions:
        for one in each.work:
            made = dated_estimate(one.exposure, one.exercise)
            if made is not None:
                found.setdefault(one.exercise.key, []).append(made)
    return {key: tuple(made) for key, made in found.items()}


def reported(
    sessions: list[DoneOnDay],
    *targets: Target,
    today: date = FIRST + timedelta(days=60),
    pain: tuple[PainAt, ...] = (),
    answers: tuple[tuple[str, str], ...] = (),
    held: bool = False,
    weeks: int = 8,
    reps: int = 8,
) -> Report:
    told = Told(
        name="Ada",
        today=today,
        first=FIRST,
        last=FIRST + timedelta(days=7 * weeks - 1),
        held=held,
        pain=pain,
        answers=answers,
    )
    made = block(weeks, *targets, reps=reps, lighter=(5,) if weeks >= 5 else ())
    return report(told, made, sessions, points_of(sessions), CATALOGUE, Policy())


def rising(weeks: int = 8, step: float = 2.5) -> list[DoneOnDay]:
    """Hip thrust each week, some more each time; bench press of the same load."""
    found = []
    for week in range(1, weeks + 1):
        noise = (0, 0.5, -0.5)[week % 3]
        load = f"{90 + step * (week - 1) + noise:g}"
        found.append(day(week, "done", ("hip-thrust", load, (8, 8, 8, 8)), ("leg-curl", "30", (10, 10))))
        found.append(day(week, "done", ("bench-press", "50", (8, 8, 8, 8)), later=3))
    return found
