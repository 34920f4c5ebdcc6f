"""Reports of pain: what is said to hurt, and how it is kept."""

from dataclasses import dataclass
from datetime import datetime

from bot.messages import Person
from bot.store.body import NewReport
from bot.store.units import Unit
from core.checkin.pain import Felt
from core.local_time import local_date
from core.programme.exercises import Site

SITES = tuple(Site)
UNSIDED = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK, Site.CHEST, Site.ABDOMEN})
NERVE_SITES = frozenset({Site.NECK, Site.UPPER_BACK, Site.LOW_BACK})
SIDES: dict[int, str | None] = {1: "L", 2: "R", 3: None}
SEVERE = 7
"""Score from which is asked whether it came suddenly or spreads. [0..10] Our proposal."""


@dataclass(frozen=True, slots=True)
class Hurt:
    """What is said to hurt; `score` None while no number was given."""

    site: Site
    side: str | None
    score: int | None
    session_id: int | None = None
    item_id: int | None = None
    sudden: bool = False
    spreading: bool = False


def asks_feel(hurt: Hurt) -> bool:
    """Return whether it must be asked if it spreads or came suddenly: at back and neck, and where it is severe."""
    return bool(hurt.score) and (hurt.site in NERVE_SITES or (hurt.score or 0) >= SEVERE)


def is_training(session_id: int | None, unit: Unit) -> bool:
    """Return whether a session has its exercises still to be done."""
    return session_id is not None and unit.sessions.get(session_id).state in ("sent", "started")


def keep(hurt: Hurt, person: Person, unit: Unit, now: datetime, message_id: int | None = None) -> int:
    """Keep a report of pain."""
    client = unit.clients.get(person.client_id or 0)
    item = unit.sessions.item(hurt.item_id) if hurt.item_id else None
    return unit.body.add(
        client.id,
        NewReport(
            kind="pain",
            local_on=local_date(now, client.zone or "UTC"),
            at=now,
            session_id=hurt.session_id,
            item_id=hurt.item_id,
            exercise=item.exercise if item else None,
            site=hurt.site.value,
            side=hurt.side,
            score=hurt.score,
            when_felt=Felt.DURING.value if hurt.session_id else Felt.AFTER.value,
            sudden=hurt.sudden,
            spreading=hurt.spreading,
            message_id=message_id,
        ),
    )
