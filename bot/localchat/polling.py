"""Polls that wait for updates: one at a time, a newer one ends an older one."""

import asyncio
from typing import Any

from bot.localchat.account import patience_s
from bot.localchat.answers import Answer, Pending, refusal
from bot.localchat.faults import Fault
from bot.localchat.network import Network

TAKEN = "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running"


class Polling:
    """Holds back empty answers of getUpdates until there is something, or patience ends.

    Patience is measured by the machine's clock, as the client measures it; what waits lapses by the network's.
    """

    def __init__(self, network: Network) -> None:
        self._network = network
        self._came = asyncio.Event()
        self._newest = 0
        self._closed = False

    def rouse(self) -> None:
        """Have whoever waits look again."""
        self._came.set()

    def close(self) -> None:
        """Send everybody who waits away with nothing."""
        self._closed = True
        self._came.set()

    async def answer(self, params: dict[str, Any]) -> Answer | Fault:
        """Answer a call of getUpdates, or return what befalls it while it waits."""
        self._newest = mine = self._newest + 1
        self.rouse()
        found = self._network.call("getUpdates", params)
        if isinstance(found, Answer):
            return found
        try:
            # A fault may be planned, an update offered or another poll begun: all of them rouse.
            async with asyncio.timeout(patience_s(int(params.get("timeout") or 0))):
                return await self._found(mine, params)
        except TimeoutError:
            return _nothing()

    async def _found(self, mine: int, params: dict[str, Any]) -> Answer | Fault:
        again = {name: value for name, value in params.items() if name != "offset"}
        while not self._closed:
            self._came.clear()
            await self._came.wait()
            if mine != self._newest:
                return refusal(409, TAKEN)
            fault = self._network.faults.next_while_waiting()
            if fault is not None:
                return fault
            found = self._network.call("getUpdates", again)
            if not isinstance(found, Pending):
                return found
        return _nothing()


def _nothing() -> Answer:
    return Answer(200, {"ok": True, "result": []})
