"""What is said without a row: the fixed text of a stop sign, while the database takes nothing or nobody sends.

Everything else waits until it can be kept. Somebody who writes of chest pain must not wait for space on a disk, nor for
another program that holds the database's lock, nor until another process has taken over from one that died, so the
fixed text goes out past the queue. It says nothing of a plan on hold or of a coach who was told, since neither may be
done yet: in the end the sign is handled like any other, and its text comes a second time.
"""

import asyncio
import functools
import json
import logging
from collections.abc import Iterable

from telegram.constants import ParseMode
from telegram.error import TelegramError

from bot.clock import Activity, Clock
from bot.inbound.fetching import FetchingBot
from bot.inbound.intake import words_of
from bot.render.safety import stop_text
from bot.store.inbox import InboxRow, NewUpdate
from bot.store.units import Units
from core.checkin.stop_signs import scan

log = logging.getLogger(__name__)

TRIES = 2
"""How often it is said where nobody knows whether it arrived. Twice is better than never."""

KNOWN_WITHIN_S = 1.0
"""How long it may take to read who wrote; after that it is said to whoever it is. Our proposal. [s]"""

URGENT = 2
"""Urgency of a stop sign."""

SAY_WITHOUT_S = 3.0
"""How long the text of a stop sign may wait before it is said without a row: it has 5 s. Our proposal. [s]"""


SAY_FOR_ANOTHER_S = 4.0
"""The same where the process that kept the sign is another one, which may have died. Our proposal. [s]"""


class Aloud:
    """Says the fixed text of stop signs that cannot be kept, settled or sent, once each."""

    def __init__(self, bot: FetchingBot, units: Units, activity: Activity, clock: Clock) -> None:
        self._bot = bot
        self._units = units
        self._activity = activity
        self._clock = clock
        self._watches: dict[int, asyncio.Task[None]] = {}
        self._tries: dict[int, int] = {}
        self.saying: dict[int, asyncio.Task[None]] = {}
        """What is being said, by update."""

    def begin(self, rows: Iterable[NewUpdate | InboxRow]) -> None:
        """Begin to say what the urgent ones among some updates call for; what was said before is not said again."""
        for row in rows:
            tries = self._tries.get(row.update_id, 0)
            if row.urgency == URGENT and tries < TRIES and row.update_id not in self.saying:
                self._tries[row.update_id] = tries + 1
                task = asyncio.create_task(self._say(row), name=f"aloud {row.update_id}")
                self.saying[row.update_id] = task
                task.add_done_callback(functools.partial(self._said, row.update_id))

    def watch(self, rows: Iterable[NewUpdate | InboxRow], after_s: float | None = None) -> None:
        """Begin to watch over the urgent ones among rows that are kept: what waits still is said.

        Args:
            rows: The rows.
            after_s: When it is looked at; `SAY_WITHOUT_S` for whoever is the first to know of it. [s]
        """
        wait_s = SAY_WITHOUT_S if after_s is None else after_s
        for row in rows:
            if row.urgency == URGENT and row.update_id not in self._watches:
                task = asyncio.create_task(self._watched(row, wait_s), name=f"watch {row.update_id}")
                self._watches[row.update_id] = task
                task.add_done_callback(functools.partial(self._watched_over, row.update_id))

    def close(self) -> None:
        """Watch over nothing any more."""
        for task in self._watches.values():
            task.cancel()

    def _watched_over(self, update_id: int, _: "asyncio.Task[None]") -> None:
        del self._watches[update_id]

    async def _watched(self, row: NewUpdate | InboxRow, wait_s: float) -> None:
        await asyncio.sleep(wait_s)
        if await self._waits(row):
            self.begin([row])

    async def _waits(self, row: NewUpdate | InboxRow) -> bool:
        """Return whether a sign is not handled, or its text not begun to be sent; True when that cannot be read."""

        def look() -> bool:
            with self._units.read(None) as house:
                return house.inbox.is_open(row.update_id) or (
                    row.chat_id is not None and house.outbox.safety_waits(row.chat_id, self._clock.now())
                )

        try:
            async with asyncio.timeout(KNOWN_WITHIN_S):
                return await asyncio.to_thread(look)
        except Exception:
            log.exception("sign_unknown", extra={"update_id": row.update_id})
            return True

    def _said(self, update_id: int, _: "asyncio.Task[None]") -> None:
        del self.saying[update_id]

    async def _say(self, row: NewUpdate | InboxRow) -> None:
        with self._activity:
            raw = json.loads(row.payload or "{}")
            sign = scan(words_of(raw.get(row.kind)) or "")
            if sign is None or row.chat_id is None or await self._is_coach(row.user_id):
                return
            text = stop_text(sign.urgency, known=False).html
            try:
                await self._bot.send_message(row.chat_id, text, parse_mode=ParseMode.HTML)
            except TelegramError:
                log.warning("stop_sign_not_said", extra={"update_id": row.update_id})
            else:
                self._tries[row.update_id] = TRIES
                log.warning("stop_sign_said_without_row", extra={"update_id": row.update_id})

    async def _is_coach(self, user_id: int | None) -> bool:
        """Return whether a coach wrote, whose words are no sign; False when that cannot be read either."""

        def look() -> bool:
            with self._units.read(None) as house:
                account = house.accounts.find(user_id or 0)
                return account is not None and account.role == "coach"

        try:
            # Beside the writer, which may be what waits: SQLite lets one read while another holds its lock.
            async with asyncio.timeout(KNOWN_WITHIN_S):
                return await asyncio.to_thread(look)
        except Exception:
            log.exception("coach_unknown")
            return False
