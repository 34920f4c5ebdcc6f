"""A coach's order put into force, and taken back: what it changes, and what a client sees of it."""

from collections.abc import Callable
from datetime import date, datetime, timedelta
from typing import Any, NamedTuple

from bot.messages import Effect, Person, Send
from bot.render import orders_said as say
from bot.store.blocks import Assignment
from bot.store.orders import KeptOrder
from bot.store.people import Client
from bot.store.placements import Placed
from bot.store.units import Unit
from bot.usecases import ordering
from bot.usecases.effects import after_quiet
from bot.usecases.layout import carry_on
from bot.usecases.personalise import fitted, keep
from core.checkin.order_words import Ordered, OrderSaid
from core.loads.order import OrderKind
from core.local_time import local_date

READ = "read"
"""Where an order keeps how it was read."""


class Held(NamedTuple):
    """An order that holds now.

    Attributes:
        row_id: Its row; None where it only took others back.
        back: Rows that it took back.
        effects: What follows.
    """

    row_id: int | None
    back: list[int]
    effects: list[Effect]


def held(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    """Put an order into force: it was read back, and nothing of it is open."""
    act = _ACTS[said.what]
    return act(said, client, person, unit, now)


def _facts(said: OrderSaid, **more: Any) -> dict[str, Any]:
    until = {"until": said.last.isoformat()} if said.last is not None else {}
    return {READ: said.model_dump(mode="json"), **until, **more}


def _loaded(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    """Keep a load; one that has no end takes the place of the one before it."""
    before = [
        each.id
        for each in unit.orders.standing(client.id)
        if each.kind == OrderKind.LOAD and each.exercise == said.exercise
    ]
    back = [] if said.once or said.last is not None else before
    unit.orders.void(back, now)
    mass = {"value": str(said.mass.value), "unit": said.mass.unit.value} if said.mass is not None else None
    facts = _facts(said, mass=mass, replaced=back, **({"once": True} if said.once else {}))
    made = unit.orders.add(
        client.id, OrderKind.LOAD, now, exercise=said.exercise, facts=facts, from_on=said.first
    )
    return Held(made, back, ordering.shown_anew(client, unit, now))


def _paused(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    made, effects = ordering.pause(
        client, said.exercise or "", unit, now, facts=_facts(said), from_on=said.first
    )
    return Held(made, [], effects)


def _taken_up(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    back = pauses_of(said.exercise, client, unit)
    unit.orders.void(back, now)
    return Held(None, back, [])


def pauses_of(exercise: str | None, client: Client, unit: Unit) -> list[int]:
    """Return the rows of the orders that pause an exercise."""
    standing = unit.orders.standing(client.id)
    return [each.id for each in standing if each.kind == OrderKind.PAUSE and each.exercise == exercise]


def _kept_low(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    made = unit.orders.add(
        client.id,
        OrderKind.HOLD,
        now,
        exercise=said.exercise,
        facts=_facts(said),
        from_on=said.first,
    )
    return Held(made, [], ordering.shown_anew(client, unit, now))


def _lighter(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    facts = _facts(said, deload=True)
    made = unit.orders.add(client.id, OrderKind.EASE, now, facts=facts, from_on=said.first)
    return Held(made, [], ordering.shown_anew(client, unit, now))


def _full(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    made = unit.orders.add(client.id, OrderKind.FULL, now, facts=_facts(said), from_on=said.first)
    return Held(made, [], ordering.shown_anew(client, unit, now))


def _restricted(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    before = unit.restrictions.of(client.id)
    added = sorted(set(said.restrictions) - before)
    unit.restrictions.say(client.id, before | set(said.restrictions), person.user_id, now)
    made = unit.orders.add(client.id, OrderKind.RESTRICT, now, facts=_facts(said, added=added))
    return Held(made, [], [])


def _swapped(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    running, key = unit.blocks.running(client.id), said.exercise or ""
    if running is None:
        raise LookupError("a swap was ordered for somebody who runs no block")
    kept = placements_of(running, client, unit, now)
    before = kept.get(key)
    placed = Placed(instead=said.instead, why=before.why if before is not None else (), chosen=True)
    unit.placements.keep(running.id, {**kept, key: placed})
    old = None if before is None else {"instead": before.instead, "why": before.why, "chosen": before.chosen}
    facts = _facts(said, before=old, assignment=running.id)
    return Held(unit.orders.add(client.id, OrderKind.SWAP, now, exercise=key, facts=facts), [], [])


def placements_of(running: Assignment, client: Client, unit: Unit, now: datetime) -> dict[str, Placed]:
    """Return what of a block a client does otherwise; where nothing was ever shown, what would be shown now."""
    kept = unit.placements.of(running.id)
    if kept is None:
        today = local_date(now, client.zone or "UTC")
        block = unit.versions.block_for(running, today)
        keep(running.id, fitted(block, client, {}, today, unit).changes, unit)
        kept = unit.placements.of(running.id)
    return kept or {}


def _rested(said: OrderSaid, client: Client, person: Person, unit: Unit, now: datetime) -> Held:
    """Call sessions off: they are left out by the coach, so that they count as none that was due."""
    found = sessions_off(said, client, unit)
    facts = _facts(said, sessions=[each.id for each in found])
    made = unit.orders.add(client.id, OrderKind.REST, now, facts=facts, from_on=said.first)
    for each in found:
        unit.sessions.change(each.id, state="left_out", left_reason="coach", closed_at=now)
    carry_on(client.id, unit, now)
    account, coach = unit.accounts.of_client(client.id), unit.coaches.get(unit.tenant).name
    if account is None:
        return Held(made, [], [])
    due_at = after_quiet(now, client.zone or "UTC", unit.rules.policy(client.id))
    effects: list[Effect] = []
    for each in found:
        day = unit.versions.block_of(each).day(each.day_key)
        told = say.rest_day(coach, each.local_on, day.name if day is not None else each.day_key)
        key = f"rest:{made}:{each.id}"
        effects.append(Send(account.chat_id, told, key=key, due_at=due_at, client_id=client.id, unasked=True))
    return Held(made, [], effects)


def sessions_off(said: OrderSaid, client: Client, unit: Unit) -> list[Any]:
    """Return the sessions that are called off: those laid out for the days, with no card out."""
    first = said.first
    if first is None:
        return []
    planned = unit.sessions.of_client(client.id, ("planned",))
    return [each for each in planned if first <= each.local_on <= (said.last or first)]


Act = Callable[[OrderSaid, Client, Person, Unit, datetime], Held]

_ACTS: dict[Ordered, Act] = {
    Ordered.LOAD: _loaded,
    Ordered.STEP: _loaded,
    Ordered.PAUSE: _paused,
    Ordered.TAKE_UP: _taken_up,
    Ordered.HOLD: _kept_low,
    Ordered.LIGHTER: _lighter,
    Ordered.FULL: _full,
    Ordered.RESTRICT: _restricted,
    Ordered.SWAP: _swapped,
    Ordered.REST: _rested,
}


def taken_back(
    order_id: int, client: Client, person: Person, unit: Unit, now: datetime
) -> list[Effect] | None:
    """Take an order back; None where it holds no more, or a session was begun with it."""
    kept = unit.orders.get(order_id)
    if kept is None or kept.client_id != client.id or kept.voided_at is not None:
        return None
    if kept.kind == OrderKind.SWAP:
        _swapped_back(kept, unit)
    elif kept.kind == OrderKind.RESTRICT:
        lifted(kept, client, person.user_id, unit, now)
    elif kept.kind == OrderKind.REST and not _on_again(kept, client, unit, now):
        return None
    elif kept.until_on is not None:
        card_out = ordering.not_begun(client, unit)
        if card_out is None or card_out.local_on != kept.until_on:
            return None
    unit.orders.void([kept.id], now)
    unit.orders.restore(list(kept.facts.get("replaced", ())))
    return ordering.shown_anew(client, unit, now)


def _swapped_back(kept: KeptOrder, unit: Unit) -> None:
    assignment = int(kept.facts["assignment"])
    now = unit.placements.of(assignment) or {}
    old, key = kept.facts.get("before"), kept.exercise or ""
    others = {each: placed for each, placed in now.items() if each != key}
    back = {} if old is None else {key: Placed(old["instead"], tuple(old["why"]), old["chosen"])}
    unit.placements.keep(assignment, others | back)


def _on_again(kept: KeptOrder, client: Client, unit: Unit, now: datetime) -> bool:
    """Have sessions that were called off come again; False where their day has begun or is over."""
    found = [unit.sessions.get(each) for each in kept.facts.get("sessions", ())]
    today = local_date(now, client.zone or "UTC")
    if any(each.state != "left_out" or each.local_on < today for each in found):
        return False
    for each in found:
        unit.sessions.change(each.id, state="planned", left_reason=None, closed_at=None)
    return True


def lifted(kept: KeptOrder, client: Client, user_id: int, unit: Unit, now: datetime) -> None:
    """Take out what an order had added to what a client must not do."""
    added = {str(each) for each in kept.facts.get("added", ())}
    stays = [each for each in unit.restrictions.of(client.id) if each.value not in added]
    unit.restrictions.say(client.id, stays, user_id, now)


def restrictions_over(client: Client, on: date, unit: Unit, now: datetime) -> None:
    """Take out what a client must not do until a day, once the day is over. Nothing that stood before is touched."""
    for kept in unit.orders.standing(client.id):
        if kept.kind == OrderKind.RESTRICT and kept.until is not None and kept.until < on:
            lifted(kept, client, int(kept.facts.get("by", 0)), unit, now)
            unit.orders.use([kept.id], kept.until + timedelta(days=1))


def end_dates(client: Client, unit: Unit, now: datetime) -> None:
    """Take back the last days of what a client must not do: all of it is said anew, and stands without an end."""
    dated = [each.id for each in unit.orders.standing(client.id) if each.kind == OrderKind.RESTRICT]
    unit.orders.void(dated, now)
