"""`/orders NAME`: what a coach has ordered for a client and what of it stands, each to be taken back with a tap."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from bot.messages import Action, EditCard, Effect, Message, Person, Tap
from bot.render import orders_said as say
from bot.render.ordering import order_line
from bot.render.setting_up import Buttons
from bot.store.orders import KeptOrder
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases import orders_held
from bot.usecases.block_files import only_for_coaches
from bot.usecases.ordering import is_over
from bot.usecases.orders_said import open_client
from bot.usecases.whose import whose
from core.checkin.order_words import OrderSaid
from core.local_time import local_date

KIND = "orders"
OLDER = 8
"""Orders that are over and listed all the same, the newest. Our proposal."""


@dataclass(frozen=True, slots=True)
class OrdersAsked:
    """`/orders`, with a name."""

    text: str = ""


def orders_asked(command: OrdersAsked, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """List what stands for a client, and what is over."""
    if person.role != "coach":
        return only_for_coaches(person)
    client = open_client(person, unit) if not command.text.strip() else None
    if client is None:
        found = whose(command.text, "orders", person, unit, now)
        if found.client is None:
            return found.effects
        client = found.client
    unit.prompts.close_kind(KIND, client.id, now)
    prompt = unit.prompts.open(
        KIND, person.user_id, person.chat_id, now, client_id=client.id, subject=client.id
    )
    return [EditCard(_key(client), person.chat_id, _list(prompt, client, unit, now), moved=True)]


def tapped(tap: Tap, prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Take an order back."""
    if person.role != "coach" or prompt.client_id is None:
        return []
    if tap.action is not Action.CANCEL:
        return refreshed(prompt, person, unit, now)
    client = unit.clients.get(prompt.client_id)
    effects = orders_held.taken_back(tap.argument, client, person, unit, now)
    shown = unit.prompts.revise(prompt.id)
    note = say.UNDER_WAY if effects is None else ""
    listed = EditCard(_key(client), prompt.chat_id, _list(shown, client, unit, now, note))
    return [*(effects or []), listed]


def refreshed(prompt: Prompt, person: Person, unit: Unit, now: datetime) -> list[Effect]:
    """Show the list as it is now; an older one says that there is a newer."""
    if person.role != "coach" or prompt.client_id is None:
        return []
    client = unit.clients.get(prompt.client_id)
    if prompt.closed_at is not None:
        return [EditCard(_key(client), prompt.chat_id, say.newer_list(client.name))]
    return [EditCard(_key(client), prompt.chat_id, _list(prompt, client, unit, now))]


def _list(prompt: Prompt, client: Client, unit: Unit, now: datetime, note: str = "") -> Message:
    today = local_date(now, client.zone or "UTC")
    stands: list[say.Listed] = []
    over: list[say.Listed] = []
    for kept in unit.orders.history(client.id):
        (stands if kept.stands and not is_over(kept, today) else over).append(_listed(kept, client, unit))
    buttons = Buttons(prompt.id, prompt.revision)
    return say.standing(client.name, stands[::-1], over[:OLDER], buttons, note)


def _listed(kept: KeptOrder, client: Client, unit: Unit) -> say.Listed:
    catalogue, read = unit.exercises.catalogue(), kept.facts.get(orders_held.READ)
    if read is not None:
        told = say.sentence(OrderSaid.model_validate(read), catalogue)
    else:
        told = order_line(kept.value, catalogue).removesuffix(".")
    return say.Listed(kept.id, told, _day(kept.at, client))


def _day(at: datetime, client: Client) -> date:
    return local_date(at, client.zone or "UTC")


def _key(client: Client) -> str:
    return f"{KIND}:{client.id}"
