"""`/tell`: one message of a coach to several of her clients: seen first, counted, and stopped within a minute."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
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
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.leaving import answer
from bot.usecases.only_coaches import only_for_coaches
from core.local_time import local_date
from core.programme.folding import folded

KIND = "tell"
COMMAND = "/tell"
MINUTE = timedelta(minutes=1)
"""Time in which a message to several can be stopped."""
WEEK = timedelta(days=7)
"""Silent so long is quiet, and pain so recent counts. Our proposal."""
LONGEST = 3000
"""Most letters to several. Our proposal: it stays one message."""
BLOCK = "block "
_TYPED = {
    "send": Action.CONFIRM,
    "change": Action.CHANGE,
    "never mind": Action.CANCEL,
    "stop it": Action.UNDO,
    "stop": Action.UNDO,
}


@dataclass(frozen=True, slots=True)
class TellSaid:
    """`/tell`, with what stands after it, or under a picture or voice message.

    Attributes:
        text: `all: words`.
        kind: The platform's word for what was sent with it; None for words alone.
        file_id: The platform's id of that.
    """

    text: str = ""
    kind: str | None = None
    file_id: str | None = None


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
    meant = _meant(whom, unit, now)
    if isinstance(meant, str):
        return [answer(person, KIND, say.unclear(meant))]
    if not meant:
        return [answer(person, KIND, say.nobody(whom))]
    facts = {
        "ids": [each.id for each in meant],
        "text": text,
        "kind": command.kind,
        "file": command.file_id,
    }
    prompt = unit.prompts.open(KIND, person.user_id, person.chat_id, now, facts=facts, expects_text=True)
    unit.prompts.set_card(prompt.id, _key(prompt))
    return [Send(person.chat_id, _preview(prompt, unit), key=f"{_key(prompt)}:ask", card=_key(prompt))]


def from_caption(
    caption: str, kind: str, file_id: str, person: Person, unit: Unit, now: datetime
) -> Sequence[Effect]:
    """Take a picture or voice message under which the command stands; nothing where it does not."""
    first, _, rest = caption.strip().partition(" ")
    if first.partition("@")[0].casefold() != COMMAND or kind not in KIND_WORDS:
        return []
    return tell_said(TellSaid(rest.strip(), kind, file_id), person, unit, now)


def _meant(whom: str, unit: Unit, now: datetime) -> list[Client] | str:
    """Return who is meant, by name; or what of it is not clear."""
    there = [each for each in unit.clients.roster() if each.state in ("active", "paused")]
    said = whom.casefold()
    if said.startswith(BLOCK):
        return _on_block(whom[len(BLOCK) :], there, unit, now)
    chosen = _FILTERS.get(said)
    if chosen is not None:
        return [each for each in there if chosen(each, unit, now)]
    found: dict[int, Client] = {}
    for name in (part.strip() for part in whom.split(",")):
        meant = clients_meant(name, unit)
        if not is_clear(name, meant):
            return name or whom
        found[meant[0].id] = meant[0]
    return sorted(found.values(), key=lambda each: each.name)


def _on_block(name: str, there: Sequence[Client], unit: Unit, now: datetime) -> list[Client] | str:
    known = {folded(block) for _, block, _ in unit.blocks.newest()}
    if folded(name) not in known:
        return name
    running = unit.blocks.running_all()
    return [
        each
        for each in there
        if each.id in running
        and folded(unit.versions.block_for(running[each.id], _today(each, now)).name) == folded(name)
    ]


def _today(client: Client, now: datetime) -> date:
    return local_date(now, client.zone or "UTC")


def _is_quiet(client: Client, unit: Unit, now: datetime) -> bool:
    since = client.heard_at or client.joined_at
    return client.state == "active" and since is not None and now - since >= WEEK


def _has_pain(client: Client, unit: Unit, now: datetime) -> bool:
    return any(each.score != 0 for each in unit.body.since(client.id, _today(client, now) - WEEK))


def _is_anybody(client: Client, unit: Unit, now: datetime) -> bool:
    return True


def _is_paused(client: Client, unit: Unit, now: datetime) -> bool:
    return client.state == "paused"


_FILTERS: dict[str, Callable[[Client, Unit, datetime], bool]] = {
    "all": _is_anybody,
    "everybody": _is_anybody,
    "paused": _is_paused,
    "quiet": _is_quiet,
    "in pain": _has_pain,
}


def typed(text: str, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take what a tap would say; while other words are asked for, take those."""
    action = _TYPED.get(text.casefold().strip(" .!"))
    if action is not None:
        return tapped(Tap(prompt.id, prompt.revision, action), prompt, person, unit, now)
    return _changed(text, None, None, prompt, unit) if prompt.facts.get("changing") else None


def sent(kind: str, file_id: str, text: str, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take a picture or voice message in place of the words, while those are asked for."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != KIND or not prompt.facts.get("changing"):
        return []
    return _changed(text, kind, file_id, prompt, unit)


def _changed(text: str, kind: str | None, file_id: str | None, prompt: Prompt, unit: Unit) -> list[Effect]:
    if len(text) > LONGEST:
        return [EditCard(_key(prompt), prompt.chat_id, say.too_long(len(text), LONGEST), moved=True)]
    facts = {**prompt.facts, "text": text.strip(), "kind": kind, "file": file_id, "changing": False}
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
    coach = unit.coaches.get(unit.tenant).name
    left = [each.name for each in away]
    return say.preview(coach, str(facts["text"]), facts["kind"], names, left, _buttons(prompt))


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
