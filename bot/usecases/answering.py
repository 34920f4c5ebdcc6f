"""A coach's words to a client: a reply to what was passed on or to an alert, or the next message after a button."""

from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import answering as say
from bot.store.forwards import Forwarded
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import pain, phrases, video_cue
from bot.usecases.alert_buttons import alert_of, tells_of_several
from bot.usecases.effects import is_quiet
from bot.usecases.forwarding import words_passed_on
from bot.usecases.reply_context import context_for
from core.checkin.replies import read_reply

FROM_COACH = "from-coach"
"""How the keys of a coach's messages to a client begin; with the client, and the update that brought it."""
FILE = "file"
"""How the keys of a client's card in the coach's chat begin; with the client."""
SENT = "sent-to"
"""How the keys of what is said back begin; with the client."""
MOST_ASKED = 30


@dataclass(frozen=True, slots=True)
class Words:
    """What a coach sent: words, or a picture, voice or video with its caption, maybe one of an album."""

    text: str
    kind: str | None = None
    file_id: str | None = None
    album: str | None = None


def begin(client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Have the coach's next message go to a client."""
    prompt = unit.prompts.open(
        "write",
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        expects_text=True,
    )
    key = f"write:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    question = say.ask(client.name, _buttons(prompt), phrases.offered(unit))
    return [Send(person.chat_id, question, key=f"{key}:ask", card=key)]


def heard(words: Words, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Pass a coach's message on to the client it is for; ask when that is not clear; None when it is no message.

    A reply goes to whom the message it answers is from or about. Without one it answers an open [Write to them].
    """
    reply_to = person.arrival.reply_to if person.arrival else None
    prompt = unit.prompts.expecting_text(person.user_id)
    text = phrases.written_out(words.text, unit)
    if text is None and is_for_a_client(person, unit):
        return phrases.unknown(words.text, person, unit)
    words = words if text is None else replace(words, text=text)
    if reply_to is None:
        return _written(words, prompt, person, unit, now) if prompt is not None else None
    forwarded = unit.forwards.at(person.chat_id, reply_to)
    if forwarded is not None:
        unit.forwards.answered(forwarded.id, now)
        return passed_on(words, unit.clients.get(forwarded.client_id), person, unit, now, about=forwarded)
    card = unit.cards.card_at(person.chat_id, reply_to)
    if card is not None and prompt is not None and card.key == prompt.card_key:
        return _written(words, prompt, person, unit, now)
    client = _named_by(card.key, unit) if card is not None else None
    if client is not None:
        return passed_on(words, client, person, unit, now)
    return _asked(words, person, unit, now)


def _named_by(card_key: str, unit: Unit) -> Client | None:
    """Return the client that a card in the coach's chat is about; None when it is about none."""
    alert_id = alert_of(card_key)
    if alert_id is not None:
        told = unit.prompts.newest("alert", alert_id)
        if told is not None and told.card_key == card_key and tells_of_several(told):
            return None
        return unit.clients.get(unit.alerts.get(alert_id).client_id)
    head, *rest = card_key.split(":")
    if head in (FILE, SENT):
        return unit.clients.get(int(rest[0]))
    prompt = unit.prompts.get(int(rest[0])) if head in ("write", "whom", "correct") else None
    return unit.clients.get(prompt.client_id) if prompt is not None and prompt.client_id else None


def client_at(chat_id: int, message_id: int, unit: Unit) -> Client | None:
    """Return the client whose words a message in the coach's chat is, or whom it is about; None where it is none's."""
    forwarded = unit.forwards.at(chat_id, message_id)
    if forwarded is not None:
        return unit.clients.get(forwarded.client_id)
    card = unit.cards.card_at(chat_id, message_id)
    return _named_by(card.key, unit) if card is not None else None


def _written(words: Words, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    if prompt.kind != "write":
        return None
    unit.prompts.close(prompt.id, now)
    unit.prompts.revise(prompt.id)
    client = unit.clients.get(prompt.subject or 0)
    said, sent = _sent(words, client, person, unit, now)
    return [*sent, EditCard(_key(prompt), prompt.chat_id, said, moved=True)]


def passed_on(
    words: Words,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
    *,
    about: Forwarded | None = None,
) -> list[Effect]:
    """Pass words on to a client, and say so; an answer to a picture of an exercise can be kept as a cue."""
    said, sent = _sent(words, client, person, unit, now)
    key = f"{SENT}:{client.id}:{_update(person)}"
    if about is not None and sent:
        said = replace(said, rows=video_cue.offered(about, words.text, key, person, unit, now))
    return [*sent, Send(person.chat_id, said, key=key, card=key)]


def _sent(
    words: Words, client: Client, person: Person, unit: Unit, now: datetime
) -> tuple[Message, list[Effect]]:
    """Return what is said back, and the message to the client; none to one who has left or cannot be reached."""
    account = unit.accounts.of_client(client.id)
    if account is None or client.state == "stopped":
        return say.has_left(client.name), []
    if not account.reachable:
        return say.unreachable(client.name), []
    # At any hour, since she decides that herself; in the client's quiet hours it makes no sound.
    local = now.astimezone(ZoneInfo(client.zone or "UTC")).time()
    silent = is_quiet(local, unit.rules.policy(client.id))
    coach = unit.coaches.get(unit.tenant).name
    album = f":album:{words.album}." if words.album is not None else ""
    key = f"{FROM_COACH}:{client.id}:{_update(person)}{album}"
    said = say.sent(client.name, words.text, words.kind, silent=silent)
    sent: list[Effect] = []
    messages = say.from_coach(coach, words.text, words.kind, words.file_id, silent=silent)
    for number, message in enumerate(messages):
        name = f"{key}:{number}" if number else key
        sent.append(Send(account.chat_id, message, key=name, card=name))
    return said, sent


def rest_of_album(words: Words, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Pass on what belongs to an album of which something went to a client already; None where it does not."""
    key = unit.forwards.album_key(FROM_COACH, words.album) if words.album is not None else None
    if key is None:
        return None
    return passed_on(words, unit.clients.get(int(key.split(":")[1])), person, unit, now)


def is_for_a_client(person: Person, unit: Unit) -> bool:
    """Return whether what a coach sends is for a client, by what it answers or by an open [Write to them]."""
    reply_to = person.arrival.reply_to if person.arrival else None
    if reply_to is None:
        prompt = unit.prompts.expecting_text(person.user_id)
        return prompt is not None and prompt.kind == "write"
    card = unit.cards.card_at(person.chat_id, reply_to)
    named = card is not None and _named_by(card.key, unit) is not None
    return named or unit.forwards.at(person.chat_id, reply_to) is not None


def _asked(words: Words, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask whom a message is for; nothing goes anywhere by a guess."""
    prompt = unit.prompts.open(
        "whom",
        person.user_id,
        person.chat_id,
        now,
        facts={"text": words.text, "kind": words.kind, "file": words.file_id},
    )
    key = f"whom:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    question = say.ask_whom(words.text, _clients(unit), _buttons(prompt))
    return [Send(person.chat_id, question, key=f"{key}:ask", card=key)]


def _clients(unit: Unit) -> list[tuple[int, str]]:
    return [(each.id, each.name) for each in unit.clients.roster()][:MOST_ASKED]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take whom a message is for, or that it is for nobody."""
    if person.role != "coach":
        return []
    if tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [EditCard(_key(prompt), prompt.chat_id, say.not_sent())]
    phrase = phrases.of_button(tap.argument, unit) if tap.action is Action.PICK else None
    if prompt.kind == "write" and phrase is not None:
        written = _written(Words(phrase), prompt, person, unit, now) or []
        return [replace(each, moved=False) if isinstance(each, EditCard) else each for each in written]
    if prompt.kind != "whom" or tap.action is not Action.PICK or tap.argument not in dict(_clients(unit)):
        return refreshed(prompt, person, unit, now)
    unit.prompts.close(prompt.id, now)
    facts = prompt.facts
    words = Words(str(facts["text"]), facts["kind"], facts["file"])
    said, sent = _sent(words, unit.clients.get(tap.argument), person, unit, now)
    return [*sent, EditCard(_key(prompt), prompt.chat_id, said)]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Ask once more, or say that it is settled, after a tap on an old button."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [EditCard(_key(prompt), prompt.chat_id, say.settled())]
    if prompt.kind == "write":
        name = unit.clients.get(prompt.subject or 0).name
        return [
            EditCard(_key(prompt), prompt.chat_id, say.ask(name, _buttons(prompt), phrases.offered(unit)))
        ]
    question = say.ask_whom(str(prompt.facts["text"]), _clients(unit), _buttons(prompt))
    return [EditCard(_key(prompt), prompt.chat_id, question)]


def answers_coach(person: Person, unit: Unit) -> bool:
    """Return whether a client replies to a message of her coach's."""
    reply_to = person.arrival.reply_to if person.arrival else None
    card = unit.cards.card_at(person.chat_id, reply_to) if reply_to is not None else None
    return card is not None and card.key.startswith(f"{FROM_COACH}:")


def passed_back(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Pass a client's reply to her coach on, numbers and all; pain that it tells of is kept and answered too."""
    message_id = person.arrival.message_id if person.arrival else None
    reading = read_reply(text, context_for(client, None, None, unit))
    return [
        *pain.told(reading.pain, None, None, person, unit, now, message_id),
        *words_passed_on(text, client, person, unit, now, cared_for=bool(reading.pain)),
        Send(person.chat_id, say.passed_back(), key=f"passed-back:{_update(person)}"),
    ]


def _buttons(prompt: Prompt) -> say.Buttons:
    return say.Buttons(prompt.id, prompt.revision)


def _key(prompt: Prompt) -> str:
    return prompt.card_key or f"{prompt.kind}:{prompt.id}"


def _update(person: Person) -> int:
    return person.arrival.update_id if person.arrival else 0
