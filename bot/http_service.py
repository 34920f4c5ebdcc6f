"""uvicorn's server inside a program that has a life of its own."""

import asyncio
import contextlib
from collections.abc import Iterator

import uvicorn
from starlette.types import ASGIApp


class Service(uvicorn.Server):
    """A server in the loop it is started in: signals stay the program's, and it stops when told to."""

    def __init__(self, config: uvicorn.Config) -> None:
        super().__init__(config)
        self._told = asyncio.Event()

    def stop(self) -> None:
        """Tell it to stop."""
        self.should_exit = True
        self._told.set()

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Take no signals: they are the program's."""
        yield

    async def main_loop(self) -> None:
        """Serve until told to stop, without looking ten times a second whether to."""
        await self._told.wait()


def quiet_service(app: ASGIApp, *, most_at_once: int, patience_s: int) -> Service:
    """Build a server that keeps no log of who asked and does not say what it is.

    Args:
        app: What answers.
        most_at_once: Connections at once; more are turned away with 503.
        patience_s: How long answers that are under way may take when it stops. [s]
    """
    return Service(
        uvicorn.Config(
            app,
            http="h11",
            ws="none",
            lifespan="off",
            log_config=None,
            log_level="critical",
            access_log=False,
            server_header=False,
            date_header=False,
            proxy_headers=False,
            limit_concurrency=most_at_once,
            timeout_graceful_shutdown=patience_s,
        )
    )
