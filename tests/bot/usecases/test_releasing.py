"""A release in the coach's night work: the client sleeps on. What has nothing to do with it stays told."""

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


def test_a_block_that_ends_is_not_told_again_after_a_release(units: Units):
    play = Talk(units)
    play.take("tick 2026-04-27 07:00")
    for step in ("Ada: my chest feels tight", "Marit [Release the plan]", "Marit [Yes, release]"):
        play.take(step)

    again = [line for line in play.take("tick 2026-04-28 09:00") if "no block follows it" in line]

    assert again == []
