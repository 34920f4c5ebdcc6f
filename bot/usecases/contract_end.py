"""When a contract is near its end: seen as a session is counted, told to the coach once, at her decent hour."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bot.messages import Effect, Person, Send
from bot.render import contract as say
from bot.store.contracts import Contract
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.effects import after_quiet
from core.checkin.contract_words import NEAR_DAYS, is_near
from core.checkin.reminder_words import REMINDED_AT
from core.local_time import instant_of, local_date


@dataclass(frozen=True, slots=True)
class ContractEnds:
    """A contract is near its end."""

    contract_id: int


def counted(client_id: int, unit: Unit, now: datetime) -> None:
    """Look at a contract for sessions once one more was done: at few left the coach is to be told."""
    found = unit.contracts.standing(client_id)
    if found is None or found.sessions is None or found.told_at is not None or found.due_at is not None:
        return
    if is_near(left_of(found, unit)):
        unit.contracts.falls_due(found.id, after_quiet(now, _zone(unit), unit.rules.policy()))


def tell_end(command: ContractEnds, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Tell the coach, and her alone, once; not where a set that was taken back has changed the count."""
    found = unit.contracts.get(command.contract_id)
    chat_id = unit.accounts.coach_chat(unit.tenant)
    if found is None or found.told_at is not None or chat_id is None:
        return []
    if found.sessions is not None and not is_near(left_of(found, unit)):
        unit.contracts.falls_due(found.id, None)
        return []
    waits = after_quiet(now, _zone(unit), unit.rules.policy())
    if waits > now:
        unit.contracts.falls_due(found.id, waits)
        return []
    unit.contracts.told(found.id, now)
    client = unit.clients.get(found.client_id)
    message = say.ends_soon(client.name, contract_words(found, client, unit, now))
    return [Send(chat_id, message, key=f"contract:{found.id}", client_id=client.id)]


def told_on(until_on: date, unit: Unit) -> datetime:
    """Return the instant at which the coach is told of a last day."""
    return instant_of(until_on - NEAR_DAYS, REMINDED_AT, _zone(unit))


def left_of(found: Contract, unit: Unit) -> int:
    """Return the sessions that are left of a contract for sessions; never under nothing. [sessions]"""
    return max((found.sessions or 0) - unit.contracts.done_since(found.client_id, found.since_on), 0)


def contract_words(found: Contract, client: Client, unit: Unit, now: datetime) -> str:
    """Write a contract with what is left of it."""
    left = left_of(found, unit) if found.sessions is not None else None
    today = local_date(now, client.zone or "UTC")
    return say.words(found.until_on, found.sessions, found.since_on, left, today)


def _zone(unit: Unit) -> str:
    return unit.coaches.get(unit.tenant).zone
