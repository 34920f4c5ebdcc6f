"""Looks after what coaches must hear: sessions past their grace, pauses that end, digests."""

import asyncio
import logging
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import date, datetime, time, timedelta

from bot.store import outages, oversight
from bot.store.alerts import alerts_due_anywhere, next_alert_due
from bot.store.aways import Clocks, clocks_anywhere
from bot.store.units import Unit, Units
from bot.usecases import alerting, digest, misses, silence, travelling
from bot.usecases.runner import Runner
from bot.usecases.writer import Priority
from core.local_time import instant_of
from core.oversight.misses import grace_end
from core.oversight.week import last_hour, next_hour, week_key

log = logging.getLogger(__name__)

CONNECTED = timedelta(minutes=3)
"""Age of the last good fetch up to which clients can be heard: nobody is called silent while nobody can speak."""

LATEST = timedelta(days=3)
"""How late a digest still goes out after an outage. Our proposal."""

MATTERS = 50
"""Matters looked at again in one round; the rest wait for the next."""

TRIES = 3
"""How often a digest is tried before it waits for the next start of the program."""

Fetched = Callable[[], datetime | None]


class Rounds:
    """Asks who is past a grace, a pause or a digest's hour, and has it seen to; twice changes nothing."""

    def __init__(self, units: Units, runner: Runner) -> None:
        self._units = units
        self._runner = runner
        self._fetched: Fetched | None = None
        self._good: datetime | None = None
        self._failed: Counter[tuple[int, str]] = Counter()

    def attend(self, fetched: Fetched, before: datetime | None) -> None:
        """Count no silence as a miss that fell into an outage of the bot.

        Args:
            fetched: Says when the platform last answered a fetch; None before the first.
            before: When it last did before the program was started; None when that is not known.
        """
        self._fetched, self._good = fetched, before

    async def before_sending(self) -> None:
        """Settle what is past its grace and end pauses, before new cards go out."""
        if await self._is_connected():
            await self._settle()
        await self._end_pauses()
        await self._turn_clocks()
        await self._look_again()

    async def after_sending(self) -> None:
        """Send the digests that are due."""
        now = self._runner.clock.now()

        def look() -> list[tuple[int, date, datetime]]:
            with self._units.read(None) as house:
                return list(self._digests_due(house, now))

        for coach_id, on, due_at in await self._runner.write(look, Priority.DUE):
            await self._send_digest(coach_id, on, due_at)

    async def next_due(self) -> datetime | None:
        """Return when something here is due next."""
        now = self._runner.clock.now()

        def look() -> datetime | None:
            with self._units.read(None) as house:
                digests = (due_at for _, _, due_at in self._digests_due(house, now))
                return min((*_coming(house, now), *digests), default=None)

        return await self._runner.write(look, Priority.DUE)

    async def _is_connected(self) -> bool:
        """Return whether clients can be heard; an outage that has just ended spares what was open in it."""
        if self._fetched is None:
            return True
        now, good = self._runner.clock.now(), self._fetched()
        if good is None or now - good > CONNECTED:
            return False
        before, self._good = self._good, good
        if before is not None and good - before > CONNECTED:
            length = good - before

            def spare() -> None:
                with self._units.open(None) as house:
                    outages.spare(house.connection, good, _spared(house, length))

            await self._runner.write(spare, Priority.DUE)
        return True

    async def _settle(self) -> None:
        now = self._runner.clock.now()

        def look() -> list[oversight.OpenSession]:
            with self._units.read(None) as house:
                return [each for each, ends in _graces(house) if ends <= now]

        for each in await self._runner.write(look, Priority.DUE):
            command = misses.SettleSession(each.session_id)
            await self._runner.run_due(misses.settle_session, command, each.coach_id)

    async def _end_pauses(self) -> None:
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                found = oversight.pauses_anywhere(house.connection)
            return [
                (coach_id, client_id) for coach_id, client_id, on, zone in found if _begins(on, zone) <= now
            ]

        for coach_id, client_id in await self._runner.write(look, Priority.DUE):
            await self._runner.run_due(silence.end_pause, silence.EndPause(client_id), coach_id)

    async def _turn_clocks(self) -> None:
        """Turn the clocks of those who travel, and back; what is not yet to be turned is left as it is."""
        now = self._runner.clock.now()

        def look() -> list[Clocks]:
            with self._units.read(None) as house:
                found = clocks_anywhere(house.connection)
            return [each for each in found if travelling.next_turn(each).earliest <= now]

        for each in await self._runner.write(look, Priority.DUE):
            command = travelling.TurnClock(each.away_id)
            await self._runner.run_due(travelling.turn, command, each.coach_id)

    async def _look_again(self) -> None:
        """Look again at matters whose time has come: unseen ones, videos without an answer, blocks that end."""
        now = self._runner.clock.now()

        def look() -> list[tuple[int, int]]:
            with self._units.read(None) as house:
                return alerts_due_anywhere(house.connection, now, MATTERS)

        for coach_id, alert_id in await self._runner.write(look, Priority.DUE):
            await self._runner.run_due(alerting.due, alerting.AlertDue(alert_id), coach_id)

    async def _send_digest(self, coach_id: int, on: date, due_at: datetime) -> None:
        done = False
        try:
            # Off the writer's thread: it only reads, and drawing takes longer than a reply may wait.
            command = await asyncio.to_thread(digest.prepared, self._units, coach_id, on, due_at)
            done = await self._runner.run_due(digest.send_digest, command, coach_id)
        except Exception:
            log.exception("digest_failed", extra={"coach_id": coach_id})
        if not done:
            self._failed[coach_id, week_key(on)] += 1

    def _digests_due(self, house: Unit, now: datetime) -> Iterator[tuple[int, date, datetime]]:
        for hour in oversight.digest_hours(house.connection):
            on, due_at = last_hour(now, hour.zone, hour.weekday, hour.at)
            key = week_key(on)
            if now - due_at > LATEST or self._failed[hour.coach_id, key] >= TRIES:
                continue
            if oversight.is_queued(house.connection, hour.coach_id, key):
                continue
            if oversight.had_sessions(house.connection, hour.coach_id, due_at):
                yield hour.coach_id, on, due_at


def _begins(on: date, zone: str) -> datetime:
    return instant_of(on, time(0), zone)


def _graces(house: Unit) -> Iterator[tuple[oversight.OpenSession, datetime]]:
    """Return each open session with the end of its grace, as its coach has set it."""
    units: dict[int, Unit] = {}
    for each in oversight.open_anywhere(house.connection):
        unit = units.setdefault(each.coach_id, house.of(each.coach_id))
        yield each, grace_end(each.on, each.zone, unit.rules.policy(each.client_id))


def _spared(house: Unit, length: timedelta) -> list[int]:
    """Return the coaches for whose clients an outage of a length makes no misses."""
    return [
        each
        for each in outages.coaches_anywhere(house.connection)
        if length > timedelta(hours=house.of(each).rules.policy().outage_spares)
    ]


def _coming(house: Unit, now: datetime) -> Iterator[datetime]:
    for _, ends in _graces(house):
        yield ends
    for _, _, on, zone in oversight.pauses_anywhere(house.connection):
        yield _begins(on, zone)
    for clocks in clocks_anywhere(house.connection):
        due = travelling.next_turn(clocks)
        yield due.earliest if due.earliest > now else due.latest
    matter = next_alert_due(house.connection)
    if matter is not None:
        yield matter
    for hour in oversight.digest_hours(house.connection):
        yield next_hour(now, hour.zone, hour.weekday, hour.at)
