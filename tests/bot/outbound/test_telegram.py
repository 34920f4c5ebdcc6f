"""The real library over real HTTP on loopback, against a server that answers what a row of a table says."""

import asyncio
import json
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass, field, replace
from datetime import timedelta
from typing import Any
from urllib.parse import parse_qs

import httpx
import pytest
from mailroom import CHAT, COXSWAIN, KEEPER, NOW, populate
from sqlalchemy import Engine, insert
from telegram import Bot
from telegram.error import BadRequest, NetworkError, RetryAfter, TelegramError
from telegram.request import HTTPXRequest

from bot.messages import Button, Lane, Message
from bot.outbound.policy import (
    Blocked,
    ChatMoved,
    Delivered,
    FileUnknown,
    InDoubt,
    MarkupRefused,
    MessageGone,
    NotDelivered,
    TooFast,
    WrongToken,
)
from bot.outbound.telegram import READ_TIMEOUT_S, TelegramTransport, outcome_of, sending_request
from bot.store.outbox import OutboxRow
from bot.store.tables import picture
from bot.store.units import Units

ROW = OutboxRow(
    id=1,
    coach_id=KEEPER,
    client_id=None,
    chat_id=CHAT,
    key="k",
    op="send",
    card_id=None,
    message_id=None,
    lane=Lane.TALK,
    body=Message("<b>Squat</b> 3 &lt; 5"),
    due_at=NOW,
    not_after=None,
    attempts=1,
    doubts=0,
)
EDIT = replace(ROW, op="edit", message_id=7)


def answer(status: int, body: Any) -> bytes:
    content = body if isinstance(body, bytes) else json.dumps(body).encode()
    head = f"HTTP/1.1 {status} X\r\ncontent-type: application/json\r\ncontent-length: {len(content)}\r\n\r\n"
    return head.encode() + content


def good(message_id: int = 42, **facts: Any) -> bytes:
    result = {"message_id": message_id, "date": 0, "chat": {"id": CHAT, "type": "private"}} | facts
    return answer(200, {"ok": True, "result": result})


def bad(status: int, words: str, **parameters: Any) -> bytes:
    body: dict[str, Any] = {"ok": False, "error_code": status, "description": words}
    return answer(status, body | ({"parameters": parameters} if parameters else {}))


@dataclass
class Platform:
    """Answers each call with the same bytes: None closes the connection, "" never answers."""

    reply: bytes | None = field(default_factory=good)
    calls: list[tuple[str, dict[str, Any]]] = field(default_factory=list)
    url: str = ""
    hangs: asyncio.Event = field(default_factory=asyncio.Event)

    async def serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            while (line := await reader.readline()).strip():
                headers: dict[str, str] = {}
                while (header := (await reader.readline()).decode().strip()) != "":
                    name, _, value = header.partition(":")
                    headers[name.lower()] = value.strip()
                body = await reader.readexactly(int(headers.get("content-length", 0)))
                self.calls.append((line.decode().split()[1].rpartition("/")[2], read_body(headers, body)))
                if self.reply is None:
                    break
                if self.reply == b"":
                    await self.hangs.wait()
                writer.write(self.reply)
                await writer.drain()
        except (ConnectionError, asyncio.IncompleteReadError):
            pass
        finally:
            writer.close()


def read_body(headers: dict[str, str], body: bytes) -> dict[str, Any]:
    if headers.get("content-type", "").startswith("multipart"):
        return {"multipart": body}
    return {name: values[0] for name, values in parse_qs(body.decode()).items()}


@asynccontextmanager
async def transport_to(
    platform: Platform, engine: Engine, read_timeout: float = 5
) -> AsyncIterator[TelegramTransport]:
    async def write(work: Callable[[], Any], priority: int = 0) -> Any:
        return work()

    server = await asyncio.start_server(platform.serve, "127.0.0.1", 0)
    port = server.sockets[0].getsockname()[1]
    platform.url = f"http://127.0.0.1:{port}"
    request = HTTPXRequest(read_timeout=read_timeout)
    bot = Bot("42:token", base_url=f"{platform.url}/bot", request=request)
    await request.initialize()
    try:
        yield TelegramTransport(bot, Units(engine), write)
    finally:
        platform.hangs.set()
        await request.shutdown()
        server.close()


