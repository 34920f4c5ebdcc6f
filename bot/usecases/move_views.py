"""What can be done about a session, and what has moved, gathered for the words of it."""

from datetime import datetime

from bot.render.moving import Move, MovedTo, TakenIn
from bot.store.units import Unit
from bot.usecases.merging import is_merge, lines_of, with_lift, written_for
from core.checkin.training_log import Session
from core.local_time import instant_of, local_date
from core.programme.replanning import How, Option


def move_view(option: Option, session: Session, unit: Unit, now: datetime) -> Move:
    """Gather an option for its button and words.

    Raises:
        LookupError: It leaves the session out.
    """
    if option.on is None:
        raise LookupError("a session that is left out goes to no day")
    client = unit.clients.get(session.client_id)
    zone = client.zone or "UTC"
    other = unit.sessions.get(option.other) if option.other is not None else None
    merged = with_lift(lines_of(other, unit), session, unit) if other and option.how is How.MERGE else None
    due_at = instant_of(option.on, client.hour, zone) if client.hour is not None else now
    return Move(
        how=option.how,
        on=option.on,
        today=local_date(now, zone),
        due_at=max(now, due_at),
        zone=zone,
        other=day_name(other, unit) if other else "",
        other_from=other.local_on if other else None,
        other_on=option.other_on,
        lift=unit.exercises.get(merged.lift.exercise).name if merged and merged.lift else "",
        dropped=tuple(unit.exercises.get(each.exercise).name for each in merged.dropped) if merged else (),
    )


def taken_in(session: Session, unit: Unit) -> TakenIn | None:
    """Gather the lift that a session takes in; None for most."""
    if not any(is_merge(each, session) for each in unit.moves.came_to(session.id)):
        return None
    written = written_for(session, unit)
    if written.lift is None or written.lift_from is None:
        return None
    return TakenIn(
        lift=unit.exercises.get(written.lift.exercise).name,
        day=day_name(written.lift_from, unit),
        on=written.lift_from.local_on,
        dropped=tuple(unit.exercises.get(each.exercise).name for each in written.dropped),
    )


def moved_to(session: Session, unit: Unit) -> MovedTo | None:
    """Return where a session has gone; None where it has gone nowhere."""
    if session.state != "moved" or session.moved_to is None:
        return None
    to = unit.sessions.get(session.moved_to)
    return MovedTo(to.local_on, day_name(to, unit) if is_merge(session, to) else None)


def day_name(session: Session, unit: Unit) -> str:
    """Return what the coach calls the day of a session."""
    return unit.versions.day_name(session)
