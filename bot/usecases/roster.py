"""Everybody a coach trains, a line each, who needs a look first; and the way to each one's card."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Action, Effect, Person, Send, Tap
from bot.render import roster as say
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import client_file
from bot.usecases.alert_buttons import has_buttons
from bot.usecases.block_files import only_for_coaches
from bot.usecases.client_file import week_now
from bot.usecases.finding_clients import clients_meant, is_clear, is_like
from core.local_time import local_date

OVER = ("sent", "started", "asking", "done", "partial", "left_out", "missed", "unsent", "held")
NOW, TODAY = 3, 2


@dataclass(frozen=True, slots=True)
class Roster:
    """`/roster`."""


@dataclass(frozen=True, slots=True)
class ClientAsked:
    """`/client`, with what stands after it."""

    text: str


def roster(command: Roster, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show every client in a line, who needs a look first."""
    if person.role != "coach":
        return only_for_coaches(person)
    rows = [_row(client, unit, now) for client in unit.clients.roster()]
    return _listed(sorted(rows, key=lambda row: (row.rank, row.name)), person, unit, now)


def client_asked(command: ClientAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the card of a client; who is meant is asked when the name does not say it."""
    if person.role != "coach":
        return only_for_coaches(person)
    found = clients_meant(command.text, unit)
    if is_clear(command.text, found):
        return client_file.shown(found[0], person, unit, now)
    if not found:
        return _listed([], person, unit, now)
    prompt = _prompt(person, unit, now)
    unknown = command.text if not is_like(command.text, found) else ""
    names = [(each.id, each.name) for each in found]
    message = say.which(names, unknown, say.Buttons(prompt.id, prompt.revision))
    return [Send(person.chat_id, message, key=f"which:{prompt.id}")]


def _listed(rows: list[say.Row], person: Person, unit: Unit, now: datetime) -> list[Effect]:
    prompt = _prompt(person, unit, now)
    pages = say.pages(rows, say.Buttons(prompt.id, prompt.revision))
    return [
        Send(person.chat_id, page, key=f"roster:{prompt.id}:{number}") for number, page in enumerate(pages)
    ]


def _prompt(person: Person, unit: Unit, now: datetime) -> Prompt:
    return unit.prompts.open("roster", person.user_id, person.chat_id, now)


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the card of the client who was tapped; the list stays, and each of its buttons stays good."""
    if person.role != "coach" or tap.action is not Action.PICK:
        return []
    unit.prompts.note(prompt.id, {})
    found = next((each for each in unit.clients.roster() if each.id == tap.argument), None)
    if found is None:
        return [
            Send(
                person.chat_id,
                say.has_left(),
                key=f"left:{person.arrival.update_id if person.arrival else 0}",
            )
        ]
    return client_file.shown(found, person, unit, now)


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """A list has no other state than the one it shows."""
    return []


def _row(client: Client, unit: Unit, now: datetime) -> say.Row:
    today = local_date(now, client.zone or "UTC")
    running = unit.blocks.running(client.id)
    past = unit.sessions.of_client(client.id, OVER)
    coming = unit.sessions.next_planned(client.id)
    account = unit.accounts.of_client(client.id)
    unseen = [
        each
        for each in unit.alerts.of_client(client.id)
        if each.seen_at is None and each.told_at and has_buttons(each)
    ]
    level = max((each.level for each in unseen), default=0)
    block = unit.versions.block_for(running, today) if running else None
    week = week_now(running, coming, today) if running else 0
    words = say.Standing(
        on_hold=client.frozen_at is not None,
        unreachable=account is not None and not account.reachable,
        paused=client.state == "paused",
        paused_until=client.paused_until,
        joining=client.state == "joining",
        now=level >= NOW,
        today=level == TODAY,
        missed=bool(past) and past[0].state == "missed",
        no_block=client.state != "joining" and (block is None or week > block.weeks),
    )
    return say.Row(
        id=client.id,
        name=client.name,
        block=block.name if block else None,
        week=week,
        weeks=block.weeks if block else 0,
        last=(past[0].local_on, past[0].state) if past else None,
        coming=coming.local_on if coming else None,
        standing=words,
    )
