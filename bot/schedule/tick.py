"""What is due: indexed questions, and one transaction for each answer."""

import logging
from datetime import datetime, timedelta

from bot.store.sessions import due_anywhere, next_due, running_anywhere
from bot.store.units import Units
from bot.usecases import layout, reposting
from bot.usecases.runner import Runner
from bot.usecases.sending import SendSession, send_session
from bot.usecases.writer import Priority

log = logging.getLogger(__name__)

SLICE = 50
"""Sessions asked for at once; between slices replies go first."""

AHEAD = timedelta(days=7)
"""Sessions are laid out again when fewer days than this are left of what is laid."""


class Tick:
    """Finds what is due and has it done. Twice, or in two processes, changes nothing: every effect has a unique key."""

    def __init__(self, units: Units, runner: Runner) -> None:
        self._units = units
        self._runner = runner

    async def run(self) -> None:
        """Do everything that is due now."""
        with self._runner.activity:
            await self._lay_out()
            while await self._send_slice():
                pass

    async def _send_slice(self) -> bool:
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return due_anywhere(house.connection, now, SLICE)

        due = await self._runner.write(look, Priority.DUE)
        done = [
            await self._runner.run_due(send_session, SendSession(session_id), coach_id)
            for coach_id, session_id in due
        ]
        return len(due) == SLICE and any(done)

    async def _lay_out(self) -> None:
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return layout.running_short(house.connection, (now + AHEAD).date())

        for coach_id, client_id in await self._runner.write(look, Priority.DUE):
            await self._runner.run_due(layout.laid_out, layout.LayOut(client_id), coach_id)

    async def after_outage(self) -> None:
        """Post the cards of running sessions anew: taps may have been lost."""
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return running_anywhere(house.connection, now - reposting.RUNNING)

        with self._runner.activity:
            for coach_id, session_id in await self._runner.write(look, Priority.DUE):
                await self._runner.run_due(reposting.repost, reposting.Repost(session_id), coach_id)

    async def next_due(self) -> datetime | None:
        """Return when the next session is due; for a story, which moves its clock there."""

        def look() -> datetime | None:
            with self._units.read(None) as house:
                return next_due(house.connection)

        return await self._runner.write(look, Priority.DUE)
