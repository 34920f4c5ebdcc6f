"""One call to the platform by python-telegram-bot, and what became of it."""

import html
import logging
import os
import re
from datetime import timedelta
from typing import Any

import httpx
from telegram import (
    Bot,
    ForceReply,
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InputFile,
    LinkPreviewOptions,
)
from telegram import (
    Message as Arrived,
)
from telegram.constants import ParseMode
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)
from telegram.request import HTTPXRequest

from bot.messages import Message
from bot.outbound.policy import (
    Blocked,
    ChatMoved,
    Delivered,
    FileUnknown,
    InDoubt,
    MarkupRefused,
    MessageGone,
    NotDelivered,
    Outcome,
    TooFast,
    WrongToken,
)
from bot.outbound.transport import Write
from bot.store.outbox import SENDS, OutboxRow
from bot.store.units import Units
from bot.usecases.writer import Priority

log = logging.getLogger(__name__)

# The library warns whenever the platform asks for a pause, unless we say that we know what is coming: intervals as
# timedelta. This is its own switch, and it is read at each use.
os.environ.setdefault("PTB_TIMEDELTA", "true")

READ_TIMEOUT_S = 65.0
"""The platform may sit on a send for 60 s while it waits out a limit itself; giving up sooner makes doubt."""

PAUSE_S = 5.0
"""Pause after "too many requests" that names none. Our proposal."""

NO_PREVIEW = LinkPreviewOptions(is_disabled=True)

NEVER_SENT = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout, httpx.UnsupportedProtocol)
"""What ends a call before a byte of it left."""

MEDIA = {"photo", "voice", "video", "document", "audio", "animation", "video_note", "sticker"}
BARE = {"video_note", "sticker"}
"""Kinds that nothing can stand under."""


def sending_request() -> HTTPXRequest:
    """Return the library's way to the platform with time-outs that fit sending."""
    return HTTPXRequest(connection_pool_size=16, read_timeout=READ_TIMEOUT_S, pool_timeout=10.0)


class TelegramTransport:
    """Sends rows of the outbox.

    Args:
        bot: An initialized bot whose requests wait `READ_TIMEOUT_S` for an answer.
        units: Where pictures of ours are.
        write: Runs what reads them.
    """

    def __init__(self, bot: "Bot", units: Units, write: Write) -> None:
        self._bot = bot
        self._units = units
        self._write = write

    async def deliver(self, row: OutboxRow) -> Outcome:
        """Make the call. Never raises: what is not understood may have arrived, and is in doubt."""
        try:
            if row.op == "strip":
                await self._strip(row)
                return Delivered(row.message_id)
            if row.body is None:
                return NotDelivered("body unreadable", permanent=True)
            if row.op in SENDS:
                return await self._send(row, row.body)
            await self._edit(row, row.body)
            return Delivered(row.message_id)
        except TelegramError as error:
            return outcome_of(error, row)
        except Exception as error:  # the rim: no fault of one message may end the others
            log.exception("delivery_failed", extra={"outbox_id": row.id})
            return InDoubt(type(error).__name__)

    async def _strip(self, row: OutboxRow) -> None:
        await self._bot.edit_message_reply_markup(
            chat_id=row.chat_id, message_id=row.message_id, reply_markup=None
        )

    async def _edit(self, row: OutboxRow, message: Message) -> None:
        text, mode = _text(message, row.plain)
        facts: dict[str, Any] = {
            "chat_id": row.chat_id,
            "message_id": row.message_id,
            "parse_mode": mode,
            "reply_markup": _keyboard(message, row.plain),
        }
        if message.media_kind in MEDIA:
            await self._bot.edit_message_caption(caption=text, **facts)
        else:
            await self._bot.edit_message_text(text=text, link_preview_options=NO_PREVIEW, **facts)

    async def _send(self, row: OutboxRow, message: Message) -> Delivered:
        text, mode = _text(message, row.plain)
        facts: dict[str, Any] = {
            "chat_id": row.chat_id,
            "parse_mode": mode,
            "reply_markup": _keyboard(message, row.plain) or _reply_field(message),
            "disable_notification": message.silent,
            "protect_content": message.protect,
        }
        kind = message.media_kind
        if kind not in MEDIA:
            arrived = await self._bot.send_message(text=text, link_preview_options=NO_PREVIEW, **facts)
            return Delivered(arrived.message_id)
        send = getattr(self._bot, f"send_{kind}")
        file = message.file_id or await self._picture(row)
        if kind in BARE:
            del facts["parse_mode"]
        else:
            facts["caption"] = text or None
        arrived = await send(**{kind: file}, **facts)
        ours = message.picture_id is not None and isinstance(file, InputFile)
        return Delivered(arrived.message_id, _file_id(arrived) if ours else None)

    async def _picture(self, row: OutboxRow) -> str | InputFile:
        def read() -> tuple[str | None, bytes, str] | None:
            with self._units.read(None) as house:
                return house.outbox.picture(row)

        found = await self._write(read, Priority.DELIVERY)
        if found is None:
            raise BadRequest("the picture is gone")
        file_id, content, name = found
        return file_id or InputFile(content, filename=name)


