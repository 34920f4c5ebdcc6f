"""`plimsoll serve` with a webhook, and without one again."""

import asyncio
import signal
import socket
from collections.abc import Callable
from datetime import UTC, datetime

import httpx
import pytest
from typer.testing import CliRunner

from bot.assembly.refusals import PortTaken
from bot.cli import serving
from bot.cli.app import app
from bot.cli.findings import State
from bot.cli.monitoring_findings import webhook_door_findings
from bot.clock import StoryClock
from bot.inbound import poll
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.settings import Settings, read_settings

TOKEN = "4100:story"
URL = "https://quay.example/in"
HEADERS = {"X-Telegram-Bot-Api-Secret-Token": "low-water-at-the-slipway"}


@pytest.fixture
def network() -> Network:
    return Network(StoryClock(datetime(2026, 4, 6, 7, tzinfo=UTC)), TOKEN)


def settings_for(url: str, server: Server, **more: str) -> Settings:
    given = {"TOKEN": TOKEN, "DATABASE_URL": url, "API_URL": server.url, **more}
    return read_settings({f"PLIMSOLL_{name}": value for name, value in given.items()}, env_file=None)


def with_webhook(url: str, server: Server, port: int) -> Settings:
    secret = HEADERS["X-Telegram-Bot-Api-Secret-Token"]
    return settings_for(url, server, WEBHOOK_URL=URL, WEBHOOK_SECRET=secret, WEBHOOK_PORT=str(port))


async def served(settings: Settings, until: Callable[[], bool]) -> float:
    """Run the program until something holds; returns how long it took to stop. [s]"""
    running = asyncio.create_task(serving._serve(settings))
    while not until() and not running.done():  # noqa: ASYNC110  (nobody tells of it)
        await asyncio.sleep(0)
    told = asyncio.get_running_loop().time()
    signal.raise_signal(signal.SIGTERM)
    await running
    return asyncio.get_running_loop().time() - told


async def test_messages_are_brought_and_after_going_back_they_are_fetched(
    database_url: str, network: Network, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(poll, "FIRST_RETRY_S", 0.01)
    network.phone(801, "Orla Quill").type("knee 3")
    [body] = network.updates.waiting()

    def answers() -> int:
        return sum(each.sender == "bot" for each in network.record)

    with socket.create_server(("127.0.0.1", 0)) as listening:
        port = int(listening.getsockname()[1])
    async with Server(network) as server, httpx.AsyncClient(trust_env=False, headers=HEADERS) as client:
        settings = with_webhook(database_url, server, port)
        lines, statuses = [], []

        async def bring() -> None:
            while not network.webhook:  # noqa: ASYNC110  (the same)
                await asyncio.sleep(0)
            lines.extend(await asyncio.to_thread(webhook_door_findings, settings, is_served=True))
            statuses.append((await client.post(f"http://127.0.0.1:{port}/in", json=body)).status_code)

        bringing = asyncio.create_task(bring())
        stopped_s = [await served(settings, lambda: bool(statuses) and answers() == 1)]
        await bringing
        assert (network.webhook, network.unfetched) == (URL, 1)
        lines += webhook_door_findings(settings, is_served=True)

        stopped_s.append(await served(settings_for(database_url, server), lambda: network.unfetched == 0))

    assert (statuses, network.webhook, answers()) == ([200], "", 1)
    assert [line.state for line in lines] == [State.GOOD, State.WRONG]
    assert max(stopped_s) < 10


async def test_a_port_that_is_taken_is_a_reason_not_to_start(database_url: str, network: Network) -> None:
    async with Server(network) as server:
        port = int(server.url.rpartition(":")[2])
        with pytest.raises(
            PortTaken, match="Set PLIMSOLL_WEBHOOK_PORT to a free one, and PLIMSOLL_WEBHOOK_ADDRESS"
        ):
            await serving._serve(with_webhook(database_url, server, port))

        strange = await asyncio.to_thread(
            webhook_door_findings, with_webhook(database_url, server, port), is_served=True
        )

    assert strange[0].said.startswith(
        f"on port {port} the answer to a stranger is HTTP 404, and plimsoll serve runs."
    )
    assert network.webhook == ""


def test_what_is_typed_goes_before_the_settings(monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[Settings] = []
    monkeypatch.setattr(serving, "serve", lambda settings, _: given.append(settings) or 0)
    environ = {"PLIMSOLL_TOKEN": TOKEN, "PLIMSOLL_WEBHOOK_SECRET": "low-water-at-the-slipway"}
    for typed in ([], ["--webhook", URL], ["--webhook", "http://quay.example"]):
        CliRunner().invoke(
            app, ["serve", *typed], env=environ | {"PLIMSOLL_WEBHOOK_URL": "https://pier.example/"}
        )

    assert [str(each.webhook_url) for each in given] == ["https://pier.example/", URL]
