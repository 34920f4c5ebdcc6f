"""What a coach types that is no command. It is never sent to anybody."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render.coach_talk import coach_help
from bot.store.units import Unit
from bot.usecases import setting_up


def heard(text: str, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Read it as the answer to what is open; else say what a coach can do."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is not None and prompt.kind == "assign":
        return setting_up.typed(text, prompt, unit, now)
    arrival = person.arrival.update_id if person.arrival else 0
    return [Send(person.chat_id, coach_help(), key=f"help:{arrival}")]
