"""Edited messages that answered one of the week's questions, or told of other training: said what becomes of them.

Neither is corrected by an edit. It is never taken as the answer to what is asked by now, and nothing is kept twice.
"""

from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Effect, Message, Person, Send
from bot.render.other_training import edit_changes_nothing
from bot.render.questionnaire import edit_passed_on
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.forwarding import words_passed_on
from bot.usecases.lines_of_body import told_of_body
from bot.usecases.reply_context import context_for
from bot.usecases.week_clock import BLOCK_END, CHECK_IN
from core.checkin.replies import read_reply
from core.local_time import local_date

LOOKED_BACK = timedelta(days=7)
"""How old a question may be whose answer is edited. Our proposal."""


def marked(prompt: Prompt, person: Person) -> dict[str, Any]:
    """Return the facts of a question with the message that answers it now."""
    message_id = person.arrival.message_id if person.arrival else None
    return {**prompt.facts, "from": [*prompt.facts.get("from", ()), message_id]}


def heard(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Say what becomes of an edit; None where the message was neither an answer nor other training.

    What it tells of the body is kept as if it had been sent by itself.
    """
    message_id = person.arrival.message_id if person.arrival else None
    if message_id is None:
        return None
    if unit.other_training.is_from(client.id, message_id):
        body = _body(text, client, person, unit, now)
        return [*body, _send(person, edit_changes_nothing())]
    if not _answered_by(message_id, client, unit, now):
        return None
    passed = words_passed_on(text, client, person, unit, now, edited=True)
    return [*_body(text, client, person, unit, now), *passed, _send(person, edit_passed_on())]


def _answered_by(message_id: int, client: Client, unit: Unit, now: datetime) -> bool:
    first = local_date(now, client.zone or "UTC") - LOOKED_BACK
    asked = [(kind, each) for kind in (CHECK_IN, BLOCK_END) for each in _asked(kind, client, unit, first)]
    prompts = [unit.prompts.newest(kind, each) for kind, each in asked]
    return any(each is not None and message_id in each.facts.get("from", ()) for each in prompts)


def _asked(kind: str, client: Client, unit: Unit, first: date) -> list[int]:
    return [each.id for each in unit.due_questions.of_client(client.id, kind, first)]


def _body(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    reading = read_reply(text, context_for(client, None, None, unit))
    return told_of_body(reading, text, client, person, unit, now)


def _send(person: Person, message: Message) -> Send:
    update_id = person.arrival.update_id if person.arrival else 0
    return Send(person.chat_id, message, key=f"edit:{update_id}")
