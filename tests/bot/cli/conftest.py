from collections.abc import AsyncIterator
from datetime import UTC, datetime
from email.utils import format_datetime
from pathlib import Path

import pytest
from ward import TOKEN, Ward, say_the_time

from bot.clock import StoryClock, WallClock
from bot.localchat.network import Network
from bot.localchat.server import Server


@pytest.fixture
async def ward(tmp_path: Path, database_url: str) -> AsyncIterator[Ward]:
    network = Network(StoryClock(datetime(2026, 4, 6, 7, tzinfo=UTC)), TOKEN)
    async with Server(network) as server:
        say_the_time(server, format_datetime(WallClock().now(), usegmt=True))
        yield Ward(tmp_path, database_url, network, server)
