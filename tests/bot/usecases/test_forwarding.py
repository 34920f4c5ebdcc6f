"""What goes to the coach, what does not, and when."""

from datetime import UTC, datetime

import pytest
from dialogs.talks import Talk
from joining import up_to
from setting_out import House, Someone

from bot.messages import Send
from bot.store.units import Units
from bot.usecases import forwarding, helping, media


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    return house.coach("Marit", 100)


def photo(caption: str = "") -> forwarding.MediaSent:
    return forwarding.MediaSent("photo", "file1", caption)


def test_who_has_not_finished_joining_sends_nothing_on(house: House, coach: Someone):
    ada = house.invited(coach, "Ada", 1)
    up_to(ada, "age")

    effects = ada.does(media.media_sent, photo())

    assert [effect.chat_id for effect in effects if isinstance(effect, Send)] == [1]
    assert ada.sees == "Please finish joining first: answer the question above. Nothing was passed on."


def test_who_has_left_is_told_so(units: Units):
    play = Talk(units)
    ada = play.someone("Ada")
    ada.stop()
    ada.tap("Stop")

    effects = ada.does(media.media_sent, photo())

    assert [effect.chat_id for effect in effects if isinstance(effect, Send)] == [1]


def test_a_stop_sign_under_a_photo_of_a_stranger_gets_its_text(house: House):
    somebody = house.someone(55)

    somebody.does(media.media_sent, photo("chest pain and my arm is numb"))

    assert somebody.sees.startswith("Stop now. This may be an emergency.")


def test_words_wait_for_the_end_of_the_coachs_quiet_hours(units: Units):
    play = Talk(units)
    play.house.now = datetime(2026, 4, 7, 21, 30, tzinfo=UTC)

    effects = play.typed(play.someone("Ada"), "see you on thursday")

    to_coach = next(each for each in effects if isinstance(each, Send) and each.chat_id == 100)
    assert to_coach.due_at == datetime(2026, 4, 8, 6, 0, tzinfo=UTC)


def test_a_stranger_or_a_coach_who_blocks_the_bot_is_nobodys_matter(house: House, coach: Someone):
    somebody = house.someone(55)

    assert somebody.does(forwarding.reached, forwarding.Reached(reachable=False)) == []
    assert coach.does(forwarding.reached, forwarding.Reached(reachable=False)) == []


def test_a_stranger_who_sends_what_cannot_be_used_gets_the_one_line(house: House):
    somebody = house.someone(55)

    somebody.does(helping.cannot_use, helping.CannotUse())

    assert somebody.sees.startswith("I only talk with people whose coach has invited them")
