"""Muscle soreness: kept, said back; it changes nothing."""

from collections.abc import Sequence
from datetime import datetime

from bot.messages import Effect, Person
from bot.render import replies as say
from bot.store.body import NewReport
from bot.store.people import Client
from bot.store.units import Unit
from core.checkin.reading import BodyRead
from core.checkin.training_log import Session
from core.local_time import local_date


def told(
    reports: Sequence[BodyRead],
    session: Session | None,
    client: Client,
    person: Person,
    unit: Unit,
    now: datetime,
) -> list[Effect]:
    """Keep what is sore, and say it back."""
    effects: list[Effect] = []
    for number, each in enumerate(reports):
        if each.site is None:
            continue
        unit.body.add(
            client.id,
            NewReport(
                kind="soreness",
                local_on=local_date(now, client.zone or "UTC"),
                at=now,
                session_id=session.id if session else None,
                site=each.site.value,
                side=each.side.value if each.side else None,
                score=each.score,
                message_id=person.arrival.message_id if person.arrival else None,
            ),
        )
        effects.append(say.send(person, say.soreness_noted(each.site, each.score), f"sore{number}"))
    return effects
