"""`plimsoll serve` as a process: born, killed, born again, on the machine's clock set off by some days.

A life is a fork of a process that has loaded the program and done nothing yet, so that two hundred of them do not load
it two hundred times. What runs in it is the command itself, `plimsoll serve`, with settings from the environment; the
one thing that differs is what its clock says, so that a week can be played in a minute.
"""

import asyncio
import multiprocessing
import os
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path

from bot.clock import WallClock

LOADED = [
    "bot.cli.app",
    "bot.cli.given_settings",
    "bot.cli.serving",
    "bot.assembly.house",
    "bot.schedule.tick",
]
CONTEXT = multiprocessing.get_context("forkserver")
CONTEXT.set_forkserver_preload(LOADED)


class SetOff(WallClock):
    """The machine's clock, so much further."""

    def __init__(self) -> None:
        self.off = timedelta(0)

    def now(self) -> datetime:
        return super().now() + self.off

    def set_to(self, instant: datetime) -> None:
        self.off = instant - super().now()


def _live(log: Path, settings: Mapping[str, str], off: timedelta, plant: str | None) -> None:
    """What the process does."""
    said = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    os.dup2(said, 1)
    os.dup2(said, 2)
    os.chdir(log.parent)
    for name in [each for each in os.environ if each.startswith("PLIMSOLL_")]:
        del os.environ[name]
    os.environ.update({f"PLIMSOLL_{name.upper()}": value for name, value in settings.items()})
    right = WallClock.now
    WallClock.now = lambda self: right(self) + off  # type: ignore[method-assign]
    if plant is not None:
        from faults.plants import PLANTS  # noqa: PLC0415  (most lives have none)

        PLANTS[plant]()
    from bot.cli import app  # noqa: PLC0415  (after the clock was set)

    app(["serve"])


class Life:
    """One process, from its birth to its end."""

    def __init__(self, log: Path, settings: Mapping[str, str], off: timedelta, plant: str | None) -> None:
        self.log = log
        self.process = CONTEXT.Process(target=_live, args=(log, settings, off, plant), daemon=True)
        self.process.start()
        loop = asyncio.get_running_loop()
        self.ended: asyncio.Future[None] = loop.create_future()
        loop.add_reader(self.process.sentinel, self._ended)

    def _ended(self) -> None:
        asyncio.get_running_loop().remove_reader(self.process.sentinel)
        self.process.join()
        if not self.ended.done():
            self.ended.set_result(None)

    async def within(self, seconds: float) -> bool:
        """Let it live so long; whether it ended by itself."""
        done, _ = await asyncio.wait({self.ended}, timeout=seconds)
        return bool(done)

    async def kill(self) -> None:
        self.process.kill()
        await self.ended

    async def stop(self, seconds: float) -> int | None:
        """Tell it to stop; its exit status, None when it did not stop in time and was killed."""
        self.process.terminate()
        if not await self.within(seconds):
            await self.kill()
            return None
        return self.process.exitcode
