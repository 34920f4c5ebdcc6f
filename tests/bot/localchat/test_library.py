"""What the library that the program uses makes of each answer and of each fault."""

import os
from datetime import timedelta

import httpx
import pytest
from telegram import (
    Bot,
    BotCommand,
    BotCommandScopeChat,
    ForceReply,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InputFile,
    LinkPreviewOptions,
    ReplyKeyboardMarkup,
    ReplyKeyboardRemove,
    ReplyParameters,
)
from telegram.constants import ChatAction, ParseMode
from telegram.error import (
    BadRequest,
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)
from telegram.request import HTTPXRequest

from bot.localchat.faults import Fault, Kind

os.environ.setdefault("PTB_TIMEDELTA", "true")
"""Without it the library warns at each pause that is asked for."""

KEYS = InlineKeyboardMarkup([[InlineKeyboardButton("OK", callback_data="1")]])
LATE = 300


@pytest.mark.parametrize(
    ("fault", "error", "cause", "arrives"),
    [
        (Fault(Kind.SLOW, seconds=LATE), TimedOut, httpx.ReadTimeout, True),
        (Fault(Kind.SLOW_BEFORE, seconds=LATE), TimedOut, httpx.ReadTimeout, False),
        (Fault(Kind.DROP_AFTER), NetworkError, httpx.RemoteProtocolError, True),
        (Fault(Kind.DROP_BEFORE), NetworkError, httpx.RemoteProtocolError, False),
        (Fault(Kind.REFUSE), NetworkError, httpx.ReadError, False),
        (Fault(Kind.TOO_MANY, retry_after=7), RetryAfter, type(None), False),
        (Fault(Kind.SERVER_ERROR, status=500), NetworkError, type(None), False),
        (Fault(Kind.SERVER_ERROR, status=502), NetworkError, TelegramError, False),
        (Fault(Kind.FORBIDDEN), Forbidden, type(None), False),
        (Fault(Kind.CONFLICT), Conflict, type(None), False),
    ],
)
async def test_a_fault_of_a_send_as_the_library_raises_it(bot, network, liv, fault, error, cause, arrives):
    network.faults.plan(fault)
    with pytest.raises(TelegramError) as raised:
        await bot.send_message(501, "a", read_timeout=0.3 if fault.seconds else 5)
    assert (type(raised.value), type(raised.value.__cause__)) == (error, cause)
    assert [shown.text for shown in liv.screen if not shown.mine] == ["a"] * arrives
    assert network.faults.planned == []
    assert (await bot.send_message(501, "b")).text == "b", "the next one is untroubled"


async def test_a_pause_that_is_asked_for_is_read(bot, network, liv):
    network.faults.plan(Fault(Kind.TOO_MANY, retry_after=7))
    with pytest.raises(RetryAfter) as raised:
        await bot.send_message(501, "a")
    assert raised.value.retry_after == timedelta(seconds=7)


async def test_a_little_late_is_in_time(bot, network, liv):
    for kind in (Kind.SLOW, Kind.SLOW_BEFORE):
        network.faults.plan(Fault(kind, seconds=0.01))
        assert (await bot.send_message(501, "a")).text == "a"


async def test_nobody_there(network):
    request = HTTPXRequest()
    async with request:
        bot = Bot("4100:story", base_url="http://127.0.0.1:1/bot", request=request)
        with pytest.raises(NetworkError) as raised:
            await bot.send_message(501, "a")
    assert isinstance(raised.value.__cause__, httpx.ConnectError)


@pytest.mark.parametrize(
    ("text", "parse_mode", "data", "words"),
    [
        ("x" * 4097, None, "1", "Message is too long"),
        (
            "<q>a</q>",
            ParseMode.HTML,
            "1",
            'Can\'t parse entities: unsupported start tag "q" at byte offset 0',
        ),
        ("a", None, "é" * 33, "Button_data_invalid"),
        (" ", None, "1", "Message text is empty"),
    ],
)
async def test_what_is_refused_as_the_library_raises_it(bot, liv, text, parse_mode, data, words):
    keys = InlineKeyboardMarkup([[InlineKeyboardButton("OK", callback_data=data)]])
    with pytest.raises(BadRequest) as raised:
        await bot.send_message(501, text, parse_mode=parse_mode, reply_markup=keys)
    assert raised.value.message.lower() == words.lower()


async def test_errors_of_chats_as_the_library_raises_them(bot, network, liv):
    network.phone(502, "Tor")
    with pytest.raises(BadRequest, match="Chat not found"):
        await bot.send_message(9, "a")
    with pytest.raises(Forbidden, match="can't initiate conversation"):
        await bot.send_message(502, "a")
    liv.block()
    with pytest.raises(Forbidden, match="blocked by the user"):
        await bot.send_message(501, "a")


async def test_a_token_that_is_not_good(server, liv):
    async with HTTPXRequest() as request:
        for token in ("4100:other", "story"):
            with pytest.raises(InvalidToken):
                await Bot(token, base_url=f"{server.url}/bot", request=request).send_message(501, "a")


