"""Pictures, voice, films and files: a client's to her coach with what she was doing, a coach's to whom it is for.

What stands under them is read as if it had been typed: a stop sign first, then sets and pain. The file goes on whatever
comes of that.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Person, Send
from bot.render import forwarding as say
from bot.render.coach_talk import edits_stay
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases import (
    answering,
    block_files,
    block_voice,
    forwarding,
    join,
    pain,
    replies,
    stop_signs,
    strangers,
    talk,
    telling_many,
    week_voice,
)
from bot.usecases.forwarding import MediaSent
from bot.usecases.read_sets import left_of
from bot.usecases.reply_context import at_cursor, context_for
from core.checkin.reading import Reading
from core.checkin.replies import read_reply
from core.checkin.stop_signs import scan


@dataclass(frozen=True, slots=True)
class CaptionEdited:
    """What stands under a file was changed; empty where it was taken away, or the file itself was changed."""

    text: str


def media_sent(command: MediaSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Pass on what somebody sent, and answer what stands under it."""
    if person.role == "coach":
        return _of_coach(command, person, unit, now)
    sign = scan(command.caption) if command.caption else None
    first = stop_signs.found(sign, command.caption, person, unit, now) if sign is not None else []
    if person.role != "client" or person.client_id is None:
        return first or strangers.answered(person, unit, now)
    client = unit.clients.get(person.client_id)
    if client.state == "joining":
        return first or [Send(person.chat_id, say.join_first(), key=forwarding.in_burst(person, now))]
    if client.state == "stopped":
        return first or join.stopped_speaks(person)
    if sign is not None:
        return [*first, *forwarding.passed_on(command, client, person, unit, now, urgent=True)]
    answers = week_voice.heard(command, person, unit, now)
    if answers:
        return answers
    heard = _heard(command.caption, client, person, unit, now) if command.caption else []
    return [*heard, *forwarding.passed_on(command, client, person, unit, now)]


def _heard(caption: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Answer what stands under a file: as a reply where it is one; its plain words go on with the file."""
    session = unit.sessions.open_one(client.id)
    item = at_cursor(session, unit)
    reading = read_reply(caption, context_for(client, session, item, unit))
    message_id = person.arrival.message_id if person.arrival else None
    if client.frozen_at is not None or answering.answers_coach(person, unit):
        return list(pain.told(reading.pain, None, None, person, unit, now, message_id))
    if not _is_reply(reading):
        return []
    alone = reading.model_copy(update={"note": type(reading).model_fields["note"].get_default()})
    return replies.act(alone, caption, session, item, client, person, unit, now)


def _is_reply(reading: Reading) -> bool:
    said = reading.sets or reading.pain or reading.soreness or reading.ask
    return bool(said) or reading.as_written or left_of(reading.effort) is not None


def _of_coach(command: MediaSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    taken = telling_many.from_caption(command, person, unit, now)
    if not taken and (person.arrival is None or person.arrival.reply_to is None):
        file = command.kind, command.file_id
        taken = telling_many.sent(command, person, unit, now)
        taken = taken or block_voice.sent(*file, command.caption, person, unit, now)
    if taken:
        return taken
    words = answering.Words(command.caption, command.kind, command.file_id, command.album)
    passed_on = answering.heard(words, person, unit, now) or answering.rest_of_album(words, person, unit, now)
    return passed_on or [Send(person.chat_id, say.for_whom(), key=forwarding.in_burst(person, now))]


def document_sent(
    command: block_files.FileSent, person: Person, unit: Unit, now: datetime
) -> Sequence[Effect]:
    """Take a file: a coach's block, unless it is for clients; whatever a client sends goes to her coach."""
    is_for_clients = person.role == "coach" and (
        answering.is_for_a_client(person, unit) or telling_many.is_for_several(command.caption, person, unit)
    )
    if person.role == "coach" and not is_for_clients:
        return block_files.file_sent(command, person, unit, now)
    sent = MediaSent("document", command.file_id, command.caption, album=command.album, name=command.name)
    return media_sent(sent, person, unit, now)


def caption_edited(command: CaptionEdited, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take new words under a file as a correction; a changed file must be sent anew."""
    if person.role == "coach":
        return [Send(person.chat_id, edits_stay(), key=f"edit:{_update(person)}")]
    if not command.text.strip():
        if person.role != "client":
            return []
        return [Send(person.chat_id, say.send_anew(), key=f"edit:{_update(person)}")]
    return talk.heard(talk.Heard(command.text, edited=True), person, unit, now)


def _update(person: Person) -> int:
    return person.arrival.update_id if person.arrival else 0
