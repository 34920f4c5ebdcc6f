"""Goals: a client's own, up to three; her coach sees them and can put one."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import goals as say
from bot.render.setting_up import Buttons, only_for_coaches
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.finding_clients import clients_meant, is_clear
from bot.usecases.join import answer
from bot.usecases.today import client_of
from core.checkin.goal_words import GoalRead, goal_read
from core.checkin.reading import Context
from core.checkin.replies import read_reply
from core.local_time import local_date

KIND = "goals"
_SAID = re.compile(
    r"(?:(reached|given up|gave up|change|drop) )?(\d)(?: (reached|given up|gave up|drop))?(?: (\S.*))?"
)
_OUTCOMES = {"reached": "reached", "given up": "given up", "gave up": "given up", "drop": "given up"}


@dataclass(frozen=True, slots=True)
class GoalsAsked:
    """`/goals`, with what a client types after it."""

    text: str = ""


@dataclass(frozen=True, slots=True)
class GoalSaid:
    """`/goal NAME TEXT` of a coach."""

    text: str = ""


def goals_asked(command: GoalsAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show a client's goals; with words after the command change them first."""
    client, answered = client_of(person, unit, now)
    if client is None:
        return answered
    note, undo = _taken(command.text, client, unit, now) if command.text.strip() else ("", None)
    unit.prompts.close_kind(KIND, client.id, now)
    facts = {"asks": None, "undo": undo}
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=client.id, subject=client.id, facts=facts
    )
    key = f"goals:{prompt.id}"
    unit.prompts.set_card(prompt.id, key)
    message = _message(prompt, client, unit, note)
    return [Send(person.chat_id, message, key=f"{key}:card", card=key, client_id=client.id)]


