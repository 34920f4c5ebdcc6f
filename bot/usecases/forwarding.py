"""What is not for the bot goes to the coach; and who can be reached."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from bot.messages import Effect, Level, Person, Send, Tell
from bot.render import forwarding as say
from bot.render.safety import in_case
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import office_hours, video_asked
from bot.usecases.alerting import video_came
from bot.usecases.effects import after_quiet
from core.checkin.health_words import may_be_health

HOUR = timedelta(hours=1)
BURST = timedelta(seconds=60)
"""How soon after another of its kind a file without words gets no answer of its own. [s] Our proposal."""


@dataclass(frozen=True, slots=True)
class MediaSent:
    """Somebody sent something that is no text.

    Attributes:
        kind: As `bot.render.forwarding.KIND_WORDS` has it.
        file_id: The platform's id of the file; empty for a contact.
        caption: What stands under it; of a contact, who it is.
        album: The platform's name for what was sent together with others; None for what was sent alone.
        name: What its sender calls a file.
    """

    kind: str
    file_id: str
    caption: str = ""
    album: str | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Reached:
    """The bot was blocked or unblocked."""

    reachable: bool


def passed_on(
    command: MediaSent, client: Client, person: Person, unit: Unit, now: datetime, *, urgent: bool = False
) -> list[Effect]:
    """Pass what a client sent on to her coach, with what she was doing; say so, or that it is too much.

    Args:
        command: What she sent.
        client: Who.
        person: Who.
        unit: Open transaction.
        now: Instant.
        urgent: True where it must not wait for the end of the coach's quiet hours.
    """
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None:
        return [Send(person.chat_id, say.nobody_there(), key=f"media:{_update(person)}")]
    if not urgent and (refused := _too_many(command, client, person, unit, now)):
        return refused
    video_came(client, command.kind, unit, now)
    item, doing = _doing(client, unit)
    again = command.album is not None and unit.forwards.has_album(client.id, command.album)
    answered = again or _goes_on(command, client, unit, now)
    key = f"forward:{_update(person)}{_album(command.album)}"
    message_id = person.arrival.message_id if person.arrival else None
    due_at = None if urgent else after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    effects: list[Effect] = []
    asked = _asked_for(command.kind, client, item, unit, now)
    item, asked_words = asked if asked is not None else (item, None)
    said = say.media(client.name, command, doing, again=again, asked=asked_words)
    for number, message in enumerate(said):
        name = f"{key}:{number}" if number else key
        unit.forwards.add(client.id, name, chat_id, message_id, command.kind, now, item_id=item)
        effects.append(Send(chat_id, message, key=name, due_at=due_at))
    if not urgent and not answered:
        effects.append(Send(person.chat_id, say.passed_on(), key=f"passed-on:{_update(person)}"))
        effects += office_hours.told(client, person, unit, now)
    return effects


def _too_many(command: MediaSent, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say that this is more than goes on in an hour; what stands under it goes on. Nothing where it is not."""
    hour, most = now.replace(minute=0, second=0, microsecond=0), unit.rules.policy(client.id).media_an_hour
    if unit.forwards.media_since(client.id, hour) < most:
        return []
    words = words_passed_on(command.caption, client, person, unit, now) if command.caption else []
    until = (hour + HOUR).astimezone(ZoneInfo(client.zone or "UTC"))
    refused = say.too_many(most, until.time())
    return [*words, Send(person.chat_id, refused, key=f"too-many:{client.id}:{hour:%Y%m%d%H}")]


def _goes_on(command: MediaSent, client: Client, unit: Unit, now: datetime) -> bool:
    """Return whether a file is one more of a burst, which was answered with its first."""
    return not command.caption and unit.forwards.media_since(client.id, now - BURST, command.kind) > 0


def in_burst(person: Person, now: datetime) -> str:
    """Return a key that all that somebody sends within a minute shares, so that it is answered once."""
    return f"media:{person.user_id}:{now:%Y%m%d%H%M}"


def _asked_for(
    kind: str, client: Client, item_id: int | None, unit: Unit, now: datetime
) -> tuple[int, str] | None:
    """Return which row a video shows that the coach asked for, and what is said of it; None of another."""
    session = unit.sessions.open_one(client.id)
    last = unit.sets.last_entry(session.id) if session is not None else []
    items = [unit.sessions.item(each) for each in (item_id, last[0].item_id if last else None) if each]
    return video_asked.came(kind, client.id, items, unit, now)


def _album(album: str | None) -> str:
    return "" if album is None else f":album:{album}."


def _doing(client: Client, unit: Unit) -> tuple[int | None, say.Doing | None]:
    """Return the exercise that is open, and what was asked for and logged; what was logged last stands beside it."""
    session = unit.sessions.open_one(client.id)
    if session is None:
        return None, None
    item = unit.sessions.item(session.cursor_item_id) if session.cursor_item_id else None
    last = unit.sets.last_entry(session.id)
    done = unit.exercises.get(unit.sessions.item(last[0].item_id).exercise) if last else None
    doing = say.Doing(
        exercise=unit.exercises.get(item.exercise) if item is not None else None,
        given=item.given if item is not None else None,
        logged=(done, tuple(last)) if done is not None else None,
    )
    return (item.id if item is not None else None), doing


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
    text: str,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    edited: bool = False,
    cared_for: bool = False,
) -> list[Effect]:
    """Pass a client's plain words on to her coach, outside quiet hours, once; an edited message as a correction.

    Words that may be about health get a caution as well, at once: no list knows all that a stop sign may sound like.

    Args:
        text: What she wrote.
        client: Who.
        person: Who.
        unit: Open transaction.
        now: Instant.
        edited: True where it corrects what was said before.
        cared_for: True where what it says of health is answered by itself.
    """
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if chat_id is None or person.arrival is None:
        return []
    key = f"forward:{person.arrival.update_id}:words"
    if unit.forwards.has_key(key):
        return []  # an edited message has told her already, and goes on to be read
    edited = edited or unit.forwards.knows(client.id, person.arrival.message_id)
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    effects: list[Effect] = []
    for number, message in enumerate(say.words(client.name, text, edited=edited)):
        name = f"{key}:{number}" if number else key
        unit.forwards.add(client.id, name, chat_id, person.arrival.message_id, "text", now)
        effects.append(Send(chat_id, message, key=name, due_at=due_at))
    if not (edited or cared_for) and may_be_health(text):
        effects.append(Send(person.chat_id, in_case(client.zone), key=f"in-case:{person.arrival.update_id}"))
    return [*effects, *office_hours.told(client, person, unit, now)]


def _update(person: Person) -> int:
    return person.arrival.update_id if person.arrival else 0
