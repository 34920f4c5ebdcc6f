"""Where a client's clock runs: zones suggested from the time she types, or from her city. Never guessed.

The list is short: our own choice of well-known zones with a city each. A zone that is not in it can be typed by its
own name, or by the city that it is named after. Offsets come from the time zone database [TZDB].
"""

import re
import unicodedata
from datetime import datetime, time
from typing import NamedTuple

from rapidfuzz import fuzz, process

from core.errors import UnknownZone
from core.local_time import zone_named
from core.programme.folding import folded

SLACK_MIN = 7
"""How far a typed time may be off. [min] Less than half of the 15 min by which offsets differ."""
NEAR = 72
"""Least likeness of a typed city to one that is suggested. [0..100] Our proposal."""
MOST = 4
"""Most cities that are suggested."""


class Place(NamedTuple):
    """A zone, its city, and other cities in it."""

    zone: str
    city: str
    others: tuple[str, ...] = ()


PLACES: tuple[Place, ...] = (
    Place("Pacific/Honolulu", "Honolulu"),
    Place("America/Anchorage", "Anchorage"),
    Place("America/Los_Angeles", "Los Angeles", ("San Francisco", "Seattle", "San Diego", "Portland")),
    Place("America/Vancouver", "Vancouver"),
    Place("America/Phoenix", "Phoenix"),
    Place("America/Denver", "Denver", ("Salt Lake City",)),
    Place("America/Mexico_City", "Mexico City"),
    Place("America/Chicago", "Chicago", ("Houston", "Dallas", "Austin", "Minneapolis", "New Orleans")),
    Place("America/Bogota", "Bogotá"),
    Place("America/Lima", "Lima"),
    Place("America/New_York", "New York", ("Boston", "Miami", "Atlanta", "Washington", "Philadelphia")),
    Place("America/Toronto", "Toronto", ("Montréal", "Ottawa")),
    Place("America/Halifax", "Halifax"),
    Place("America/Caracas", "Caracas"),
    Place("America/Santiago", "Santiago"),
    Place("America/St_Johns", "St John's"),
    Place("America/Sao_Paulo", "São Paulo", ("Rio de Janeiro",)),
    Place("America/Argentina/Buenos_Aires", "Buenos Aires"),
    Place("Atlantic/Azores", "Ponta Delgada", ("Azores",)),
    Place("Atlantic/Reykjavik", "Reykjavík"),
    Place("Atlantic/Canary", "Las Palmas", ("Tenerife",)),
    Place("Europe/Lisbon", "Lisbon", ("Porto", "Faro")),
    Place("Europe/London", "London", ("Edinburgh", "Glasgow", "Manchester", "Cardiff", "Belfast", "Bristol")),
    Place("Europe/Dublin", "Dublin", ("Cork", "Galway")),
    Place("Europe/Madrid", "Madrid", ("Barcelona", "Bilbao", "Valencia")),
    Place("Europe/Paris", "Paris", ("Lyon", "Marseille", "Brest")),
    Place("Europe/Brussels", "Brussels", ("Antwerp",)),
    Place("Europe/Amsterdam", "Amsterdam", ("Rotterdam",)),
    Place("Europe/Zurich", "Zürich", ("Geneva", "Bern")),
    Place("Europe/Berlin", "Berlin", ("Hamburg", "Munich", "Cologne", "Frankfurt")),
    Place("Europe/Oslo", "Oslo", ("Bergen",)),
    Place("Europe/Copenhagen", "Copenhagen"),
    Place("Europe/Stockholm", "Stockholm", ("Gothenburg",)),
    Place("Europe/Vienna", "Vienna"),
    Place("Europe/Prague", "Prague"),
    Place("Europe/Rome", "Rome", ("Milan", "Naples")),
    Place("Europe/Warsaw", "Warsaw", ("Gdańsk", "Kraków")),
    Place("Europe/Budapest", "Budapest"),
    Place("Europe/Athens", "Athens"),
    Place("Europe/Helsinki", "Helsinki"),
    Place("Europe/Bucharest", "Bucharest"),
    Place("Europe/Kyiv", "Kyiv", ("Kiev",)),
    Place("Europe/Istanbul", "Istanbul"),
    Place("Africa/Casablanca", "Casablanca"),
    Place("Africa/Lagos", "Lagos"),
    Place("Africa/Cairo", "Cairo"),
    Place("Africa/Johannesburg", "Johannesburg", ("Cape Town", "Durban")),
    Place("Africa/Nairobi", "Nairobi"),
    Place("Asia/Jerusalem", "Jerusalem", ("Tel Aviv",)),
    Place("Asia/Riyadh", "Riyadh"),
    Place("Asia/Dubai", "Dubai", ("Abu Dhabi",)),
    Place("Asia/Karachi", "Karachi"),
    Place("Asia/Kolkata", "Kolkata", ("Mumbai", "Delhi", "Bangalore", "Chennai")),
    Place("Asia/Kathmandu", "Kathmandu"),
    Place("Asia/Dhaka", "Dhaka"),
    Place("Asia/Bangkok", "Bangkok"),
    Place("Asia/Jakarta", "Jakarta"),
    Place("Asia/Singapore", "Singapore"),
    Place("Asia/Hong_Kong", "Hong Kong"),
    Place("Asia/Shanghai", "Shanghai", ("Beijing",)),
    Place("Australia/Perth", "Perth"),
    Place("Asia/Seoul", "Seoul"),
    Place("Asia/Tokyo", "Tokyo", ("Osaka",)),
    Place("Australia/Adelaide", "Adelaide"),
    Place("Australia/Brisbane", "Brisbane"),
    Place("Australia/Sydney", "Sydney", ("Melbourne", "Canberra")),
    Place("Pacific/Auckland", "Auckland", ("Wellington", "Christchurch")),
)

