"""What is due: indexed questions, and one transaction for each answer."""

import logging
from datetime import datetime, timedelta

from bot.clock import Going
from bot.schedule.rounds import Rounds
from bot.store.contracts import contracts_due_anywhere, next_contract_due
from bot.store.due import (
    due_anywhere,
    never_shown_anywhere,
    next_due,
    next_prep_due,
    preps_due_anywhere,
    running_anywhere,
)
from bot.store.due_questions import next_question_due, questions_due_anywhere
from bot.store.reminders import next_reminder_due, reminders_due_anywhere
from bot.store.set_back import alerts_set_back, sessions_set_back
from bot.store.units import Units
from bot.usecases import layout, reposting, undelivered
from bot.usecases.asking import Ask, ask
from bot.usecases.contract_end import ContractEnds, tell_end
from bot.usecases.daily_card import SendPrep, send_prep
from bot.usecases.reminding import Remind, remind
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
        self.rounds = Rounds(units, runner)
        self._going = Going()

    async def run(self) -> None:
        """Do everything that is due now."""
        with self._runner.activity:
            await self._follow_the_clock()
            await self._settle_unshown()
            await self.rounds.before_sending()
            await self._lay_out()
            await self._send()
            await self._send_preps()
            await self._ask()
            await self._remind()
            await self.rounds.after_sending()

    async def _follow_the_clock(self) -> None:
        now = self._runner.clock.now()
        seen = self._going.back_from(now)
        if seen is not None:
            await self._runner.write(lambda: sessions_set_back(self._units, seen, now), Priority.DUE)
            await self._runner.write(lambda: alerts_set_back(self._units, seen, now), Priority.DUE)

    async def _send(self) -> None:
        """Send what is due, a slice at a time; what fails waits for the next tick and holds nobody up."""
        failed: set[int] = set()
        more = True
        while more:
            now = self._runner.clock.now()

            def look(now: datetime = now) -> list[tuple[int, int]]:
                with self._units.read(None) as house:
                    return due_anywhere(house.connection, now, SLICE + len(failed))

            found = await self._runner.write(look, Priority.DUE)
            due = [each for each in found if each[1] not in failed]
            for coach_id, session_id in due:
                if not await self._runner.run_due(send_session, SendSession(session_id), coach_id):
                    failed.add(session_id)
            more = len(due) >= SLICE

    async def _send_preps(self) -> None:
        """Send the daily preps that are due, after the cards, so that a card of the same day is seen."""
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return preps_due_anywhere(house.connection, now, SLICE)

        for coach_id, prep_id in await self._runner.write(look, Priority.DUE):
            await self._runner.run_due(send_prep, SendPrep(prep_id), coach_id)

    async def _ask(self) -> None:
        """Ask what is due, after the cards, so that a question sees what the day has brought already."""
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return questions_due_anywhere(house.connection, now, SLICE)

        for coach_id, question_id in await self._runner.write(look, Priority.DUE):
            await self._runner.run_due(ask, Ask(question_id), coach_id)

    async def _remind(self) -> None:
        """Remind coaches of what they asked for, and of contracts that end."""
        now = self._runner.clock.now()

        def look() -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
            with self._units.read(None) as house:
                connection = house.connection
                return (
                    reminders_due_anywhere(connection, now, SLICE),
                    contracts_due_anywhere(connection, now, SLICE),
                )

        reminders, contracts = await self._runner.write(look, Priority.DUE)
        for coach_id, reminder_id in reminders:
            await self._runner.run_due(remind, Remind(reminder_id), coach_id)
        for coach_id, contract_id in contracts:
            await self._runner.run_due(tell_end, ContractEnds(contract_id), coach_id)

    async def _settle_unshown(self) -> None:
        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return never_shown_anywhere(house.connection, undelivered.SESSION_CARDS)

        for coach_id, session_id in await self._runner.write(look, Priority.DUE):
            await self._runner.run_due(undelivered.never_shown, undelivered.NeverShown(session_id), coach_id)

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
        """Return when something is due next; for a story, which moves its clock there."""

        def look() -> datetime | None:
            with self._units.read(None) as house:
                connection = house.connection
                due = (
                    next_due(connection),
                    next_prep_due(connection),
                    next_question_due(connection),
                    next_reminder_due(connection),
                    next_contract_due(connection),
                )
                return min((when for when in due if when is not None), default=None)

        found = [await self._runner.write(look, Priority.DUE), await self.rounds.next_due()]
        return min((when for when in found if when is not None), default=None)
