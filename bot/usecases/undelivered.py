"""What happens when something cannot be delivered."""

from datetime import datetime

from bot.messages import Level, Tell
from bot.render import forwarding as say
from bot.store.units import Units
from bot.usecases.effects import apply


def client_blocked(chat_id: int, units: Units, now: datetime) -> None:
    """The platform says that a client blocked the bot: mark her unreachable and tell the coach once."""
    with units.open(None) as house:
        account = house.accounts.at(chat_id)
        if account is None or account.client_id is None:
            return
        house.accounts.set_reachable(account.user_id, now, reachable=False)
        unit = house.of(account.coach_id)
        client = unit.clients.get(account.client_id)
        told = Tell(client.id, f"unreachable:{client.id}", 1, Level.TODAY, say.unreachable(client.name))
        apply([told], unit, now)
