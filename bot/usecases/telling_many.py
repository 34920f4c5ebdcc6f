"""`/tell`: one message of a coach to several of her clients: seen first, counted, and stopped within a minute."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from bot.messages import Action, EditCard, Effect, Lane, Message, Person, Send, Tap
from bot.render import answering as say_one
from bot.render import telling_many as say
from bot.render.forwarding import KIND_WORDS
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.answering import FROM_COACH
from bot.usecases.effects import is_quiet
from bot.usecases.forwarding import MediaSent
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from bot.usecases.telling_whom import whom_meant

KIND = "tell"
COMMAND = "/tell"
MINUTE = timedelta(minutes=1)
"""Time in which a message to several can be stopped."""
WEEK = timedelta(days=7)
"""Silent so long is quiet, and pain so recent counts. Our proposal."""
LONGEST = 3000
"""Most letters to several. Our proposal: it stays one message."""
_TYPED = {
    "send": Action.CONFIRM,
    "change": Action.CHANGE,
    "never mind": Action.CANCEL,
    "stop it": Action.UNDO,
    "stop": Action.UNDO,
}


@dataclass(frozen=True, slots=True)
class TellSaid:
    """`/tell`, with what stands after it, or under a picture, a voice message or a file.

    Attributes:
        text: `all: words`.
        kind: The platform's word for what was sent with it; None for words alone.
        file_id: The platform's id of that.
        name: What a file is called.
        of_album: True where it was sent together with others, which do not go with it.
    """

    text: str = ""
    kind: str | None = None
    file_id: str | None = None
    name: str = ""
    of_album: bool = False


def tell_said(command: TellSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show what would go out, and to whom; nothing is sent yet."""
    if person.role != "coach":
        return only_for_coaches(person)
    whom, colon, words = command.text.partition(":")
    whom, text = " ".join(whom.split()), words.strip()
    if not whom or not (text or command.kind) or not (colon or command.kind):
        return [answer(person, KIND, say.how_to())]
    if len(text) > LONGEST:
        return [answer(person, KIND, say.too_long(len(text), LONGEST))]
    meant = whom_meant(whom, unit, now)
    if isinstance(meant, str):
        return [answer(person, KIND, say.unclear(meant))]
    if not meant:
        return [answer(person, KIND, say.nobody(whom))]
    facts = {
        "ids": [each.id for each in meant],
        "text": text,
        "kind": command.kind,
        "file": command.file_id,
        "name": command.name,
        "of_album": command.of_album,
    }
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, facts=facts, expects_text=True)
    unit.prompts.set_card(prompt.id, _key(prompt))
    return [Send(person.chat_id, _preview(prompt, unit), key=f"{_key(prompt)}:ask", card=_key(prompt))]


def is_under(caption: str) -> bool:
    """Return whether the command stands under a file, so that the file goes to several and is no block."""
    return caption.strip().partition(" ")[0].partition("@")[0].casefold() == COMMAND


def is_for_several(caption: str, person: Person, unit: Unit) -> bool:
    """Return whether a file of a coach's goes to several: by what stands under it, or because she is asked for it."""
    return is_under(caption) or _changing(person, unit) is not None


