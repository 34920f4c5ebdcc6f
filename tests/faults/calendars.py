"""The weeks that are played: an ordinary one, and those in whose Sunday night the clocks of somebody's zone change.

Instants are reckoned here from wall clocks by the time zone database alone, and by nothing of the program's.
"""

from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from faults.people import CLIENTS, CREWS

CARD_AT = time(7)
"""When everybody trains, by her own wall clock."""
QUIET = (time(21), time(7))
"""From when until when a phone is left in peace."""


def instant(zone: str, on: date, at: time) -> datetime:
    """The instant of a wall clock; the first of two."""
    return datetime.combine(on, at, ZoneInfo(zone)).astimezone(UTC)


@dataclass(frozen=True)
class Phase:
    """A part of a week in which the program lives.

    Attributes:
        name: What is printed.
        at: When it begins.
        share: Which share of the week's kills it has.
        act: What people do: "train", "night" or "write".
        who: Who of the clients.
        moves: To when the clock is moved on while the program lives, once all is at rest.
    """

    name: str
    at: datetime
    share: float
    act: str
    who: tuple[int, ...]
    moves: tuple[datetime, ...] = ()


@dataclass(frozen=True)
class Calendar:
    """A week.

    Attributes:
        name: What is printed.
        first: Date of the first session.
        zones: Whose wall clock each crew lives by, in their order.
        weekdays: On which everybody trains.
        phases: What happens.
    """

    name: str
    first: date
    zones: tuple[str, str]
    weekdays: tuple[str, ...]
    phases: tuple[Phase, ...]

    @property
    def eve(self) -> datetime:
        """When everybody joins."""
        return datetime.combine(self.first - timedelta(days=1), time(16, 40), UTC)

    def zone(self, user_id: int) -> ZoneInfo:
        """Whose wall clock somebody lives by."""
        of = {
            each: zone
            for (_, coach_id, clients), zone in zip(CREWS, self.zones, strict=True)
            for each in (coach_id, *(client for _, client in clients))
        }
        return ZoneInfo(of[user_id])

    def is_quiet(self, user_id: int, at: datetime) -> bool:
        local = at.astimezone(self.zone(user_id)).time()
        return local >= QUIET[0] or local < QUIET[1]

    def due(self, user_id: int, on: date) -> datetime:
        """When the session of a date is due."""
        return instant(self.zone(user_id).key, on, CARD_AT)


def _april() -> Calendar:
    lisbon, tuesday = "Europe/Lisbon", date(2026, 4, 7)
    thursday, friday = tuesday + timedelta(days=2), tuesday + timedelta(days=3)
    who = tuple(CLIENTS)
    phases = (
        Phase("Tuesday 07:00, all train", instant(lisbon, tuesday, time(7)), 0.5, "train", who),
        Phase("Tuesday 23:30, some write", instant(lisbon, tuesday, time(23, 30)), 0.2, "night", who),
        Phase("Thursday 07:00, the next session", instant(lisbon, thursday, time(7)), 0.2, "write", who),
        Phase("Friday 09:20, after a night away", instant(lisbon, friday, time(9, 20)), 0.1, "write", who),
    )
    return Calendar("April", tuesday, (lisbon, lisbon), ("Mon", "Tue", "Thu", "Fri"), phases)


def change(zone: str, sunday: date) -> datetime:
    """The instant at which clocks change in the night to a Sunday.

    Raises:
        ValueError: They do not.
    """
    begin = instant(zone, sunday, time(0))
    for minutes in range(0, 6 * 60, 30):
        at = begin + timedelta(minutes=minutes)
        before = (at - timedelta(seconds=1)).astimezone(ZoneInfo(zone)).utcoffset()
        if before != at.astimezone(ZoneInfo(zone)).utcoffset():
            return at
    raise ValueError(f"no change in {zone} on {sunday}")


def _turning(name: str, zones: tuple[str, str], sunday: date) -> Calendar:
    """A week whose clocks change: Friday all train, each crew at its own seven; on Sunday the next session is due."""
    second, minute = timedelta(seconds=1), timedelta(minutes=1)
    friday, saturday, monday = (sunday + timedelta(days=days) for days in (-2, -1, 1))
    crews = [tuple(client for _, client in clients) for *_, clients in CREWS]
    seven = [
        (zone, zone.partition("/")[2].replace("_", " "), who) for zone, who in zip(zones, crews, strict=True)
    ]

    def mornings(day: str, on: date, share: float, act: str) -> list[Phase]:
        found = [
            Phase(f"{day} 07:00 in {city}", instant(zone, on, CARD_AT) - second, share, act, who)
            for zone, city, who in seven
        ]
        return sorted(found, key=lambda each: each.at)

    changes = sorted({change(zone, sunday) for zone in zones})
    turns = [at + off * minute for at in changes for off in (-3, 2, 57, 62)]
    late = max(instant(zone, monday, time(9, 20)) for zone in zones)
    phases = (
        *mornings("Friday", friday, 0.2, "train"),
        Phase("Saturday 23:30", instant(zones[0], saturday, time(23, 30)), 0.2, "night", tuple(CLIENTS)),
        Phase("the clocks change", turns[0], 0.1, "write", tuple(CLIENTS), tuple(turns[1:])),
        *mornings("Sunday", sunday, 0.1, "write"),
        Phase("Monday 09:20, after a night away", late, 0.1, "write", tuple(CLIENTS)),
    )
    return Calendar(name, friday, zones, ("Mon", "Wed", "Fri", "Sun"), phases)


def _morning() -> Calendar:
    first = APRIL.phases[0]
    return replace(APRIL, name="one morning", phases=(replace(first, share=1.0),))


APRIL = _april()
MORNING = _morning()
"""Short, for tests."""
TURNING = (
    _turning("Europe, autumn", ("Europe/Lisbon", "Europe/Berlin"), date(2026, 10, 25)),
    _turning("America, autumn", ("America/New_York", "America/Los_Angeles"), date(2026, 11, 1)),
    _turning("Europe, spring", ("Europe/Lisbon", "Europe/Berlin"), date(2026, 3, 29)),
    _turning("America, spring", ("America/New_York", "America/Los_Angeles"), date(2026, 3, 8)),
)
CALENDARS = {each.name: each for each in (APRIL, MORNING, *TURNING)}
MOST_PHASES = max(len(each.phases) for each in CALENDARS.values())


def calendar_of(seed: int, number: int) -> Calendar:
    """Which week is played: every second one has a night in which clocks change, another one each time."""
    return APRIL if number % 2 == 0 else TURNING[(seed + number // 2) % len(TURNING)]
