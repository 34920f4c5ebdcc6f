"""The clock of a place that somebody shares, looked up offline; the place itself is not kept."""

from functools import lru_cache
from typing import TYPE_CHECKING

from core.checkin.zones import typed_zone

if TYPE_CHECKING:
    from timezonefinder import TimezoneFinder


@lru_cache(maxsize=1)
def _finder() -> "TimezoneFinder":
    # Loaded for the first place that is shared: few share one, and its maps take memory.
    from timezonefinder import TimezoneFinder

    return TimezoneFinder()


def zone_at(latitude: float, longitude: float) -> str | None:
    """Return the time zone of a place; None at sea, and where our own database does not know the zone.

    Args:
        latitude: Degrees north. [-90..90]
        longitude: Degrees east. [-180..180]
    """
    try:
        found = _finder().timezone_at_land(lng=longitude, lat=latitude)
    except ValueError:  # no place on earth
        return None
    return None if found is None else typed_zone(found)