def from_caption(sent: MediaSent, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take a picture, voice message or file under which the command stands; nothing where it does not."""
    if not is_under(sent.caption) or sent.kind not in KIND_WORDS:
        return []
    text = sent.caption.strip().partition(" ")[2].strip()
    command = TellSaid(text, sent.kind, sent.file_id, sent.name, of_album=sent.album is not None)
    return tell_said(command, person, unit, now)


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take what a tap would say; while other words are asked for, take those."""
    action = _TYPED.get(text.casefold().strip(" .!"))
    if action is not None:
        return tapped(Tap(prompt.id, prompt.revision, action), prompt, person, unit, now)
    return _changed(text, None, prompt, unit) if prompt.facts.get("changing") else None


def sent(file: MediaSent, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take a picture, voice message or file in place of the words, while those are asked for."""
    prompt = _changing(person, unit)
    return _changed(file.caption, file, prompt, unit) if prompt is not None else []


def _changing(person: Person, unit: Unit) -> Prompt | None:
    """Return the question that asks a coach for other words; None where none does, or she replies to something."""
    if person.arrival is not None and person.arrival.reply_to is not None:
        return None
    prompt = unit.prompts.expecting_text(person.user_id)
    return prompt if prompt is not None and prompt.kind == KIND and prompt.facts.get("changing") else None


def _changed(text: str, file: MediaSent | None, prompt: Prompt, unit: Unit) -> list[Effect]:
    if len(text) > LONGEST:
        return [EditCard(_key(prompt), prompt.chat_id, say.too_long(len(text), LONGEST), moved=True)]
    facts = {**prompt.facts, "text": text.strip(), "kind": None, "file": None, "changing": False}
    facts |= {"name": "", "of_album": False}
    if file is not None:
        facts |= {"kind": file.kind, "file": file.file_id, "name": file.name, "of_album": bool(file.album)}
    revised = unit.prompts.revise(prompt.id, facts=facts)
    return [EditCard(_key(prompt), prompt.chat_id, _preview(revised, unit), moved=True)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Send it, change it, leave it, or stop what is about to go out."""
    if person.role != "coach":
        return []
    due = prompt.facts.get("due")
    match tap.action:
        case Action.CONFIRM if due is None:
            return _sent(prompt, unit, now)
        case Action.CHANGE if due is None:
            revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, "changing": True})
            question = say.ask_change([each.name for each in _people(revised, unit)[0]], _buttons(revised))
            return [EditCard(_key(prompt), prompt.chat_id, question)]
        case Action.CANCEL if due is None:
            unit.prompts.close(prompt.id, now)
            return [EditCard(_key(prompt), prompt.chat_id, say.not_sent())]
        case Action.UNDO if due is not None:
            return _stopped(prompt, unit, now)
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how it stands, after a tap on an old button."""
    if person.role != "coach":
        return []
    due = prompt.facts.get("due")
    names = [str(each) for each in prompt.facts.get("names", ())]
    if due is not None and prompt.closed_at is None:
        return [EditCard(_key(prompt), prompt.chat_id, _going(prompt, names, unit, now))]
    if prompt.closed_at is not None:
        shown = say.stopped(names) if prompt.facts.get("stopped") else say.not_sent()
        return [EditCard(_key(prompt), prompt.chat_id, shown)]
    return [EditCard(_key(prompt), prompt.chat_id, _preview(prompt, unit))]


def _people(prompt: Prompt, unit: Unit) -> tuple[list[Client], list[Client]]:
    """Return who can be reached of those who are meant, and who cannot."""
    ids = set(prompt.facts["ids"])
    there = [each for each in unit.clients.roster() if each.id in ids]
    accounts = {each.id: unit.accounts.of_client(each.id) for each in there}
    reached = [each for each in there if (found := accounts[each.id]) is not None and found.reachable]
    return reached, [each for each in there if each not in reached]


def _preview(prompt: Prompt, unit: Unit) -> Message:
    reached, away = _people(prompt, unit)
    facts = prompt.facts
    names = [each.name for each in reached]
    what = say.Outgoing(
        coach=unit.coaches.get(unit.tenant).name,
        text=str(facts["text"]),
        kind=facts["kind"],
        name=str(facts.get("name", "")),
        of_album=bool(facts.get("of_album")),
    )
    return say.preview(what, names, [each.name for each in away], _buttons(prompt))


def _sent(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Queue it for everybody, due in a minute, in the lane in which many wait for few."""
    reached, _ = _people(prompt, unit)
    due, facts = now + MINUTE, prompt.facts
    coach = unit.coaches.get(unit.tenant)
    effects: list[Effect] = []
    quiet = 0
    for client in reached:
        account = unit.accounts.of_client(client.id)
        silent = is_quiet(due.astimezone(ZoneInfo(client.zone or "UTC")).time(), unit.rules.policy(client.id))
        quiet += silent
        messages = say_one.from_coach(
            coach.name, str(facts["text"]), facts["kind"], facts["file"], silent=silent
        )
        for number, message in enumerate(messages):
            key = f"{_begins(client.id, prompt)}{number}"
            effects.append(
                Send(
                    account.chat_id if account is not None else 0,
                    message,
                    key=key,
                    lane=Lane.BULK,
                    due_at=due,
                    card=key,
                    client_id=client.id,
                )
            )
    names = [each.name for each in reached]
    kept = {**facts, "due": due.isoformat(), "names": names, "quiet": quiet}
    kept["ids"] = [each.id for each in reached]
    revised = unit.prompts.revise(prompt.id, facts=kept)
    return [*effects, EditCard(_key(prompt), prompt.chat_id, _going(revised, names, unit, now))]


def _going(prompt: Prompt, names: Sequence[str], unit: Unit, now: datetime) -> Message:
    due = datetime.fromisoformat(str(prompt.facts["due"]))
    if now >= due:
        return say.is_out(names)
    at = due.astimezone(ZoneInfo(unit.coaches.get(unit.tenant).zone)).time()
    return say.going(names, at, int(prompt.facts.get("quiet", 0)), _buttons(prompt))


def _stopped(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    names = [str(each) for each in prompt.facts["names"]]
    if now >= datetime.fromisoformat(str(prompt.facts["due"])):
        return [EditCard(_key(prompt), prompt.chat_id, say.is_out(names))]
    for client_id in prompt.facts["ids"]:
        unit.outbox.withdraw(unit.tenant, _begins(int(client_id), prompt))
    unit.prompts.note(prompt.id, {**prompt.facts, "stopped": True})
    unit.prompts.close(prompt.id, now)
    return [EditCard(_key(prompt), prompt.chat_id, say.stopped(names))]


def _begins(client_id: int, prompt: Prompt) -> str:
    return f"{FROM_COACH}:{client_id}:tell:{prompt.id}:"


def _buttons(prompt: Prompt) -> say.Buttons:
    return say.Buttons(prompt.id, prompt.revision)


def _key(prompt: Prompt) -> str:
    return f"{KIND}:{prompt.id}"
