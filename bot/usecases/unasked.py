"""How much a client hears in a day that she did not ask for, her card first; and what is too late for this night."""

from datetime import datetime, time, timedelta

from bot.messages import Lane
from bot.store.outbox import SENDS, OutboxRow
from bot.store.people import Client
from bot.store.units import Unit
from bot.usecases.effects import after_quiet
from core.local_time import instant_of, local_date
from core.policy import Policy

AWAITED = timedelta(minutes=15)
"""So long somebody is taken to wait for an answer. Our proposal."""
LATE = timedelta(minutes=1)
"""What goes out sooner after its hour is on time, so that a morning of cards asks nothing of each. Our proposal."""


def has_room(client: Client, unit: Unit, now: datetime, policy: Policy, *, keep: int = 0) -> bool:
    """Return whether one more notifying message that she did not ask for may go to a client today.

    Args:
        client: Whom.
        unit: Open transaction.
        now: Instant; the day is that of her own calendar.
        policy: The coach's: how many a day.
        keep: Places that are kept for what comes later today, such as a card.
    """
    account = unit.accounts.of_client(client.id)
    if account is None:
        return False
    zone = client.zone or "UTC"
    today = local_date(now, zone)
    since = instant_of(today, time(0), zone)
    until = instant_of(today + timedelta(days=1), time(0), zone)
    return unit.outbox.unasked_since(account.chat_id, since, until) + keep < policy.most_unasked


def was_held(row: OutboxRow, house: Unit, now: datetime) -> bool:
    """Have a message wait for the morning whose hour was decent and is not any more; False when it goes out now.

    The program was away at its hour, or could not get through, and now it is night. Safety never waits, nor what
    makes no sound, nor what was meant for the night from the beginning, nor for some minutes an answer.

    Args:
        row: What would go out, still queued.
        house: Open transaction.
        now: Instant.
    """
    late = now - row.due_at
    if late <= LATE or row.lane is Lane.SAFETY or row.op not in SENDS or row.body is None or row.body.silent:
        return False
    account = house.accounts.at(row.chat_id)
    if account is None or (late <= AWAITED and not house.outbox.was_planned(row.id)):
        return False
    unit = house.of(account.coach_id)
    if account.client_id is None:
        zone, policy = unit.coaches.get(account.coach_id).zone, unit.rules.policy()
    else:
        zone, policy = unit.clients.get(account.client_id).zone or "UTC", unit.rules.policy(account.client_id)
    until = after_quiet(now, zone, policy)
    if until == now or after_quiet(row.due_at, zone, policy) != row.due_at:
        return False
    house.outbox.hold(row.id, until)
    return True
