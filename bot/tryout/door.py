"""The page and what it asks, over HTTP on loopback."""

import asyncio
import json
import re
import socket
from collections.abc import Callable, Mapping
from importlib.resources import files
from types import TracebackType
from typing import Any, Self
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response, StreamingResponse
from starlette.routing import Route

from bot.clock import Ids
from bot.http_service import quiet_service
from bot.localchat.phone import Phone
from bot.render import tried_out as say
from bot.tryout import inside, views
from bot.tryout.feed import Feed
from bot.tryout.gate import LARGEST_FILE, Gate
from bot.tryout.trial import CannotBeDone, Trial

MOST_AT_ONCE = 100
"""Requests at once; more are turned away with 503."""

PATIENCE_S = 1
"""How long answers that are under way may take when it stops. [s]"""

TYPES = {
    "html": "text/html; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "svg": "image/svg+xml",
    "png": "image/png",
}
NAME = re.compile(r"[a-z0-9_-]+\.(html|css|js|svg|png)")
PAGE = files("bot.tryout") / "page"

Body = Mapping[str, Any]


class TryDoor:
    """Serves the page in the loop it is entered in.

    Args:
        trial: What is shown.
        feed: What tells of changes.
        ids: Makes the key.
        port: 0 for a free one.

    Attributes:
        port: Where, once it is entered.
        address: The address to open, with the key.
    """

    def __init__(self, trial: Trial, feed: Feed, ids: Ids, port: int = 0) -> None:
        self._trial = trial
        self._feed = feed
        self._key = ids.word(32)
        self.port = port
        self.address = ""

    async def __aenter__(self) -> Self:
        """Start; it listens before this returns.

        Raises:
            OSError: Nothing can listen there.
        """
        listening = socket.create_server(("127.0.0.1", self.port))
        # A socket made like this names no protocol, so that Nagle's delay stays on: 40 ms for every answer.
        listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self.port = listening.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}/?key={self._key}"
        handlers = {HTTPException: _refused, CannotBeDone: _cannot}
        app = Starlette(routes=self._routes(), exception_handlers=handlers)  # type: ignore[arg-type]
        gate = Gate(app, self._key, self.port)
        self._service = quiet_service(gate, most_at_once=MOST_AT_ONCE, patience_s=PATIENCE_S)
        self._serving = asyncio.create_task(self._service.serve(sockets=[listening]), name="tryout")
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Stop: whoever listens is sent away."""
        self._feed.end()
        self._service.stop()
        await self._serving

    def _routes(self) -> list[Route]:
        return [
            Route("/", self._page, methods=["GET"]),
            Route("/state", self._state, methods=["GET"]),
            Route("/feed", self._told, methods=["GET"]),
            Route("/inside", self._inside, methods=["GET"]),
            Route("/clock", self._clock, methods=["POST"]),
            Route("/people/{key}/messages", self._messages, methods=["GET"]),
            Route("/people/{key}/files/{message:int}", self._file, methods=["GET"]),
            Route("/people/{key}/say", self._say, methods=["POST"]),
            Route("/people/{key}/tap", self._tap, methods=["POST"]),
            Route("/people/{key}/edit", self._edit, methods=["POST"]),
            Route("/people/{key}/file", self._send, methods=["POST"]),
            Route("/people/{key}/seen", self._seen, methods=["POST"]),
            Route("/{name}", self._page, methods=["GET"]),
        ]

    async def _page(self, request: Request) -> Response:
        name = request.path_params.get("name", "index.html")
        found = NAME.fullmatch(name)
        if found is None or not (PAGE / name).is_file():
            raise HTTPException(404, say.NO_SUCH_PAGE)
        return Response((PAGE / name).read_bytes(), media_type=TYPES[found[1]])

    async def _state(self, _: Request) -> Response:
        return JSONResponse(views.state(self._trial))

    async def _told(self, _: Request) -> Response:
        if self._feed.is_full:
            raise HTTPException(503, say.TOO_MANY)
        return StreamingResponse(self._feed.of(self._trial), media_type="text/event-stream")

    async def _inside(self, request: Request) -> Response:
        of, who = request.query_params.get("of", ""), request.query_params.get("who", "")
        return JSONResponse(await inside.inside(self._trial, of, who))

    async def _messages(self, request: Request) -> Response:
        return JSONResponse({"messages": views.messages(self._trial, request.path_params["key"])})

    async def _file(self, request: Request) -> Response:
        phone = self._trial.phone(request.path_params["key"])
        shown = phone.shown(request.path_params["message"]) if phone else None
        if shown is None or shown.file is None:
            raise CannotBeDone(say.NO_FILE, 404)
        kind = views.content_type(shown)
        headers = {}
        if shown.kind == "document" or kind == views.PLAIN:
            headers["Content-Disposition"] = f"attachment; filename*=UTF-8''{quote(views.file_name(shown))}"
        return Response(shown.file, media_type=kind, headers=headers)

    async def _clock(self, request: Request) -> Response:
        body = await _object(request)
        self._trial.move_to(_text(body, "to"))
        return Response(status_code=204)

    async def _say(self, request: Request) -> Response:
        body = await _object(request)
        text, reply_to = _text(body, "text"), _number(body, "reply_to", required=False)
        return await self._done(request, lambda phone: phone.type(text, _there(phone, reply_to)))

    async def _edit(self, request: Request) -> Response:
        body = await _object(request)
        message, text = _number(body, "message") or 0, _text(body, "text")
        return await self._done(request, lambda phone: phone.edit(message, text))

    async def _tap(self, request: Request) -> Response:
        body = await _object(request)
        message = _number(body, "message") or 0
        row, place = _number(body, "row") or 0, _number(body, "place") or 0

        def tap(phone: Phone) -> None:
            shown = phone.shown(message)
            keys = shown.keys if shown else ()
            if not (0 <= row < len(keys) and 0 <= place < len(keys[row])):
                raise CannotBeDone(say.NO_BUTTON)
            label, data = keys[row][place]
            if data is None:
                raise CannotBeDone(say.NO_BUTTON)
            phone.tap_data(data, message, label)

        return await self._done(request, tap)

    async def _send(self, request: Request) -> Response:
        kind, name, content, caption, reply_to = await _upload(request)

        def send(phone: Phone) -> None:
            answered = _there(phone, reply_to)
            if kind == "photo":
                phone.send_photo(content, caption, answered)
            elif kind == "voice":
                phone.send_voice(content, caption, answered)
            else:
                phone.send_document(name, content, caption, answered)

        return await self._done(request, send)

    async def _seen(self, request: Request) -> Response:
        message = _number(await _object(request), "message") or 0
        self._trial.see(request.path_params["key"], message)
        return Response(status_code=204)

    async def _done(self, request: Request, act: Callable[[Phone], object]) -> Response:
        await self._trial.do(request.path_params["key"], act)
        return Response(status_code=204)


def _there(phone: Phone, message: int | None) -> int | None:
    """Return the message that is replied to.

    Raises:
        CannotBeDone: It is not on the screen.
    """
    if message is not None and phone.shown(message) is None:
        raise CannotBeDone(say.NO_MESSAGE)
    return message


async def _object(request: Request) -> Body:
    """Return a body of JSON.

    Raises:
        CannotBeDone: It is none.
    """
    try:
        read = json.loads(await request.body())
    except (ValueError, RecursionError) as error:
        raise CannotBeDone(say.NOT_READ) from error
    if not isinstance(read, dict):
        raise CannotBeDone(say.NOT_READ)
    return read


def _text(body: Body, name: str) -> str:
    value = body.get(name)
    if not isinstance(value, str):
        raise CannotBeDone(say.NOT_READ)
    return value


def _number(body: Body, name: str, *, required: bool = True) -> int | None:
    value = body.get(name)
    if value is None and not required:
        return None
    if not isinstance(value, int) or isinstance(value, bool):
        raise CannotBeDone(say.NOT_READ)
    return value


async def _upload(request: Request) -> tuple[str, str, bytes, str, int | None]:
    """Return kind, name, content, caption and what is replied to of a form with a file.

    Raises:
        CannotBeDone: It is none, or the file is empty or too large.
    """
    async with request.form(max_files=1, max_fields=4) as form:
        file, kind = form.get("file"), form.get("kind")
        caption, reply_to = form.get("caption") or "", form.get("reply_to") or ""
        if not isinstance(file, UploadFile) or kind not in ("photo", "voice", "document"):
            raise CannotBeDone(say.NOT_READ)
        if not isinstance(caption, str) or not isinstance(reply_to, str):
            raise CannotBeDone(say.NOT_READ)
        if reply_to and not re.fullmatch(r"\d{1,9}", reply_to, re.ASCII):
            raise CannotBeDone(say.NOT_READ)
        content = await file.read()
        if not content:
            raise CannotBeDone(say.NOT_READ)
        if len(content) > LARGEST_FILE:
            raise CannotBeDone(say.TOO_LARGE, 413)
        name = re.sub(r"[\x00-\x1f/\\]", "_", file.filename or "file")[-120:]
        return str(kind), name, content, caption[:1024], int(reply_to) if reply_to else None


async def _cannot(_: Request, error: CannotBeDone) -> Response:
    return JSONResponse({"problem": error.words}, error.status)


async def _refused(_: Request, error: HTTPException) -> Response:
    words = {404: say.NO_SUCH_PAGE, 405: say.NO_SUCH_METHOD, 400: say.NOT_READ}.get(error.status_code)
    return JSONResponse({"problem": words or error.detail}, error.status_code)
