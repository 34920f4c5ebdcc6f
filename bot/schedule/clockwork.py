"""Fires the tick and the work of the night. Truth is in the store: a tick that was missed is made good by the next.

The tick goes by the loop's own seconds: a machine whose clock is set back by hours must not stand still for hours.
"""

import asyncio
import logging

from apscheduler.schedulers.asyncio import AsyncIOScheduler

from bot.schedule.nightly import HOUR, Nightly
from bot.schedule.tick import Tick

log = logging.getLogger(__name__)


class Clockwork:
    """Jobs in memory; started inside a running loop."""

    def __init__(self, tick: Tick, every_s: float, nightly: Nightly | None = None) -> None:
        self._tick = tick
        self._every_s = every_s
        self._ticking: asyncio.Task[None] | None = None
        self.late_s = 0.0
        """How much later than it should the last tick began. [s]"""
        self.ticks_failed = 0
        self._nightly = nightly
        self._scheduler = self._jobs()

    def _jobs(self) -> AsyncIOScheduler:
        scheduler = AsyncIOScheduler(
            timezone="UTC", job_defaults={"coalesce": True, "max_instances": 1, "misfire_grace_time": None}
        )
        if self._nightly is not None:
            scheduler.add_job(self._nightly.run, "cron", hour=HOUR, id="nightly")
            scheduler.add_job(self._nightly.catch_up, id="catch up")
        return scheduler

    def start(self, *, at_once: bool = False) -> None:
        """Begin to fire; again after a stop too.

        Args:
            at_once: Whether the first tick is now: whoever takes over does not know when the last one was.
        """
        self._ticking = asyncio.create_task(self._tick_on(0.0 if at_once else self._every_s), name="tick")
        self._scheduler.start()

    @property
    def runs(self) -> bool:
        """Return whether it fires."""
        return self._ticking is not None and not self._ticking.done()

    async def _tick_on(self, wait_s: float) -> None:
        time = asyncio.get_running_loop().time
        began_at = time()
        while True:
            await asyncio.sleep(wait_s)
            self.late_s, began_at = max(0.0, time() - began_at - wait_s), time()
            wait_s = self._every_s
            try:
                await self._tick.run()
            except Exception:
                self.ticks_failed += 1
                log.exception("tick_failed")

    def stop(self) -> None:
        """Fire no more."""
        if self._ticking is not None:
            self._ticking.cancel()
        if self._scheduler.running:
            self._scheduler.shutdown(wait=False)
            self._scheduler = self._jobs()
