"""The door that the platform brings updates to: it lets nobody else in, and answers only for what is kept."""

import asyncio
import hmac
import json
import logging
import socket
from collections.abc import Awaitable, Callable
from http import HTTPStatus
from types import TracebackType
from typing import Any, Self
from urllib.parse import urlsplit

from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.routing import Route

from bot.http_service import quiet_service

log = logging.getLogger(__name__)

SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"  # noqa: S105  (the name of a header)

LARGEST = 1024 * 1024
"""Most bytes of an update: a message has 4096 characters and what it answers to. Our proposal."""

BODY_WITHIN_S = 10.0
"""How long an update may take to come in. Our proposal. [s]"""

MOST_AT_ONCE = 100
"""Connections at once; more are turned away with 503. The platform opens as many as it was told. Our proposal."""

PATIENCE_S = 5
"""How long what is under way may take when it stops: the worker's own grace. [s]"""

AGAIN_AFTER_S = 5
"""When the platform is asked to come again while nothing can be kept; by itself it waits for up to 2 min. [s]"""


class WebhookDoor:
    """Serves one address in the loop it is entered in.

    Args:
        take: Keeps one update, given as a JSON value; False when it cannot be kept now.
        url: Address that the platform knows; its path is the only one that is served.
        secret: What the platform shows each time.
        listening: Where to listen; closed when the door closes.

    Attributes:
        turned_away: How often somebody came without the secret.
    """

    def __init__(
        self, take: Callable[[Any], Awaitable[bool]], url: str, secret: str, listening: socket.socket
    ) -> None:
        if not secret:
            raise ValueError("a door without a secret is open to everybody")
        self._take = take
        self._path = (urlsplit(url).path or "/").encode()
        self._secret = secret.encode()
        self._listening = listening
        self.turned_away = 0

    async def __aenter__(self) -> Self:
        """Begin to answer."""
        app = Starlette(routes=[Route("/{path:path}", self._answered, methods=["POST"])])
        self._service = quiet_service(app, most_at_once=MOST_AT_ONCE, patience_s=PATIENCE_S)
        self._serving = asyncio.create_task(
            self._service.serve(sockets=[self._listening]), name="webhook door"
        )
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Listen no more, and let what is under way end."""
        self._service.stop()
        await self._serving

    async def _answered(self, request: Request) -> Response:
        try:
            async with asyncio.timeout(BODY_WITHIN_S):
                found = self._refused(request) or await _update_in(request)
        except TimeoutError:
            found = HTTPStatus.REQUEST_TIMEOUT
        except ClientDisconnect:
            found = HTTPStatus.BAD_REQUEST  # nobody is there to read it
        status = found if isinstance(found, HTTPStatus) else await self._taken(found[0])
        again = {"Retry-After": str(AGAIN_AFTER_S)} if status is HTTPStatus.SERVICE_UNAVAILABLE else None
        return Response(status_code=status, headers=again)

    def _refused(self, request: Request) -> HTTPStatus | None:
        """Return why a request is not even read; the secret goes before all that tells anything of us."""
        if request.scope.get("raw_path", b"") != self._path:
            return HTTPStatus.NOT_FOUND
        if not hmac.compare_digest(request.headers.get(SECRET_HEADER, "").encode(), self._secret):
            self.turned_away += 1
            return HTTPStatus.FORBIDDEN
        if request.headers.get("Content-Type", "").partition(";")[0].strip().lower() != "application/json":
            return HTTPStatus.UNSUPPORTED_MEDIA_TYPE
        return None

    async def _taken(self, update: Any) -> HTTPStatus:
        try:
            is_kept = await self._take(update)
        except Exception:
            log.exception("webhook_stumbled")
            return HTTPStatus.INTERNAL_SERVER_ERROR
        return HTTPStatus.OK if is_kept else HTTPStatus.SERVICE_UNAVAILABLE


async def _update_in(request: Request) -> HTTPStatus | tuple[Any]:
    """Return the JSON value of a body, in a tuple of its own; or why there is none."""
    body = bytearray()
    if int(request.headers.get("Content-Length", "0")) > LARGEST:
        return HTTPStatus.REQUEST_ENTITY_TOO_LARGE
    async for piece in request.stream():
        body += piece
        if len(body) > LARGEST:
            return HTTPStatus.REQUEST_ENTITY_TOO_LARGE
    try:
        return (json.loads(body.decode(), parse_constant=_no_number),)
    except (ValueError, RecursionError):
        return HTTPStatus.BAD_REQUEST


def _no_number(word: str) -> Any:
    raise ValueError(f"{word} is no JSON")
