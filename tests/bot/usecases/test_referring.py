"""Referrals: kept, told at the coach's word alone, seen, reviewed, closed; nobody else's."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import LISBON, Talk

from bot.messages import Action
from bot.store.referrals import Referral
from bot.store.units import Units
from bot.usecases import referring
from bot.usecases.digest import facts_of


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("Marit: /refer Ada physiotherapist: left knee since March.",))


def marits(play: Talk, look: Any) -> Any:
    return play.house.reading(play.someone("Marit"), look)


def kept(play: Talk) -> Referral:
    found: list[Referral] = marits(play, lambda unit: unit.referrals.open())
    return found[0]


def to_ada(play: Talk) -> list[str]:
    return [
        each.message.html
        for each in play.house.sends
        if each.chat_id == 1 and "Please see a" in each.message.html
    ]


def test_it_is_kept_and_the_client_not_told_before_the_coach_says_so(play: Talk) -> None:
    assert (kept(play).clinician, kept(play).why) == ("physiotherapist", "left knee since March")
    assert to_ada(play) == []
    play.take("Marit [Only note it]")
    assert (to_ada(play), kept(play).told_at) == ([], None)


def test_the_client_is_told_once_and_at_a_decent_hour(play: Talk) -> None:
    play.house.now = datetime(2026, 4, 6, 22, 30, tzinfo=LISBON)
    play.take("Marit: tell Ada")
    play.take("Marit: tell Ada")
    [sent] = [each for each in play.house.sends if each.key.endswith(":told")]
    assert sent.due_at is not None
    assert sent.due_at.astimezone(LISBON) == datetime(2026, 4, 7, 7, tzinfo=LISBON)
    assert sent.unasked
    assert kept(play).told_at is not None


def test_nobody_is_told_who_cannot_be_reached(play: Talk) -> None:
    play.take("Ada blocks the bot")
    play.take("Marit [Tell Ada]")
    assert to_ada(play) == []
    assert "no chat reaches them" in play.someone("Marit").sees


@pytest.mark.parametrize(
    ("typed", "field", "value"),
    [
        ("seen", "seen_on", date(2026, 4, 6)),
        ("seen 3 April", "seen_on", date(2026, 4, 3)),
        ("seen on 3 April: rest a week", "outcome", "rest a week"),
        ("seen: rest a week", "seen_on", date(2026, 4, 6)),
        ("outcome: rest a week", "outcome", "rest a week"),
        ("review 10 May", "review_on", date(2026, 5, 10)),
        ("review in 3 weeks", "review_on", date(2026, 4, 27)),
        ("seen someday", "seen_on", None),
        ("review sometime", "review_on", None),
    ],
)
def test_what_came_of_it_is_typed(play: Talk, typed: str, field: str, value: Any) -> None:
    play.take(f"Marit: {typed}")
    assert getattr(kept(play), field) == value


def test_taps_note_the_same(play: Talk) -> None:
    play.take("Marit [Only note it]")
    play.take("Marit [Review in 4 weeks]")
    play.take("Marit [Seen]")
    play.take("Marit: a week of rest")
    assert (kept(play).review_on, kept(play).seen_on) == (date(2026, 5, 4), date(2026, 4, 6))
    assert kept(play).outcome == "a week of rest"
    play.take("Marit [Close]")
    assert marits(play, lambda unit: unit.referrals.open()) == []


def test_other_words_are_not_taken_for_an_outcome(play: Talk) -> None:
    play.take("Marit: good morning")
    assert kept(play).outcome is None


def test_old_buttons_show_how_it_stands(play: Talk) -> None:
    play.take("Marit keeps [Tell Ada] as tell")
    play.take("Marit [Only note it]")
    play.take("Marit taps the old tell")
    assert to_ada(play) == []
    assert "That button was from before." in play.someone("Marit").sees
    marit = play.someone("Marit")
    marit.tap_data(marit.forged("Close", action=Action.LATER, argument=9))
    assert kept(play).review_on is None


def test_what_is_due_for_review_comes_in_the_digest(play: Talk) -> None:
    play.take("Marit: review 8 April")

    def due(unit: Any) -> list[str]:
        return [one.what for each in facts_of(unit, date(2026, 4, 12)) for one in each.referrals_due]

    assert marits(play, due) == ["physiotherapist, left knee since March"]
    assert marits(play, lambda unit: referring.due_for_review(unit, date(2026, 4, 7))) == {}
    assert play.house.reading(play.someone("Orla"), due) == []


def test_pain_that_flares_again_names_the_referral_that_stands_until_it_is_closed(play: Talk) -> None:
    def flares_again(step: str) -> list[str]:
        lines = play.take(step)
        play.take("Ada: no")
        return [each.strip() for each in lines]

    day = play.house.now
    play.take("Ada: pain left knee 5")
    play.take("Ada: no")
    play.house.now = day + timedelta(days=9)
    told = flares_again("Ada: pain left knee 5")
    assert "Flared 2 times in four weeks." in told
    assert any(each.startswith("A referral to a physiotherapist stands since ") for each in told)
    assert any(
        each.endswith(": not seen yet, and they were not told of it. /referrals has it.") for each in told
    )
    assert "Suggest a physiotherapist." not in told

    row = kept(play).id
    marits(play, lambda unit: unit.referrals.change(row, closed_at=play.house.now))
    play.house.now = day + timedelta(days=18)
    assert "Suggest a physiotherapist." in flares_again("Ada: pain left knee 5")


def test_the_list_names_what_is_due_first_and_opens_one(play: Talk) -> None:
    play.take("Marit: /refer Ada doctor: tired since May")
    play.take("Marit: review today")
    play.take("Marit: /referrals")
    text = play.someone("Marit").sees
    assert text.index("(review is due)") < text.index("left knee")
    play.take("Marit [Ada: physiotherapist]")
    assert "left knee since March" in play.someone("Marit").sees


def test_another_coach_sees_none_and_her_taps_change_none(play: Talk) -> None:
    row = kept(play).id
    play.take("Orla: /referrals")
    assert "Nobody is sent on." in play.someone("Orla").sees
    play.take("Orla: /refer Ben doctor: tired")
    play.take("Orla: /referrals")
    orla = play.someone("Orla")
    orla.tap_data(orla.forged("Ben: doctor", argument=row))
    assert "left knee" not in orla.sees
    play.take("Marit keeps [Tell Ada] as tell")
    play.take("Orla taps the old tell")
    assert to_ada(play) == []


@pytest.mark.parametrize(
    "line",
    ["/refer", "/refer Ada", "/refer Ada neighbour: knee", "/refer Ada doctor:", "/refer Zed doctor: knee"],
)
def test_what_is_not_clear_keeps_nothing_more(play: Talk, line: str) -> None:
    play.take(f"Marit: {line}")
    assert len(marits(play, lambda unit: unit.referrals.open())) == 1


@pytest.mark.parametrize("line", ["/refer Ada doctor: knee", "/referrals"])
def test_a_client_cannot(play: Talk, line: str) -> None:
    play.take(f"Ada: {line}")
    assert "Only a coach can do that here." in play.someone("Ada").sees
    assert not any("since March" in each.message.html for each in play.house.sends if each.chat_id == 1)


def test_a_list_of_nobody_known_asks_whom(play: Talk) -> None:
    play.take("Marit: /referrals Zed")
    assert "Which client?" in play.someone("Marit").sees
