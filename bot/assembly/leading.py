"""This process among those that serve one database: it pings, leads or stands by, and shares the inbox with them.

One leads: it alone sends, ticks, and fetches where updates are fetched. The ping is driven by the loop itself, so that
a loop which hangs loses the lead as a process does that is dead.
"""

import asyncio
import logging
from collections.abc import Callable, Collection
from datetime import datetime
from typing import Any

from bot.assembly.led import Led
from bot.clock import seconds_going_on
from bot.store.engine import AlreadyRunning, passing
from bot.store.hail import Ear
from bot.store.tether import Spans, Taken, Tether, Untied
from bot.usecases.writer import Priority, Writer

log = logging.getLogger(__name__)


class Leading:
    """Keeps a process tied to the others.

    Args:
        url: The database.
        origin: Word of this process alone.
        led: What it leads with.
        spans: When a process is taken for lost.
        time: Seconds that nobody can set. [s]
    """

    def __init__(
        self,
        url: str,
        origin: str,
        led: Led,
        spans: Spans,
        time: Callable[[], float] = seconds_going_on,
    ) -> None:
        self._led = led
        self._spans = spans
        self._time = time
        self._loop = asyncio.get_running_loop()
        self._tether = Tether(url, spans)
        self._tied = Writer()
        self._ear = Ear(url, origin, self._hear)
        self._good_at: float | None = None
        self._refused_at: float | None = None
        self._ending: asyncio.Task[None] | None = None
        self._retires = False
        self._has_said = False
        self.is_tied = False
        """Whether the database was there at the last ping."""
        self.again_s = spans.again_s
        self.leads = False
        """Whether this process leads, as far as it knows."""

    def is_safe(self) -> bool:
        """Return whether it leads, and has heard so lately enough that no other can."""
        good_at = self._good_at
        return self.leads and good_at is not None and self._time() - good_at < self._spans.safe_s

    def may_claim(self, connection: Any) -> bool:
        """Return whether the server says so too, asked in the transaction of a claim."""
        return self.is_safe() and self._tether.holds_lead(connection)

    async def take(self, now: datetime, busy: Collection[int], ended: Collection[int]) -> Taken:
        """Take the next row of the inbox, and its chat, letting go of the chats that have ended."""
        try:
            return await self._tied(lambda: self._tether.take(now, busy, ended), Priority.REPLY)
        except Untied:
            return Taken(None, None, left_out=True)
        except Exception as error:
            if not passing(error):
                raise
            return Taken(None, None, left_out=True)  # the next ping says so, and ties it anew

    async def run(self) -> None:
        """Ping until cancelled; then let go, so that another leads at once.

        Raises:
            AlreadyRunning: Somebody needs the database alone, and not only for a moment.
        """
        self._ear.start()
        try:
            while True:
                is_tied = await self._round()
                await asyncio.sleep(self._spans.ping_s if is_tied else self._spans.again_s)
        finally:
            await self._let_go()

    def retire(self) -> None:
        """Keep what it has, and lead no more anew: the process ends."""
        self._retires = True

    async def _round(self) -> bool:
        """Ping once; False when the connection is lost."""
        began = self._time()
        # Asked only when it neither leads nor ends: a lead that was lost and won again is another one.
        wants = not (self.leads or self._retires or (self._ending is not None and not self._ending.done()))
        asked = asyncio.ensure_future(self._tied(lambda: self._tether.ping(wants=wants), Priority.SAFETY))
        while not asked.done():
            await asyncio.wait({asked}, timeout=self._spans.safe_s)
            if not asked.done():
                self._leave()
                self._tether.cut()
        try:
            leads = asked.result()
        except AlreadyRunning:
            self._leave()
            self.is_tied = False
            if self._is_refused_for_good():
                raise
            return False
        except Exception as error:  # noqa: BLE001  (whatever keeps the server from answering)
            log.warning("line_lost", extra={"cause": type(error).__name__})
            self._leave()
            self.is_tied = False
            return False
        was_safe, self._good_at, self._refused_at = self.is_safe(), began, None
        if leads and not self.leads:
            if not self._retires:
                self._lead()
        elif self.leads and not leads:
            self._leave()
        elif leads and not was_safe:
            self._led.roused()
        elif not leads and not self._has_said:
            log.info("stands_by")
        self._has_said = self.is_tied = True
        return True

    def _is_refused_for_good(self) -> bool:
        # After the server was restarted everybody ties anew, and a process that starts just then has it alone first.
        now = self._time()
        if self._refused_at is None:
            self._refused_at = now
            log.warning("line_refused")
        return now - self._refused_at >= self._spans.alone_s

    def _lead(self) -> None:
        self.leads = True
        log.info("leads")
        if not self._tether.ends_by_itself:
            log.warning("lead_outlives_a_halt")
        self._led.lead()

    def _leave(self) -> None:
        if not self.leads:
            return
        self.leads = False
        log.warning("stands_by")
        self._ending = asyncio.create_task(self._led.stand_by(), name="stand by")

    def _hear(self, kind: str | None) -> None:
        # Called in the ear's own thread, which may outlive the loop by a moment.
        if not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._led.hailed, kind)

    async def _let_go(self) -> None:
        self.leads = False
        if self._ending is not None:
            await asyncio.wait({self._ending})
        self._tether.cut()
        await asyncio.to_thread(self._ear.close)
        await self._tied(self._tether.close, Priority.SAFETY)
        self._tied.close()