@pytest.mark.parametrize(
    ("reply", "row", "expected"),
    [
        (good(), ROW, Delivered(42)),
        (good(), EDIT, Delivered(7)),
        (bad(429, "Too Many Requests: retry after 7", retry_after=7), ROW, TooFast(7.0)),
        (bad(429, "Too Many Requests"), ROW, TooFast(5.0)),
        (
            bad(403, "Forbidden: bot was blocked by the user"),
            ROW,
            Blocked("Forbidden: bot was blocked by the user"),
        ),
        (bad(403, "Forbidden: user is deactivated"), ROW, Blocked("Forbidden: user is deactivated")),
        (bad(400, "Bad Request: chat not found"), ROW, Blocked("Chat not found")),
        (bad(401, "Unauthorized"), ROW, WrongToken("token refused")),
        (bad(404, "Not Found"), ROW, WrongToken("token refused")),
        (bad(400, "Bad Request: group chat was upgraded", migrate_to_chat_id=-1009), ROW, ChatMoved(-1009)),
        (bad(400, "Bad Request: message is not modified: same"), EDIT, Delivered(7)),
        (bad(400, "Bad Request: message to edit not found"), EDIT, MessageGone()),
        (bad(400, "Bad Request: message can't be edited"), EDIT, MessageGone()),
        (bad(400, "Bad Request: can't parse entities: Unsupported start tag"), ROW, MarkupRefused()),
        (bad(400, "Bad Request: wrong file identifier/HTTP URL specified"), ROW, FileUnknown()),
        (
            bad(400, "Bad Request: message is too long"),
            ROW,
            NotDelivered("Message is too long", permanent=True),
        ),
        (bad(400, 'Bad Request: no "Liv" here'), ROW, NotDelivered("No", permanent=True)),
        (bad(409, "Conflict: terminated"), ROW, InDoubt("Conflict")),
        (bad(413, "Request Entity Too Large"), ROW, NotDelivered("too large", permanent=True)),
        (bad(500, "Internal Server Error"), ROW, NotDelivered("server error", server=True)),
        (bad(502, "Bad Gateway"), ROW, InDoubt("gateway")),
        (bad(504, "Gateway Timeout"), ROW, InDoubt("gateway")),
        (answer(502, b"<html>proxy</html>"), ROW, InDoubt("gateway")),
        (answer(500, b"<html>Bad Gateway</html>"), ROW, NotDelivered("server error", server=True)),
        (answer(200, b"<html>a portal</html>"), ROW, InDoubt("TelegramError")),
        (answer(200, {"ok": True, "result": {}}), ROW, InDoubt("KeyError")),
        (None, ROW, InDoubt("RemoteProtocolError")),
    ],
)
async def test_what_an_answer_means(engine, reply, row, expected):
    platform = Platform(reply)
    async with transport_to(platform, engine) as transport:
        assert await transport.deliver(row) == expected
    assert len(platform.calls) == 1, "never more than one call"


async def test_no_answer_in_time_is_doubt(engine):
    async with transport_to(Platform(b""), engine, read_timeout=0.05) as transport:
        assert await transport.deliver(ROW) == InDoubt("ReadTimeout")


async def test_nobody_there_is_no_doubt(engine):
    platform = Platform()
    async with transport_to(platform, engine) as transport:
        await transport.deliver(ROW)
        url = platform.url
    request = HTTPXRequest()
    async with request:
        bot = Bot("42:token", base_url=f"{url}/bot", request=request)
        outcome = await TelegramTransport(bot, Units(engine), _unused).deliver(ROW)
    assert outcome == NotDelivered("ConnectError")


async def _unused(work: Callable[[], Any], priority: int = 0) -> Any:
    raise AssertionError("nothing is read for a text")


def raised_from(cause: Exception) -> NetworkError:
    error = NetworkError("broken")
    error.__cause__ = cause
    return error


@pytest.mark.parametrize(
    ("error", "expected"),
    [
        (raised_from(httpx.ConnectTimeout("")), NotDelivered("ConnectTimeout")),
        (raised_from(httpx.PoolTimeout("")), NotDelivered("PoolTimeout")),
        (raised_from(httpx.ReadError("")), InDoubt("ReadError")),
        (raised_from(httpx.WriteError("")), InDoubt("WriteError")),
        (raised_from(httpx.WriteTimeout("")), InDoubt("WriteTimeout")),
        (NetworkError("Unknown error in HTTP implementation: ValueError()"), InDoubt("unknown")),
        (RetryAfter(timedelta(seconds=9)), TooFast(9.0)),
        (BadRequest("Message_id_invalid"), MessageGone()),
        (TelegramError("odd"), InDoubt("TelegramError")),
    ],
)
def test_what_other_errors_mean(error, expected):
    assert outcome_of(error, ROW) == expected


async def called(engine: Engine, row: OutboxRow, reply: bytes | None = None) -> tuple[str, dict[str, Any]]:
    platform = Platform(reply or good())
    async with transport_to(platform, engine) as transport:
        await transport.deliver(row)
    [call] = platform.calls
    return call


def saying(**facts: Any) -> OutboxRow:
    assert ROW.body is not None
    return replace(ROW, body=replace(ROW.body, **facts))


async def test_a_text_goes_as_html_without_previews(engine):
    method, facts = await called(engine, saying(silent=True, protect=True))
    assert method == "sendMessage"
    assert facts == {
        "chat_id": str(CHAT),
        "text": "<b>Squat</b> 3 &lt; 5",
        "parse_mode": "HTML",
        "link_preview_options": '{"is_disabled": true}',
        "disable_notification": "true",
        "protect_content": "true",
    }


