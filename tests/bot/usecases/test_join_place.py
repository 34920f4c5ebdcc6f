"""A place that is shared: its clock is taken where it is asked for, and asked about elsewhere; nobody else's counts."""

import pytest
from dialogs.talks import Talk

from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def zone(play: Talk) -> str:
    found: str = play.house.client_of(play.someone("Marit"), play.someone("Ada")).zone
    return found


def test_it_changes_no_clock_until_she_has_said_so(play: Talk) -> None:
    play.take("Ada shares a place in Europe/Oslo")
    assert zone(play) == "Europe/Lisbon"
    play.take("Ada [Oslo]")
    assert zone(play) == "Europe/Oslo"


def test_while_the_clock_is_asked_for_it_is_the_answer(play: Talk) -> None:
    play.take("Ada: /settings clock")
    play.take("Ada shares a place in Europe/Oslo")
    assert zone(play) == "Europe/Oslo"
    assert play.someone("Ada").sees.startswith("Your clock: Oslo,")


def test_a_place_without_a_clock_asks_for_a_city(play: Talk) -> None:
    play.take("Ada: /settings clock")
    play.take("Ada shares a place")
    assert play.someone("Ada").sees.startswith("I find no clock for that place.")
    play.take("Ada [Back]")
    play.take("Ada shares a place")
    assert "What time is it where you are?" in play.someone("Ada").sees
    assert zone(play) == "Europe/Lisbon"


def test_a_coach_and_a_stranger_and_who_has_stopped_are_told_what_holds_for_them(play: Talk) -> None:
    play.take("Marit shares a place in Europe/Oslo")
    assert play.someone("Marit").sees.startswith("I cannot use that kind of message")
    play.take("Cleo shares a place in Europe/Oslo")
    assert "ask your coach for a link" in play.someone("Cleo").sees
    for step in ("Ada: /stop", "Ada [Stop]", "Ada shares a place in Europe/Oslo"):
        play.take(step)
    assert play.someone("Ada").sees.startswith("You do not train here now")
