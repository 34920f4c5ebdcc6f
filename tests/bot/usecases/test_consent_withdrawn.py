"""Consent that is taken back ends the use of health data at once: by commands, by old buttons and by the clock."""

from contextlib import suppress

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import Someone, plain_text

from bot.messages import EditCard, Message, Send, decode
from bot.store.units import Units
from bot.usecases import talk
from core.errors import DomainError

OF_HER_BODY = ("6 of 10", "quads", "feather", "ladder")
COMMANDS = (
    "/client Ada", "/roster", "/report Ada", "/logfile Ada", "/summary Ada", "/referrals", "/referrals Ada",
    "/progress Ada", "/records Ada", "/why Ada", "/rules for Ada", "/orders Ada", "/limits Ada", "/season Ada",
    "/preview Ada", "/kit Ada", "/raises", "/invites",
)  # fmt: skip
TICKS = [f"tick 2026-04-{day:02} {hour}" for day in (7, 8, 12, 14) for hour in ("07:00", "18:00")]


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "Ada: pain left knee 6",
            "Ada: sore quads 7",
            "Ada: my elbow is odd, like a feather",
            "Marit: /refer Ada physiotherapist: left knee on the ladder",
            "Marit [Tell Ada]",
            "Marit: /client Ada",
            "Marit: /referrals",
        ),
    )


def shown_from(play: Talk) -> list[str]:
    """All that Marit is shown from now on."""
    found: list[str] = []
    show = play.house.show

    def shown(effects, user_id: int) -> None:
        show(effects, user_id)
        messages: list[Message] = [*play.house.alerts] if user_id == 100 or play.house.alerts else []
        messages += [
            each.message for each in effects if isinstance(each, Send | EditCard) and each.chat_id == 100
        ]
        found.extend(plain_text(each) for each in messages)

    play.house.show = shown  # type: ignore[method-assign]
    return found


def buttons_of(someone: Someone) -> list[str]:
    """What is on everything that somebody was sent."""
    return [each.data for one in someone.screen.values() for row in one.rows for each in row if each.data]


@pytest.fixture
def stopped(play: Talk) -> Talk:
    play.take("Ada: /stop")
    play.take("Ada [Stop]")
    return play


def of_her_body(found: list[str]) -> list[str]:
    return [each for each in found if any(word in each for word in OF_HER_BODY)]


def test_before_it_is_taken_back_an_old_button_shows_it(play: Talk) -> None:
    marit, found = play.someone("Marit"), shown_from(play)
    for data in buttons_of(marit):
        marit.does(talk.tapped, talk.Tapped(decode(data)))

    assert len(of_her_body(found)) > 5


def test_no_old_button_shows_it_once_more(play: Talk) -> None:
    marit = play.someone("Marit")
    before = buttons_of(marit)
    play.take("Ada: /stop")
    play.take("Ada [Stop]")
    found = shown_from(play)
    for data in [*before, *buttons_of(marit)]:
        marit.does(talk.tapped, talk.Tapped(decode(data)))

    assert len(found) > 5
    assert of_her_body(found) == []


def test_no_command_shows_it(stopped: Talk) -> None:
    for each in COMMANDS:
        found = shown_from(stopped)
        with suppress(DomainError):  # nobody of that name
            stopped.take(f"Marit: {each}")
        assert of_her_body(found) == [], each


def test_the_clock_tells_nothing_of_it(stopped: Talk) -> None:
    found = shown_from(stopped)
    for each in TICKS:
        stopped.take(each)

    assert of_her_body(found) == []
    assert "feather" not in str(stopped.someone("Ada").screen)
