"""What a report of pain changes at once: the session, what is queued, and the coach's knowing."""

from datetime import datetime

from bot.messages import Cancel, Effect, Lane, Level, Message, Person, Send, Tell
from bot.render import pain as say
from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.closing import after_feel, close, onward
from bot.usecases.pain_reports import is_training
from bot.usecases.releasing import PAIN, release_button
from core.checkin.pain import (
    Band,
    PainAction,
    PainReport,
    alert_level,
    band,
    flares,
    in_session_action,
    locks,
)

OPEN = ("sent", "started", "asking")
GROWTH = {Band.NONE: 0, Band.LOW: 1, Band.MIDDLE: 2, Band.HIGH: 3}


def consequences(
    report_id: int, person: Person, unit: Unit, now: datetime, *, told_already: Message | None = None
) -> list[Effect]:
    """Return what follows from a report.

    Args:
        report_id: The report.
        person: Who reports.
        unit: Open transaction.
        now: Instant.
        told_already: Text to stop that was sent for the same pain a moment ago; it is not sent twice.
    """
    kept = unit.body.get(report_id)
    report = kept.as_pain()
    session_open = kept.session_id is not None and unit.sessions.get(kept.session_id).state in OPEN
    training = is_training(kept.session_id, unit)
    effects: list[Effect] = []
    if flares(report):
        effects.append(Cancel(kept.client_id))
    words = stop_words(report)
    if words is not None and words != told_already:
        effects.append(Send(person.chat_id, words, key=f"pain-stop:{report_id}", lane=Lane.SAFETY))
    if band(report) is not Band.NONE or report.spreading:
        client = unit.clients.get(kept.client_id)
        effects.append(_told(kept, report, client, unit, now, training=training))
    if kept.session_id is None or not session_open:
        return effects
    return [*effects, *_in_session(kept.session_id, kept.item_id, report, person, unit, now)]


def stop_words(report: PainReport) -> Message | None:
    """Return the text that says to stop; None for pain that asks for none."""
    if Level(max(int(alert_level(report)), 1)) is not Level.NOW:
        return None
    return say.stop_here(
        spreading=report.spreading, ends=in_session_action(report) is PainAction.STOP_SESSION
    )


def _told(
    kept: BodyReport, report: PainReport, client: Client, unit: Unit, now: datetime, *, training: bool
) -> Tell:
    level = Level(int(alert_level(report)))
    item = unit.sessions.item(kept.item_id) if kept.item_id else None
    doing = say.during(unit.exercises.get(item.exercise), item.given.load) if item else ""
    rows = release_button(client.id, PAIN, unit, now) if level is Level.NOW else ()
    return Tell(
        client.id,
        key=f"pain:{client.id}:{report.site.value}:{kept.side or ''}",
        grown=GROWTH[band(report)] + report.spreading + report.sudden,
        level=level,
        message=say.alert(client.name, report, doing, training=training, rows=rows),
    )


def _in_session(
    session_id: int, item_id: int | None, report: PainReport, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    session = unit.sessions.get(session_id)
    action = in_session_action(report)
    if action is PainAction.STOP_SESSION:
        for item in unit.sessions.items(session.id):
            if item.state == "open":
                unit.sessions.change_item(item.id, state="skipped", cause="pain")
        return close(session.id, person, unit, now)
    if action is PainAction.STOP_EXERCISE:
        return _without_locked(session_id, item_id, report, person, unit, now)
    return after_feel(session.id, person, unit, now) if session.state == "asking" else []


def _without_locked(
    session_id: int, item_id: int | None, report: PainReport, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Leave out, of what is still to come, the exercise that hurt and all that the report locks."""
    for item in unit.sessions.items(session_id):
        if item.state == "open" and (item.id == item_id or locks(report, unit.exercises.get(item.exercise))):
            unit.sessions.change_item(item.id, state="skipped", cause="pain")
    session = unit.sessions.get(session_id)
    return (
        after_feel(session_id, person, unit, now)
        if session.state == "asking"
        else onward(session_id, unit, person, now)
    )
