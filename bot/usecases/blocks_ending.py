"""Blocks that end with none after them: one message a day for all of a coach's clients, which grows with each.

Each client's matter is a row of its own: told once, seen, closed and shown with her. The message is the card of the
first that was told that day; the prompt of that card holds the rows of the others, and while it is unseen it grows.
"""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from typing import Any

from bot.messages import EditCard, Effect, Level, Tell
from bot.render import alerts as say
from bot.store.alerts import Alert
from bot.store.people import Client
from bot.store.prompts import Prompt
from bot.store.units import Unit
from bot.usecases.alert_buttons import BLOCK, WITH, alert_message
from core.local_time import instant_of, local_date

SCROLLED = timedelta(hours=1)
"""After so long the message has scrolled away, and is shown again further down, without a sound. Our proposal."""

GATHERS_S = 60
"""How long the message of the day waits for the clients whose blocks end with hers. [s] Our proposal."""


def told(alert: Alert, client: Client, block: str, ends: date, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Tell that a client's block ends: with the message of the day while that is unseen, or in a new one."""
    facts = {"block": block, "ends": ends.isoformat()}
    first = _first_of_day(unit, now)
    if first is None:
        message = say.block_ends(client.name, block, ends)
        return [Tell(client.id, alert.key, 1, Level.TODAY, message, facts=facts, waits_s=GATHERS_S)]
    unit.alerts.grow(client.id, alert.key, Level.TODAY, 1, now, facts=facts)
    unit.alerts.told(alert.id, now)
    return _grown(*first, alert, unit, now)


def _grown(first: Alert, prompt: Prompt, alert: Alert, unit: Unit, now: datetime) -> list[Effect]:
    facts: dict[str, Any] = {**prompt.facts, WITH: [*prompt.facts.get(WITH, ()), alert.id]}
    grown = unit.prompts.revise(prompt.id, facts=facts)
    scrolled = first.told_at is not None and now - first.told_at > SCROLLED
    shown = alert_message(grown, first, unit)
    return [EditCard(prompt.card_key or "", prompt.chat_id, shown, moved=scrolled)]


def _first_of_day(unit: Unit, now: datetime) -> tuple[Alert, Prompt] | None:
    """Return the matter whose card is the message of the coach's day, with its prompt; None where none is unseen."""
    zone = unit.coaches.get(unit.tenant).zone
    midnight = instant_of(local_date(now, zone), time(0), zone)
    for each in unit.alerts.told_since(BLOCK, midnight):
        prompt = unit.prompts.of("alert", each.id)
        if prompt is not None and each.facts is not None:
            return each, prompt
    return None
