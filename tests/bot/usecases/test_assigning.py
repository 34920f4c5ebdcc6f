from dataclasses import replace
from datetime import UTC, date, datetime, time
from typing import Any

import pytest

from bot.store.people import Client
from bot.usecases.assigning import first_start, start_read, starts_offered
from core.errors import NotJoinedYet

ADA = Client(
    **dict.fromkeys(Client.__dataclass_fields__)  # type: ignore[arg-type]
    | {"id": 1, "name": "Ada", "state": "active", "zone": "Pacific/Auckland", "hour": time(7)}
)


# Auckland is 12 h ahead of UTC from 5 April 2026: its 07:00 on the 7th is 19:00 UTC on the 6th.
@pytest.mark.parametrize(
    ("now", "expected"),
    [
        (datetime(2026, 4, 6, 18, 59, tzinfo=UTC), date(2026, 4, 7)),
        (datetime(2026, 4, 6, 19, 0, tzinfo=UTC), date(2026, 4, 8)),
    ],
)
def test_the_first_start_is_today_on_the_clients_calendar_until_her_hour(
    now: datetime, expected: date
) -> None:
    assert first_start(ADA, now) == expected
    assert starts_offered(ADA, now)[0] == expected
    assert start_read(expected.isoformat(), ADA, now) == expected


@pytest.mark.parametrize("missing", [{"zone": None}, {"hour": None}])
def test_nothing_starts_for_who_has_no_hour_or_clock(missing: dict[str, Any]) -> None:
    with pytest.raises(NotJoinedYet):
        first_start(replace(ADA, **missing), datetime(2026, 4, 6, tzinfo=UTC))
