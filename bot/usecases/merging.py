"""A session as it comes: what its day asks for, and the main lift of another day that it takes in."""

from collections.abc import Sequence
from dataclasses import dataclass

from bot.store.units import Unit
from core.checkin.training_log import Session
from core.loads.decision import Moment
from core.programme.block import session_order
from core.programme.prescription import Prescription
from core.programme.replanning import Booked, Work, left_out_for, mains
from core.programme.together import TAKEN_IN


@dataclass(frozen=True, slots=True)
class Written:
    """What a session asks for.

    Attributes:
        lines: In session order.
        lift: The main lift of another day among them; None for most sessions.
        lift_from: The session that it comes from.
        dropped: What is left out to make room for it.
    """

    lines: tuple[Prescription, ...]
    lift: Prescription | None = None
    lift_from: Session | None = None
    dropped: tuple[Prescription, ...] = ()


def written_for(session: Session, unit: Unit) -> Written:
    """Return what a session asks for, with the lift that it takes in after what it begins with.

    The heaviest compound first, the next one after it: common practice, no source.
    """
    lines = lines_of(session, unit)
    joined = next((each for each in unit.moves.came_to(session.id) if is_merge(each, session)), None)
    if joined is None:
        return Written(lines)
    return with_lift(lines, joined, unit)


def with_lift(lines: Sequence[Prescription], joined: Session, unit: Unit) -> Written:
    """Return what a session asks for that takes in the main lift of another."""
    theirs = lines_of(joined, unit)
    work = work_of(theirs, unit)
    lift = theirs[work.index(mains(work)[0])]
    plan = work_of(lines, unit)
    gone = left_out_for(work_of([lift], unit)[0], plan)
    if gone is None:
        return Written(tuple(lines))
    kept = [each for place, each in enumerate(lines) if place not in gone]
    place = sum(session_order(each.order)[0] == session_order(kept[0].order)[0] for each in kept)
    taken_in = lift.model_copy(update={"order": f"{kept[place - 1].order}{TAKEN_IN}"})
    return Written(
        lines=(*kept[:place], taken_in, *kept[place:]),
        lift=taken_in,
        lift_from=joined,
        dropped=tuple(lines[place] for place in gone),
    )


def is_merge(moved: Session, into: Session) -> bool:
    """Return whether a session's main lift went into another one, and not the session as a whole to another day."""
    return (moved.assignment_id, moved.week_no, moved.day_key) != (
        into.assignment_id,
        into.week_no,
        into.day_key,
    )


def lines_of(session: Session, unit: Unit) -> tuple[Prescription, ...]:
    """Return what the day of a session asks for in its week, as written."""
    day = unit.versions.block_of(session).day(session.day_key)
    return day.in_week(session.week_no) if day is not None else ()


def work_of(lines: Sequence[Prescription], unit: Unit) -> tuple[Work, ...]:
    """Return lines as the rules of moving see them."""
    return tuple(
        Work(
            exercise=each.exercise,
            order=each.order,
            sets=each.dose.sets,
            pattern=unit.exercises.get(each.exercise).pattern,
            main=unit.exercises.get(each.exercise).main_lift,
        )
        for each in lines
    )


def moment_of(session: Session, unit: Unit) -> Moment:
    """Return where in the plan a session stands."""
    merged = any(is_merge(each, session) for each in unit.moves.came_to(session.id))
    return Moment(today=session.local_on, week_no=session.week_no, merged=merged)


def booked(session: Session, unit: Unit, *, movable: bool = False) -> Booked:
    """Return a session as the rules of moving see it."""
    written = written_for(session, unit)
    return Booked(
        session_id=session.id,
        on=session.local_on,
        work=work_of(written.lines, unit),
        movable=movable,
        takes_in=written.lift is not None,
    )
