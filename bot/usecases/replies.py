"""Short replies: read, kept, said back; asked about when two readings are sensible."""

from datetime import datetime

from bot.messages import Action, Effect, Message, Person, Tap
from bot.render import replies as say
from bot.render.sessions_said import ALL_OR_ONE
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import (
    away,
    daily_card,
    illness,
    jumping,
    kit,
    marks,
    not_today,
    own_settings,
    pain,
    physio_summary,
    place_today,
    readings,
    resting,
    short_on_time,
    soreness,
    swapping,
    week_talk,
)
from bot.usecases import session as cards
from bot.usecases.closing import close, onward
from bot.usecases.forwarding import words_passed_on
from bot.usecases.logging_sets import as_written, log_sets
from bot.usecases.read_sets import is_without_load, left_after, left_of, new_sets, plan_of
from bot.usecases.reply_context import at_cursor, context_for, screen_of
from bot.usecases.session_view import prompt_of, show, view_of
from bot.usecases.typed_words import action_of, is_bare_number
from bot.usecases.undoing import undo, undo_closed
from core.checkin.reading import Reading
from core.checkin.replies import read_reply
from core.checkin.training_log import Item, Session

TYPED_ON_CARD = (
    swapping.typed,
    short_on_time.typed,
    not_today.typed,
    place_today.typed,
    resting.typed,
    jumping.typed,
)
"""What a session's card takes as words beside those of its buttons, in order."""


