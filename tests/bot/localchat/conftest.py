import asyncio
from collections.abc import AsyncIterator, Callable
from datetime import UTC, datetime
from typing import Any

import httpx
import pytest
from telegram import Bot
from telegram.request import HTTPXRequest

from bot.clock import StoryClock
from bot.localchat.answers import Answer, Pending, UploadedFile
from bot.localchat.network import Network
from bot.localchat.phone import Phone
from bot.localchat.server import Server

START = datetime(2026, 4, 6, 7, tzinfo=UTC)
TOKEN = "4100:story"


class Watched(Network):
    """A network that tells when a poll has found nothing, and so waits."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.waits = asyncio.Event()

    def call(self, method: str, params: Any, files: Any = None) -> Answer | Pending:
        answer = super().call(method, params, files)
        if isinstance(answer, Pending):
            self.waits.set()
        return answer


@pytest.fixture
def clock() -> StoryClock:
    return StoryClock(START)


@pytest.fixture
def network(clock: StoryClock) -> Watched:
    return Watched(clock, TOKEN)


@pytest.fixture
def liv(network: Network) -> Phone:
    """Somebody who has started the bot, and whose start was fetched."""
    phone = network.phone(501, "Liv")
    phone.start()
    network.updates.clear()
    return phone


Ask = Callable[..., Any]


@pytest.fixture
def ask(network: Network) -> Ask:
    """Call a method: the result when it is good, else (status, words); [] when fetching would wait."""

    def call(method: str, files: dict[str, UploadedFile] | None = None, **params: Any) -> Any:
        answer = network.call(method, params, files)
        if isinstance(answer, Pending):
            return []
        if answer.body["ok"]:
            assert answer.status == 200
            return answer.body["result"]
        assert answer.body["error_code"] == answer.status
        return answer.status, answer.body["description"]

    return call


@pytest.fixture
async def server(network: Network) -> AsyncIterator[Server]:
    async with Server(network) as running:
        yield running


@pytest.fixture
async def bot(server: Server) -> AsyncIterator[Bot]:
    """The library that the program uses, with little patience."""
    requests = [HTTPXRequest(connection_pool_size=4, read_timeout=5.0) for _ in range(2)]
    async with Bot(
        TOKEN,
        base_url=f"{server.url}/bot",
        base_file_url=f"{server.url}/file/bot",
        request=requests[0],
        get_updates_request=requests[1],
    ) as ready:
        yield ready


@pytest.fixture
async def http(server: Server) -> AsyncIterator[httpx.AsyncClient]:
    async with httpx.AsyncClient(base_url=f"{server.url}/bot{TOKEN}") as client:
        yield client