def goal_said(command: GoalSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Put a goal for a client of the coach who asks, and tell the client without a sound."""
    if person.role != "coach":
        return [answer(person, "goal", only_for_coaches())]
    name, text = _name_and_text(command.text, unit)
    if not name or not text:
        return [answer(person, "goal", say.usage())]
    found = clients_meant(name, unit)
    if not is_clear(name, found):
        return [answer(person, "goal", say.unknown(name, [each.name for each in found]))]
    client = found[0]
    read = goal_read(text, local_date(now, client.zone or "UTC"))
    refused = _refused(read, client, unit)
    if refused:
        return [answer(person, "goal", say.refused(client.name, refused))]
    row = unit.goals.add(client.id, read.text, read.by_on, now)
    line = say.Line(read.text, read.by_on)
    said = answer(person, "goal", say.added_for(client.name, line))
    account = unit.accounts.of_client(client.id)
    if account is None or client.state not in ("active", "paused"):
        return [said]
    message = say.from_coach(unit.coaches.get(unit.tenant).name, line)
    return [said, Send(account.chat_id, message, key=f"goal:{row}:told", client_id=client.id)]


def _name_and_text(text: str, unit: Unit) -> tuple[str, str]:
    """Return the name that a line begins with, and the rest: the longest name of a client, or its first word."""
    words = " ".join(text.split())
    if ":" in words:
        name, _, rest = words.partition(":")
        return name.strip(), rest.strip()
    names = sorted((each.name for each in unit.clients.roster()), key=len, reverse=True)
    known = next((name for name in names if words.casefold().startswith(f"{name.casefold()} ")), None)
    name = words[: len(known)] if known is not None else words.partition(" ")[0]
    return name, words[len(name) :].strip()


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Say what became of a goal, ask for its words or for one more, or take the last thing back."""
    client = unit.clients.get(prompt.subject or 0)
    standing = unit.goals.standing(client.id)
    known = 1 <= tap.argument <= len(standing)
    match tap.action:
        case Action.DONE | Action.DROP if known:
            outcome = "reached" if tap.action is Action.DONE else "given up"
            note, undo = _ended(tap.argument, outcome, client, unit, now)
            return [_shown(prompt, client, unit, note, undo=undo)]
        case Action.CHANGE if known:
            return [_shown(prompt, client, unit, asks=f"change {tap.argument}")]
        case Action.TYPE if len(standing) < say.MOST:
            return [_shown(prompt, client, unit, asks="add")]
        case Action.UNDO if prompt.facts.get("undo"):
            return [_undone(prompt, client, unit, now)]
        case Action.BACK:
            return [_shown(prompt, client, unit)]
        case _:
            return refreshed(prompt, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the goals as they stand, after a tap on a button that is no longer good."""
    client = unit.clients.get(prompt.subject or 0)
    if prompt.closed_at is not None or client.state not in ("active", "paused"):
        return [_card(prompt, say.closed())]
    return [_shown(prompt, client, unit, say.STALE)]


def typed(text: str, client: Client, person: Person, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take the words of a goal that is asked for, or what became of one; None for anything else."""
    prompt = unit.prompts.expecting_text(person.user_id)
    if prompt is None or prompt.kind != KIND:
        return None
    words = " ".join(text.split())
    asks = prompt.facts.get("asks")
    if words.casefold() in ("back", "undo"):
        undo = words.casefold() == "undo" and prompt.facts.get("undo")
        shown = _undone(prompt, client, unit, now) if undo else _shown(prompt, client, unit)
        return [replace(shown, moved=True)]
    if asks is None or _is_a_reply(words, client, unit):
        return None
    note, undone = _taken(
        words if asks == "add" else f"{asks} {words}", client, unit, now, adds=asks == "add"
    )
    refused = undone is None
    shown = _shown(
        prompt, client, unit, note, undo=undone, asks=str(asks) if refused and note != say.FULL else None
    )
    return [replace(shown, moved=True)]


def _is_a_reply(text: str, client: Client, unit: Unit) -> bool:
    """Return whether a line is of the body, or of a session that is open: it goes there."""
    reading = read_reply(text, Context())
    of_body = bool(reading.pain or reading.soreness or any(each.pain for each in reading.ask))
    plain_sets = bool(reading.sets or reading.as_written or reading.skip) and not reading.note
    return of_body or (plain_sets and unit.sessions.open_one(client.id) is not None)


def _taken(
    text: str, client: Client, unit: Unit, now: datetime, *, adds: bool = False
) -> tuple[str, list[Any] | None]:
    """Do what a line says; return what is said of it, and how it is taken back."""
    words = " ".join(text.split())
    found = None if adds else _SAID.fullmatch(words) or _SAID.fullmatch(words.casefold())
    number = int(found[2]) if found is not None else 0
    outcome = _OUTCOMES.get((found[1] or found[3] or "").casefold()) if found is not None else None
    if found is not None and outcome is not None and not found[4]:
        return _ended(number, outcome, client, unit, now)
    today = local_date(now, client.zone or "UTC")
    if found is not None and (found[1] or "").casefold() == "change" and found[4]:
        return _changed(number, goal_read(found[4], today), client, unit, now)
    read = goal_read(words, today)
    refused = _refused(read, client, unit)
    if refused:
        return refused, None
    return say.ADDED, ["added", unit.goals.add(client.id, read.text, read.by_on, now)]


def _refused(read: GoalRead, client: Client, unit: Unit) -> str:
    if read.unread is not None:
        return say.unread_date(read.unread)
    return say.FULL if len(unit.goals.standing(client.id)) >= say.MOST else ""


def _ended(
    number: int, outcome: str, client: Client, unit: Unit, now: datetime
) -> tuple[str, list[Any] | None]:
    standing = unit.goals.standing(client.id)
    if not 1 <= number <= len(standing):
        return say.NOT_READ, None
    unit.goals.end(standing[number - 1].id, client.id, outcome, now)
    return say.ENDED[outcome], ["ended", standing[number - 1].id]


def _changed(
    number: int, read: GoalRead, client: Client, unit: Unit, now: datetime
) -> tuple[str, list[Any] | None]:
    standing = unit.goals.standing(client.id)
    if not 1 <= number <= len(standing):
        return say.NOT_READ, None
    if read.unread is not None:
        return say.unread_date(read.unread), None
    before = standing[number - 1]
    unit.goals.end(before.id, client.id, "changed", now)
    return say.CHANGED, ["changed", unit.goals.add(client.id, read.text, read.by_on, now), before.id]


def _undone(prompt: Prompt, client: Client, unit: Unit, now: datetime) -> EditCard:
    what, row, *before = prompt.facts["undo"]
    if what == "ended" and len(unit.goals.standing(client.id)) >= say.MOST:
        return _shown(prompt, client, unit, say.FULL)
    if what == "ended":
        unit.goals.again(row, client.id)
    else:
        unit.goals.end(row, client.id, "undone", now)
        for each in before:
            unit.goals.again(each, client.id)
    return _shown(prompt, client, unit, say.UNDONE)


def lines_of(client_id: int, unit: Unit) -> tuple[say.Line, ...]:
    """Return a client's goals as their words need them."""
    return tuple(say.Line(each.text, each.by_on) for each in unit.goals.standing(client_id))


def _shown(
    prompt: Prompt,
    client: Client,
    unit: Unit,
    note: str = "",
    *,
    asks: str | None = None,
    undo: list[Any] | None = None,
) -> EditCard:
    revised = unit.prompts.revise(prompt.id, facts={**prompt.facts, "asks": asks, "undo": undo})
    unit.prompts.expect_text(revised)
    return _card(revised, _message(revised, client, unit, note))


def _message(prompt: Prompt, client: Client, unit: Unit, note: str) -> Message:
    asks = prompt.facts.get("asks")
    how = "" if asks is None else say.HOW if asks == "add" else say.CHANGE_HOW
    buttons = Buttons(prompt.id, prompt.revision)
    return say.listed(
        lines_of(client.id, unit), buttons, note=note, asks=how, undo=bool(prompt.facts.get("undo"))
    )


def _card(prompt: Prompt, message: Message) -> EditCard:
    key = prompt.card_key or f"goals:{prompt.id}"
    return EditCard(key, prompt.chat_id, message, client_id=prompt.client_id)
