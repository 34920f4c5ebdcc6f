"""`/pause NAME until DAY`, `/resume NAME`, `/end NAME`: a coach pauses a client, takes her up again, or ends."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import pausing as say
from bot.render.setting_up import Buttons
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import silence
from bot.usecases.block_files import only_for_coaches
from bot.usecases.effects import after_quiet
from bot.usecases.leaving import answer, ended
from bot.usecases.orders_said import named_first
from bot.usecases.whose import whose
from core.checkin.day_spans import day_said
from core.local_time import local_date

KIND = "pausing"
ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class PauseAsked:
    """`/pause`, with a name and maybe a last day."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class ResumeAsked:
    """`/resume`, with a name."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class EndAsked:
    """`/end`, with a name."""

    text: str = ""


def pause_asked(command: PauseAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Pause a client at once, until a day or until she is taken up again; undone by a tap."""
    if person.role != "coach":
        return only_for_coaches(person)
    head, _, tail = " ".join(command.text.replace(",", " ").split()).partition(" until ")
    client, rest = _client(head, "pause", person, unit, now)
    if isinstance(client, list):
        return client
    today = local_date(now, client.zone or "UTC")
    last = day_said(tail, today) if tail else None
    if rest.strip() or (tail and (last is None or last < today)):
        return [answer(person, "pause", say.unread(client.name))]
    if client.state == "paused":
        return [answer(person, "pause", say.is_paused(client.name, client.paused_until))]
    unit.prompts.close_kind("silence", client.id, now)
    unit.clients.change(client.id, state="paused", paused_until=None if last is None else last + ONE_DAY)
    prompt = _prompt(client, person, unit, now, {"ask": "pause"})
    shown = say.paused(client.name, last, Buttons(prompt.id, prompt.revision))
    told = say.told_paused(unit.coaches.get(unit.tenant).name, last)
    return [
        Send(person.chat_id, shown, key=f"{_key(prompt)}:ask", card=_key(prompt)),
        *_told(client, told, f"paused:{prompt.id}", unit, now),
    ]


def resume_asked(command: ResumeAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take a client up again."""
    if person.role != "coach":
        return only_for_coaches(person)
    client, rest = _client(command.text, "resume", person, unit, now)
    if isinstance(client, list):
        return client
    if client.state != "paused" or rest.strip():
        return [answer(person, "resume", say.not_paused(client.name))]
    _taken_up(client, unit, now)
    arrival = person.arrival.update_id if person.arrival else 0
    told = say.told_resumed(unit.coaches.get(unit.tenant).name)
    return [
        answer(person, "resume", say.resumed(client.name)),
        *_told(client, told, f"resumed:{client.id}:{arrival}", unit, now),
    ]


def end_asked(command: EndAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask once more whether a client is to be ended."""
    if person.role != "coach":
        return only_for_coaches(person)
    client, rest = _client(command.text, "end", person, unit, now)
    if isinstance(client, list):
        return client
    if rest.strip():
        return [answer(person, "end", say.how_to("end"))]
    prompt = _prompt(client, person, unit, now, {"ask": "end"})
    asked = say.ask_end(client.name, Buttons(prompt.id, prompt.revision))
    return [Send(person.chat_id, asked, key=f"{_key(prompt)}:ask", card=_key(prompt))]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take a pause back, or end, or not."""
    if person.role != "coach" or prompt.client_id is None:
        return []
    client = unit.clients.get(prompt.client_id)
    match prompt.facts["ask"], tap.action:
        case "pause", Action.UNDO:
            return _pause_undone(client, prompt, unit, now)
        case "end", Action.CONFIRM if client.state != "stopped":
            effects = ended(client, unit, now, by_coach=True)
            told = say.told_ended(unit.coaches.get(unit.tenant).name)
            return [
                *effects,
                _card(prompt, say.ended(client.name)),
                *_told(client, told, f"ended:{prompt.id}", unit, now),
            ]
        case "end", Action.CANCEL:
            unit.prompts.close(prompt.id, now)
            return [_card(prompt, say.stays(client.name))]
        case _:
            return refreshed(prompt, person, unit, now)


def _pause_undone(client: Client, prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    """Take a pause back; the client hears that it goes on, since she was told that it does not."""
    unit.prompts.close(prompt.id, now)
    if client.state != "paused":
        return [_card(prompt, say.settled(client.name))]
    _taken_up(client, unit, now)
    told = say.told_resumed(unit.coaches.get(unit.tenant).name)
    if unit.outbox.is_waiting(unit.tenant, f"paused:{prompt.id}"):
        unit.outbox.withdraw(unit.tenant, f"paused:{prompt.id}")
        return [_card(prompt, say.pause_undone(client.name))]
    return [
        _card(prompt, say.pause_undone(client.name)),
        *_told(client, told, f"unpaused:{prompt.id}", unit, now),
    ]


def _taken_up(client: Client, unit: Unit, now: datetime) -> None:
    unit.prompts.close_kind("silence", client.id, now)
    silence.resume(client, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show how it stands, after a tap on an old button."""
    if person.role != "coach" or prompt.client_id is None:
        return []
    client = unit.clients.get(prompt.client_id)
    buttons = Buttons(prompt.id, prompt.revision)
    if prompt.closed_at is not None or client.state == "stopped":
        return [_card(prompt, say.settled(client.name))]
    if prompt.facts["ask"] == "end":
        return [_card(prompt, say.ask_end(client.name, buttons))]
    until = client.paused_until
    last: date | None = None if until is None else until - ONE_DAY
    return [_card(prompt, say.paused(client.name, last, buttons))]


def _client(
    text: str, command: str, person: Person, unit: Unit, now: datetime
) -> tuple[Client | list[Effect], str]:
    """Return the client who is named, with the words after the name; or what is asked where she is not clear."""
    if not text.strip():
        return [answer(person, command, say.how_to(command))], ""
    client, rest = named_first(text, unit)
    if client is not None:
        return client, rest
    found = whose(text, command, person, unit, now)
    return (found.client, found.rest) if found.client is not None else (list(found.effects), "")


def _prompt(client: Client, person: Person, unit: Unit, now: datetime, facts: dict[str, str]) -> Prompt:
    unit.prompts.close_kind(KIND, client.id, now)
    prompt = unit.prompts.open(
        KIND,
        person.user_id,
        person.chat_id,
        now,
        client_id=client.id,
        subject=client.id,
        facts=dict(facts),
    )
    unit.prompts.set_card(prompt.id, _key(prompt))
    return prompt


def _told(client: Client, message: Message, key: str, unit: Unit, now: datetime) -> list[Effect]:
    """Tell a client at a decent hour; nobody where she has no account, or never ended joining."""
    account = unit.accounts.of_client(client.id)
    if account is None or client.state == "joining":
        return []
    due_at = after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id))
    return [Send(account.chat_id, message, key=key, due_at=due_at, unasked=True)]


def _key(prompt: Prompt) -> str:
    return f"{KIND}:{prompt.id}"


def _card(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(_key(prompt), prompt.chat_id, message)
