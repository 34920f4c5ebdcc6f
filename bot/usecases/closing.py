"""The end of a session: what was done, what comes next, and the decisions made for it."""

from datetime import datetime

from bot.messages import Effect, Person
from bot.render.closing import done_line, next_load_lines, next_session_line
from bot.store.units import Unit
from bot.usecases import alerting, contract_end, resting
from bot.usecases.decisions import decide, dose_for
from bot.usecases.logging_sets import settle_cursor
from bot.usecases.places import is_usual, usual_place
from bot.usecases.records import told
from bot.usecases.session_view import prompt_of, show, view_of
from core.checkin.training_log import Item, Session
from core.loads.decision import Decision, Moment
from core.programme.calendar import WEEK
from core.programme.exercises import Exercise
from core.programme.prescription import Dose, Prescription
from core.programme.versions import Course


def close(session_id: int, person: Person, unit: Unit, now: datetime, *, moved: bool = False) -> list[Effect]:
    """Close a session: decisions for the next time, and one closing line."""
    items = unit.sessions.items(session_id)
    state = "done" if all(each.state == "done" for each in items) else "partial"
    unit.sessions.change(session_id, state=state, closed_at=now, cursor_item_id=None)
    lines = decide_next(unit.sessions.get(session_id), "closing", unit, now)
    return [
        *show(session_id, unit, screen="closed", closing=lines, moved=moved),
        *alerting.of_session(session_id, unit, now),
    ]


def onward(
    session_id: int,
    unit: Unit,
    person: Person,
    now: datetime,
    *,
    moved: bool = False,
    note: str | None = None,
    logged: Item | None = None,
) -> list[Effect]:
    """Go on to the next open exercise, to the question how it felt, or to the end.

    Args:
        session_id: The session.
        unit: Open transaction.
        person: Who speaks.
        now: Instant.
        moved: True after a typed reply.
        note: What the card says on top.
        logged: What was logged or left out just now, from which a rest begins.
    """
    screen = settle_cursor(session_id, unit)
    rest = resting.after(logged, session_id, unit, now, goes_on=screen == "item") if logged else []
    if screen == "closed":
        return close(session_id, person, unit, now, moved=moved)
    return [*show(session_id, unit, screen=screen, moved=moved, note=note), *rest]


def after_feel(session_id: int, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask for reps left in the main lift, if one was done; otherwise close."""
    main = view_of(unit.sessions.get(session_id), prompt_of(session_id, unit), unit).main_done()
    if main is not None and main.item.left_last is None:
        unit.prompts.expect_no_text(person.user_id)
        return show(session_id, unit, screen="left")
    return close(session_id, person, unit, now)


def decide_next(
    session: Session, made_for: str, unit: Unit, now: datetime, *, coming: bool = True
) -> tuple[str, ...]:
    """Decide what comes next for each exercise of a closed session, and return the closing lines.

    Args:
        session: The session.
        made_for: What the decisions are kept as.
        unit: Open transaction.
        now: Instant.
        coming: False when the next session's card comes in the same breath, so that it need not be named.
    """
    contract_end.counted(session.client_id, unit, now)
    client = unit.clients.get(session.client_id)
    course = unit.versions.course(unit.blocks.assignment(session.assignment_id))
    items = unit.sessions.items(session.id)
    prompt = unit.prompts.newest("session", session.id)
    chosen = prompt.facts.get("chosen", ()) if prompt is not None else ()
    away = not is_usual(session.place, usual_place(client.id, unit))
    decided: list[tuple[Exercise, Dose, Decision]] = []
    for item in items:
        following = _next_dose(course, session, item, unit)
        if following is None:
            continue
        week_no, prescription = following
        moment = Moment(today=session.local_on, week_no=week_no)
        exercise = unit.exercises.get(item.exercise)
        dose = dose_for(exercise, prescription)
        _, decision = decide(client, item.exercise, dose, moment, made_for, unit, now)
        stood_in = away and item.exercise != item.prescription.exercise
        if item.id not in chosen and not stood_in:
            # Otherwise the written one comes again next time, and is not promised a load from this.
            decided.append((exercise, item.given, decision))
    done = done_line(sum(each.state == "done" for each in items), len(items))
    bests = told(session, unit, now)
    return (done, *bests, *next_load_lines(decided), *(_next_session(client.id, unit) if coming else ()))


def _next_session(client_id: int, unit: Unit) -> tuple[str, ...]:
    planned = unit.sessions.next_planned(client_id)
    if planned is None:
        return ()
    return (next_session_line(unit.versions.day_name(planned), planned.local_on),)


def _next_dose(course: Course, session: Session, item: Item, unit: Unit) -> tuple[int, Prescription] | None:
    """Return when the same line of the same day comes again, if it does; each week by the version of its time."""
    written, key = item.prescription, session.day_key
    laid = unit.sessions.of_client(session.client_id, ("planned",))
    dates = {each.week_no: each.local_on for each in laid if each.day_key == key}
    for week in range(session.week_no + 1, course.longest + 1):
        block = course.block_on(dates.get(week, session.local_on + WEEK * (week - session.week_no)))
        day = block.day(key) if week <= block.weeks else None
        for prescription in day.in_week(week) if day is not None else ():
            if (prescription.exercise, prescription.order) == (written.exercise, written.order):
                return week, prescription
    return None