def heard(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Answer a client's typed words."""
    answered = _answers_a_question(text, client, person, unit, now)
    if answered is not None:
        return answered
    if client.frozen_at is not None:
        return _on_hold(text, client, person, unit, now)
    session = unit.sessions.open_one(client.id)
    of_prep = daily_card.typed(text, client, person, unit, now, in_session=session is not None)
    if of_prep is not None:
        return of_prep
    if session is not None:
        if kit.cannot_load(text):
            return kit.told_of_kit(person, client, unit)
        action = action_of(text, session.state, screen_of(session, unit))
        if action is not None:
            return cards.typed(action, session, person, unit, now)
        for chosen_on_card in TYPED_ON_CARD:
            chosen = chosen_on_card(text, session, person, unit, now)
            if chosen is not None:
                return chosen
    of_week = week_talk.typed(text, client, person, unit, now, in_session=session is not None)
    if of_week is not None:
        return of_week
    item = at_cursor(session, unit)
    reading = read_reply(text, context_for(client, session, item, unit))
    if session is not None and reading.note and is_bare_number(text) and screen_of(session, unit) == "left":
        return show(session.id, unit, moved=True, note=say.LEFT_UNREAD)
    return act(reading, text, session, item, client, person, unit, now)


def _answers_a_question(
    text: str, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    """Take words that answer an open question, or that are of something that holds in a session and outside it."""
    for typed in (pain.typed_score, kit.typed):
        answered = typed(text, person, unit, now)
        if answered is not None:
            return answered
    for typed_of_client in (
        pain.signs_said,
        own_settings.typed,
        illness.typed,
        away.typed,
        physio_summary.typed,
    ):
        answered = typed_of_client(text, client, person, unit, now)
        if answered is not None:
            return answered
    return None


def _on_hold(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Pass words on while the plan is on hold; pain is still kept, answered and told."""
    message_id = person.arrival.message_id if person.arrival else None
    reading = read_reply(text, context_for(client, None, None, unit))
    return [
        *pain.told(reading.pain, None, None, person, unit, now, message_id),
        *words_passed_on(text, client, person, unit, now, cared_for=True),
        say.send(person, say.on_hold(), "hold"),
    ]


def act(
    reading: Reading,
    text: str,
    session: Session | None,
    item: Item | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    corrects: bool = False,
) -> list[Effect]:
    """Do what a reading says, ask, pass plain words on; with `corrects` a reminder of a rest that goes on stays."""
    message_id = person.arrival.message_id if person.arrival else None
    effects: list[Effect] = []
    where: list[Effect] = []
    if readings.site_is_open(reading, item, unit):
        reading, where = readings.where_it_hurts(reading, session, item, person, unit, now)
    if reading.ask:
        sure, open_part = readings.parted(reading)
        effects += pain.told(sure.pain, session, item, person, unit, now, message_id)
        effects += soreness.told(sure.soreness, session, client, person, unit, now)
        return [*effects, *readings.asked(open_part, text, item, message_id, client, person, unit, now)]
    effects += pain.told(reading.pain, session, item, person, unit, now, message_id)
    effects += soreness.told(reading.soreness, session, client, person, unit, now)
    if session is not None:
        session = unit.sessions.get(session.id)
    if session is not None and session.state in cards.OPEN:
        effects += _in_session(reading, session, item, person, unit, now, corrects=corrects)
    elif reading.undo:
        effects += undo_closed(client, person, unit, now)
    elif reading.sets or reading.as_written or reading.skip or left_of(reading.effort) is not None:
        effects.append(say.send(person, say.no_session(), "none"))
    if reading.note:
        cared_for = bool(reading.pain or reading.soreness)
        effects += words_passed_on(reading.note, client, person, unit, now, cared_for=cared_for)
        if not (reading.sets or reading.pain or reading.soreness):
            effects.append(say.send(person, _unread(reading.note, session, item, unit), "note"))
    return [*effects, *where]


def _unread(note: str, session: Session | None, item: Item | None, unit: Unit) -> Message:
    numbers = any(letter.isdigit() for letter in note)
    if session is None or item is None or item.state != "open" or not numbers:
        return say.passed_on(None)
    view = view_of(session, prompt_of(session.id, unit), unit)
    return say.passed_on(next(each for each in view.items if each.item.id == item.id))


def _in_session(
    reading: Reading,
    session: Session,
    item: Item | None,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    corrects: bool,
) -> list[Effect]:
    left = left_of(reading.effort)
    if reading.undo:
        return undo(session, unit, now, moved=True)
    if not (reading.sets or reading.as_written or reading.skip):
        return _left_said(left, session, person, unit, now) if left is not None else []
    if item is None or item.state != "open":
        other = (
            None if item is None or at_cursor(session, unit) is None else unit.exercises.get(item.exercise)
        )
        return [say.send(person, say.all_logged(other), "all")]
    if reading.skip:
        message_id = person.arrival.message_id if person.arrival else None
        return cards.skip(item, session, person, unit, now, message_id=message_id, moved=True)
    if reading.as_written and session.state == "sent":
        return show(session.id, unit, screen="overview", moved=True, note=ALL_OR_ONE)
    return _sets_said(reading, left, session, item, person, unit, now, corrects=corrects)


def _sets_said(
    reading: Reading,
    left: int | None,
    session: Session,
    item: Item,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    corrects: bool,
) -> list[Effect]:
    exercise = unit.exercises.get(item.exercise)
    plan = plan_of(item, unit)
    sets = (
        as_written(item, exercise)
        if reading.as_written
        else new_sets(reading.sets, item, exercise, left, plan, reading.effort.rpe)
    )
    if not sets or is_without_load(sets, item):
        view = view_of(session, prompt_of(session.id, unit), unit)
        current = next(each for each in view.items if each.item.id == item.id)
        return show(session.id, unit, moved=True, note=say.load_missing(current))
    message_id = person.arrival.message_id if person.arrival else None
    log_sets(item, sets, unit.sets.next_entry(session.id), message_id, unit, now)
    last_left = left_after(left, sets)
    if last_left is not None:
        unit.sessions.change_item(item.id, left_last=last_left)
    if session.state == "sent":
        unit.sessions.change(session.id, state="started", started_at=now, cursor_item_id=item.id)
    note = say.understood(unit.exercises.get(item.exercise), unit.sets.standing([item.id]), left)
    moved_on = onward(session.id, unit, person, now, moved=True, note=note, logged=None if corrects else item)
    return [*readings.overtaken(item, unit, now), *moved_on]


def _left_said(left: int, session: Session, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Keep reps left: for the main lift when that is asked, or else for what was logged last."""
    message_id = person.arrival.message_id if person.arrival else None
    if session.state == "asking" and screen_of(session, unit) == "left":
        main = view_of(session, prompt_of(session.id, unit), unit).main_done()
        if main is not None:
            _keep_left(left, main.item, session, message_id, unit)
        return close(session.id, person, unit, now, moved=True)
    entry = unit.sets.last_entry(session.id)
    if not entry:
        return [say.send(person, say.left_for_nothing(), "left")]
    item = unit.sessions.item(entry[-1].item_id)
    _keep_left(left, item, session, message_id, unit)
    return [say.send(person, say.left_noted(unit.exercises.get(item.exercise), left), "left")]


def _keep_left(left: int, item: Item, session: Session, message_id: int | None, unit: Unit) -> None:
    unit.sessions.change_item(item.id, left_last=left)
    marks.mark(marks.LEFT, item.id, session.id, message_id, unit)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take the reading that was chosen, or none of them."""
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    client = unit.clients.get(person.client_id or 0)
    text, options = str(prompt.facts["text"]), prompt.facts["readings"]
    item = unit.sessions.item(prompt.subject) if prompt.subject is not None else None
    session = unit.sessions.get(item.session_id) if item is not None else unit.sessions.open_one(client.id)
    if client.frozen_at is not None:
        return [readings.shown(prompt, say.on_hold_tapped())]
    if tap.action is not Action.CHOOSE or tap.argument >= len(options):
        example = None
        if session is not None and item is not None:
            view = view_of(session, prompt_of(session.id, unit), unit)
            example = next(each for each in view.items if each.item.id == item.id)
        return [readings.shown(prompt, say.none_of_them(example))]
    reading = Reading.model_validate(options[tap.argument])
    chosen = readings.shown(prompt, say.chosen(reading, text))
    return [chosen, *act(reading, text, session, item, client, person, unit, now)]
