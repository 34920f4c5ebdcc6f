"""The end of a session: what was done, what comes next, and the decisions made for it."""

from datetime import datetime

from bot.messages import Effect, Person
from bot.render.closing import done_line, next_load_line, next_session_line
from bot.store.units import Unit
from bot.usecases.decisions import decide, dose_for
from bot.usecases.logging_sets import settle_cursor
from bot.usecases.session_view import show, view_of
from core.checkin.training_log import Item, Session
from core.loads.decision import Moment
from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Prescription


def close(session_id: int, person: Person, unit: Unit, now: datetime, *, moved: bool = False) -> list[Effect]:
    """Close a session: decisions for the next time, and one closing line."""
    items = unit.sessions.items(session_id)
    state = "done" if all(each.state == "done" for each in items) else "partial"
    unit.sessions.change(session_id, state=state, closed_at=now, cursor_item_id=None)
    lines = decide_next(unit.sessions.get(session_id), "closing", unit, now)
    return show(session_id, unit, screen="closed", closing=lines, moved=moved)


def onward(
    session_id: int,
    unit: Unit,
    person: Person,
    now: datetime,
    *,
    moved: bool = False,
    note: str | None = None,
) -> list[Effect]:
    """Go on to the next open exercise, to the question how it felt, or to the end."""
    screen = settle_cursor(session_id, unit)
    if screen == "closed":
        return close(session_id, person, unit, now, moved=moved)
    return show(session_id, unit, screen=screen, moved=moved, note=note)


def after_feel(session_id: int, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask for reps left in the main lift, if one was done; otherwise close."""
    prompt = unit.prompts.newest("session", session_id)
    if prompt is not None and view_of(unit.sessions.get(session_id), prompt, unit).main_done() is not None:
        return show(session_id, unit, screen="left")
    return close(session_id, person, unit, now)


def decide_next(session: Session, made_for: str, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Decide what comes next for each exercise of a closed session, and return the closing lines."""
    client = unit.clients.get(session.client_id)
    assignment = unit.blocks.assignment(session.assignment_id)
    block = unit.blocks.version(assignment.version_id)
    items = unit.sessions.items(session.id)
    lines = [done_line(sum(each.state == "done" for each in items), len(items))]
    for item in items:
        following = _next_dose(block, session, item)
        if following is None:
            continue
        week_no, prescription = following
        moment = Moment(today=session.local_on, week_no=week_no)
        exercise = CATALOGUE[item.exercise]
        dose = dose_for(exercise, prescription)
        _, decision = decide(client, item.exercise, dose, moment, made_for, unit, now)
        line = next_load_line(exercise, item.given, decision)
        if line is not None:
            lines.append(line)
    coming = unit.sessions.next_planned(client.id)
    if coming is not None:
        name = next((day.name for day in block.days if day.key == coming.day_key), coming.day_key)
        lines.append(next_session_line(name, coming.local_on))
    return tuple(lines)


def _next_dose(block: Block, session: Session, item: Item) -> tuple[int, Prescription] | None:
    """Return when the same line of the same day comes again, if it does."""
    written = item.prescription
    for day in block.days:
        if day.key != session.day_key:
            continue
        for week in range(session.week_no + 1, block.weeks + 1):
            for prescription in day.in_week(week):
                if (prescription.exercise, prescription.order) == (written.exercise, written.order):
                    return week, prescription
    return None
