"""Where the clock can be moved to, and when that is."""

from collections.abc import Mapping
from datetime import datetime, time, timedelta
from typing import Literal

from bot.assembly.story import Stage
from bot.store.contracts import next_contract_due
from bot.store.due import next_prep_due
from bot.store.insight import coming_questions, coming_sessions
from bot.store.oversight import digest_hours
from bot.store.reminders import next_reminder_due
from bot.store.units import Units
from bot.usecases.writer import Priority
from core.local_time import instant_of, local_date
from core.oversight.week import next_hour

Place = Literal["due", "hour", "session", "digest"]
HOUR = timedelta(hours=1)
AHEAD = timedelta(days=21)
"""How far sessions are looked for."""


async def places(stage: Stage) -> Mapping[str, datetime | None]:
    """Return when each place is, seen from now; None where nothing like that is coming."""
    now, zone = stage.clock.now(), stage.people.coaches[0].zone
    tomorrow = instant_of(local_date(now, zone) + timedelta(days=1), time(0), zone)
    return await stage.house.write(lambda: _looked_up(stage.house.units, now, tomorrow), Priority.DUE)


def _looked_up(units: Units, now: datetime, tomorrow: datetime) -> dict[str, datetime | None]:
    with units.read(None) as house:
        connection = house.connection
        sessions = [each.due_at for each in coming_sessions(connection, now + AHEAD, ("planned",))]
        asked = [each.due_at for each in coming_questions(connection, now + AHEAD)]
        others = [next_prep_due(connection), next_reminder_due(connection), next_contract_due(connection)]
        hours = digest_hours(connection)
    digest = min((next_hour(now, each.zone, each.weekday, each.at) for each in hours), default=None)
    due = [each for each in (*sessions, *asked, *others, digest) if each is not None and each > now]
    return {
        "due": min(due, default=None),
        "hour": now + HOUR,
        "session": next((each for each in sessions if each >= tomorrow), None),
        "digest": digest,
    }
