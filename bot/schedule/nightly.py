"""What is done once a night, at 03:00 UTC: a backup, and forgetting.

Forgotten are the words of messages that were failed on or have arrived, and what was said to chats of nobody any more.
"""

import asyncio
import logging
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from bot.clock import Clock
from bot.store.backup import NotBackedUp, back_up_into, backups_in, made_at
from bot.store.engine import forget_log
from bot.store.erasing import drop_of_nobody, drop_words
from bot.store.heartbeat import Heartbeat, Mark
from bot.store.units import Units
from bot.usecases.writer import Priority, Writer

log = logging.getLogger(__name__)

HOUR = 3
"""Hour of the night in UTC. [h]"""

FAILED_KEPT = timedelta(days=7)
"""How long the words of a message that the program failed on are kept, to be looked into. Our proposal."""

SENT_KEPT = timedelta(days=2)
"""How long the words of a message that arrived are kept, to be looked into. Our proposal."""

OVERDUE = timedelta(hours=26)
"""Age of the newest backup from which one was missed: a night and what a backup may take. Our proposal."""


@dataclass(frozen=True, slots=True)
class Keeping:
    """Where backups go. Only for SQLite.

    Attributes:
        url: The database.
        folder: Where to.
        keep: How many.
    """

    url: str = field(repr=False)
    folder: Path
    keep: int


class Nightly:
    """The work of the night; neither half holds up the other."""

    def __init__(
        self, units: Units, write: Writer, clock: Clock, heartbeat: Heartbeat, keeping: Keeping | None
    ) -> None:
        self._units = units
        self._write = write
        self._clock = clock
        self._heartbeat = heartbeat
        self._keeping = keeping

    async def run(self) -> None:
        """Do the work of a night."""
        await self._forget()
        if self._keeping is not None:
            await self._back_up(self._keeping)

    async def catch_up(self) -> None:
        """Do it now where the program did not run at night."""
        keeping = self._keeping
        if keeping is None or newest_age(keeping.folder, self._clock.now(), or_else=OVERDUE) >= OVERDUE:
            await self.run()

    async def _forget(self) -> None:
        before = self._clock.now() - FAILED_KEPT

        def drop() -> int:
            with self._units.open(None) as house:
                drop_of_nobody(house.connection)
                drop_words(house.connection, self._clock.now() - SENT_KEPT)
                return house.inbox.drop_payloads(before)

        try:
            count = await self._write(drop, Priority.DUE)
            await asyncio.to_thread(forget_log, self._units.engine)
        except Exception:
            log.exception("failed_messages_not_forgotten")
        else:
            log.info("failed_messages_forgotten", extra={"count": count})

    async def _back_up(self, keeping: Keeping) -> None:
        # In a thread of its own: it only reads, for as long as it takes, and the writers go on.
        now = self._clock.now()
        try:
            await asyncio.to_thread(back_up_into, keeping.url, keeping.folder, now, keeping.keep)
        except Exception as error:
            cause = error.cause if isinstance(error, NotBackedUp) else type(error).__name__
            log.exception("backup_failed", extra={"cause": cause})
            self._heartbeat.set(Mark.BACKUP_FAILED, now)
        else:
            log.info("backup_made")
            self._heartbeat.set(Mark.BACKUP_FAILED, None)


def newest_age(folder: Path, now: datetime, or_else: timedelta) -> timedelta:
    """Return the age of the newest backup in `folder`; `or_else` where there is none."""
    made = [at for at in map(made_at, backups_in(folder)) if at is not None]
    return now - made[0] if made else or_else