async def test_everything_that_hangs_under_a_message_is_taken(bot, liv):
    options = {
        "parse_mode": ParseMode.HTML,
        "link_preview_options": LinkPreviewOptions(is_disabled=True),
        "disable_notification": True,
        "protect_content": True,
    }
    sent = await bot.send_message(501, "<b>a</b>", reply_markup=KEYS, **options)
    assert (sent.text, sent.entities[0].type, sent.reply_markup) == ("a", "bold", KEYS)
    assert (liv.last.silent, liv.last.protected, liv.last.buttons) == (True, True, (("OK",),))
    await bot.send_message(501, "b", reply_markup=ForceReply(input_field_placeholder="80x5"))
    assert liv.last.markup.asks_reply
    await bot.send_message(501, "c", reply_markup=ReplyKeyboardMarkup([["0", "1"]], one_time_keyboard=True))
    assert liv.keyboard == (("0", "1"),)
    answer = await bot.send_message(
        501, "d", reply_markup=ReplyKeyboardRemove(), reply_parameters=ReplyParameters(1)
    )
    assert (liv.keyboard, answer.reply_to_message.message_id) == ((), 1)


async def test_edits_and_deletes(bot, liv):
    sent = await bot.send_message(501, "a", reply_markup=KEYS)
    edited = await bot.edit_message_text("b", 501, sent.message_id, reply_markup=KEYS)
    assert (edited.text, edited.reply_markup, edited.edit_date is not None) == ("b", KEYS, True)
    with pytest.raises(BadRequest, match="Message is not modified"):
        await bot.edit_message_text("b", 501, sent.message_id, reply_markup=KEYS)
    stripped = await bot.edit_message_reply_markup(501, sent.message_id, reply_markup=None)
    assert stripped.reply_markup is None
    with pytest.raises(BadRequest, match="Message to edit not found"):
        await bot.edit_message_text("b", 501, 99)
    assert await bot.delete_message(501, sent.message_id)
    assert await bot.send_chat_action(501, ChatAction.TYPING)


PIXELS = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + (64).to_bytes(4, "big") + (32).to_bytes(4, "big")


@pytest.mark.parametrize("kind", ["photo", "document", "voice", "video"])
@pytest.mark.parametrize("attach", [False, True])
async def test_files_are_uploaded_and_sent_again(bot, liv, kind, attach):
    send = getattr(bot, f"send_{kind}")
    file = InputFile(PIXELS, filename="chart.png", attach=attach)
    sent = await send(501, file, caption="<i>a</i>", parse_mode=ParseMode.HTML)
    assert (sent.caption, liv.last.kind, liv.last.file) == ("a", kind, PIXELS)
    kept = sent.photo[-1] if kind == "photo" else getattr(sent, kind)
    again = await send(501, kept.file_id)
    assert (liv.last.message_id, liv.last.file) == (again.message_id, PIXELS)
    edited = await bot.edit_message_caption(501, sent.message_id, caption="b")
    assert edited.caption == "b"


async def test_a_file_is_fetched(bot, network, liv):
    liv.send_document("block.xlsx", b"rows")
    (update,) = await bot.get_updates()
    file = await update.message.document.get_file()
    assert bytes(await file.download_as_bytearray()) == b"rows"


async def test_updates_and_taps(bot, network, liv):
    await bot.send_message(501, "a", reply_markup=KEYS)
    liv.tap("OK")
    (update,) = await bot.get_updates(timeout=1, allowed_updates=["message", "callback_query"])
    assert (update.callback_query.data, update.callback_query.message.text) == ("1", "a")
    assert await update.callback_query.answer()
    with pytest.raises(BadRequest, match="Query is too old"):
        await bot.answer_callback_query(update.callback_query.id)
    assert await bot.get_updates(offset=update.update_id + 1) == ()
    assert network.unfetched == 0


async def test_a_malformed_update_spoils_a_batch_for_the_library(bot, network, liv):
    network.faults.plan(Fault(Kind.MALFORMED))
    liv.type("a")
    with pytest.raises((TypeError, AttributeError, KeyError)):
        await bot.get_updates()
    assert network.unfetched == 2


async def test_commands_and_webhooks(bot, liv):
    log = [BotCommand("log", "Log a set")]
    scope = BotCommandScopeChat(501)
    assert await bot.set_my_commands(log, scope=scope)
    assert list(await bot.get_my_commands(scope=scope)) == log
    assert await bot.delete_my_commands(scope=scope)
    assert await bot.get_my_commands(scope=scope) == ()
    assert await bot.set_webhook("https://sea.example/x", max_connections=4, secret_token="s")
    assert (await bot.get_webhook_info()).url == "https://sea.example/x"
    with pytest.raises(Conflict):
        await bot.get_updates()
    assert await bot.delete_webhook(drop_pending_updates=True)
    assert (await bot.get_webhook_info()).url == ""
