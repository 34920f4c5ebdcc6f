"""A coach's orders beside the block, on the card: eased, paused, taken back, shown anew where a card is out."""

from datetime import date, datetime
from typing import Any

from bot.messages import Effect, Person
from bot.render.ordering import paused_now
from bot.store.orders import KeptOrder
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.closing import onward
from bot.usecases.decisions import decide, dose_for, given_dose
from bot.usecases.merging import moment_of
from bot.usecases.session_view import show
from core.checkin.training_log import Item, Session
from core.loads.decision import Kind
from core.loads.order import ABOUT_LOADS, OrderKind
from core.local_time import local_date
from core.programme.exercises import Site


def ease(
    client: Client,
    percent: int,
    unit: Unit,
    now: datetime,
    *,
    site: Site | None = None,
    exercise: str | None = None,
) -> tuple[int, list[Effect]]:
    """Ease the next session. A card that is out and not begun changes at once.

    Args:
        client: Whose.
        percent: How much lighter. [%]
        unit: Open transaction.
        now: Instant.
        site: All that loads it is meant; None for everything.
        exercise: What it hurt in, meant too whether or not it loads the site.

    Returns:
        The order's row, and what the client is shown.
    """
    facts = {"percent": percent} | ({"site": site.value} if site else {})
    order_id = unit.orders.add(client.id, OrderKind.EASE, now, exercise=exercise, facts=facts)
    return order_id, shown_anew(client, unit, now)


def to_be_seen(client: Client, unit: Unit, now: datetime) -> list[KeptOrder]:
    """Return the orders that stand, and what a card that is out and not begun has already carried out."""
    card_out = not_begun(client, unit)
    on = card_out.local_on if card_out is not None else None
    today = local_date(now, client.zone or "UTC")
    used = [kept for kept in unit.orders.used(client.id) if kept.until_on == on]
    both = (*used, *unit.orders.standing(client.id))
    return [each for each in both if each.kind in ABOUT_LOADS and not is_over(each, today)]


def is_over(kept: KeptOrder, today: date) -> bool:
    """Return whether the last day of an order lies behind."""
    return kept.until is not None and kept.until < today


def take_back(order_id: int, client: Client, unit: Unit, now: datetime) -> list[Effect] | None:
    """Take back an order to ease; None when a session has been begun with it."""
    kept = unit.orders.get(order_id)
    if kept is None or kept.client_id != client.id or kept.voided_at is not None:
        return None
    card_out = not_begun(client, unit)
    if kept.until_on is not None and (card_out is None or card_out.local_on != kept.until_on):
        return None
    unit.orders.void([order_id], now)
    return shown_anew(client, unit, now) if kept.until_on is not None else []


def pause(
    client: Client,
    exercise: str,
    unit: Unit,
    now: datetime,
    *,
    facts: dict[str, Any] | None = None,
    from_on: date | None = None,
) -> tuple[int, list[Effect]]:
    """Pause an exercise until it is taken up again; out of an open session it is taken at once.

    Args:
        client: Whose.
        exercise: Key.
        unit: Open transaction.
        now: Instant.
        facts: What else the order says, such as its last day.
        from_on: First day that it holds, where that is not today.

    Returns:
        The order's row, and what the client is shown.
    """
    order_id = unit.orders.add(
        client.id, OrderKind.PAUSE, now, exercise=exercise, facts=facts, from_on=from_on
    )
    effects: list[Effect] = []
    note = paused_now(unit.exercises.get(exercise))
    for session in unit.sessions.of_client(client.id, ("sent", "started")):
        found = [
            item
            for item in unit.sessions.items(session.id)
            if item.state == "open" and item.exercise == exercise
        ]
        for item in found:
            _decided_anew(item, session, client, unit, now)
        if found and session.state == "started":
            effects += onward(session.id, unit, _as_client(client, unit), now, note=note)
        elif found:
            effects += show(session.id, unit, note=note)
    return order_id, effects


def take_up(order_id: int, client: Client, unit: Unit, now: datetime) -> bool:
    """Take a paused exercise up again, from the next card on; False when it was taken up before."""
    kept = unit.orders.get(order_id)
    if kept is None or kept.client_id != client.id or not kept.stands:
        return False
    unit.orders.void([order_id], now)
    return True


def use_up(session: Session, unit: Unit) -> None:
    """Note that a session's card has carried out what was to be eased in it."""
    exercises = [unit.exercises.get(item.exercise) for item in unit.sessions.items(session.id)]
    carried = [
        kept.id
        for kept in unit.orders.standing(session.client_id)
        if is_of_one_session(kept) and any(kept.value.bears_on(each) for each in exercises)
    ]
    unit.orders.use(carried, session.local_on)


def is_of_one_session(kept: KeptOrder) -> bool:
    """Return whether the next session with what it is about uses an order up."""
    ease = kept.kind == OrderKind.EASE and not kept.dated
    return ease or kept.kind == OrderKind.AGREED or bool(kept.facts.get("once"))


def _as_client(client: Client, unit: Unit) -> Person:
    account = unit.accounts.of_client(client.id)
    ids = (account.user_id, account.chat_id) if account else (0, 0)
    return Person(*ids, coach_id=unit.tenant, role="client", client_id=client.id)


def not_begun(client: Client, unit: Unit) -> Session | None:
    """Return the newest session whose card is out and in which nothing was done yet."""
    if unit.sessions.of_client(client.id, ("started", "asking")):
        return None
    found = unit.sessions.of_client(client.id, ("sent",))
    return found[0] if found else None


def shown_anew(client: Client, unit: Unit, now: datetime) -> list[Effect]:
    """Decide anew for a card that is out and not begun, and show it where it has changed."""
    session = not_begun(client, unit)
    if session is None:
        return []
    before = unit.sessions.items(session.id)
    for item in before:
        if item.state == "open":
            _decided_anew(item, session, client, unit, now)
    use_up(session, unit)
    changed = [each.given for each in before] != [each.given for each in unit.sessions.items(session.id)]
    return show(session.id, unit, moved=True) if changed else []


def decided_again(session: Session, client: Client, unit: Unit, now: datetime) -> None:
    """Decide once more for what is still open in a session whose card is out, by what is known now."""
    for item in unit.sessions.items(session.id):
        if item.state == "open":
            _decided_anew(item, session, client, unit, now)


def _decided_anew(item: Item, session: Session, client: Client, unit: Unit, now: datetime) -> None:
    """Decide for an exercise of an open session once more, with the orders that stand now or bear on this card."""
    dose = dose_for(unit.exercises.get(item.exercise), item.prescription)
    moment = moment_of(session, unit)
    decision_id, decision = decide(client, item.exercise, dose, moment, "card", unit, now, card_is_out=True)
    unit.decisions.for_item(decision_id, item.id)
    values = {"decision_id": decision_id, "given": given_dose(dose, decision)}
    stopped = decision.kind in (Kind.PAUSE, Kind.SWAP)
    unit.sessions.change_item(item.id, **values, **({"state": "skipped"} if stopped else {}))
