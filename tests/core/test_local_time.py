from datetime import UTC, date, datetime, time, timedelta, timezone
from itertools import pairwise
from zoneinfo import ZoneInfo, available_timezones

import pytest

from core.errors import UnknownZone
from core.local_time import instant_of, local_date, zone_named

ZONES = sorted(available_timezones())


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def test_every_zone_has_one_rising_instant_for_each_of_366_nights() -> None:
    first = date(2026, 1, 1)
    days = [first + timedelta(days=each) for each in range(366)]
    wrong = []
    for zone in ZONES:
        # Half past two: in most zones with summer time it is skipped once a year and comes twice once a year.
        instants = [instant_of(day, time(2, 30), zone) for day in days]
        gaps = {later - earlier for earlier, later in pairwise(instants)}
        rising = all(timedelta(hours=21) <= gap <= timedelta(hours=27) for gap in gaps)
        own_day = all(local_date(at, zone) == day for at, day in zip(instants, days, strict=True))
        if not rising or not own_day or any(at.utcoffset() != timedelta(0) for at in instants):
            wrong.append(zone)
    assert len(ZONES) >= 590
    assert wrong == []


@pytest.mark.parametrize("at", [time(7), time(0), time(23, 59)])
def test_the_first_of_two_is_taken_and_a_skipped_one_comes_later(at: time) -> None:
    zones = (
        "Europe/Berlin",
        "America/New_York",
        "Africa/Cairo",
        "Asia/Beirut",
        "America/Havana",
        "Pacific/Chatham",
    )
    for zone in zones:
        for days in range(366):
            day = date(2026, 1, 1) + timedelta(days=days)
            instant = instant_of(day, at, zone)
            shown = instant.astimezone(ZoneInfo(zone)).replace(tzinfo=None)
            assert shown >= datetime.combine(day, at)
            earlier = (instant - timedelta(hours=1)).astimezone(ZoneInfo(zone)).replace(tzinfo=None)
            assert earlier != datetime.combine(day, at)


def test_a_whole_skipped_day_falls_on_the_next() -> None:
    skipped = instant_of(date(2011, 12, 30), time(7), "Pacific/Apia")
    assert skipped == instant_of(date(2011, 12, 31), time(7), "Pacific/Apia")


def test_a_zone_of_the_time_itself_is_not_taken_for_the_clients() -> None:
    west = time(7, tzinfo=timezone(timedelta(hours=-5)), fold=1)
    assert instant_of(date(2026, 4, 14), west, "Europe/London") == utc("2026-04-14T06:00")


@pytest.mark.parametrize(
    ("instant", "zone", "day"),
    [
        ("2026-04-14T23:30", "Europe/Lisbon", date(2026, 4, 15)),
        ("2026-04-14T23:30", "America/Sao_Paulo", date(2026, 4, 14)),
        ("2026-04-14T10:30", "Pacific/Kiritimati", date(2026, 4, 15)),
        ("2026-04-14T10:30", "Pacific/Pago_Pago", date(2026, 4, 13)),
    ],
)
def test_an_instant_has_the_date_of_its_zone(instant: str, zone: str, day: date) -> None:
    assert local_date(utc(instant), zone) == day


def test_a_naive_instant_is_refused() -> None:
    with pytest.raises(ValueError, match="aware"):
        local_date(datetime(2026, 4, 14), "Europe/London")  # noqa: DTZ001 - that is what is refused


@pytest.mark.parametrize(
    "name", ["Europe/Nowhere", "", "Europe", "../etc/passwd", "/etc/passwd", "a\0b", "London"]
)
def test_an_unknown_zone_is_named(name: str) -> None:
    with pytest.raises(UnknownZone) as raised:
        zone_named(name)
    assert raised.value.facts == {"zone": name}
