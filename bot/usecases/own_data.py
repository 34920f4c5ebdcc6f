"""A client's own data: all of it handed out, all of it deleted. A stop sign or a pause stands in the way of neither."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.files.archive import archive
from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import own_data as words
from bot.render.join import NOTES
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import strangers
from bot.usecases.leaving import answer, card_shown

KIND = "forget"
"""Kind of the question whether everything is to be deleted."""
EVERYTHING = "everything"
"""Behind `/forget`: the same as the button."""


@dataclass(frozen=True, slots=True)
class DataAsked:
    """`/mydata`."""


@dataclass(frozen=True, slots=True)
class Forget:
    """`/forget`, or `/forget everything`, which needs no more asking."""

    text: str = ""


def data_asked(command: DataAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Send a client all that is kept about her, as a file."""
    del command
    if person.role == "coach":
        return [answer(person, "mydata", words.coach_has_no_data())]
    if person.role != "client" or person.client_id is None or person.arrival is None:
        return strangers.answered(person, unit, now)
    content = packed(person.client_id, unit, now)
    picture_id = unit.oversight.add_picture("my-data.zip", content, now, client_id=person.client_id)
    message = Message(
        words.handed_out(), silent=True, protect=False, media_kind="document", picture_id=picture_id
    )
    return [
        Send(person.chat_id, message, key=f"mydata:{person.arrival.update_id}", client_id=person.client_id)
    ]


def packed(client_id: int, unit: Unit, now: datetime) -> bytes:
    """Return all that is kept about a client as a zip."""
    tables = list(unit.erasing.rows(client_id))
    index = words.index(unit.clients.get(client_id).name, now, [name for name, _ in tables])
    return archive(tables, index)


def forget(command: Forget, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask once whether a client means it."""
    if person.role == "coach":
        return [answer(person, "forget", words.coach_has_no_data())]
    if person.role != "client" or person.client_id is None or person.arrival is None:
        return strangers.answered(person, unit, now)
    if command.text.strip().casefold() == EVERYTHING:
        return _forgotten(person, unit, now)
    key = f"forget:{person.client_id}:{person.arrival.update_id}"
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=person.client_id, card_key=key
    )
    question = words.forget_question(prompt.id, prompt.revision)
    return [
        Send(
            person.chat_id,
            question,
            key=f"forget:{person.arrival.update_id}",
            card=key,
            client_id=person.client_id,
        )
    ]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Delete everything, or nothing."""
    if person.client_id is None:
        return []
    if tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [card_shown(prompt, person.client_id, words.kept())]
    if tap.action is not Action.CONFIRM:
        return refreshed(prompt, person, unit, now)
    return _forgotten(person, unit, now)


def _forgotten(person: Person, unit: Unit, now: datetime) -> list[Effect]:
    client_id = person.client_id or 0
    name = unit.clients.get(client_id).name
    unit.erasing.erase(client_id, now)
    arrival = person.arrival.update_id if person.arrival else 0
    effects: list[Effect] = [Send(person.chat_id, words.forgotten(), key=f"forgotten:{arrival}")]
    coach_chat = unit.accounts.coach_chat(unit.tenant)
    if coach_chat is not None:
        effects.append(Send(coach_chat, words.has_gone(name), key=f"gone:{arrival}"))
    return effects


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[EditCard]:
    """Show the question as it stands, after a tap on a button that is no longer good."""
    del unit, now
    if person.client_id is None:
        return []
    if prompt.closed_at is not None:
        return [card_shown(prompt, person.client_id, words.kept())]
    question = words.forget_question(prompt.id, prompt.revision, NOTES["stale"])
    return [card_shown(prompt, person.client_id, question)]
