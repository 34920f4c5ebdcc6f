from datetime import UTC, date, datetime

import pytest

from bot.usecases.sending import late_until
from core.policy import Policy

TUESDAY = date(2026, 4, 7)

# A session of Tuesday in Lisbon (an hour ahead of UTC in April) that could not go out at its hour.
LATE = [
    ("2026-04-07T02:00", "2026-04-07T06:00"),  # in the night: at its end, 07:00 on her clock
    ("2026-04-07T06:00", "2026-04-07T06:00"),  # a decent hour: now
    ("2026-04-07T19:00", "2026-04-07T19:00"),  # 20:00 on her clock is the latest
    ("2026-04-07T19:01", None),  # later than that: not any more
    ("2026-04-07T23:30", None),  # tomorrow already on her clock
    ("2026-04-08T09:00", None),  # never yesterday's
]


@pytest.mark.parametrize(("now", "sent"), LATE)
def test_a_late_session_goes_out_on_its_own_day_at_a_decent_hour_or_not_at_all(now, sent):
    found = late_until(TUESDAY, datetime.fromisoformat(now).replace(tzinfo=UTC), "Europe/Lisbon", Policy())

    assert found == (datetime.fromisoformat(sent).replace(tzinfo=UTC) if sent else None)
