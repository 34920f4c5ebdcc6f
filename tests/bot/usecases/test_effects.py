from datetime import UTC, datetime, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.usecases.effects import after_quiet, is_quiet
from core.policy import Policy

POLICY = Policy()

# Quiet from 21:00 to 07:00 on the coach's own clock (our proposal); Oslo is two hours ahead of UTC in April.
CASES = [
    ("2026-04-13T10:00", "2026-04-13T10:00"),
    ("2026-04-13T18:59", "2026-04-13T18:59"),
    ("2026-04-13T19:00", "2026-04-14T05:00"),
    ("2026-04-13T23:30", "2026-04-14T05:00"),
    ("2026-04-14T04:59", "2026-04-14T05:00"),
    ("2026-04-14T05:00", "2026-04-14T05:00"),
    ("2026-10-24T20:00", "2026-10-25T06:00"),
]


@pytest.mark.parametrize(("said", "told"), CASES)
def test_what_nobody_asked_for_waits_for_the_end_of_the_night(said, told):
    now = datetime.fromisoformat(said).replace(tzinfo=UTC)

    assert after_quiet(now, "Europe/Oslo", POLICY) == datetime.fromisoformat(told).replace(tzinfo=UTC)


@given(st.datetimes(datetime(2026, 1, 1), datetime(2027, 12, 31), timezones=st.just(UTC)))
def test_nothing_comes_out_in_the_night_or_early(now):
    told = after_quiet(now, "America/New_York", POLICY)

    assert told >= now
    assert after_quiet(told, "America/New_York", POLICY) == told


def test_quiet_hours_may_lie_within_one_day():
    siesta = Policy(quiet_from=time(13), quiet_to=time(15))

    assert [is_quiet(time(hour), siesta) for hour in (12, 13, 14, 15)] == [False, True, True, False]
