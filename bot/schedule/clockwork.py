"""Fires the tick and the work of the night. Truth is in the store: a tick that was missed is made good by the next."""

from apscheduler.schedulers.asyncio import AsyncIOScheduler

from bot.schedule.nightly import HOUR, Nightly
from bot.schedule.tick import Tick


class Clockwork:
    """Jobs in memory; started inside a running loop."""

    def __init__(self, tick: Tick, every_s: float, nightly: Nightly | None = None) -> None:
        self._scheduler = AsyncIOScheduler(
            timezone="UTC", job_defaults={"coalesce": True, "max_instances": 1, "misfire_grace_time": None}
        )
        self._scheduler.add_job(tick.run, "interval", seconds=every_s, id="tick")
        if nightly is not None:
            self._scheduler.add_job(nightly.run, "cron", hour=HOUR, id="nightly")
            self._scheduler.add_job(nightly.catch_up, id="catch up")

    def start(self) -> None:
        """Begin to fire."""
        self._scheduler.start()

    def stop(self) -> None:
        """Fire no more."""
        self._scheduler.shutdown(wait=False)
