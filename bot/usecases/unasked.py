"""How much a client hears in a day that she did not ask for: her card first, then what there is room for."""

from datetime import datetime, time, timedelta

from bot.store.people import Client
from bot.store.units import Unit
from core.local_time import instant_of, local_date
from core.policy import Policy


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