async def test_buttons_go_with_it(engine):
    rows = ((Button("Done", data="1:1:0:d:0"),), (Button("Map", url="https://example.org/"),))
    _, facts = await called(engine, saying(rows=rows))
    assert json.loads(facts["reply_markup"]) == {
        "inline_keyboard": [
            [{"text": "Done", "callback_data": "1:1:0:d:0"}],
            [{"text": "Map", "url": "https://example.org/"}],
        ]
    }


async def test_a_question_without_buttons_opens_a_reply_field(engine):
    _, facts = await called(engine, saying(expects_text=True))
    assert json.loads(facts["reply_markup"])["force_reply"] is True
    rows = ((Button("Skip", data="1:1:0:k:0"),),)
    _, facts = await called(engine, saying(expects_text=True, rows=rows))
    assert "force_reply" not in facts["reply_markup"]


@pytest.mark.parametrize(("plain", "keeps_buttons"), [(1, True), (2, False)])
async def test_plain_means_no_markup_and_then_no_buttons(engine, plain, keeps_buttons):
    row = replace(saying(rows=((Button("Done", data="1:1:0:d:0"),),)), plain=plain)
    _, facts = await called(engine, row)
    assert facts["text"] == "Squat 3 < 5"
    assert "parse_mode" not in facts
    assert ("reply_markup" in facts) == keeps_buttons


async def test_an_edit_goes_to_its_message(engine):
    method, facts = await called(engine, EDIT)
    assert (method, facts["message_id"], facts["text"]) == ("editMessageText", "7", "<b>Squat</b> 3 &lt; 5")


async def test_an_edit_of_a_message_with_a_file_changes_its_caption(engine):
    method, facts = await called(
        engine, replace(saying(media_kind="photo", file_id="x"), op="edit", message_id=7)
    )
    assert (method, facts["caption"]) == ("editMessageCaption", "<b>Squat</b> 3 &lt; 5")


async def test_a_strip_takes_the_buttons_away(engine):
    method, facts = await called(engine, replace(EDIT, op="strip", body=None))
    assert (method, facts) == ("editMessageReplyMarkup", {"chat_id": str(CHAT), "message_id": "7"})


@pytest.mark.parametrize("kind", ["photo", "voice", "video", "document"])
async def test_a_file_that_the_platform_has_goes_by_its_id(engine, kind):
    method, facts = await called(engine, saying(media_kind=kind, file_id="AgAC"))
    assert (method, facts[kind]) == (f"send{kind.capitalize()}", "AgAC")
    assert facts["caption"] == "<b>Squat</b> 3 &lt; 5"


async def test_a_body_that_cannot_be_read_is_never_sent(engine):
    platform = Platform()
    async with transport_to(platform, engine) as transport:
        outcome = await transport.deliver(replace(ROW, body=None))
    assert outcome == NotDelivered("body unreadable", permanent=True)
    assert platform.calls == []


def with_picture(engine: Engine, file_id: str | None) -> OutboxRow:
    populate(engine)
    with engine.begin() as connection:
        values = {"id": 3, "coach_id": KEEPER, "bytes": b"PNG-BYTES", "name": "week.png", "at": NOW}
        connection.execute(insert(picture).values(values | {"file_id": file_id}))
    return saying(media_kind="photo", picture_id=3)


PHOTO = [
    {"file_id": "small", "file_unique_id": "s", "width": 1, "height": 1},
    {"file_id": "large", "file_unique_id": "l", "width": 9, "height": 9},
]


async def test_a_picture_of_ours_is_uploaded_and_its_id_kept(engine):
    row = with_picture(engine, None)
    platform = Platform(good(photo=PHOTO))
    async with transport_to(platform, engine) as transport:
        assert await transport.deliver(row) == Delivered(42, "large")
    assert b"PNG-BYTES" in platform.calls[0][1]["multipart"]


async def test_a_picture_that_was_uploaded_before_goes_by_its_id(engine):
    row = with_picture(engine, "large")
    platform = Platform(good(photo=PHOTO))
    async with transport_to(platform, engine) as transport:
        assert await transport.deliver(row) == Delivered(42)
    assert platform.calls[0][1]["photo"] == "large"


async def test_a_picture_of_another_coach_is_never_sent(engine):
    row = replace(with_picture(engine, None), coach_id=COXSWAIN)
    platform = Platform()
    async with transport_to(platform, engine) as transport:
        assert await transport.deliver(row) == NotDelivered("the picture is gone", permanent=True)
    assert platform.calls == []


def test_sending_waits_longer_for_an_answer_than_the_platform_takes():
    assert READ_TIMEOUT_S >= 65
    assert sending_request().read_timeout == READ_TIMEOUT_S
