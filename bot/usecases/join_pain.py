"""What somebody types while she joins: an answer, or pain, which is kept and told as at any time."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Person
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import join, pain
from bot.usecases.reply_context import context_for
from core.checkin.replies import read_reply


def heard(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what was typed. Pain that is no answer is kept once there is consent, and the question stays open."""
    if not unit.clients.consented(client.id):
        return join.heard(text, client, person, unit, now)
    scored = pain.typed_score(text, person, unit, now)
    if scored is not None:
        return scored
    reading = read_reply(text, context_for(client, None, None, unit))
    # Of limits one tells in words like those of pain; a number says that it hurts now.
    scored_now = any(each.score is not None for each in reading.pain)
    is_answer = join.is_answer(text, client, person, unit, now)
    if reading.ask or not reading.pain or (is_answer and not scored_now):
        return join.heard(text, client, person, unit, now)
    message_id = person.arrival.message_id if person.arrival else None
    asked = join.asked_again(client, person, unit, now)
    return [asked, *pain.told(reading.pain, None, None, person, unit, now, message_id)]
