"""The network on loopback HTTP: reads calls, writes answers, lets faults happen. Any process of the machine can call.

It serves `/bot<token>/<method>` and `/file/bot<token>/<path>` as the real service does.
"""

import asyncio
import contextlib
import re
import socket
from collections.abc import Callable
from types import TracebackType
from typing import Self

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.routing import Route
from starlette.types import ASGIApp

from bot.localchat.answers import Answer, Pending, Refused, refusal
from bot.localchat.connections import Ended, Service
from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network
from bot.localchat.polling import TAKEN, Polling
from bot.localchat.requests import Files, Given, call_of, chat_of

WELL_FORMED = re.compile(r"\d+:[\w-]+")


class Server:
    """Serves a network on a free port of 127.0.0.1, in the loop it is entered in.

    Attributes:
        network: What is served; its phones are used in the same loop.
        url: Where, once it is entered: `http://127.0.0.1:PORT`.
    """

    def __init__(self, network: Network) -> None:
        self.network = network
        self.url = ""

    async def __aenter__(self) -> Self:
        """Start. The socket listens before this returns, so that a call is never refused."""
        self._closing = asyncio.Event()
        self._polling = Polling(self.network)
        self.network.on_update = self.network.faults.on_plan = self._polling.rouse
        listening = socket.create_server(("127.0.0.1", 0))
        # A socket made like this names no protocol, so that asyncio leaves Nagle's delay on: 40 ms for every answer.
        listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self.url = f"http://127.0.0.1:{listening.getsockname()[1]}"
        routes = [
            Route("/bot{token}/{method}", self._method, methods=["GET", "POST"]),
            Route("/file/bot{token}/{path:path}", self._file),
        ]
        self._service = Service(Starlette(routes=routes, exception_handlers={404: _no_such_page}))
        self._serving = asyncio.create_task(self._service.serve(sockets=[listening]))
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Stop: whoever still waits is answered at once."""
        self.network.on_update = self.network.faults.on_plan = _nobody_waits
        self._closing.set()
        self._polling.close()
        self._service.stop()
        await self._serving

    async def _file(self, request: Request) -> Response:
        content = self.network.uploads.fetched(request.path_params["path"])
        if request.path_params["token"] != self.network.token or content is None:
            return _written(refusal(404, "Not Found"))
        return Response(content, media_type="application/octet-stream")

    async def _method(self, request: Request) -> ASGIApp:
        token, method = request.path_params["token"], request.path_params["method"]
        if token != self.network.token:
            known = WELL_FORMED.fullmatch(token)
            return _written(refusal(401, "Unauthorized") if known else refusal(404, "Not Found"))
        try:
            params, files = await call_of(request)
        except Refused as refused:
            return _written(refusal(refused.status, refused.words))
        fault = self.network.faults.next_for(method, chat_of(params))
        if fault is None:
            return _outcome(await self._answered(method, params, files))
        if fault.kind in BEFORE:
            return BEFORE[fault.kind](fault)
        if fault.kind is Kind.SLOW_BEFORE:
            await self._held(fault.seconds)
        outcome = _outcome(await self._answered(method, params, files))
        if fault.kind is Kind.SLOW:
            await self._held(fault.seconds)
        return Ended(reset=False) if fault.kind is Kind.DROP_AFTER else outcome

    async def _answered(self, method: str, params: Given, files: Files) -> Answer | Fault:
        if method == "getUpdates":
            return await self._polling.answer(params)
        answer = self.network.call(method, params, files)
        assert not isinstance(answer, Pending), "only fetching waits"  # noqa: S101  (else a bug of ours)
        return answer

    async def _held(self, seconds: float) -> None:
        """Wait, but no longer than this server is there."""
        with contextlib.suppress(TimeoutError):
            await asyncio.wait_for(self._closing.wait(), seconds)


def _nobody_waits() -> None:
    """What is called when nobody serves the network any more."""


def _outcome(answer: Answer | Fault) -> ASGIApp:
    return _written(answer) if isinstance(answer, Answer) else BEFORE[answer.kind](answer)


def _written(answer: Answer) -> Response:
    wait = answer.body.get("parameters", {}).get("retry_after")
    return JSONResponse(answer.body, answer.status, {} if wait is None else {"Retry-After": str(wait)})


async def _no_such_page(request: Request, error: Exception) -> Response:  # noqa: ARG001  (Starlette's signature)
    return _written(refusal(404, "Not Found"))


def _too_many(fault: Fault) -> ASGIApp:
    words = f"Too Many Requests: retry after {fault.retry_after}"
    return _written(refusal(429, words, retry_after=fault.retry_after))


def _server_error(fault: Fault) -> ASGIApp:
    if fault.status < 502:
        return _written(refusal(fault.status, "Internal Server Error"))
    return HTMLResponse(f"<html><h1>{fault.status} Bad Gateway</h1></html>", fault.status)


BEFORE: dict[Kind, Callable[[Fault], ASGIApp]] = {
    Kind.REFUSE: lambda _: Ended(reset=True),
    Kind.DROP_BEFORE: lambda _: Ended(reset=False),
    Kind.TOO_MANY: _too_many,
    Kind.SERVER_ERROR: _server_error,
    Kind.FORBIDDEN: lambda _: _written(refusal(403, "Forbidden: bot was blocked by the user")),
    Kind.CONFLICT: lambda _: _written(refusal(409, TAKEN)),
}
"""What comes of a call before anything is done."""
