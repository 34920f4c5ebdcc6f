"""Links that nobody has used yet: listed with their end, revoked one at a time."""

import pytest
from dialogs.commands import SECOND_CODE
from dialogs.talks import Talk
from setting_out import Someone
from sqlalchemy import select

from bot.store.invites import code_hash
from bot.store.tables import coach, invite
from bot.store.units import Units
from bot.usecases import join, setting_up


@pytest.fixture
def play(units: Units) -> Talk:
    play = Talk(units)
    for name, code in (("Cleo", "cleocode"), ("Dov", "dovcode")):
        play.someone("Marit").does(setting_up.invite, setting_up.Invite(name, code, "plimsoll_story_bot"))
    return play


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def test_open_links_are_listed_with_their_end(play: Talk, marit: Someone) -> None:
    play.commanded(marit, "invites", None)

    assert marit.sees == ("Open links:\nCleo, good until Mon 20 April\nDov, good until Mon 20 April")
    assert marit.buttons == ["Revoke Cleo", "Revoke Dov"]


def test_a_revoked_link_opens_nothing_and_the_others_stay(play: Talk, marit: Someone) -> None:
    play.commanded(marit, "invites", None)
    marit.tap("Revoke Cleo")
    assert marit.sees.startswith("The link for Cleo no longer works.")
    assert marit.buttons == ["Revoke Dov"]

    cleo, dov = play.house.someone(71), play.house.someone(72)
    cleo.does(join.start, join.Start("cleocode"))
    dov.does(join.start, join.Start("dovcode"))

    assert not any("agree" in label for label in [*cleo.buttons])
    assert cleo.sees.startswith("That link") or "ask your coach for a link" in cleo.sees
    assert dov.buttons == ["Go on"]


def test_an_old_list_shows_what_is_open_now(play: Talk, marit: Someone) -> None:
    play.commanded(marit, "invites", None)
    old = marit.data("Revoke Dov")
    marit.tap("Revoke Cleo")
    marit.tap_data(old)

    assert marit.sees.startswith("That button was from before. This is how things stand.\n\nOpen links:\nDov")
    assert marit.buttons == ["Revoke Dov"]


def test_a_link_is_kept_by_the_hash_of_its_code_alone(play: Talk, marit: Someone) -> None:
    play.take("Marit: /second Jo")
    with play.units.read(None) as unit:
        kept = "\n".join(
            str(row) for table in (invite, coach) for row in unit.connection.execute(select(table))
        )

    assert all(code_hash(code) in kept for code in ("cleocode", "dovcode", SECOND_CODE))
    assert not any(code in kept for code in ("cleocode", "dovcode", SECOND_CODE))
