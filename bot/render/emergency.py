"""Whom to call: the emergency number of the country whose clock a client keeps, or no number at all.

The country follows from her zone by the tables of the time zone database [TZDB] (`zone.tab`, `zone1970.tab`): every
country that either table gives the zone must agree on a number that reaches an ambulance, or none is printed. A number
is printed where a published page names it (`NUMBERS`) and the telephone metadata [PhoneMetadata] knows it for an
emergency number there. She may be travelling: the words say which country the number belongs to, and stay true.
"""

from dataclasses import replace
from functools import lru_cache
from importlib import resources
from typing import NamedTuple

from phonenumbers import shortnumberinfo

from bot.messages import Message

FIXED = "your local emergency number"
"""What is said where the country is not known, and to strangers."""


class Numbers(NamedTuple):
    """What reaches an ambulance in a country.

    Attributes:
        reach: Numbers, the first to be said first.
        source: Key of the published page, or "from memory".
    """

    reach: tuple[str, ...]
    source: str


_EU = "AT AX BE BG HR CY CZ DE DK EE ES FI FR GR HU IE IT LT LU LV MT NL PL PT RO SE SI SK"
_AND_112 = "CH FO IS LI MC SM TR VA"

NUMBERS: dict[str, Numbers] = {
    **{country: Numbers(("112",), "EC112") for country in _EU.split()},
    **{country: Numbers(("112",), "VUGD112") for country in _AND_112.split()},
    "NO": Numbers(("113", "112"), "Sirdal113"),
    "SJ": Numbers(("113", "112"), "from memory"),
    "GB": Numbers(("999", "112"), "EEAST999"),
    "JE": Numbers(("999", "112"), "GovJe999"),
    "IM": Numbers(("999", "112"), "VUGD112"),
    "GG": Numbers(("999", "112"), "from memory"),
    "US": Numbers(("911",), "FCC911"),
    "CA": Numbers(("911",), "FCC911"),
    "BS": Numbers(("911", "919"), "Smartraveller"),
    "AU": Numbers(("000",), "QAS000"),
    "NZ": Numbers(("111",), "HealthInfo111"),
    "JP": Numbers(("119",), "Ibaraki119"),
}
"""By country. Left out on purpose: where 112 is the police and another number the ambulance (Korea, Brazil), where
pages differ (South Africa), and where several services have each their own and none is general."""

PAGE_ALONE = frozenset({("SM", "112"), ("IM", "112")})
"""What the page says and the telephone metadata does not have."""

NOBODY_LIVES_THERE = "AQ"
"""Antarctica keeps the clocks of others and has no number of its own."""

NAMES = {
    "AX": "Åland",
    "BS": "the Bahamas",
    "CZ": "Czechia",
    "FO": "the Faroe Islands",
    "GB": "the UK",
    "IM": "the Isle of Man",
    "NL": "the Netherlands",
    "SJ": "Svalbard",
    "US": "the US",
    "TR": "Türkiye",
    "VA": "the Vatican",
}
"""What people call a country, where the table's own name is not that."""


def number_words(zone: str | None) -> str:
    """Return whom to call: "the emergency number where you are (112 in Portugal)"; where unsure, `FIXED`."""
    countries = countries_of(zone) if zone else ()
    if not countries:
        return FIXED
    own = countries[0]
    agreed = [number for number in reach(own) if all(number in reach(each) for each in countries)]
    name = NAMES.get(own) or _names().get(own)
    if not agreed or name is None:
        return FIXED
    return f"the emergency number where you are ({' or '.join(agreed)} in {name})"


def with_number(message: Message, zone: str | None) -> Message:
    """Return a message with the number of a client's country in it; as it is where that is not known."""
    return replace(message, html=message.html.replace(FIXED, number_words(zone)))


@lru_cache(maxsize=256)
def reach(country: str) -> tuple[str, ...]:
    """Return what reaches an ambulance in a country, by page and telephone metadata; empty where unsure."""
    known = NUMBERS.get(country)
    if known is None:
        return ()
    return tuple(
        number
        for number in known.reach
        if (country, number) in PAGE_ALONE or shortnumberinfo.is_emergency_number(number, country)
    )


def countries_of(zone: str) -> tuple[str, ...]:
    """Return the countries whose clocks a zone shows, its own first; empty for a zone of no country."""
    return _zones().get(zone, ())


@lru_cache(maxsize=1)
def _zones() -> dict[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = {}
    for table in ("zone.tab", "zone1970.tab"):
        for countries, _, zone in _rows(table, 3):
            found.setdefault(zone, {}).update(dict.fromkeys(countries.split(",")))
    return {
        zone: tuple(each for each in countries if each != NOBODY_LIVES_THERE)
        for zone, countries in found.items()
    }


@lru_cache(maxsize=1)
def _names() -> dict[str, str]:
    return {row[0]: row[1] for row in _rows("iso3166.tab", 2)}


def _rows(table: str, columns: int) -> list[list[str]]:
    """Return the first columns of a table; none where it is missing: a stop sign must not fail of it."""
    try:
        text = (resources.files("tzdata") / "zoneinfo" / table).read_text(encoding="utf-8")
    except (OSError, ModuleNotFoundError):
        return []
    return [line.split("\t")[:columns] for line in text.splitlines() if line and not line.startswith("#")]
