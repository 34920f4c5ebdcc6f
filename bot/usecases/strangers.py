"""People we do not know."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from bot.messages import Effect, Person, Send
from bot.render.strangers import how_to_be_invited
from bot.store.units import Unit

PAUSE = timedelta(hours=1)
"""A stranger is answered once in this time. Our proposal."""


def answered(person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Say how to be invited, at a limited rate; keep nothing."""
    if person.arrival is None or not unit.chats.may_answer_stranger(person.chat_id, now, PAUSE):
        return []
    return [Send(person.chat_id, how_to_be_invited(), key=f"stranger:{person.arrival.update_id}")]