def _text(message: Message, plain: int) -> tuple[str, ParseMode | None]:
    if not plain:
        return message.html, ParseMode.HTML
    return html.unescape(re.sub(r"<[^>]*>", "", message.html)), None


def _keyboard(message: Message, plain: int) -> InlineKeyboardMarkup | None:
    if plain > 1 or not message.rows:
        return None
    return InlineKeyboardMarkup(
        [
            [InlineKeyboardButton(each.label, callback_data=each.data, url=each.url) for each in row]
            for row in message.rows
        ]
    )


def _reply_field(message: Message) -> ForceReply | None:
    return ForceReply() if message.expects_text and not message.rows else None


def _file_id(arrived: "Arrived") -> str | None:
    files = (*arrived.photo[-1:], arrived.document, arrived.voice, arrived.video)
    return next((file.file_id for file in files if file is not None), None)


def outcome_of(error: TelegramError, row: OutboxRow) -> Outcome:
    """Return what became of a call that raised. By cause, not by class: `BadRequest` is a `NetworkError`."""
    match error:
        case RetryAfter():
            return TooFast(_pause_s(error))
        case Forbidden():
            return Blocked(_cause(error))
        case ChatMigrated():
            return ChatMoved(error.new_chat_id)
        case InvalidToken():
            return WrongToken("token refused")
        case BadRequest():
            return _of_bad_request(_cause(error), row)
        case NetworkError():
            return _of_network_error(error)
        case _:
            return InDoubt(type(error).__name__)


def _pause_s(error: RetryAfter) -> float:
    wait = error.retry_after
    return wait.total_seconds() if isinstance(wait, timedelta) else float(wait)


def _cause(error: TelegramError) -> str:
    """Return the platform's words up to where they might quote ours."""
    words = re.split(r"[\"'`«]| payload ", re.sub("an't", "annot", error.message), maxsplit=1)[0]
    return words.removeprefix("Bad Request: ").strip()[:120]


def _of_bad_request(cause: str, row: OutboxRow) -> Outcome:
    words = cause.lower()

    def says(*phrases: str) -> bool:
        return any(phrase in words for phrase in phrases)

    if says("message is not modified"):
        return Delivered(row.message_id)
    if says("message to edit not found", "message cannot be edited", "message_id_invalid"):
        return MessageGone()
    if says("cannot parse entities", "cannot parse message text", "cannot parse caption"):
        return MarkupRefused()
    if says("chat not found", "user not found", "peer_id_invalid", "user is deactivated"):
        return Blocked(cause)
    if says("wrong file identifier", "wrong remote file", "file reference", "wrong file_id"):
        return FileUnknown()
    return NotDelivered(cause, permanent=True)


def _of_network_error(error: NetworkError) -> Outcome:
    cause = error.__cause__
    if isinstance(cause, NEVER_SENT):
        return NotDelivered(type(cause).__name__)
    if isinstance(cause, httpx.HTTPError):
        return InDoubt(type(cause).__name__)
    # A page instead of JSON is quoted after the status: what it says is not the status.
    words = error.message.lower().partition(". parsing the server response")[0]
    if "too many requests" in words:
        return TooFast(PAUSE_S)
    if "entity too large" in words or "content too large" in words:
        return NotDelivered("too large", permanent=True)
    if any(sign in words for sign in ("(502)", "(504)", "bad gateway", "gateway time")):
        return InDoubt("gateway")
    if "unknown error in http implementation" in words:
        return InDoubt("unknown")
    return NotDelivered("server error", server=True)
