"""Times around changes of the clock, from the time zone database [TZDB] and [PEP495]."""

from datetime import UTC, date, datetime, time

from rows import each_row

from core.local_time import instant_of


@each_row(
    ("day", "at", "zone", "instant"),
    [
        ("2026-03-28", "07:00", "Europe/London", "2026-03-28T07:00"),
        ("2026-03-29", "07:00", "Europe/London", "2026-03-29T06:00"),
        ("2026-03-29", "02:30", "Europe/Berlin", "2026-03-29T01:30"),  # skipped: 03:30 local
        ("2026-10-25", "02:30", "Europe/Berlin", "2026-10-25T00:30"),  # twice: the first
        ("2026-03-08", "02:30", "America/New_York", "2026-03-08T07:30"),  # skipped: 03:30 local
        ("2026-11-01", "01:30", "America/New_York", "2026-11-01T05:30"),  # twice: the first
        ("2026-10-04", "02:30", "Australia/Sydney", "2026-10-03T16:30"),  # skipped: 03:30 local
        ("2026-04-05", "02:30", "Australia/Sydney", "2026-04-04T15:30"),  # twice: the first
        (
            "2026-10-04",
            "02:15",
            "Australia/Lord_Howe",
            "2026-10-03T15:45",
        ),  # skipped by half an hour: 02:45 local
        ("2026-04-05", "01:45", "Australia/Lord_Howe", "2026-04-04T14:45"),  # twice: the first
        ("2026-03-29", "00:30", "Asia/Beirut", "2026-03-28T22:30"),  # midnight itself is skipped: 01:30 local
        ("2026-04-24", "00:30", "Africa/Cairo", "2026-04-23T22:30"),  # skipped on a Friday: 01:30 local
        ("2026-10-29", "23:30", "Africa/Cairo", "2026-10-29T20:30"),  # twice: the first
        ("2026-09-27", "03:00", "Pacific/Chatham", "2026-09-26T14:15"),  # skipped: 04:00 local
        ("2026-01-15", "07:00", "Pacific/Chatham", "2026-01-14T17:15"),  # +13:45
        ("2026-07-15", "07:00", "Pacific/Chatham", "2026-07-14T18:15"),  # +12:45
        ("2026-04-14", "07:00", "Asia/Kathmandu", "2026-04-14T01:15"),  # +5:45
        ("2026-04-14", "07:00", "Asia/Kolkata", "2026-04-14T01:30"),  # +5:30
        ("2011-12-29", "07:00", "Pacific/Apia", "2011-12-29T17:00"),  # -10, the day before the skipped one
        ("2011-12-31", "07:00", "Pacific/Apia", "2011-12-30T17:00"),  # +14, the day after it
    ],
)
def test_a_wall_clock_time_falls_on_one_instant(day: str, at: str, zone: str, instant: str) -> None:
    expected = datetime.fromisoformat(instant).replace(tzinfo=UTC)
    assert instant_of(date.fromisoformat(day), time.fromisoformat(at), zone) == expected
