"""Histories as they come about: each session is asked by the rules, then done as somebody might do it."""

from datetime import timedelta
from typing import Protocol, TypeVar

from core.loads.decision import Cause, Decision, Exposure, Inputs, Lifter, Moment, SetDone, next_decision
from core.loads.equipment import ladder_for
from core.loads.given import given_dose
from core.loads.order import CoachOrder, OrderKind
from core.programme.catalogue import exercise
from core.programme.exercises import Basis, Exercise
from core.programme.prescription import Dose, Load, LoadKind, Span
from core.programme.ways_up import BY_TABLE, TABLE_REPS, TABLE_SETS, WayKind, WayUp
from core.units import Mass
from tests.core.loads.lifts import GYM, TODAY

T = TypeVar("T")
KEYS = (
    "back-squat", "bench-press", "curl", "goblet-squat", "leg-press", "one-arm-row", "pull-up", "kettlebell-swing",
    "deadlift",
)  # fmt: skip
WAYS = tuple(kind for kind in WayKind if kind is not WayKind.VARIANTS)


class Chance(Protocol):
    """Where choices come from: a strategy that draws, or a seeded generator."""

    def choice(self, of: tuple[T, ...]) -> T: ...


def load_of(row: Exercise, mass: Mass) -> Load:
    return Load.bodyweight(mass) if row.basis is Basis.BODYWEIGHT else Load(LoadKind.MASS, mass)


def written(chance: Chance) -> tuple[Exercise, Dose]:
    """An exercise with a dose and the way up that is written for it."""
    row = exercise(chance.choice(KEYS))
    steps = [mass for mass in ladder_for(row, GYM).steps if Mass.of(0) < mass <= Mass.of(120)]
    kind = chance.choice(WAYS)
    if row.basis is Basis.BODYWEIGHT and kind in BY_TABLE:
        kind = WayKind.ADD_REPS
    low = chance.choice((3, 5, 6, 8, 10))
    ranged = kind in (WayKind.ADD_REPS, WayKind.TOTAL_REPS, WayKind.UNCHANGED)
    high = low + chance.choice((2, 4)) if ranged else low
    sets, left = chance.choice((1, 2, 3)), chance.choice((None, 1, 2, 3))
    if kind in BY_TABLE:
        low = high = TABLE_REPS[kind]
        sets, left = TABLE_SETS, None
    if kind is WayKind.BY_LEFT:
        left = left or 2
    dose = Dose(
        sets=sets,
        reps=Span(low=low, high=high),
        load=load_of(row, chance.choice(tuple(steps))),
        left=left,
        or_more=kind is WayKind.LAST_SET,
        way=WayUp(kind=kind),
    )
    return row, dose


def played(chance: Chance) -> Inputs:
    """The inputs of a session after up to five that were asked by the rules."""
    row, dose = written(chance)
    ago = [chance.choice((2, 3, 4, 6))]
    for _ in range(chance.choice((0, 1, 2, 3, 4))):
        ago.append(ago[-1] + chance.choice((2, 3, 4, 7)))
    lifter = Lifter(
        new=chance.choice((False, False, False, True)), age_band=chance.choice(("18-39", "18-39", "60+"))
    )
    history: list[Exposure] = []
    for days in reversed(ago):
        history.append(_session(chance, asked_on(row, dose, tuple(history), lifter, days, chance)))
    return asked_on(row, dose, tuple(history), lifter, 0, chance)


def asked_on(
    row: Exercise, dose: Dose, history: tuple[Exposure, ...], lifter: Lifter, days_ago: int, chance: Chance
) -> Inputs:
    """The inputs of a session, eased or merged now and then, of other reps or another load now and then."""
    today = TODAY - timedelta(days=days_ago)
    may_change = dose.way is not None and dose.way.kind not in BY_TABLE
    load, reps = dose.load, dose.reps
    change = chance.choice(("", "", "", "", "", "", "", "reps", "load")) if may_change and history else ""
    if change == "reps" and reps is not None:
        low = chance.choice((5, 8, 12))
        reps = Span(low=low, high=low + reps.high - reps.low)
    if change == "load" and load is not None and load.mass is not None:
        load = load_of(row, load.mass * chance.choice((9, 11)) / 10)
    orders = (CoachOrder(row_id=1, kind=OrderKind.EASE, percent=10),)
    return Inputs(
        exercise=row,
        dose=dose.model_copy(update={"load": load, "reps": reps}),
        history=history,
        kit=GYM,
        lifter=lifter,
        moment=Moment(today=today, week_no=2, merged=chance.choice((False,) * 15 + (True,))),
        last_trained=history[-1].on if history else None,
        orders=orders if chance.choice((False,) * 15 + (True,)) else (),
    )


def _session(chance: Chance, inputs: Inputs) -> Exposure:
    """What somebody made of what was given: mostly all of it, now and then less, more or another load."""
    made: Decision = next_decision(inputs)
    given = given_dose(inputs.dose, made)
    short = chance.choice((0,) * 9 + (1,))
    sets = []
    for number in range(1, max(1, given.sets - short) + 1):
        load, reps = _set_given(inputs, made, number)
        more = chance.choice((0, 0, 0, 0, 1, 2, 4, -1, -2))
        off = Mass.of(chance.choice((0,) * 12 + (1, 2, -2)))
        mass = None if load is None or load.mass is None else load.mass + off
        lifted = load if mass is None or load is None else Load(load.kind, mass)
        left = chance.choice((None, None, None, 0, 1, 2, 3, 4))
        done = max(0, reps + more)
        sets.append(
            SetDone(
                row_id=100 * inputs.moment.today.day + number,
                set_no=number,
                load=lifted,
                reps=done,
                left=left,
            )
        )
    return Exposure(
        session_id=inputs.moment.today.toordinal(),
        on=inputs.moment.today,
        week_no=1,
        dose=inputs.dose.model_copy(update={"load": given.load, "sets": given.sets, "left": given.left}),
        sets=tuple(sets),
        by_tap=given.told_by_tap and chance.choice((False, False, True)),
        cause=chance.choice((None,) * 12 + tuple(Cause)),
        effort=chance.choice((None, None, 3, 4, 5)),
        written=inputs.dose.load,
        eased=bool(inputs.orders),
        merged=inputs.moment.merged,
    )


def _set_given(inputs: Inputs, made: Decision, number: int) -> tuple[Load | None, int]:
    if made.plan is None:
        return made.load, made.target
    if number <= len(made.plan.sets):
        return made.plan.sets[number - 1].load, made.plan.sets[number - 1].reps
    return made.plan.fourth(made.target), made.target
