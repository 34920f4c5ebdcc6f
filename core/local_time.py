"""Local wall-clock times and the instants they fall on. Source: [TZDB], [PEP495]."""

from datetime import UTC, date, datetime, time
from functools import lru_cache
from zoneinfo import ZoneInfo

from core.errors import UnknownZone


@lru_cache(maxsize=1024)
def zone_named(name: str) -> ZoneInfo:
    """Return the zone with this name of the time zone database: `Europe/Lisbon`.

    Raises:
        UnknownZone: There is none.
    """
    try:
        return ZoneInfo(name)
    # A name that is a folder (`Europe`) or not a path at all fails in other ways than one that is not there.
    except (KeyError, ValueError, OSError):
        raise UnknownZone(zone=name) from None


def instant_of(day: date, at: time, zone: str) -> datetime:
    """Return the one instant at which a wall clock in `zone` shows `at` on `day`, in UTC.

    A time that clocks jump over falls later by the length of the jump; a time that comes twice falls on the
    first of the two. Where a whole day was skipped (Samoa, 30 December 2011) it falls on the next day.

    Raises:
        UnknownZone: No zone has this name.
    """
    return datetime.combine(day, at.replace(fold=0, tzinfo=None), zone_named(zone)).astimezone(UTC)


def local_date(instant: datetime, zone: str) -> date:
    """Return the date that a calendar in `zone` shows at an aware instant.

    Raises:
        UnknownZone: No zone has this name.
        ValueError: The instant is naive.
    """
    if instant.tzinfo is None:
        raise ValueError("an instant is aware")
    return instant.astimezone(zone_named(zone)).date()
