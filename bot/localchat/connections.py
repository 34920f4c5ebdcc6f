"""uvicorn's side of it, with what it does not offer: ending a connection."""

import asyncio
import socket
import struct
from typing import Any

import uvicorn
from starlette.types import ASGIApp, Receive, Scope, Send
from uvicorn.protocols.http.h11_impl import H11Protocol

from bot import http_service

TRANSPORT = "bot.localchat.transport"
"""Where a request finds its connection."""

PATIENCE_S = 0.5
"""How long answers that are under way may take when it stops. [s]"""

LINGER_NOT = struct.pack("ii", 1, 0)


class Connection(H11Protocol):
    """A connection whose requests can reach it."""

    # type: narrowed as uvicorn narrows it; asyncio's base class, which says less, gives nothing else.
    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection and show it to whatever is asked on it."""
        super().connection_made(transport)
        inner: Any = self.app

        async def app(scope: Scope, receive: Receive, send: Send) -> None:
            await inner({**scope, TRANSPORT: transport}, receive, send)

        self.app = app


class Ended:
    """A response that is none: the connection ends without an answer.

    Args:
        reset: True to reset it, as a machine that is not there any more; False to end it in good order.
    """

    def __init__(self, *, reset: bool) -> None:
        self._reset = reset

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:  # noqa: ARG002  (sends nothing)
        """End the connection, and return when it has ended."""
        transport: asyncio.Transport = scope[TRANSPORT]
        if self._reset:
            connection = transport.get_extra_info("socket")
            connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, LINGER_NOT)
        transport.abort()
        while (await receive())["type"] != "http.disconnect":
            pass


class Service(http_service.Service):
    """The server of the chat: it ends every connection when it stops."""

    def __init__(self, app: ASGIApp) -> None:
        super().__init__(
            uvicorn.Config(
                app,
                http=Connection,
                ws="none",
                lifespan="off",
                log_config=None,
                log_level="critical",
                access_log=False,
            )
        )

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop listening, let answers that are under way go out, and end every connection."""
        for listening in (*self.servers, *(sockets or ())):
            listening.close()
        for connection in list(self.server_state.connections):
            connection.shutdown()
        if self.server_state.tasks:
            _, late = await asyncio.wait(self.server_state.tasks, timeout=PATIENCE_S)
            for task in late:
                task.cancel()
            await asyncio.gather(*late, return_exceptions=True)
        for connection in list(self.server_state.connections):
            connection.transport.close()
        await asyncio.sleep(0)
