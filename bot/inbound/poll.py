"""Fetches updates: kept as rows and committed before the offset moves on."""

import asyncio
import contextlib
import logging
from collections.abc import Awaitable, Callable
from datetime import datetime, timedelta
from enum import StrEnum
from typing import Any

from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.clock import Activity, Clock, Wake
from bot.inbound.aloud import Aloud
from bot.inbound.fetching import FetchingBot
from bot.inbound.intake import ALLOWED_UPDATES, Batch, batch_of
from bot.store.units import Units
from bot.usecases.writer import Priority, Writer

log = logging.getLogger(__name__)

LONG_POLL_S = 50
PATIENCE_S = 15.0
"""How much longer than it was asked to wait the platform may take to answer a fetch. [s]"""
FIRST_RETRY_S = 1.0
SLOWEST_RETRY_S = 30.0
KEEP_AGAIN_S = 0.05
"""After so long what could not be kept is tried again, and then each time four times later. [s]"""
GAP_S = 120.0
"""Without a good fetch for longer than this, taps may have been lost: the platform drops them after 150 s."""


class Trouble(StrEnum):
    """Why nothing is taken in."""

    PLATFORM = "platform"
    """It answers no fetch."""
    ANOTHER = "another"
    """Another program fetches with the same token."""
    STORE = "store"
    """What was fetched cannot be kept."""


class Poll:
    """The one fetcher of updates."""

    def __init__(
        self,
        bot: FetchingBot,
        units: Units,
        write: Writer,
        clock: Clock,
        *,
        inbox_wake: Wake,
        activity: Activity,
        after_outage: Callable[[], Awaitable[None]],
        aloud: Aloud,
    ) -> None:
        self._bot = bot
        self._units = units
        self._write = write
        self._clock = clock
        self._wake = inbox_wake
        self._activity = activity
        self._after_outage = after_outage
        self._aloud = aloud
        self._good_at: float | None = None
        self._was_away = True
        self._acks: set[asyncio.Task[None]] = set()
        self.taken = 0
        """How many updates were kept; one that comes twice counts twice."""
        self.last_good: datetime | None = None
        """Instant of the last fetch that was answered; for whoever watches over the program."""
        self.trouble: Trouble | None = None
        """What keeps it from taking anything in just now."""

    @property
    def good_at(self) -> float | None:
        """When the last fetch was answered, on the loop's own clock; None before the first. [s]"""
        return self._good_at

    def fetched_before(self, instant: datetime | None) -> None:
        """Say when a fetch was last answered before this program started: after a quick restart no tap is lost."""
        away = self._clock.now() - instant if instant is not None else None
        self._was_away = away is None or not timedelta(0) <= away <= timedelta(seconds=GAP_S)

    async def run(self) -> None:
        """Fetch until cancelled.

        The first fetch asks for whatever is unconfirmed: ids can start anew after a quiet week, so the newest id
        seen is no offset to begin with. What comes twice is kept once.

        Raises:
            InvalidToken: The platform refused the token.
        """
        offset: int | None = None
        wait_s = FIRST_RETRY_S
        while True:
            try:
                raw = await self._fetch(offset)
            except RetryAfter as error:
                await asyncio.sleep(_seconds(error) + 0.5)
                continue
            except InvalidToken:
                log.critical("token_refused")
                raise
            except TelegramError as error:
                another = isinstance(error, Conflict)
                self.trouble = Trouble.ANOTHER if another else Trouble.PLATFORM
                log.warning(
                    "another_program_fetches" if another else "fetch_failed",
                    extra={"wait_s": wait_s, "cause": type(error).__name__},
                )
                await asyncio.sleep(wait_s)
                wait_s = min(wait_s * 2, SLOWEST_RETRY_S)
                continue
            wait_s = FIRST_RETRY_S
            with self._activity:
                offset = await self._take(raw, offset)
                await self._fetched_again()

    async def _fetched_again(self) -> None:
        # The network's own seconds count here, not the program's clock: taps are lost by the platform's time.
        at, before = asyncio.get_running_loop().time(), self._good_at
        self._good_at, self.last_good, self.trouble = at, self._clock.now(), None
        self._was_away |= before is not None and at - before > GAP_S
        if not self._was_away:
            return
        try:
            await self._after_outage()
        except Exception:
            log.exception("after_outage_failed")
        else:
            self._was_away = False

    async def _fetch(self, offset: int | None) -> Any:
        asked: dict[str, Any] = {"timeout": LONG_POLL_S, "limit": 100, "allowed_updates": ALLOWED_UPDATES}
        if offset is not None:
            asked["offset"] = offset
        return await self._bot.raw_updates(asked, read_timeout=LONG_POLL_S + PATIENCE_S)

    async def _take(self, raw: Any, offset: int | None) -> int | None:
        batch = batch_of(raw, self._clock.now())
        if batch.unreadable:
            log.error("updates_unreadable", extra={"count": batch.unreadable})
        if not batch.rows:
            if batch.unreadable:
                await asyncio.sleep(SLOWEST_RETRY_S)  # they will come again at once, and again
            return offset
        await self._keep(batch)
        self.taken += len(batch.rows)
        for tap in batch.taps:
            task = asyncio.create_task(self._acknowledge(tap))
            self._acks.add(task)
            task.add_done_callback(self._acks.discard)
        self._wake.set()
        return batch.next_offset

    async def _keep(self, batch: Batch) -> None:
        def add() -> None:
            with self._units.open(None) as house:
                house.inbox.add(batch.rows)

        wait_s = KEEP_AGAIN_S
        while True:
            try:
                # Not moving on until the rows are committed: the platform still has them, and so nothing is lost.
                return await self._write(add, Priority.SAFETY)
            except Exception:
                log.exception("intake_waits", extra={"wait_s": wait_s})
                self.trouble = Trouble.STORE
                self._aloud.begin(batch.rows)
            await asyncio.sleep(wait_s)
            wait_s = min(wait_s * 4, SLOWEST_RETRY_S)

    async def _acknowledge(self, tap: str) -> None:
        # The spinner on the client's button dies in seconds: one try, no retry, and nothing depends on it.
        with self._activity, contextlib.suppress(TelegramError):
            await self._bot.answer_callback_query(tap, read_timeout=5, connect_timeout=5)


def _seconds(error: RetryAfter) -> float:
    wait = error.retry_after
    return wait.total_seconds() if isinstance(wait, timedelta) else float(wait)
