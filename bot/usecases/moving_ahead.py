"""A session that is still to come, moved by hand: where it can go, moved, and put back."""

from datetime import date, datetime, timedelta
from typing import Any

from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.merging import booked
from bot.usecases.moving import around, week_of
from core.checkin.training_log import Session
from core.local_time import instant_of, local_date
from core.programme.block import Weekday
from core.programme.replanning import How, Option, slide_both, slides

ONE_DAY = timedelta(days=1)


def options_ahead(session: Session, unit: Unit, now: datetime) -> tuple[Option, ...]:
    """Return where a session that is still to come can go inside its own week of the block; its own date is none.

    Far enough from what loads the same, as ever; where it finds no date by itself, the next one may make room.
    """
    client = unit.clients.get(session.client_id)
    begins, last = week_of(session, unit)
    first = max(local_date(now, client.zone or "UTC") + ONE_DAY, begins)
    mine, others = booked(session, unit), around(session, unit)
    found = [Option(how=How.SLIDE, on=on) for on in slides(mine, others, first, last)]
    found = [each for each in found if each.on != session.local_on]
    if not found:
        both = slide_both(mine, others, [Weekday(day) for day in client.days or ()], first, last)
        found = [both] if both is not None and both.on != session.local_on else []
    return tuple(found)


def moved_ahead(
    session: Session, option: Option, client: Client, unit: Unit, now: datetime
) -> list[dict[str, Any]]:
    """Move a session, and another one where that makes room for it; return how both were, to be put back."""
    before = [_as_it_was(session)]
    if option.on is not None:
        _put(session.id, option.on, client, unit, now)
    if option.other is not None and option.other_on is not None:
        before.append(_as_it_was(unit.sessions.get(option.other)))
        _put(option.other, option.other_on, client, unit, now)
    return before


def put_back(before: list[dict[str, Any]], client: Client, unit: Unit, now: datetime) -> bool:
    """Put back what was moved, if all of it is still to come and its dates are free; return whether it was."""
    was = [(int(each["id"]), date.fromisoformat(each["on"]), bool(each["chosen"])) for each in before]
    planned = {each.id: each for each in unit.sessions.of_client(client.id, ("planned",))}
    mine = {each for each, _, _ in was}
    taken = {each.local_on for each in planned.values() if each.id not in mine}
    today = local_date(now, client.zone or "UTC")
    if not all(each in planned and on > today and on not in taken for each, on, _ in was):
        return False
    for each, on, chosen in was:
        _put(each, on, client, unit, now, chosen=chosen)
    return True


def _as_it_was(session: Session) -> dict[str, Any]:
    return {"id": session.id, "on": session.local_on.isoformat(), "chosen": session.date_chosen}


def _put(
    session_id: int, on: date, client: Client, unit: Unit, now: datetime, *, chosen: bool = True
) -> None:
    if client.hour is None:
        raise LookupError(f"client {client.id} has no hour")
    due_at = max(now, instant_of(on, client.hour, client.zone or "UTC"))
    unit.sessions.change(session_id, local_on=on, due_at=due_at, date_chosen=chosen)
