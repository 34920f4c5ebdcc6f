"""A coach's setting up: invitations, blocks, and who runs which."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from bot.messages import Action, EditCard, Effect, Message, Person, Send, Tap
from bot.render import setting_up as words
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import assign_changes, join_again, join_known, last_loads
from bot.usecases.assign_card import card, client_of, step_of
from bot.usecases.assigning import (
    block_named,
    blocks_of,
    client_named,
    joined_clients,
    start_checked,
    start_read,
    starts_offered,
)
from bot.usecases.block_files import (
    BlockRead,
    FileSent,
    block_read,
    file_sent,
    only_for_coaches,
    opened,
)
from bot.usecases.effects import after_quiet
from bot.usecases.layout import lay_out, play_out
from bot.usecases.leaving import answer
from bot.usecases.personalise import keep
from core.errors import DomainError, NameTaken, NameTooLong
from core.programme.block import Weekday
from core.programme.calendar import sessions_between
from core.programme.folding import folded

__all__ = [
    "Assign",
    "BlockRead",
    "FileSent",
    "Invite",
    "assign",
    "block_read",
    "file_sent",
    "invite",
    "opened",
    "refreshed",
    "tapped",
    "typed",
]

INVITED_FOR = timedelta(days=14)
LONGEST_NAME = 80


@dataclass(frozen=True, slots=True)
class Invite:
    """A coach wants a link for a new client, or for one with a new account: `again Ada`.

    Attributes:
        name: Whom for, and after a colon what she knows of her; None when she did not say.
        code: Unguessable, made for this.
        bot_name: The bot's name on the platform.
    """

    name: str | None
    code: str
    bot_name: str


@dataclass(frozen=True, slots=True)
class Assign:
    """A coach wants to put a client on a block; what stands after the command, such as `Ada, Harbour, 2026-04-13`."""

    text: str


def invite(command: Invite, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Make a link for one client, good once and for 14 days."""
    if person.role != "coach":
        return only_for_coaches(person)
    said, _, beforehand = (command.name or "").partition(":")
    name = " ".join(said.split())
    if not name:
        return [answer(person, "invite", words.how_to_invite())]
    head, _, again = name.partition(" ")
    if head.casefold() == join_again.IN_INVITE:
        return join_again.invite_again(
            join_again.InviteAgain(again, command.code, command.bot_name), person, unit, now
        )
    known = join_known.known_read(beforehand, now)
    if len(name) > LONGEST_NAME:
        raise NameTooLong(limit=LONGEST_NAME)
    if any(folded(client.name) == folded(name) for client in unit.clients.roster()):
        raise NameTaken(name=name)
    older = [
        one
        for one in unit.invites.open_ones(now)
        if one.kind == "client" and folded(one.name or "") == folded(name)
    ]
    for one in older:
        unit.invites.revoke(one.id, now)
    until = now + INVITED_FOR
    made = unit.invites.add(command.code, "client", name, until, now)
    unit.invites.note(made, {join_known.IN_INVITE: known} if known else {})
    last_loads.carried_over(name, made, unit)
    coach = unit.coaches.get(unit.tenant).name
    return [
        answer(person, "invite", words.link_made(name, until, known, replaces=bool(older))),
        answer(person, "link", words.invitation(name, coach, command.bot_name, command.code)),
    ]


