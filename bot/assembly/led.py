"""What only the leading one of several processes on a database does; and what they tell one another."""

import asyncio
import contextlib
import logging
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Protocol

from bot.store.hail import HEARD, INBOX, OUTBOX, hail
from bot.usecases.undelivered import tell_of_doubts
from bot.usecases.writer import Priority

if TYPE_CHECKING:
    from bot.assembly.house import House

log = logging.getLogger(__name__)

HEARD_S = 10.0
"""The other processes are told as often that the platform was heard, at most. Our proposal. [s]"""


class Fired(Protocol):
    """What asks by the clock what is due."""

    def start(self, *, at_once: bool = False) -> None:
        """Begin to ask."""
        ...

    def stop(self) -> None:
        """Ask no more."""
        ...


class Led:
    """The sender, the tick, and the fetching where updates are fetched: begun with the lead, ended with it."""

    def __init__(self, house: "House", word: str) -> None:
        self._house = house
        self._word = word
        self._said_at: float | None = None
        self.fired: Fired | None = None
        """What asks by the clock what is due."""
        self.tasks: list[asyncio.Task[None]] = []
        self.asides: set[asyncio.Task[None]] = set()

    def lead(self) -> None:
        """Begin with what only one process does: first what the last one left in flight, and a tick at once."""
        house = self._house
        house.sender = house.make_sender()
        house.begin(self.tasks, "sender", house.sender.run())
        self._aside(lambda: tell_of_doubts(house.units, house.clock.now()))
        if house.way_in.is_led:
            house.begin(self.tasks, house.way_in.name, house.way_in.run())
        if self.fired is not None:
            self.fired.start(at_once=True)

    async def stand_by(self) -> None:
        """End what only one process does; calls in flight may end first."""
        if self.fired is not None:
            self.fired.stop()
        led, self.tasks = self.tasks, []
        await ended(led)

    def hailed(self, kind: str | None) -> None:
        """Hear of rows that another process has added, or that the platform was heard there."""
        if kind == HEARD:
            self._house.way_in.heard_elsewhere(is_seen_to=not self._house.leads)
        if kind in (INBOX, None):
            self._house.inbox_wake.set()
        if kind in (OUTBOX, None):
            self._house.outbox_wake.set()

    def roused(self) -> None:
        """Look again at what goes out."""
        self._house.outbox_wake.set()

    async def after_outage(self) -> bool:
        """Post anew what taps may have been lost of; False where that is for the leading process to do."""
        if not self._house.leads:
            return False
        await self._house.tick.after_outage()
        return True

    def heard(self) -> None:
        """Tell the other processes now and then that the platform was heard."""
        now = asyncio.get_running_loop().time()
        if self._house.leading is None or (self._said_at is not None and now - self._said_at < HEARD_S):
            return
        self._said_at = now

        def say() -> None:
            with self._house.units.open(None) as house:
                hail(house.connection, self._word, HEARD)

        self._aside(say)

    def _aside(self, work: Callable[[], None]) -> None:
        """Do something beside the rest that may fail; it is done again on another occasion."""

        async def tried() -> None:
            try:
                await self._house.write(work, Priority.DUE)
            except Exception:
                log.exception("aside_failed")

        task = asyncio.create_task(tried())
        self.asides.add(task)
        task.add_done_callback(self.asides.discard)


async def ended(tasks: Sequence[asyncio.Task[None]]) -> None:
    """End tasks, the last one first."""
    for task in reversed(tasks):
        task.cancel()
    for task in tasks:
        with contextlib.suppress(asyncio.CancelledError, Exception):
            await task
