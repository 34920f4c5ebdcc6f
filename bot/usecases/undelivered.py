"""What happens when something cannot be delivered."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.messages import Effect, Lane, Level, Person, Send, Tell
from bot.render import forwarding as say
from bot.store.outbox import OutboxRow
from bot.store.units import Unit, Units
from bot.usecases.effects import after_quiet, apply
from bot.usecases.layout import carry_on
from bot.usecases.session_view import card_key

NOTICE = "in-doubt"
"""How the keys of notices begin. A notice that is in doubt itself brings no other: one is enough."""


SESSION_CARDS = card_key(0).removesuffix("0")
"""How the keys of sessions' cards begin."""


@dataclass(frozen=True, slots=True)
class NeverShown:
    """The card of a session that was sent will never arrive."""

    session_id: int


def never_shown(command: NeverShown, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Call a session unsent whose card never reached its client: her silence is not a missed session."""
    session = unit.sessions.get(command.session_id)
    if session.state == "sent":
        unit.sessions.change(session.id, state="unsent")
        unit.sessions.revise(session.id)
        carry_on(session.client_id, unit, now)
    return []


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


def tell_of_doubt(row: OutboxRow, units: Units, now: datetime) -> None:
    """Nobody knows whether a message arrived, and it is not tried again: tell the coach, once."""
    with units.open(None) as house:
        _tell_of_doubt(row, house, now)


def tell_of_doubts(units: Units, now: datetime) -> None:
    """Tell of every message in doubt that was not told of: the process may have ended between the two."""
    with units.open(None) as house:
        for row in house.outbox.doubtful_rows():
            _tell_of_doubt(row, house, now)


def _tell_of_doubt(row: OutboxRow, house: Unit, now: datetime) -> None:
    coach_chat = house.accounts.coach_chat(row.coach_id) if row.coach_id is not None else None
    if row.coach_id is None or coach_chat is None or row.key.startswith(f"{NOTICE}:"):
        return
    unit = house.of(row.coach_id)
    account = house.accounts.at(row.chat_id)
    client = unit.clients.get(account.client_id) if account and account.client_id else None
    words = row.body.html if row.body else ""
    message = say.in_doubt(client.name if client else None, words)
    if row.lane is Lane.SAFETY and client is not None:
        key = f"doubt:{row.id}"
        if not unit.alerts.was_ever(key):
            apply([Tell(client.id, key, 1, Level.NOW, message)], unit, now)
        return
    due_at = after_quiet(now, unit.coaches.get(unit.tenant).zone, unit.rules.policy())
    apply([Send(coach_chat, message, key=f"{NOTICE}:{row.id}", due_at=due_at)], unit, now)
