"""A session that is interrupted, or goes on past midnight."""

from datetime import UTC, datetime, timedelta

import pytest
from dialogs.talks import Talk
from setting_out import plain_text

from bot.store.units import Units
from bot.usecases import reposting
from bot.usecases.last_night import is_of_last_night
from core.checkin.training_log import Session


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def begun(play: Talk, at: str = "2026-04-09 07:00") -> None:
    play.take(f"tick {at}")
    play.take("Ada [Start]")
    play.take("Ada [Done as written]")


def later(play: Talk, **by: int) -> None:
    """Time goes by, and the program starts anew meanwhile."""
    play.house.now += timedelta(**by)
    play.units = play.house.units = Units(play.units.engine)


def sees(play: Talk) -> str:
    return plain_text(play.someone("Ada").last)


def state_of_the_first(play: Talk) -> tuple[str, str]:
    def look(unit):
        client = unit.accounts.find(1).client_id
        found = unit.sessions.of_client(client, ("started", "asking", "done", "partial"))[-1]
        return found.local_on.isoformat(), found.state

    return play.house.reading(play.someone("Marit"), look)


def test_after_hours_and_a_restart_it_goes_on_where_it_was(play: Talk) -> None:
    begun(play)
    later(play, hours=9)
    play.take("Ada: /today")

    assert "B1  Dumbbell overhead press  3 × 8 at 14 kg a hand" in sees(play)
    assert "Done: A Bench press" in sees(play)
    play.take("Ada [Done as written]")
    assert "B2  Lateral raise" in sees(play)


def test_the_screen_that_was_open_is_shown_again(play: Talk) -> None:
    begun(play)
    play.take("Ada [Change numbers]")
    later(play, hours=2)
    play.take("Ada: /today")

    assert "Last set −1" in play.someone("Ada").buttons


def test_a_card_that_is_posted_anew_goes_on_too(play: Talk) -> None:
    begun(play)
    later(play, hours=1)
    session = play.house.reading(
        play.someone("Marit"), lambda unit: unit.sessions.open_one(unit.accounts.find(1).client_id).id
    )
    play.someone("Marit").does(reposting.repost, reposting.Repost(session))

    assert "I was away for a while" in sees(play)
    assert "B1  Dumbbell overhead press" in sees(play)


def test_after_midnight_today_shows_what_is_still_going_on_and_not_the_new_day(play: Talk) -> None:
    begun(play)
    play.house.now = datetime(2026, 4, 10, 0, 20, tzinfo=UTC)
    later(play, minutes=0)
    play.take("Ada: /today")

    assert sees(play).startswith("Push · week 1 of 4 · Thu 9 April")
    play.take("Ada: 14 8 8 8")
    assert "Noted: Dumbbell overhead press" in sees(play)


def test_what_is_done_after_midnight_belongs_to_its_day(play: Talk) -> None:
    begun(play)
    play.house.now = datetime(2026, 4, 10, 0, 20, tzinfo=UTC)
    play.take("Ada [End here]")
    play.take("Ada [No time]")
    play.take("Ada [Nothing hurts]")
    play.take("Ada [2]")

    assert state_of_the_first(play) == ("2026-04-09", "partial")
    play.take("Ada: undo")
    assert sees(play).startswith("Taken back. The session is open again.")


def test_in_the_morning_the_new_day_is_shown(play: Talk) -> None:
    begun(play)
    play.house.now = datetime(2026, 4, 10, 6, 1, tzinfo=UTC)
    play.take("Ada: /today")

    assert "Fri 10 April" in sees(play)


@pytest.mark.parametrize(
    ("at", "expected"),
    [
        ("2026-04-09T22:30", False),  # 23:30 of the same day in Lisbon
        ("2026-04-09T23:30", True),  # half past midnight
        ("2026-04-10T05:59", True),
        ("2026-04-10T06:00", False),  # seven: the night is over
        ("2026-04-11T00:30", False),  # the night after
    ],
)
def test_the_night_ends_at_seven_on_her_clock(at: str, expected: bool) -> None:
    on = datetime(2026, 4, 9, tzinfo=UTC)
    session = Session(1, 1, 1, 1, "push", on.date(), on, "started", False, None, 0, None, None, None)

    assert (
        is_of_last_night(session, datetime.fromisoformat(at).replace(tzinfo=UTC), "Europe/Lisbon") is expected
    )
