"""`/today` and `/week` of those who have no session today, or no plan at all."""

from datetime import time

import pytest
from dialogs.talks import Talk
from setting_out import House

from bot.store.units import Unit, Units
from bot.usecases import today as asking
from core.local_time import instant_of


def test_one_who_joins_is_asked_on(units: Units) -> None:
    house = House(units)
    coach = house.coach("Marit", 100)
    ada = house.invited(coach, "Ada", 1)
    ada.tap("Go on")

    ada.does(asking.today, asking.Today())

    assert "Do you agree" in ada.sees


def test_one_who_has_stopped_hears_how_to_come_back(units: Units) -> None:
    play = Talk(units)
    ada = play.someone("Ada")
    ada.stop()
    ada.tap("Stop")

    ada.does(asking.today, asking.Today())

    assert "You do not train here now" in ada.sees


def test_without_a_plan_it_says_whose_turn_it_is(units: Units) -> None:
    play = Talk(units)
    dropped(play)

    play.take("Ada: /today")

    assert play.someone("Ada").sees == (
        "There is no session today.\nNothing more is planned. Your coach sets what comes next."
    )


def dropped(play: Talk) -> None:
    def drop(unit: Unit) -> None:
        account = unit.accounts.find(1)
        assert account is not None
        unit.sessions.drop_planned(account.client_id or 0)

    play.house.reading(play.someone("Marit"), drop)


@pytest.mark.parametrize(
    ("hour", "expected"), [(5, "Lower A · week 1 of 4"), (23, "Lower A · week 1 of 4")], ids=["early", "late"]
)
def test_a_card_that_is_asked_for_knows_no_quiet_hours(units: Units, hour: int, expected: str) -> None:
    play = Talk(units)
    dropped(play)
    planned(play, hour)

    play.take("Ada: /today")

    assert play.someone("Ada").sees.startswith(expected)
    assert play.someone("Ada").last.silent


def planned(play: Talk, hour: int) -> None:
    """Lay the first session of the block today, at an hour, and let it be that hour."""

    def lay(unit: Unit) -> None:
        account = unit.accounts.find(1)
        assert account is not None
        running = unit.blocks.running(account.client_id or 0)
        assert running is not None
        on = running.starts_on
        due = instant_of(on, time(hour), "Europe/Lisbon")
        unit.sessions.lay(account.client_id or 0, running.id, 1, "lower-a", on, due)
        play.house.now = due

    play.house.reading(play.someone("Marit"), lay)


def test_a_week_without_sessions_says_so(units: Units) -> None:
    play = Talk(units)
    dropped(play)

    play.take("Ada: /week")

    assert play.someone("Ada").sees == "Mon 6 April to Sun 12 April\nNo session this week."


def test_a_week_on_hold_promises_no_hour(units: Units) -> None:
    play = Talk(units)
    play.take("Ada: chest pain and my arm is numb")

    play.take("Ada: /week")

    assert "Tue  Lower A: on hold" in play.someone("Ada").sees
    assert "comes at" not in play.someone("Ada").sees
