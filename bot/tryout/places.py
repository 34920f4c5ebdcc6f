"""Where the clock can be moved to, and when that is."""

from collections.abc import Mapping
from datetime import datetime, time, timedelta
from typing import Literal

from bot.assembly.story import Stage
from bot.store.insight import coming_sessions
from bot.store.oversight import digest_hours
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
    due = await stage.house.tick.next_due()
    tomorrow = instant_of(local_date(now, zone) + timedelta(days=1), time(0), zone)
    session, digest = await stage.house.write(
        lambda: _looked_up(stage.house.units, now, tomorrow), Priority.DUE
    )
    return {
        "due": None if due is None else max(due, now),
        "hour": now + HOUR,
        "session": session,
        "digest": digest,
    }


def _looked_up(units: Units, now: datetime, tomorrow: datetime) -> tuple[datetime | None, datetime | None]:
    """Return when the first session from tomorrow on is due, and when the next digest is."""
    with units.read(None) as house:
        sessions = coming_sessions(house.connection, now + AHEAD, ("planned",))
        hours = digest_hours(house.connection)
    session = next((each.due_at for each in sessions if each.due_at >= tomorrow), None)
    digests = (next_hour(now, each.zone, each.weekday, each.at) for each in hours)
    return session, min(digests, default=None)
