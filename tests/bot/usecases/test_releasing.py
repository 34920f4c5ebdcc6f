"""A release in the coach's night work: the client sleeps on."""

from datetime import UTC, datetime

import pytest
from dialogs.talks import Talk

from bot.messages import Send
from bot.store.units import Units


@pytest.mark.parametrize(
    ("at", "due_at"),
    [
        (datetime(2026, 4, 7, 23, 30, tzinfo=UTC), datetime(2026, 4, 8, 6, 0, tzinfo=UTC)),
        (datetime(2026, 4, 8, 12, 0, tzinfo=UTC), datetime(2026, 4, 8, 12, 2, tzinfo=UTC)),
    ],
)
def test_a_client_hears_of_a_release_outside_her_quiet_hours(units: Units, at: datetime, due_at: datetime):
    play = Talk(units)
    play.take("Ada: my chest feels tight")
    play.house.now = at
    play.take("Marit [Release the plan]")
    play.take("Marit [Yes, release]")

    [told] = [each for each in play.house.sends if each.key.startswith("released:")]

    assert isinstance(told, Send)
    assert (told.chat_id, told.due_at) == (1, due_at)
