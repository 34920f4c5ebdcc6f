"""The digest's hour on the coach's own wall clock, once in an ISO week."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.oversight.week import last_hour, next_hour, week_key

SIX = time(18)


def utc(day: int, hour: int, minute: int = 0, month: int = 4) -> datetime:
    return datetime(2026, month, day, hour, minute, tzinfo=UTC)


@pytest.mark.parametrize(
    ("now", "zone", "weekday", "on", "due_at"),
    [
        # Sunday 19 April 2026, 18:00 in Oslo, is 16:00 UTC.
        (utc(19, 16), "Europe/Oslo", 6, date(2026, 4, 19), utc(19, 16)),
        (utc(19, 15, 59), "Europe/Oslo", 6, date(2026, 4, 12), utc(12, 16)),
        (utc(22, 9), "Europe/Oslo", 6, date(2026, 4, 19), utc(19, 16)),
        # Already Monday in Auckland.
        (utc(19, 13), "Pacific/Auckland", 0, date(2026, 4, 13), utc(13, 6)),
        # The Sunday on which clocks go forward.
        (utc(29, 20, month=3), "Europe/Oslo", 6, date(2026, 3, 29), utc(29, 16, month=3)),
    ],
)
def test_the_last_hour(now: datetime, zone: str, weekday: int, on: date, due_at: datetime) -> None:
    assert last_hour(now, zone, weekday, SIX) == (on, due_at)


@pytest.mark.traced
@given(
    st.integers(0, 2 * 365 * 24 * 60).map(lambda minutes: utc(1, 0, month=1) + timedelta(minutes=minutes)),
    st.sampled_from(["Europe/Oslo", "Asia/Kathmandu", "America/New_York", "Pacific/Chatham"]),
    st.integers(0, 6),
    st.times(),
)
def test_now_lies_between_the_last_hour_and_the_next(
    now: datetime, zone: str, weekday: int, at: time
) -> None:
    on, due_at = last_hour(now, zone, weekday, at)

    assert due_at <= now < next_hour(now, zone, weekday, at)
    assert on.weekday() == weekday
    assert next_hour(now, zone, weekday, at) - due_at <= timedelta(days=7, hours=1)


@pytest.mark.parametrize(
    ("on", "key"),
    [
        (date(2026, 4, 19), "digest:2026-W16"),
        # The year of a week is not always the year of the day.
        (date(2025, 12, 29), "digest:2026-W01"),
        (date(2027, 1, 1), "digest:2026-W53"),
    ],
)
def test_a_key_is_one_iso_week(on: date, key: str) -> None:
    assert week_key(on) == key
