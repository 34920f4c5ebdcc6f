"""What waits by a clock that was set back since."""

from datetime import datetime, timedelta

from dialogs.talks import Talk
from sqlalchemy import select

from bot.messages import Level
from bot.store.set_back import alerts_set_back
from bot.store.tables import alert
from bot.store.units import Units

MINUTE = timedelta(minutes=1)
BACK = timedelta(hours=5)
MATTERS = ("pain", "stop", "overdue", "block", "seen")


def test_a_matter_that_cannot_wait_is_told_again_as_soon_as_before_the_clock_was_set_back(
    units: Units,
) -> None:
    play = Talk(units)
    seen = play.house.now
    now = seen - BACK
    rows: dict[str, tuple[datetime, datetime]] = {}

    def told(coach: str, client: str, key: str, level: Level, ago: timedelta, due: timedelta) -> int:
        marit = play.someone(coach)
        client_id = play.house.client_of(marit, play.someone(client)).id
        with units.open(marit.coach_id) as unit:
            made = unit.alerts.grow(client_id, key, level, 1, seen - ago)
            unit.alerts.told(made.id, seen - ago, again_at=seen + due)
            return made.id

    told("Marit", "Ada", "pain", Level.NOW, MINUTE, 14 * MINUTE)
    told("Orla", "Ben", "stop", Level.NOW, BACK + 10 * MINUTE, 5 * MINUTE)
    told("Orla", "Ben", "overdue", Level.NOW, 20 * MINUTE, -5 * MINUTE)
    told("Marit", "Ada", "block", Level.TODAY, MINUTE, 3 * BACK)
    looked = told("Marit", "Ada", "seen", Level.NOW, MINUTE, 14 * MINUTE)
    with units.open(play.someone("Marit").coach_id) as unit:
        unit.alerts.seen(looked, seen)

    alerts_set_back(units, seen, now)

    with units.read(None) as house:
        for each in house.connection.execute(select(alert).where(alert.c.key.in_(MATTERS))):
            rows[each.key] = (each.told_at, each.due_at)
    assert rows == {
        "pain": (now - MINUTE, now + 14 * MINUTE),
        "stop": (seen - BACK - 10 * MINUTE, now + 5 * MINUTE),
        "overdue": (now - 20 * MINUTE, now),
        "block": (seen - MINUTE, seen + 3 * BACK),
        "seen": (seen - MINUTE, None),
    }