def assign(command: Assign, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Ask what is missing of client, block and start; then show what it comes to."""
    if person.role != "coach":
        return only_for_coaches(person)
    facts = _typed_facts(command.text, unit, now)
    joined_clients(unit)
    blocks_of(unit)
    arrival = person.arrival.update_id if person.arrival else 0
    prompt = unit.prompts.open(
        "assign",
        person.user_id,
        person.chat_id,
        now,
        card_key=f"assign:{arrival}",
        facts=facts,
        expects_text=True,
    )
    return [Send(person.chat_id, card(prompt, unit, now), key=f"assign:{arrival}", card=f"assign:{arrival}")]


def _typed_facts(text: str, unit: Unit, now: datetime) -> dict[str, Any]:
    """Read `Ada, Harbour strength, 2026-04-13`, or its beginning; a block's name may hold commas."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if not parts:
        return {}
    client = client_named(parts[0], unit)
    facts: dict[str, Any] = {"client": client.id}
    if len(parts) == 1:
        return facts
    start = parts[-1] if len(parts) > 2 else None
    facts["version"] = block_named(", ".join(parts[1:-1] if start else parts[1:]), unit)
    if start:
        facts["starts_on"] = start_read(start, client, now).isoformat()
    return facts


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what a coach chose with a button."""
    if person.role != "coach":
        return []
    facts, step = dict(prompt.facts), step_of(prompt.facts)
    if tap.action is Action.BACK and step in _BEFORE:
        facts.pop(_BEFORE[step])
        if step != "summary":  # what was chosen was for that block and client
            facts.pop("choices", None)
        return [_shown(prompt, facts, unit, now)]
    if step == "summary" and tap.action is Action.CANCEL:
        unit.prompts.close(prompt.id, now)
        return [_edited(prompt, words.not_started())]
    if step == "summary" and tap.action is Action.CONFIRM:
        return _started(prompt, unit, now)
    if step == "summary" and tap.action is Action.PICK:
        taken = assign_changes.picked(tap.argument, facts, client_of(facts, unit), unit)
        if taken is not None:
            return [_shown(prompt, taken[0], unit, now, taken[1])]
    chosen = _picked(step, tap.argument, prompt, unit, now) if tap.action is Action.PICK else None
    if chosen is None:
        return refreshed(prompt, person, unit, now)
    return [_shown(prompt, {**facts, **chosen}, unit, now)]


_BEFORE = {"version": "client", "starts_on": "version", "summary": "starts_on"}


def _picked(step: str, argument: int, prompt: Prompt, unit: Unit, now: datetime) -> dict[str, Any] | None:
    """Return what a button chose; None when it is not among what can be chosen."""
    if step == "client":
        offered = {client.id for client in joined_clients(unit)}
        return {"client": argument} if argument in offered else None
    if step == "version":
        return {"version": argument} if argument in {row for row, _, _ in blocks_of(unit)} else None
    if step == "starts_on":
        days = {day.toordinal(): day for day in starts_offered(client_of(prompt.facts, unit), now)}
        return {"starts_on": days[argument].isoformat()} if argument in days else None
    return None


def typed(text: str, prompt: Prompt, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Take what a coach typed while she puts a client on a block."""
    said, facts, step = text.strip(), dict(prompt.facts), step_of(prompt.facts)
    if step == "client":
        facts["client"] = client_named(said, unit).id
    elif step == "version":
        facts["version"] = block_named(said, unit)
    elif step == "starts_on":
        facts["starts_on"] = start_read(said, client_of(facts, unit), now).isoformat()
    elif said.casefold() in ("start it", "start", "yes"):
        return [_moved(effect) for effect in _started(prompt, unit, now)]
    elif said.casefold() in ("not yet", "no"):
        unit.prompts.close(prompt.id, now)
        return [_moved(_edited(prompt, words.not_started()))]
    else:
        facts, note = assign_changes.answered(said, facts, client_of(facts, unit), unit)
        return [_moved(_shown(prompt, facts, unit, now, note))]
    return [_moved(_shown(prompt, facts, unit, now))]


def _moved(effect: Effect) -> Effect:
    return replace(effect, moved=True) if isinstance(effect, EditCard) else effect


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show where the assigning stands, after a tap on a button that is no longer good."""
    if person.role != "coach":
        return []
    if prompt.closed_at is not None:
        return [_edited(prompt, words.no_longer_open())]
    try:
        return [_edited(prompt, card(prompt, unit, now, words.STALE))]
    except DomainError:  # the client or the day it was about is no longer to be had
        unit.prompts.close(prompt.id, now)
        return [_edited(prompt, words.no_longer_open())]


def _shown(
    prompt: Prompt, facts: dict[str, Any], unit: Unit, now: datetime, note: str | None = None
) -> EditCard:
    revised = unit.prompts.revise(prompt.id, facts=facts)
    return _edited(prompt, card(revised, unit, now, note))


def _edited(prompt: Prompt, message: Message) -> EditCard:
    return EditCard(prompt.card_key or f"assign:{prompt.id}", prompt.chat_id, message)


def _started(prompt: Prompt, unit: Unit, now: datetime) -> list[Effect]:
    facts = prompt.facts
    client = client_of(facts, unit)
    starts_on = start_checked(date.fromisoformat(facts["starts_on"]), client, now)
    block = unit.blocks.version(facts["version"])
    if assign_changes.open_question(facts, client, unit) is not None:
        return [_shown(prompt, facts, unit, now)]
    play_out(client, starts_on - timedelta(days=1), unit, now)
    assignment_id = unit.blocks.assign(client.id, facts["version"], starts_on, now)
    keep(assignment_id, assign_changes.result_of(facts, client, unit).changes, unit)
    lay_out(client.id, unit, now)
    unit.prompts.close(prompt.id, now)
    days = [Weekday(day) for day in client.days or []]
    week = sessions_between(block, starts_on, days, starts_on, starts_on + timedelta(days=6))
    first_on = week[0].on if week else starts_on
    frozen = client.frozen_at is not None
    effects: list[Effect] = [_edited(prompt, words.started(client.name, block.name, first_on, frozen=frozen))]
    account = unit.accounts.of_client(client.id)
    if account is not None and client.zone and client.hour:
        coach = unit.coaches.get(unit.tenant).name
        message = words.block_begins(coach, block.name, first_on, client.hour, frozen=frozen)
        effects.append(
            Send(
                account.chat_id,
                message,
                key=f"begins:{prompt.id}",
                due_at=after_quiet(now, client.zone, unit.rules.policy(client.id)),
                client_id=client.id,
                unasked=True,
            )
        )
    return effects
