"""What the running program says of itself when it is asked from outside."""

import asyncio
from collections.abc import Mapping

from sqlalchemy.exc import SQLAlchemyError

from bot.assembly.house import House
from bot.monitoring.figures import Figures
from bot.schedule.clockwork import Clockwork
from bot.store.migrate import current, head
from bot.store.workload import Workload, workload_of
from bot.usecases.writer import Priority

LATELY_S = 120.0
"""The platform was heard lately: a fetch takes 65 s at most. After so long taps are lost too. Our proposal. [s]"""

ANSWER_S = 5.0
"""How long the store may take; a probe that waits longer gives up by itself. [s]"""


class Lookout:
    """Looks at a house and its clockwork when asked; changes nothing, and never raises because the store is away."""

    def __init__(self, house: House, clockwork: Clockwork) -> None:
        self._house = house
        self._clockwork = clockwork
        self._head = head()

    def alive(self) -> Mapping[str, bool]:
        """Return of every part whether it runs. One that waits for the platform to start lives."""
        parts = self._house.parts()
        if not parts:
            return {"starting": True}
        return {**parts, "tick": self._clockwork.runs} if self._house.leads else parts

    async def ready(self) -> Mapping[str, bool]:
        """Return whether the store is there, at this program's schema, and the platform was heard lately."""
        heard_s = self._age_s(self._house.way_in.good_at, self._house.known_at)
        try:
            async with asyncio.timeout(ANSWER_S):
                revision = await self._house.write(lambda: current(self._house.engine), Priority.DUE)
            database, schema = True, revision == self._head
        except (SQLAlchemyError, TimeoutError):
            database = schema = False
        return {
            "database": database,
            "schema": schema,
            "platform": heard_s is not None and heard_s <= LATELY_S,
        }

    async def figures(self) -> Figures:
        """Return the figures; without those of the store when it cannot be asked."""
        workload = await self._workload()
        oldest = workload.oldest_open if workload is not None else None
        open_age_s = 0.0
        if oldest is not None:
            open_age_s = max(0.0, (self._house.clock.now() - oldest).total_seconds())
        return Figures(
            leads=self._house.leads,
            taken=self._house.way_in.taken,
            answered=self._house.runner.answered,
            sends=dict(self._house.sends.outcomes),
            tick_late_s=self._clockwork.late_s,
            ticks_failed=self._clockwork.ticks_failed,
            fetch_age_s=self._age_s(self._house.way_in.good_at),
            open_age_s=open_age_s,
            workload=workload,
        )

    def _age_s(self, *instants: float | None) -> float | None:
        """Return how long ago the latest was, on the loop's own clock; None when there was none. [s]"""
        latest = max((at for at in instants if at is not None), default=None)
        return None if latest is None else asyncio.get_running_loop().time() - latest

    async def _workload(self) -> Workload | None:
        def look() -> Workload:
            with self._house.units.read(None) as unit:
                return workload_of(unit.connection)

        try:
            async with asyncio.timeout(ANSWER_S):
                return await self._house.write(look, Priority.DUE)
        except (SQLAlchemyError, TimeoutError):
            return None
