"""Numbers that reach an ambulance, against published pages and the telephone metadata [PhoneMetadata].

Zones and their countries are those of [TZDB].
"""

import pytest
from phonenumbers import shortnumberinfo
from rows import each_row

from bot.render import emergency
from bot.render.emergency import FIXED, NUMBERS, PAGE_ALONE, countries_of, number_words
from core.checkin.zones import PLACES
from core.local_time import zone_named
from core.sources import SOURCES

EVERY = [(country, number) for country, numbers in NUMBERS.items() for number in numbers.reach]

SAID = {
    # The page is EC112:
    "Europe/Lisbon": "112 in Portugal",
    "Atlantic/Azores": "112 in Portugal",
    "Europe/Madrid": "112 in Spain",
    "Europe/Paris": "112 in France",
    "Europe/Berlin": "112 in Germany",
    "Europe/Vienna": "112 in Austria",
    "Europe/Rome": "112 in Italy",
    "Europe/Amsterdam": "112 in the Netherlands",
    "Europe/Dublin": "112 in Ireland",
    "Europe/Copenhagen": "112 in Denmark",
    "Europe/Stockholm": "112 in Sweden",
    "Europe/Helsinki": "112 in Finland",
    "Europe/Warsaw": "112 in Poland",
    "Europe/Prague": "112 in Czechia",
    "Europe/Athens": "112 in Greece",
    "Europe/Riga": "112 in Latvia",
    "Asia/Nicosia": "112 in Cyprus",
    # The page is VUGD112:
    "Europe/Zurich": "112 in Switzerland",
    "Atlantic/Reykjavik": "112 in Iceland",
    "Europe/Istanbul": "112 in Türkiye",
    # [Sirdal113], and 112 besides
    "Europe/Oslo": "113 or 112 in Norway",
    # The page is EEAST999:
    "Europe/London": "999 or 112 in the UK",
    # The page is GovJe999:
    "Europe/Jersey": "999 or 112 in Jersey",
    # The page is FCC911:
    "America/New_York": "911 in the US",
    "America/Los_Angeles": "911 in the US",
    "Pacific/Honolulu": "911 in the US",
    "America/Vancouver": "911 in Canada",
    # [FCC911] and [Smartraveller]: the clock of Toronto is that of the Bahamas
    "America/Toronto": "911 in Canada",
    "America/Nassau": "911 or 919 in the Bahamas",
    # The page is QAS000:
    "Australia/Sydney": "000 in Australia",
    "Australia/Perth": "000 in Australia",
    # The page is HealthInfo111:
    "Pacific/Auckland": "111 in New Zealand",
}

UNSAID = {
    "Asia/Tokyo": "an outpost of Australia keeps its clock, where 119 is nothing",
    "Europe/Belgrade": "six countries, of which four are not in the table",
    "Asia/Seoul": "112 is the police",
    "America/Sao_Paulo": "112 is the police",
    "Africa/Johannesburg": "pages differ",
    "Asia/Singapore": "Malaysia has another number",
    "Asia/Kolkata": "several services, several numbers",
    "America/Panama": "three countries",
    "Asia/Calcutta": "an old name that the tables do not have",
    "UTC": "no country",
    "Etc/GMT+3": "no country",
    "Nowhere/Place": "no zone",
    "": "no zone",
}


@each_row(("zone", "words"), SAID.items())
def test_the_number_of_the_country_is_said_with_its_country(zone: str, words: str) -> None:
    assert number_words(zone) == f"the emergency number where you are ({words})"


@pytest.mark.parametrize("zone", UNSAID)
def test_where_it_is_not_sure_no_number_is_said(zone: str) -> None:
    assert number_words(zone) == FIXED
    assert number_words(None) == FIXED


@each_row(("country", "number"), EVERY)
def test_the_telephone_metadata_knows_each_number_but_for_those_of_the_page_alone(country, number) -> None:
    known = shortnumberinfo.is_emergency_number(number, country)

    assert known is ((country, number) not in PAGE_ALONE)


def test_every_number_has_its_page_or_says_that_it_is_from_memory() -> None:
    cited = {numbers.source for numbers in NUMBERS.values()}

    assert cited - {"from memory"} <= set(SOURCES)
    assert [country for country, numbers in NUMBERS.items() if numbers.source == "from memory"] == [
        "SJ",
        "GG",
    ]


def test_all_member_states_of_the_union_are_in_the_table() -> None:
    union = [country for country, numbers in NUMBERS.items() if numbers.source == "EC112"]

    assert len(union) == 27 + len(("Åland",))


@each_row("place", PLACES)
def test_every_zone_that_is_offered_has_a_country(place) -> None:
    zone_named(place.zone)

    assert countries_of(place.zone)


def test_a_country_that_shares_a_clock_and_has_another_number_takes_the_number_away() -> None:
    assert countries_of("Asia/Tokyo") == ("JP", "AU")
    assert emergency.reach("JP") == ("119",)
    assert emergency.reach("AU") == ("000",)


def test_what_the_metadata_no_longer_knows_is_not_said(monkeypatch) -> None:
    emergency.reach.cache_clear()
    monkeypatch.setattr(emergency.shortnumberinfo, "is_emergency_number", lambda *_: False)

    assert number_words("Europe/Lisbon") == FIXED
    emergency.reach.cache_clear()


def test_without_the_tables_the_fixed_words_stand(monkeypatch) -> None:
    def nothing(package: str) -> None:
        raise ModuleNotFoundError(package)

    for kept in (emergency._zones, emergency._names):
        kept.cache_clear()
    monkeypatch.setattr(emergency.resources, "files", nothing)

    assert number_words("Europe/Lisbon") == FIXED
    for kept in (emergency._zones, emergency._names):
        kept.cache_clear()