_CITY_OF = {place.zone: place.city for place in PLACES}
_ZONE_BY_NAME = {folded(name): place.zone for place in PLACES for name in (place.city, *place.others)}
_REGIONS = ("Africa", "America", "Asia", "Atlantic", "Australia", "Europe", "Indian", "Pacific")
_SMALL_WORDS = frozenset({"of", "es", "au"})
_CITY_NAME = re.compile(r"[a-z]+(?: [a-z]+){0,3}")
_ZONE_NAME = re.compile(r"[A-Za-z]+(?:/[A-Za-z0-9_+-]+){1,2}")


def zones_at(local: time, instant: datetime) -> tuple[str, ...]:
    """Return the zones of the list whose clocks show about `local` at `instant`, in order of city.

    Args:
        local: As typed off a clock.
        instant: When it was typed, aware.
    """
    fitting = [place for place in PLACES if _minutes_apart(local, instant, place.zone) <= SLACK_MIN]
    return tuple(place.zone for place in sorted(fitting, key=lambda place: folded(place.city)))


def _minutes_apart(local: time, instant: datetime, zone: str) -> int:
    there = instant.astimezone(zone_named(zone))
    apart = abs((there.hour - local.hour) * 60 + there.minute - local.minute)
    return min(apart, 24 * 60 - apart)


def zone_of_city(text: str) -> tuple[str, ...]:
    """Return the zones of cities like the one typed, the likeliest first; a city that is known gives its zone alone."""
    said = folded(text)
    exact = _known_as(text)
    if exact:
        return exact
    near = process.extract(said, list(_ZONE_BY_NAME), scorer=fuzz.ratio, score_cutoff=NEAR, limit=MOST)
    return tuple(dict.fromkeys(_ZONE_BY_NAME[name] for name, _, _ in near))


def is_city(text: str) -> bool:
    """Return whether one known city was typed, letter for letter but for case and accents."""
    return len(_known_as(text)) == 1


def _known_as(text: str) -> tuple[str, ...]:
    """Return the zone of a city of the list, or every zone that is named after such a city."""
    listed = _ZONE_BY_NAME.get(folded(text))
    if listed is not None:
        return (listed,)
    apart = unicodedata.normalize("NFKD", text.casefold())
    plain = " ".join("".join(mark for mark in apart if not unicodedata.combining(mark)).split())
    if _CITY_NAME.fullmatch(plain) is None:
        return ()
    name = "_".join(each if each in _SMALL_WORDS else each.capitalize() for each in plain.split())
    return tuple(zone for region in _REGIONS if (zone := typed_zone(f"{region}/{name}")) is not None)


def typed_zone(text: str) -> str | None:
    """Return the zone that was typed by its own name, such as `Europe/Riga`; None when there is none."""
    said = text.strip()
    if _ZONE_NAME.fullmatch(said) is None:
        return None
    try:
        return zone_named(said).key
    except UnknownZone:
        return None


def city_of(zone: str) -> str:
    """Return a zone's city as people write it; of a zone outside the list, the last part of its name."""
    return _CITY_OF.get(zone) or zone.rpartition("/")[2].replace("_", " ")
