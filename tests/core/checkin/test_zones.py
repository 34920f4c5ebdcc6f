from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.checkin.zones import (
    PLACES,
    SLACK_MIN,
    city_of,
    is_city,
    typed_zone,
    zone_of_city,
    zones_at,
)

SPRING = datetime(2026, 4, 14, 16, 40, tzinfo=UTC)
WINTER = datetime(2026, 1, 14, 16, 40, tzinfo=UTC)


# Offsets from the time zone database; London and Lisbon are an hour ahead of UTC from 29 March to 25 October 2026.
@pytest.mark.parametrize(
    ("typed", "instant", "inside", "outside"),
    [
        (time(17, 40), SPRING, {"Europe/Lisbon", "Europe/London", "Europe/Dublin"}, {"Atlantic/Reykjavik"}),
        (time(16, 40), WINTER, {"Europe/Lisbon", "Europe/London", "Atlantic/Reykjavik"}, {"Europe/Paris"}),
        (time(17, 43), SPRING, {"Europe/Lisbon"}, {"Europe/Paris"}),
        (time(22, 10), SPRING, {"Asia/Kolkata"}, {"Asia/Kathmandu"}),
        (time(22, 25), SPRING, {"Asia/Kathmandu"}, {"Asia/Kolkata"}),
        (time(4, 40), SPRING, {"Pacific/Auckland"}, {"Australia/Sydney"}),
    ],
)
def test_a_typed_time_suggests_the_zones_that_show_it(
    typed: time, instant: datetime, inside: set[str], outside: set[str]
) -> None:
    found = set(zones_at(typed, instant))
    assert (inside - found, outside & found) == (set(), set())


def test_a_time_that_no_zone_shows_suggests_nothing() -> None:
    assert zones_at(time(17, 50), SPRING) == ()


def test_midnight_is_near_the_last_minute_of_the_day() -> None:
    assert "Europe/Lisbon" in zones_at(time(23, 58), datetime(2026, 1, 14, 0, 2, tzinfo=UTC))


def test_suggestions_come_in_order_of_city() -> None:
    cities = [city_of(zone) for zone in zones_at(time(17, 40), SPRING)]
    assert cities == ["Casablanca", "Dublin", "Lagos", "Las Palmas", "Lisbon", "London"]


@given(
    st.sampled_from(PLACES),
    st.datetimes(min_value=datetime(2024, 1, 1), max_value=datetime(2030, 1, 1)),  # noqa: DTZ001
    st.integers(-SLACK_MIN, SLACK_MIN),
)
def test_whoever_reads_it_off_her_clock_finds_her_own_zone(place, moment: datetime, slip: int) -> None:
    instant = moment.replace(tzinfo=UTC, second=0, microsecond=0)
    read = (instant + timedelta(minutes=slip)).astimezone(ZoneInfo(place.zone)).time()
    # Within the slack a change of the clocks could fall; the typed time then is an hour off, as it should be.
    same_offset = instant.astimezone(ZoneInfo(place.zone)).utcoffset() == (
        (instant + timedelta(minutes=slip)).astimezone(ZoneInfo(place.zone)).utcoffset()
    )
    assert (place.zone in zones_at(read, instant)) == same_offset


@each_row("place", PLACES)
def test_every_zone_of_the_list_exists_and_is_found_by_each_of_its_cities(place) -> None:
    assert ZoneInfo(place.zone).key == place.zone
    assert {zone_of_city(name) for name in (place.city, *place.others)} == {(place.zone,)}


def test_no_city_stands_for_two_zones() -> None:
    names = [name.casefold() for place in PLACES for name in (place.city, *place.others)]
    assert sorted(set(names)) == sorted(names)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("lisbon", ("Europe/Lisbon",)),
        ("LISBON ", ("Europe/Lisbon",)),
        ("Sao Paulo", ("America/Sao_Paulo",)),
        ("zurich", ("Europe/Zurich",)),
        ("St. John's", ("America/St_Johns",)),
        ("Lisbn", ("Europe/Lisbon",)),
        ("Porto", ("Europe/Lisbon",)),
        ("Qqqqq", ()),
        ("", ()),
    ],
)
def test_a_city_is_found_by_name_in_any_spelling(typed: str, expected: tuple[str, ...]) -> None:
    assert zone_of_city(typed) == expected


def test_a_misspelt_city_is_not_taken_for_the_city() -> None:
    assert (is_city("Lisbon"), is_city("Lisbn")) == (True, False)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("Europe/Riga", "Europe/Riga"),
        (" America/Argentina/Ushuaia ", "America/Argentina/Ushuaia"),
        ("Europe/Atlantis", None),
        ("America/Argentina", None),
        ("../etc/passwd", None),
        ("Europe", None),
        ("UTC", None),
    ],
)
def test_a_zone_can_be_typed_by_its_own_name(typed: str, expected: str | None) -> None:
    assert typed_zone(typed) == expected


@pytest.mark.parametrize(
    ("zone", "expected"),
    [("America/Bogota", "Bogotá"), ("Europe/Riga", "Riga"), ("America/Port_of_Spain", "Port of Spain")],
)
def test_a_zone_is_named_by_its_city(zone: str, expected: str) -> None:
    assert city_of(zone) == expected
