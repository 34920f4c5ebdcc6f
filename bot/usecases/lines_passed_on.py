"""Lines that answer one of the week's questions: whether one is waited for, and how it goes to the coach."""

from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render import questionnaire as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.effects import after_quiet
from bot.usecases.other_training_button import KIND as OTHER
from bot.usecases.week_clock import KINDS


def is_free_for_words(user_id: int, unit: Unit) -> bool:
    """Return whether a question that nobody asked for may have the next typed words: no other waits for them.

    One of the week's own that was left open does not stand in the way.
    """
    waiting = unit.prompts.expecting_text(user_id)
    return waiting is None or waiting.kind in (*KINDS, OTHER)


def line_passed_on(
    text: str, about: str, question: str, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect]:
    """Pass a line on to the coach with the question that it answers; her reply to it goes back to the client."""
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None or person.arrival is None:
        return []
    key = f"forward:{person.arrival.update_id}"
    unit.forwards.add(client.id, key, chat_id, person.arrival.message_id, "text", now)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    return [Send(chat_id, say.passed_on(client.name, about, question, text), key=key, due_at=due_at)]
