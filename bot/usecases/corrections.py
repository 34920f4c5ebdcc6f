"""An edited message: what it did is taken back and done anew; what was said from it is taken back too."""

from datetime import datetime

from bot.messages import Effect, Person
from bot.render import replies as say
from bot.render.pain import place_words
from bot.store.body import BodyReport
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import alerting, edited_answers, marks, pain, replies
from bot.usecases.closing import decide_next
from bot.usecases.forwarding import words_passed_on
from bot.usecases.logging_sets import as_written
from bot.usecases.read_sets import is_without_load, left_after, left_of, new_sets, plan_of
from bot.usecases.records import taken_back
from bot.usecases.reply_context import context_for
from bot.usecases.session import OPEN
from bot.usecases.session_view import prompt_of, show
from core.checkin.pain import flares, is_locking
from core.checkin.reading import Context
from core.checkin.replies import read_reply
from core.checkin.training_log import Item, LoggedSet, Session

CLOSED = ("done", "partial")


def corrected(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take an edited message: sets, reps left, pain, soreness or an exercise left out, said anew."""
    message_id = person.arrival.message_id if person.arrival else None
    if message_id is None or client.frozen_at is not None:
        return replies.heard(text, client, person, unit, now)
    reports = [unit.body.get(each) for each in unit.body.from_message(client.id, message_id)]
    before = unit.sets.from_message(client.id, message_id)
    if before:
        effects = _retracted(text, reports, client, person, unit, now)
        return [*effects, *_sets(text, before, client, person, unit, now)]
    if reports:
        effects = _retracted(text, reports, client, person, unit, now)
        return [*effects, *_body(text, reports, client, person, unit, now)]
    for session in unit.sessions.of_client(client.id, (*OPEN, *CLOSED))[:2]:
        found = marks.from_message(message_id, session.id, unit)
        if found is not None:
            return _marked(text, found, session, client, person, unit, now)
    of_answer = edited_answers.heard(text, client, person, unit, now)
    if of_answer is not None:
        return of_answer
    return replies.heard(text, client, person, unit, now)


def _sets(
    text: str, before: list[LoggedSet], client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    item = unit.sessions.item(before[0].item_id)
    session = unit.sessions.get(item.session_id)
    reading = read_reply(text, context_for(client, session, item, unit))
    left = left_of(reading.effort)
    exercise = unit.exercises.get(item.exercise)
    plan = plan_of(item, unit)
    sets = (
        as_written(item, exercise)
        if reading.as_written
        else new_sets(reading.sets, item, exercise, left, plan, reading.effort.rpe)
    )
    if reading.ask or not sets or is_without_load(sets, item):
        return [say.send(person, say.edit_unclear(text), "edit")]
    message_id = before[0].message_id
    unit.sets.void([each.id for each in before], "edited", now)
    unit.sets.add(item.id, sets, before[0].entry, message_id, now)
    if (last_left := left_after(left, sets)) is not None:
        unit.sessions.change_item(item.id, left_last=last_left)
    effects: list[Effect] = list(pain.told(reading.pain, session, item, person, unit, now, message_id))
    note = say.corrected(unit.exercises.get(item.exercise), unit.sets.standing([item.id]), left)
    return [*effects, *_shown(note, unit.sessions.get(session.id), unit, now)]


def _shown(note: str, session: Session, unit: Unit, now: datetime) -> list[Effect]:
    """Show the card with a correction; of a closed session with what comes next now, said again where it changed."""
    if session.state not in CLOSED:
        return show(session.id, unit, note=note)
    said = tuple(prompt_of(session.id, unit).facts.get("closing", ()))
    lines = decide_next(session, "correction", unit, now)
    note = "\n".join([note, *taken_back(session.client_id, unit, now)])
    same = lines == said
    note = note if same else f"{note}\n{say.NEXT_CHANGED}"
    shown = show(session.id, unit, screen="closed", closing=lines, note=note, moved=not same)
    return [*shown, *alerting.of_session(session.id, unit, now)]


def _marked(
    text: str,
    found: tuple[str, int],
    session: Session,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    """Correct reps left; or log to an exercise that the message had left out."""
    what, item = found[0], unit.sessions.item(found[1])
    if what == marks.LEFT:
        return _left(text, item, session, client, person, unit, now)
    reading = read_reply(text, context_for(client, session, item, unit))
    if session.state not in OPEN or item.state != "skipped" or not (reading.sets or reading.as_written):
        return [say.send(person, say.edit_unclear(text), "edit")]
    unit.sessions.change_item(item.id, state="open")
    marks.forget(item.id, session.id, unit)
    reopened = unit.sessions.item(item.id)
    return replies.act(reading, text, session, reopened, client, person, unit, now, corrects=True)


def _left(
    text: str, item: Item, session: Session, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    asked = context_for(client, None, None, unit).model_copy(update={"open_question": "reps left"})
    left = left_of(read_reply(text, asked).effort)
    if left is None:
        return [say.send(person, say.edit_unclear(text), "edit")]
    unit.sessions.change_item(item.id, left_last=left)
    return _shown(say.left_corrected(unit.exercises.get(item.exercise), left), session, unit, now)


def _retracted(
    text: str, reports: list[BodyReport], client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Take back what a message said of the body, unless it locks: only the coach releases that.

    Where the coach has been told of it, the new words go to her too.
    """
    for each in reports:
        if not _locks(each):
            unit.body.void(each.id, "edited", now)
    locking = next((each for each in reports if _locks(each)), None)
    if not any(each.kind == "pain" and flares(each.as_pain()) for each in reports):
        return []
    told = next(each for each in reports if each.kind == "pain")
    named = (
        text
        if any(sign.isalpha() for sign in text)
        else f"{place_words(told.as_pain().site, told.side)}: {text}"
    )
    effects: list[Effect] = list(words_passed_on(named, client, person, unit, now, edited=True))
    if locking is not None:
        place = place_words(locking.as_pain().site, locking.side)
        effects.append(say.send(person, say.lock_stays(place), "lock"))
    return effects


def _locks(report: BodyReport) -> bool:
    return report.kind == "pain" and is_locking(report.as_pain())


def _body(
    text: str, reports: list[BodyReport], client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Take a report of the body anew: a bare number corrects the score."""
    if any(_locks(each) for each in reports):
        return []
    first = reports[0]
    number = read_reply(text, Context(open_question="pain score"))
    bare = [each.score for each in number.pain if each.site is None and each.score is not None]
    if first.kind != "pain" or not bare or number.ask:
        return replies.heard(text, client, person, unit, now)
    message_id = person.arrival.message_id if person.arrival else None
    site = first.as_pain().site
    hurt = pain.Hurt(
        site,
        first.side,
        bare[0],
        first.session_id,
        first.item_id,
        felt=first.as_pain().felt,
        answers_to=first.answers_to,
        exercise=first.exercise,
        on=first.local_on,
    )
    return pain.said(hurt, person, unit, now, message_id)
