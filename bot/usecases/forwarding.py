"""What is not for the bot goes to the coach; and who can be reached."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Level, Person, Send, Tell
from bot.render import forwarding as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import join, stop_signs, strangers
from bot.usecases.effects import after_quiet
from core.checkin.stop_signs import scan
from core.policy import Policy


@dataclass(frozen=True, slots=True)
class MediaSent:
    """Somebody sent a photo, a voice message or a video."""

    kind: str
    file_id: str
    caption: str = ""


@dataclass(frozen=True, slots=True)
class Reached:
    """The bot was blocked or unblocked."""

    reachable: bool


def media_sent(command: MediaSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Pass a client's photo, voice or video on to her coach, with the exercise that was open."""
    if command.caption and (sign := scan(command.caption)) is not None and person.role != "coach":
        return stop_signs.found(sign, command.caption, person, unit, now)
    if person.role == "coach":
        return [Send(person.chat_id, say.not_yet(), key=f"media:{_update(person)}")]
    if person.role != "client" or person.client_id is None:
        return strangers.answered(person, unit, now)
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None:
        return []
    client = unit.clients.get(person.client_id)
    if client.state == "joining":
        return [Send(person.chat_id, say.join_first(), key=f"media:{_update(person)}")]
    if client.state == "stopped":
        return join.stopped_speaks(person)
    session = unit.sessions.open_one(client.id)
    item = unit.sessions.item(session.cursor_item_id) if session and session.cursor_item_id else None
    exercise = unit.exercises.get(item.exercise) if item else None
    key = f"forward:{_update(person)}"
    message_id = person.arrival.message_id if person.arrival else None
    unit.forwards.add(client.id, key, chat_id, message_id, command.kind, now)
    message = say.media(client.name, command.kind, command.file_id, command.caption, exercise)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, Policy())
    return [
        Send(chat_id, message, key=key, due_at=due_at),
        Send(person.chat_id, say.passed_on(), key=f"{key}:said"),
    ]


def reached(command: Reached, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Note that someone blocked or unblocked the bot; the coach is told once of a client who cannot be reached."""
    if person.coach_id is None:
        return []
    unit.accounts.set_reachable(person.user_id, now, reachable=command.reachable)
    if person.role != "client" or person.client_id is None:
        return []
    client = unit.clients.get(person.client_id)
    key = f"unreachable:{client.id}"
    if command.reachable:
        unit.alerts.close(key, now)
        return []
    return [Tell(client.id, key, 1, Level.TODAY, say.unreachable(client.name))]


def words_passed_on(
    text: str, client: Client, person: Person, unit: Unit, now: datetime, *, edited: bool = False
) -> list[Effect]:
    """Pass a client's plain words on to her coach, outside quiet hours; an edited message as a correction."""
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None or person.arrival is None:
        return []
    key = f"forward:{person.arrival.update_id}{':edited' if edited else ''}"
    edited = edited or unit.forwards.knows(client.id, person.arrival.message_id)
    unit.forwards.add(client.id, key, chat_id, person.arrival.message_id, "text", now)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, Policy())
    return [Send(chat_id, say.words(client.name, text, edited=edited), key=key, due_at=due_at)]


def _update(person: Person) -> int:
    return person.arrival.update_id if person.arrival else 0
