"""The menus and the commands that there are agree, and each description fits the platform."""

import re

import pytest
from telegram.constants import BotCommandLimit

from bot.inbound.app import COMMANDS
from bot.render.command_names import COMMAND_NAMES, Audience, shown_to
from bot.render.helping import for_client, for_coach

KNOWN = frozenset(name for name, _ in COMMANDS)


def test_every_command_has_its_words_and_every_word_its_command():
    assert set(COMMAND_NAMES) == KNOWN


@pytest.mark.parametrize("audience", Audience)
def test_what_is_shown_is_handled_and_fits(audience):
    shown = shown_to(audience, KNOWN)

    assert {name for name, _ in shown} <= KNOWN
    assert len({name for name, _ in shown}) == len(shown) <= BotCommandLimit.MAX_COMMAND_NUMBER
    for _, words in shown:
        assert BotCommandLimit.MIN_DESCRIPTION <= len(words) <= 50 < BotCommandLimit.MAX_DESCRIPTION


def test_nobody_is_shown_what_is_not_hers():
    client = {name for name, _ in shown_to(Audience.CLIENT, KNOWN)}
    coach = {name for name, _ in shown_to(Audience.COACH, KNOWN)}

    assert {"today", "progress", "stop", "help"} <= client
    assert not client & {"roster", "client", "invite", "assign"}
    assert not coach & {"today", "stop", "forget"}
    assert [name for name, _ in shown_to(Audience.ANYBODY, KNOWN)] == ["start", "help"]


def test_a_command_that_is_not_there_is_not_shown():
    assert shown_to(Audience.CLIENT, frozenset({"today"})) == (
        ("today", "Today's card again, or what comes next"),
    )


@pytest.mark.parametrize(
    ("audience", "text"), [(Audience.CLIENT, for_client()), (Audience.COACH, for_coach())]
)
def test_the_help_names_every_command_of_the_menu_and_fits_a_message(audience, text):
    named = set(re.findall(r"/([a-z]+)", re.sub(r"</?[a-z]+>", "", text.html)))

    assert {name for name, _ in shown_to(audience, KNOWN)} - {"help"} <= named
    assert named <= KNOWN
    assert len(text.html) < 4096
