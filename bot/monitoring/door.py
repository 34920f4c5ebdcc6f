"""The HTTP side: three addresses that only read. It takes no signals and keeps no log of who asked."""

import asyncio
import socket
from collections.abc import Mapping
from types import TracebackType
from typing import Protocol, Self

from prometheus_client import CONTENT_TYPE_PLAIN_0_0_4
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bot.http_service import quiet_service
from bot.monitoring.figures import Figures, prometheus_text

MOST_AT_ONCE = 20
"""Requests at once; more are turned away with 503, so that whoever asks too much holds nobody up. Our proposal."""

PATIENCE_S = 1
"""How long answers that are under way may take when it stops. [s]"""


class Watched(Protocol):
    """What is asked for each answer."""

    def alive(self) -> Mapping[str, bool]:
        """Return of every part whether it runs."""
        ...

    async def ready(self) -> Mapping[str, bool]:
        """Return of everything that is needed whether it is there."""
        ...

    async def figures(self) -> Figures:
        """Return the figures."""
        ...


class Door:
    """Serves `/healthz`, `/readyz` and `/metrics` in the loop it is entered in.

    Args:
        watched: What is asked.
        address: Address of this machine.
        port: 0 for a free one.

    Attributes:
        port: Where, once it is entered.
    """

    def __init__(self, watched: Watched, address: str, port: int) -> None:
        self._watched = watched
        self._address = address
        self.port = port

    async def __aenter__(self) -> Self:
        """Start; it listens before this returns.

        Raises:
            OSError: Nothing can listen there.
        """
        family = socket.AF_INET6 if ":" in self._address else socket.AF_INET
        listening = socket.create_server((self._address, self.port), family=family)
        self.port = listening.getsockname()[1]
        routes = [
            Route("/healthz", self._alive),
            Route("/readyz", self._ready),
            Route("/metrics", self._metrics),
        ]
        self._service = quiet_service(
            Starlette(routes=routes), most_at_once=MOST_AT_ONCE, patience_s=PATIENCE_S
        )
        self._serving = asyncio.create_task(self._service.serve(sockets=[listening]), name="monitoring")
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Stop."""
        self._service.stop()
        await self._serving

    async def _alive(self, _: Request) -> Response:
        return _said(self._watched.alive())

    async def _ready(self, _: Request) -> Response:
        return _said(await self._watched.ready())

    async def _metrics(self, _: Request) -> Response:
        # Written in the loop: some 60 lines, under a millisecond.
        text = prometheus_text(await self._watched.figures())
        return Response(text, media_type=CONTENT_TYPE_PLAIN_0_0_4)


def _said(found: Mapping[str, bool]) -> Response:
    return JSONResponse(dict(found), 200 if all(found.values()) else 503)
