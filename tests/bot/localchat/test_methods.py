"""Beside the published interface, as the library has it: no method and no parameter of our own."""

import inspect
import re

import pytest
from rows import each_row
from telegram import Bot, constants

from bot.localchat import account, keyboards, sending, updates, uploads
from bot.localchat.methods import METHODS


@each_row("name", METHODS)
def test_a_method_has_only_published_parameters(name):
    published = getattr(Bot, re.sub("([A-Z])", r"_\1", name).lower())
    parameters = set(inspect.signature(published).parameters)
    assert set(METHODS[name].types) - parameters == set()


def test_kinds_of_updates_are_published_ones():
    assert updates.KINDS - {str(kind) for kind in constants.UpdateType} == set()


def test_what_a_bot_can_show_to_do_is_what_is_published():
    assert {str(action) for action in constants.ChatAction} == sending.ACTIONS


@pytest.mark.parametrize(
    ("ours", "published"),
    [
        (sending.TEXT_LIMIT, constants.MessageLimit.MAX_TEXT_LENGTH),
        (sending.CAPTION_LIMIT, constants.MessageLimit.CAPTION_LENGTH),
        (keyboards.DATA_BYTES, constants.InlineKeyboardButtonLimit.MAX_CALLBACK_DATA),
        (keyboards.COPIED, constants.InlineKeyboardButtonLimit.MAX_COPY_TEXT),
        (keyboards.BUTTONS, constants.InlineKeyboardMarkupLimit.TOTAL_BUTTON_NUMBER),
        (keyboards.IN_A_ROW, constants.InlineKeyboardMarkupLimit.BUTTONS_PER_ROW),
        (keyboards.PLACEHOLDER, constants.ReplyLimit.MAX_INPUT_FIELD_PLACEHOLDER),
        (updates.MOST, constants.PollingLimit.MAX_LIMIT),
        (account.COMMANDS, constants.BotCommandLimit.MAX_COMMAND_NUMBER),
        (account.DESCRIPTION, constants.BotCommandLimit.MAX_DESCRIPTION),
        (account.TAP_ANSWER, constants.CallbackQueryLimit.ANSWER_CALLBACK_QUERY_TEXT_LENGTH),
        (uploads.LARGEST, constants.FileSizeLimit.FILESIZE_UPLOAD),
        (uploads.LARGEST_PHOTO, constants.FileSizeLimit.PHOTOSIZE_UPLOAD),
    ],
)
def test_limits_are_the_published_ones(ours, published):
    assert ours == published
