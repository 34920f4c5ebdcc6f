"""What a report of pain changes at once: the session, what is queued, and the coach's knowing."""

from datetime import datetime

from bot.messages import Cancel, Effect, Lane, Level, Message, Person, Send, Tell
from bot.render import pain as say
from bot.render import pain_alert
from bot.render.emergency import with_number
from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import morning, open_loads, resting, stop_signs, way_out
from bot.usecases.closing import after_feel, close, onward
from bot.usecases.pain_reports import is_training, known_until
from bot.usecases.releasing import PAIN, release_button
from core.checkin.pain import (
    Band,
    PainAction,
    PainReport,
    alert_level,
    band,
    flares,
    grave,
    in_session_action,
    locks,
    urgent,
)
from core.checkin.pain_course import Course, course
from core.checkin.stop_signs import StopSign, Urgency
from core.loads.limits import Clinician
from core.local_time import local_date

OPEN = ("sent", "started", "asking")
GROWTH = {Band.NONE: 0, Band.LOW: 1, Band.MIDDLE: 2, Band.HIGH: 3}
FLARE_AGAIN = 4
"""What a matter grows by with another flare, or when it is no better: more than a band does. Our proposal."""


def gravity(report: PainReport) -> int:
    """Return how grave a report is: a matter is told again when it is graver."""
    flags = (report.spreading, report.sudden, report.weak, report.fever, report.after_birth, report.rose)
    return GROWTH[band(report)] + sum(flags)


def consequences(
    report_id: int, person: Person, unit: Unit, now: datetime, *, told_already: Message | None = None
) -> list[Effect]:
    """Return what follows from a report. What must be read first comes first.

    Args:
        report_id: The report.
        person: Who reports.
        unit: Open transaction.
        now: Instant.
        told_already: Text to stop that was sent for the same pain a moment ago; it is not sent twice.
    """
    kept = unit.body.get(report_id)
    report, known = known_until(kept, unit)
    way_out.end_what_is_over(kept, known, unit, now)
    training = is_training(kept.session_id, unit)
    if kept.session_id is not None and (flares(report) or not unit.body.is_correction(kept)):
        resting.withdraw(kept.session_id, unit)
    effects: list[Effect] = _sign(kept, report, person, unit, now) if urgent(report) else []
    if flares(report):
        effects.append(Cancel(kept.client_id))
    words = stop_words(report)
    if words is not None and words != told_already:
        told = with_number(words, unit.clients.get(kept.client_id).zone)
        effects.append(Send(person.chat_id, told, key=f"pain-stop:{report_id}", lane=Lane.SAFETY))
    if band(report) is not Band.NONE or flares(report):
        went = course(report, known)
        effects.append(_told(kept, report, went, unit, now, training=training))
    morning.planned(report_id, unit, now)
    if kept.session_id is not None and unit.sessions.get(kept.session_id).state in OPEN:
        effects += _in_session(kept.session_id, kept.item_id, report, person, unit, now)
    return [*effects, *open_loads.held(kept, report, unit, now)]


def _sign(kept: BodyReport, report: PainReport, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Answer weakness or a fever like the same words typed: the fixed text, the plan on hold, the coach told."""
    rule = "new-weakness" if report.weak else "back-fever"
    told = f"{say.place_words(report.site, kept.side)}: {say.FEELS[3 if report.weak else 4]}"
    return stop_signs.found(StopSign(urgency=Urgency.DOCTOR_TODAY, rule=rule), told, person, unit, now)


def stop_words(report: PainReport) -> Message | None:
    """Return the text that says to stop; None for pain that asks for none, and where that of a stop sign goes out."""
    if not grave(report) or urgent(report):
        return None
    return say.stop_here(
        spreading=report.spreading,
        ends=in_session_action(report) is PainAction.STOP_SESSION,
        after_birth=report.after_birth,
    )


def _told(
    kept: BodyReport, report: PainReport, went: Course, unit: Unit, now: datetime, *, training: bool
) -> Tell:
    level = Level(int(alert_level(report)))
    if went.suggests_physio:
        level = max(level, Level.TODAY)
    client = unit.clients.get(kept.client_id)
    item = unit.sessions.item(kept.item_id) if kept.item_id else None
    doing = pain_alert.during(unit.exercises.get(item.exercise), item.given.load) if item else ""
    rows = release_button(client.id, PAIN, unit, now) if level is Level.NOW else ()
    drop = unit.rules.policy(client.id, item.exercise if item else None).pain_drop
    again = FLARE_AGAIN * (max(went.flares - 1, 0) + went.no_better)
    return Tell(
        client.id,
        key=f"pain:{client.id}:{report.site.value}:{kept.side or ''}",
        grown=gravity(report) + again,
        level=level,
        message=pain_alert.alert(
            client.name,
            report,
            doing,
            training=training,
            rows=rows,
            course=went,
            drop=drop,
            referred=_referred(client, unit) if went.suggests_physio else None,
        ),
    )


def _referred(client: Client, unit: Unit) -> pain_alert.Referred | None:
    """Return the newest referral that stands, of those to a doctor or a physiotherapist; None where none does."""
    open_ones = [
        each
        for each in unit.referrals.of_client(client.id)
        if each.closed_at is None and each.to in (Clinician.DOCTOR, Clinician.PHYSIOTHERAPIST)
    ]
    if not open_ones:
        return None
    newest = open_ones[-1]
    on = local_date(newest.at, client.zone or "UTC")
    return pain_alert.Referred(newest.to, on, newest.seen_on, told=newest.told_at is not None)


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
