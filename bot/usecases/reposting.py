"""Cards posted anew after an outage: a tap that was not fetched within 150 s is lost, and nobody hears of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.messages import Effect, Person
from bot.render.sessions_said import WAS_AWAY
from bot.store.units import Unit
from bot.usecases.session_view import show

RUNNING = timedelta(hours=3)
"""A session begun longer ago than this is not posted anew by itself."""


@dataclass(frozen=True, slots=True)
class Repost:
    """The program was away; one client's running session is shown again."""

    session_id: int


def repost(command: Repost, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """Show the card of a running session again, at the end of the chat."""
    session = unit.sessions.get(command.session_id)
    if session.state not in ("started", "asking"):
        return []
    return show(session.id, unit, moved=True, note=WAS_AWAY)
