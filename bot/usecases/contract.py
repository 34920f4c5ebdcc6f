"""`/contract NAME until 30 June`, `/contract NAME 12 sessions`: noted for the coach alone, never said to a client."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from bot.messages import Effect, Message, Person, Send
from bot.render import contract as say
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.block_files import only_for_coaches
from bot.usecases.contract_end import contract_words, counted, told_on
from bot.usecases.leaving import answer
from bot.usecases.named_first import named_first, which
from core.checkin.contract_words import contract_read
from core.local_time import local_date

KIND = "contract"


@dataclass(frozen=True, slots=True)
class ContractSaid:
    """`/contract`, with what stands after it."""

    text: str = ""


def contract_said(command: ContractSaid, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Keep what was agreed and say it back, or say what stands."""
    if person.role != "coach":
        return only_for_coaches(person)
    if not command.text.strip():
        return [answer(person, KIND, say.how_to())]
    client, rest = named_first(command.text, unit)
    if client is None:
        return [which(KIND, command.text, person, unit)]
    before = _standing(client, unit, now)
    if not rest:
        return [_said(person, client, say.standing(client.name, before))]
    today = local_date(now, client.zone or "UTC")
    read = contract_read(rest, today)
    if read is None:
        return [_said(person, client, say.not_read())]
    if read.none:
        unit.contracts.end(client.id, now)
        return [_said(person, client, say.ended(client.name, before))]
    due_at = told_on(read.until_on, unit) if read.until_on is not None else None
    since = today if _nothing_today(client, unit, now) else today + timedelta(days=1)
    row = unit.contracts.put(
        client.id, since, now, until_on=read.until_on, sessions=read.sessions, due_at=due_at
    )
    if due_at is not None and due_at <= now:
        unit.contracts.told(row, now)  # Said in this very answer.
    counted(client.id, unit, now)
    return [_said(person, client, say.kept(client.name, _standing(client, unit, now) or "", before))]


def lines_of(client: Client, unit: Unit, now: datetime) -> tuple[str, ...]:
    """Return a client's contract for her coach, as plain text."""
    found = _standing(client, unit, now)
    return (f"Contract: {found}",) if found is not None else ()


def _nothing_today(client: Client, unit: Unit, now: datetime) -> bool:
    """Return whether nothing was done today, so that today counts; what was done before it was agreed does not."""
    return unit.contracts.done_since(client.id, local_date(now, client.zone or "UTC")) == 0


def _standing(client: Client, unit: Unit, now: datetime) -> str | None:
    found = unit.contracts.standing(client.id)
    return contract_words(found, client, unit, now) if found is not None else None


def _said(person: Person, client: Client, message: Message) -> Send:
    return replace(answer(person, KIND, message), client_id=client.id)
