"""Fetches updates: kept as rows and committed before the offset moves on."""

import asyncio
import logging
from typing import Any

from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.inbound.intake import ALLOWED_UPDATES, Batch, batch_of
from bot.inbound.way_in import Trouble, WayIn, pause_of

log = logging.getLogger(__name__)

LONG_POLL_S = 50
PATIENCE_S = 15.0
"""How much longer than it was asked to wait the platform may take to answer a fetch. [s]"""
FIRST_RETRY_S = 1.0
SLOWEST_RETRY_S = 30.0
KEEP_AGAIN_S = 0.05
"""After so long what could not be kept is tried again, and then each time four times later. [s]"""


class Poll(WayIn):
    """The one fetcher of updates."""

    is_led = True

    @property
    def name(self) -> str:
        """What this part of the program is called."""
        return "poll"

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
                await asyncio.sleep(pause_of(error) + 0.5)
                continue
            except InvalidToken:
                log.critical("token_refused")
                raise
            except TelegramError as error:
                await self._failed(error, wait_s)
                wait_s = min(wait_s * 2, SLOWEST_RETRY_S)
                continue
            wait_s = FIRST_RETRY_S
            with self._activity:
                offset = await self._take(raw, offset)
                await self._heard()

    async def _failed(self, error: TelegramError, wait_s: float) -> None:
        another = isinstance(error, Conflict)
        self.trouble = Trouble.ANOTHER if another else Trouble.PLATFORM
        log.warning(
            "another_program_fetches" if another else "fetch_failed",
            extra={"wait_s": wait_s, "cause": type(error).__name__},
        )
        if another and "webhook" in error.message.lower():
            await self._remove_webhook()
        await asyncio.sleep(wait_s)

    async def _remove_webhook(self) -> None:
        """Have the platform forget the webhook that keeps us from fetching; what waits for it is fetched instead."""
        try:
            await self._bot.delete_webhook(drop_pending_updates=False)
        except TelegramError as error:
            log.warning("webhook_not_removed", extra={"cause": type(error).__name__})
        else:
            log.warning("webhook_removed")

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
        self._confirm(batch)
        return batch.next_offset

    async def _keep(self, batch: Batch) -> None:
        wait_s = KEEP_AGAIN_S
        # Not moving on until the rows are committed: the platform still has them, and so nothing is lost.
        while not await self._kept(batch, wait_s):
            await asyncio.sleep(wait_s)
            wait_s = min(wait_s * 4, SLOWEST_RETRY_S)
