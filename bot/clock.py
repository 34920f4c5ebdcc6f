"""The only source of time and of chance."""

import asyncio
import heapq
import secrets
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Protocol

from numpy.random import Generator, SeedSequence, default_rng

TICKING = timedelta(seconds=1)
"""A clock that is kept right is moved back by less than this."""


SLICE_S = 10.0
"""After so long a sleeper looks at the clock: what fell due while the machine slept goes out then. [s]"""


def seconds_going_on() -> float:
    """Return seconds since some instant that go on while the machine sleeps, and that nobody can set. [s]"""
    return time.clock_gettime(getattr(time, "CLOCK_BOOTTIME", time.CLOCK_MONOTONIC))


class Clock(Protocol):
    """Time as the program sees it."""

    def now(self) -> datetime:
        """Return the present instant, aware, in UTC."""
        ...

    async def sleep_until(self, instant: datetime) -> None:
        """Return once `now() >= instant`."""
        ...


class WallClock:
    """The machine's clock."""

    def now(self) -> datetime:
        """Return the present instant."""
        return datetime.now(UTC)

    async def sleep_until(self, instant: datetime) -> None:
        """Sleep in short slices: the clock may be set, and a machine that is suspended does not count its sleep."""
        while (left := (instant - self.now()).total_seconds()) > 0:  # noqa: ASYNC110  (a wall clock sets no event)
            await asyncio.sleep(min(left, SLICE_S))


class Going:
    """Notices that a clock was set back."""

    def __init__(self) -> None:
        self._seen: datetime | None = None

    def back_from(self, now: datetime) -> datetime | None:
        """Return what the clock said before, if it was set back by more than a second since the last call."""
        seen, self._seen = self._seen, now
        return seen if seen is not None and seen - now > TICKING else None


class StoryClock:
    """A clock that stands still until it is moved."""

    def __init__(self, start: datetime) -> None:
        self._now = start
        self._order = 0
        self._sleepers: list[tuple[datetime, int, asyncio.Future[None]]] = []

    def now(self) -> datetime:
        """Return the story's instant."""
        return self._now

    async def sleep_until(self, instant: datetime) -> None:
        """Wait until the story has moved to `instant`."""
        if instant <= self._now:
            await asyncio.sleep(0)
            return
        waiting: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        self._order += 1
        heapq.heappush(self._sleepers, (instant, self._order, waiting))
        await waiting

    def next_waking(self) -> datetime | None:
        """Return the earliest instant somebody sleeps for; None when nobody does."""
        while self._sleepers and self._sleepers[0][2].done():
            heapq.heappop(self._sleepers)
        return self._sleepers[0][0] if self._sleepers else None

    def move_to(self, instant: datetime) -> None:
        """Move on to `instant`, waking whoever slept until then; never goes back."""
        if instant < self._now:
            raise ValueError("a story never goes back")
        self._now = instant
        while self._sleepers and self._sleepers[0][0] <= instant:
            _, _, waiting = heapq.heappop(self._sleepers)
            if not waiting.done():
                waiting.set_result(None)


class Ids(Protocol):
    """Unguessable words: invites, references."""

    def word(self, size: int) -> str:
        """Return `size` characters of a-z and 2-7."""
        ...


ALPHABET = "abcdefghijklmnopqrstuvwxyz234567"


class RandomIds:
    """From the system's source of randomness."""

    def word(self, size: int) -> str:
        """Return an unguessable word."""
        return "".join(secrets.choice(ALPHABET) for _ in range(size))


class CountedIds:
    """Words in a fixed order, for stories and tests."""

    def __init__(self) -> None:
        self._count = 0

    def word(self, size: int) -> str:
        """Return the next word."""
        self._count += 1
        number, word = self._count * 2654435761 % (1 << 40), ""
        for _ in range(size):
            word, number = word + ALPHABET[number % 32], number // 32 or self._count + 7
        return word


def seeded_chance(seed: int, number: int) -> Generator:
    """Return a stream of chance that can be had again: stream `number` of a seed, whatever others are drawn from.

    Args:
        seed: Whole number. [0..]
        number: Which stream. [0..]
    """
    return default_rng(SeedSequence(seed, spawn_key=(number,)))


class Wake:
    """Rouses a loop; never loses a call that comes while the loop is working."""

    def __init__(self, changed: Callable[[], None] = lambda: None) -> None:
        self._event = asyncio.Event()
        self._changed = changed

    @property
    def pending(self) -> bool:
        """True while somebody called and the loop has not looked yet."""
        return self._event.is_set()

    def set(self) -> None:
        """Call the loop. Only from the loop's own thread."""
        self._event.set()
        self._changed()

    def clear(self) -> None:
        """Say that the loop is looking now."""
        self._event.clear()

    async def wait(self) -> None:
        """Wait for a call."""
        await self._event.wait()


class Activity:
    """Counts who is busy, so that a story knows when nothing more will happen by itself."""

    def __init__(self) -> None:
        self._busy = 0
        self._changed = asyncio.Event()

    def __enter__(self) -> None:
        self._busy += 1

    def __exit__(self, *_: object) -> None:
        self._busy -= 1
        self.changed()

    @property
    def busy(self) -> int:
        """How many are busy."""
        return self._busy

    def changed(self) -> None:
        """Have whoever waits look again."""
        self._changed.set()

    async def until(self, quiet: Callable[[], bool]) -> None:
        """Wait until nobody is busy and `quiet()` holds."""
        while self._busy or not quiet():
            self._changed.clear()
            await self._changed.wait()
