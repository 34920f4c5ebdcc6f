"""A program at work in a process of its own: its processor time and its memory; and a network that notes what comes."""

import asyncio
import os
import sys
from collections import Counter, deque
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from time import perf_counter
from typing import Any

from faults.crew import ADA, BEN, MARIT, ORLA

from bot.clock import Clock
from bot.localchat.network import Network
from bot.localchat.server import Server

ROOT = Path(__file__).parents[2]
TOKEN = "4100:timed"
TICKS_S = os.sysconf("SC_CLK_TCK")
PATIENCE_S = 300
SENDING = ("sendMessage", "editMessageText", "editMessageReplyMarkup", "deleteMessage")


class Noted(Network):
    """A network that notes when each call came, and how long somebody waited for a word of the bot.

    Attributes:
        calls: How many of each method.
        sent_at: When each message was taken. [s]
        waits: From what was typed to the bot's first word in that chat. [s]
        most: Messages in the busiest second so far.
    """

    def __post_init__(self) -> None:
        super().__post_init__()
        self.calls: Counter[str] = Counter()
        self.sent_at: list[float] = []
        self.waits: list[float] = []
        self.most = 0
        self._second: deque[float] = deque()
        self._typed: dict[int, float] = {}
        self._said = asyncio.Event()

    def typed(self, chat_id: int, text: str) -> None:
        self._typed[chat_id] = perf_counter()
        self.phone(chat_id, str(chat_id)).type(text)

    @property
    def waiting(self) -> int:
        """How many have had no word yet."""
        return len(self._typed)

    @property
    def awaited(self) -> frozenset[int]:
        """Chats that have had no word yet."""
        return frozenset(self._typed)

    def call(self, method: str, *of: Any, **facts: Any) -> Any:
        self.calls[method] += 1
        self._said.set()
        if method in SENDING:
            now = perf_counter()
            self.sent_at.append(now)
            self._second.append(now)
            while now - self._second[0] >= 1:
                self._second.popleft()
            self.most = max(self.most, len(self._second))
        return super().call(method, *of, **facts)

    def note(self, chat_id: int, message_id: int, sender: str, *of: Any, **facts: Any) -> None:
        super().note(chat_id, message_id, sender, *of, **facts)
        if sender == "bot":
            if chat_id in self._typed:
                self.waits.append(perf_counter() - self._typed.pop(chat_id))
            self._said.set()

    async def until(self, holds: Callable[[], bool]) -> None:
        """Wait until something holds; looked at whenever the bot says something."""
        async with asyncio.timeout(PATIENCE_S):
            while not holds():
                self._said.clear()
                await self._said.wait()


@asynccontextmanager
async def network(clock: Clock, users: range, kind: type[Noted] = Noted) -> AsyncIterator[tuple[Noted, str]]:
    """A network on the wire, with a phone for each of some people, and for those of the two coaches."""
    found = kind(clock, TOKEN)
    for user_id in (*users, MARIT, ORLA, ADA, BEN):
        found.phone(user_id, str(user_id)).started = True
    async with Server(found) as server:
        yield found, server.url


class AtWork:
    """A program that runs."""

    def __init__(self, process: asyncio.subprocess.Process) -> None:
        self.process = process

    @property
    def cpu_s(self) -> float:
        """Processor time so far, of the program alone. [s]"""
        fields = Path(f"/proc/{self.process.pid}/stat").read_text("utf-8").rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / TICKS_S

    def memory(self, which: str = "VmRSS") -> float:
        """Memory that it holds, or `VmHWM`, the most that it has held. [MB]"""
        status = Path(f"/proc/{self.process.pid}/status").read_text("utf-8")
        [line] = [each for each in status.splitlines() if each.startswith(f"{which}:")]
        return int(line.split()[1]) * 1024 / 1e6


@asynccontextmanager
async def at_work(module: str, *arguments: str, log: Path) -> AsyncIterator[AtWork]:
    """Run a module of the benchmarks until the block ends."""
    with log.open("wb") as said:
        process = await asyncio.create_subprocess_exec(
            sys.executable,
            "-m",
            f"benchmarks.{module}",
            *arguments,
            cwd=ROOT,
            env=dict(os.environ) | {"PYTHONPATH": f"{ROOT}:{ROOT / 'tests'}"},
            stdin=asyncio.subprocess.DEVNULL,
            stdout=said,
            stderr=said,
        )
    try:
        yield AtWork(process)
    finally:
        if process.returncode is None:
            process.terminate()
        await asyncio.wait_for(process.wait(), 30)


def share(values: list[float], part: float) -> float:
    """The value that a part of all stays under, such as 0.99."""
    return sorted(values)[min(len(values) - 1, int(part * len(values)))]
