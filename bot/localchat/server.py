"""The network on loopback HTTP; thin: it only reads calls and writes answers, and lets faults happen."""

import asyncio
import contextlib
import json
import socket
from types import TracebackType
from typing import Any, Self

import uvicorn
from starlette.applications import Starlette
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Route
from starlette.types import Receive, Scope, Send

from bot.localchat.answers import Answer, Pending, UploadedFile
from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network

LONGEST_POLL_S = 50.0


class Dropped:
    """A response that closes the connection without answering."""

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Promise a body and break off before it: the server then closes the connection."""
        await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"1")]})


class Server:
    """Serves a network on a free port of 127.0.0.1."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self.url = ""
        self._came = asyncio.Event()
        self._poller: asyncio.Event | None = None
        self._waiting: set[asyncio.Task[Any]] = set()
        self._closing = asyncio.Event()

    async def __aenter__(self) -> Self:
        """Start."""
        self.network.on_update = self._came.set
        listening = socket.create_server(("127.0.0.1", 0))
        self.url = f"http://127.0.0.1:{listening.getsockname()[1]}"
        app = Starlette(
            routes=[
                Route("/bot{token}/{method}", self._method, methods=["GET", "POST"]),
                Route("/file/bot{token}/{path:path}", self._file),
            ]
        )
        config = uvicorn.Config(
            app, lifespan="off", log_level="critical", access_log=False, timeout_graceful_shutdown=1
        )
        self._server = uvicorn.Server(config)
        self._server.install_signal_handlers = lambda: None  # type: ignore[attr-defined]
        self._task = asyncio.create_task(self._server.serve(sockets=[listening]))
        while not self._server.started:
            await asyncio.sleep(0.005)
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Stop, with whoever still waits."""
        self._closing.set()
        self._came.set()
        self._server.should_exit = True
        with contextlib.suppress(asyncio.CancelledError):
            await self._task

    async def _file(self, request: Request) -> Response:
        file = self.network.file(request.path_params["path"])
        if request.path_params["token"] != self.network.token or file is None:
            return PlainTextResponse("Not Found", 404)
        return Response(file.content)

    async def _method(self, request: Request) -> Any:
        method = request.path_params["method"]
        params, files = await _call_of(request)
        if request.path_params["token"] != self.network.token:
            return _answer(Answer(401, {"ok": False, "error_code": 401, "description": "Unauthorized"}))
        fault = self.network.faults.next_for(method, params.get("chat_id"))
        if fault is not None and (early := _early(fault)) is not None:
            return early
        answer = self.network.call(method, params, files)
        if isinstance(answer, Pending):
            answer = await self._wait(params)
        if fault is not None and fault.kind is Kind.DROP_AFTER:
            return Dropped()
        if fault is not None and fault.kind is Kind.SLOW:
            await asyncio.sleep(fault.seconds)
        return _answer(answer)

    async def _wait(self, params: dict[str, Any]) -> Answer:
        """Wait for an update: a newer poll ends an older one with a conflict."""
        mine = asyncio.Event()
        if self._poller is not None:
            self._poller.set()
        self._poller = mine
        ends = asyncio.get_running_loop().time() + min(float(params.get("timeout") or 0), LONGEST_POLL_S)
        found: Answer | Pending = Pending()
        while isinstance(found, Pending) and not mine.is_set() and not self._closing.is_set():
            left = ends - asyncio.get_running_loop().time()
            if left <= 0:
                break
            self._came.clear()
            tasks = [asyncio.create_task(self._came.wait()), asyncio.create_task(mine.wait())]
            await asyncio.wait(tasks, timeout=left, return_when=asyncio.FIRST_COMPLETED)
            for task in tasks:
                task.cancel()
            if not mine.is_set():
                found = self.network.call("getUpdates", params)
        if mine.is_set():
            words = "Conflict: terminated by other getUpdates request"
            return Answer(409, {"ok": False, "error_code": 409, "description": words})
        if self._poller is mine:
            self._poller = None
        return Answer(200, {"ok": True, "result": []}) if isinstance(found, Pending) else found


def _early(fault: Fault) -> Any:
    """Return what a fault answers before anything is done; None when the call goes on."""
    match fault.kind:
        case Kind.REFUSE | Kind.DROP_BEFORE:
            return Dropped()
        case Kind.SERVER_ERROR:
            return PlainTextResponse("<html>Bad Gateway</html>", fault.status)
        case Kind.TOO_MANY:
            words = f"Too Many Requests: retry after {fault.retry_after}"
            body: dict[str, Any] = {
                "ok": False,
                "error_code": 429,
                "description": words,
                "parameters": {"retry_after": fault.retry_after},
            }
            return _answer(Answer(429, body))
        case Kind.FORBIDDEN:
            words = "Forbidden: bot was blocked by the user"
            return _answer(Answer(403, {"ok": False, "error_code": 403, "description": words}))
        case Kind.CONFLICT:
            words = "Conflict: terminated by other getUpdates request"
            return _answer(Answer(409, {"ok": False, "error_code": 409, "description": words}))
        case _:
            return None


def _answer(answer: Answer) -> Response:
    headers = {}
    wait = answer.body.get("parameters", {}).get("retry_after")
    if wait is not None:
        headers["Retry-After"] = str(wait)
    return JSONResponse(answer.body, answer.status, headers)


async def _call_of(request: Request) -> tuple[dict[str, Any], dict[str, UploadedFile]]:
    params: dict[str, Any] = {}
    files: dict[str, UploadedFile] = {}
    if request.headers.get("content-type", "").startswith("application/json"):
        return await request.json(), files
    for name, value in [*request.query_params.multi_items(), *(await request.form()).multi_items()]:
        if isinstance(value, UploadFile):
            files[name] = UploadedFile(value.filename or name, await value.read())
        else:
            params[name] = _value(name, value)
    return params, files


NUMBERS = frozenset({"chat_id", "message_id", "offset", "limit", "timeout"})
STRUCTURES = frozenset({"reply_markup", "allowed_updates", "link_preview_options", "commands", "scope"})
FLAGS = frozenset({"disable_notification", "protect_content", "show_alert"})


def _value(name: str, text: str) -> Any:
    if name in NUMBERS:
        return int(text)
    if name in STRUCTURES:
        return json.loads(text)
    return text == "true" if name in FLAGS else text
