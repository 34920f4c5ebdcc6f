import socket
from collections.abc import Mapping

import httpx
import pytest

from bot.monitoring.door import Door
from bot.monitoring.figures import Figures


class Played:
    def __init__(self) -> None:
        self.parts = {"sender": True, "worker": True}
        self.needs = {"database": True, "platform": True}

    def alive(self) -> Mapping[str, bool]:
        return self.parts

    async def ready(self) -> Mapping[str, bool]:
        return self.needs

    async def figures(self) -> Figures:
        return Figures(7, 0, {}, 0.0, 0, None)


async def test_life_readiness_and_figures_are_told() -> None:
    played = Played()
    async with Door(played, "127.0.0.1", 0) as door, httpx.AsyncClient(trust_env=False) as client:
        root = f"http://127.0.0.1:{door.port}"
        good = [await client.get(f"{root}/{path}") for path in ("healthz", "readyz", "metrics")]
        played.parts["worker"] = played.needs["platform"] = False
        bad = [await client.get(f"{root}/{path}") for path in ("healthz", "readyz")]
        written = await client.post(f"{root}/metrics")
        elsewhere = await client.get(f"{root}/")

    assert [each.status_code for each in (*good, *bad, written, elsewhere)] == [
        200,
        200,
        200,
        503,
        503,
        405,
        404,
    ]
    assert good[2].headers["content-type"] == "text/plain; version=0.0.4; charset=utf-8"
    assert "plimsoll_updates_taken_total 7.0\n" in good[2].text
    assert bad[0].json() == {"sender": True, "worker": False}
    assert bad[1].json() == {"database": True, "platform": False}
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection(("127.0.0.1", door.port))


async def test_a_port_that_is_taken_is_refused() -> None:
    async with Door(Played(), "127.0.0.1", 0) as door:
        with pytest.raises(OSError, match="in use"):
            await Door(Played(), "127.0.0.1", door.port).__aenter__()
