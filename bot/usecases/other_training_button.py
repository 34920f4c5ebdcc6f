"""The button that opens other training from the views of the day and the week."""

from dataclasses import replace
from datetime import datetime

from bot.messages import Message, Person
from bot.render.other_training import row
from bot.render.setting_up import Buttons
from bot.store.people import Client
from bot.store.units import Unit

KIND = "other"
"""Kind of its prompts."""


def with_button(message: Message, client: Client, person: Person, unit: Unit, now: datetime) -> Message:
    """Return a view of a client's with the button below it; as it was while her plan is on hold."""
    if client.frozen_at is not None:
        return message
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=client.id, subject=client.id
    )
    return replace(message, rows=(*message.rows, *row(Buttons(prompt.id, prompt.revision))))
