"""`plimsoll serve` as a process: born, killed, put to sleep, born again, on the machine's clock set off by some days.

A life is a fork of a process that has loaded the program and done nothing yet, so that two hundred of them do not load
it two hundred times. What runs in it is the command itself, `plimsoll serve`, with settings from the environment; the
one thing that differs is what its clock says, so that a week can be played in a minute. How far the clock is set off
stands in a file that all processes map into memory: while they are stopped it can be moved, as by a night asleep.
"""

import asyncio
import mmap
import multiprocessing
import os
import signal
import struct
import time
from collections.abc import Mapping
from dataclasses import dataclass
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
OFF = struct.Struct("dd")
"""How far a clock is set off, and how long the machine was asleep. [s]"""


@dataclass(frozen=True)
class Jump:
    """The clock was moved.

    Attributes:
        before: What it said.
        after: What it said then.
        lived: Whether a process was there, asleep or awake, and not dead.
    """

    before: datetime
    after: datetime
    lived: bool


def mapped(file: Path) -> mmap.mmap:
    with file.open("r+b") as opened:
        return mmap.mmap(opened.fileno(), OFF.size)


class SetOff(WallClock):
    """The machine's clock, so much further; so much stands in a file."""

    def __init__(self, file: Path) -> None:
        file.write_bytes(OFF.pack(0.0, 0.0))
        self.file = file
        self._shared = mapped(file)
        self.off = self.slept = timedelta(0)
        self.jumps: list[Jump] = []

    def now(self) -> datetime:
        return super().now() + self.off

    def set_to(self, instant: datetime, *, lived: bool = False) -> None:
        before = self.now()
        self.off = instant - super().now()
        if lived:
            self.slept += instant - before
        OFF.pack_into(self._shared, 0, self.off.total_seconds(), self.slept.total_seconds())
        self.jumps.append(Jump(before, instant, lived))

    def between(self, begin: datetime, end: datetime, *, dead: bool) -> timedelta:
        """How long it was without the jumps between; those with nobody alive are left out too where `dead`."""
        jumped = timedelta(0)
        for each in self.jumps:
            if each.lived or dead:
                jumped += max(timedelta(0), min(end, each.after) - max(begin, each.before))
        return end - begin - jumped


def _set_off(shared: mmap.mmap) -> None:
    """Have the clocks that go on while the machine sleeps say what the file says."""
    wall, going_on = WallClock.now, time.clock_gettime

    def clock_gettime(which: int) -> float:
        slept = OFF.unpack_from(shared)[1] if which == time.CLOCK_BOOTTIME else 0.0
        return going_on(which) + slept

    WallClock.now = lambda self: wall(self) + timedelta(seconds=OFF.unpack_from(shared)[0])  # type: ignore[method-assign]
    time.clock_gettime = clock_gettime


def _live(log: Path, settings: Mapping[str, str], clock: Path, plant: str | None) -> None:
    """What the process does."""
    said = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    os.dup2(said, 1)
    os.dup2(said, 2)
    os.chdir(log.parent)
    for name in [each for each in os.environ if each.startswith("PLIMSOLL_")]:
        del os.environ[name]
    os.environ.update({f"PLIMSOLL_{name.upper()}": value for name, value in settings.items()})
    _set_off(mapped(clock))
    if plant is not None:
        from faults.plants import PLANTS  # noqa: PLC0415  (most lives have none)

        PLANTS[plant]()
    from bot.cli import app  # noqa: PLC0415  (after the clock was set)

    app(["serve"])


class Life:
    """One process, from its birth to its end."""

    def __init__(
        self, name: str, folder: Path, settings: Mapping[str, str], clock: Path, plant: str | None
    ) -> None:
        self.name = name
        self.log = folder / f"{name}.log"
        self.process = CONTEXT.Process(target=_live, args=(self.log, settings, clock, plant), daemon=True)
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

    def signal(self, number: signal.Signals) -> None:
        """Have it stand still or go on."""
        if not self.ended.done() and self.process.pid is not None:
            os.kill(self.process.pid, number)

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
