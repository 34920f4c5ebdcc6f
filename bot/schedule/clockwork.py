"""Fires the tick. Truth is in the store: a tick that was missed is made good by the next."""

from apscheduler.schedulers.asyncio import AsyncIOScheduler

from bot.schedule.tick import Tick


class Clockwork:
    """One in-memory job; started inside a running loop."""

    def __init__(self, tick: Tick, every_s: float) -> None:
        self._scheduler = AsyncIOScheduler(
            timezone="UTC", job_defaults={"coalesce": True, "max_instances": 1, "misfire_grace_time": None}
        )
        self._scheduler.add_job(tick.run, "interval", seconds=every_s, id="tick")

    def start(self) -> None:
        """Begin to fire."""
        self._scheduler.start()

    def stop(self) -> None:
        """Fire no more."""
        self._scheduler.shutdown(wait=False)
