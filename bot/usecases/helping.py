"""Help in one message, for whoever asks."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render import helping as say
from bot.store.units import Unit
from bot.usecases import stop_signs, strangers
from core.checkin.stop_signs import scan


@dataclass(frozen=True, slots=True)
class Help:
    """`/help`, or a command that there is not."""


@dataclass(frozen=True, slots=True)
class CannotUse:
    """Something that nothing can be done with: a sticker, a contact, what was changed after it was sent.

    Attributes:
        edited: It came before, and only what it says was changed.
        text: What it says now, or what stands under it.
    """

    edited: bool = False
    text: str = ""


def help_asked(command: Help, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Say what can be done here."""
    update_id = person.arrival.update_id if person.arrival else 0
    if person.role == "coach":
        return [Send(person.chat_id, say.for_coach(), key=f"help:{update_id}")]
    if person.role == "client":
        return [Send(person.chat_id, say.for_client(), key=f"help:{update_id}")]
    return strangers.answered(person, unit, now)


def cannot_use(command: CannotUse, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Say that this kind of message cannot be used.

    A message that was only edited was answered when it came: nothing more is said, save to a stop sign in it.
    """
    if command.edited:
        sign = scan(command.text) if person.role != "coach" else None
        return stop_signs.found(sign, command.text, person, unit, now) if sign is not None else []
    update_id = person.arrival.update_id if person.arrival else 0
    if person.role not in ("coach", "client"):
        return strangers.answered(person, unit, now)
    return [Send(person.chat_id, say.cannot_use(), key=f"cannot:{update_id}")]
