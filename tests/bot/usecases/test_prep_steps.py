"""The prep step by step: where it goes on, and what changes under it."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action, decode
from bot.render.sessions_said import OLD_BUTTON
from bot.store.units import Units
from bot.usecases import talk


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def sees(play: Talk) -> str:
    return plain_text(play.someone("Ada").last)


def take(play: Talk, *steps: str) -> None:
    for each in steps:
        play.take(f"Ada{each}" if each.startswith(":") else f"Ada {each}")


def forge(play: Talk, label: str, action: Action) -> None:
    ada = play.someone("Ada")
    ada.does(talk.tapped, talk.Tapped(decode(ada.forged(label, action=action))))


def test_left_in_the_middle_it_goes_on_where_it_was_after_a_restart(play: Talk) -> None:
    take(play, "[Prep]", "[Next]", "[Next]", "[Skip the rest]")
    again = Units(play.units.engine)
    play.units = play.house.units = again
    take(play, ": prep")

    assert "Prep 3 of 8" in sees(play)


def test_what_begins_to_hurt_in_the_middle_is_no_longer_among_what_follows(play: Talk) -> None:
    take(play, "[Prep]", "[Next]", ": pain left ankle 5")
    take(play, ": prep")

    assert "Ankle rock" not in sees(play)
    assert "Prep 2 of" in sees(play)


def test_back_from_the_first_drill_is_the_card(play: Talk) -> None:
    take(play, "[Prep]", "[Back]")

    assert "All done as written" in play.someone("Ada").buttons


def test_after_the_session_has_begun_there_is_no_prep_to_go_on_with(play: Talk) -> None:
    take(play, "[Start]")
    for action in (Action.PREP, Action.NEXT):
        forge(play, "Skip", action)
        assert sees(play).startswith(OLD_BUTTON)
    assert "Hip thrust  4 × 8 at 90 kg" in sees(play)


def test_the_rest_left_out_after_the_session_has_begun_shows_the_exercise(play: Talk) -> None:
    take(play, "[Start]")
    forge(play, "Skip", Action.PREP_OVER)

    assert "Hip thrust  4 × 8 at 90 kg" in sees(play)


def test_done_typed_in_the_prep_is_of_the_drill_and_logs_nothing(play: Talk) -> None:
    take(play, "[Prep]", ": done")

    assert "Prep 2 of 8" in sees(play)
    assert "Noted" not in sees(play)


def test_all_can_still_be_done_as_written_after_the_prep(play: Talk) -> None:
    take(play, "[Prep]", *["[Next]"] * 7, "[Prep done]", "[All done as written]")

    assert "Done: A Hip thrust" in sees(play)


def test_two_clients_have_each_their_own_place_in_it(play: Talk) -> None:
    play.take("Ben [Prep]")
    take(play, "[Prep]", "[Next]", "[Next]")
    play.take("Ben [Next]")

    assert "Prep 2 of 8" in plain_text(play.someone("Ben").last)
    assert "Prep 3 of 8" in sees(play)
