"""Has the platform bring updates: each is kept as a row and committed before it is confirmed with 200."""

import asyncio
import logging
import socket
from dataclasses import dataclass, field
from typing import Any

from telegram.error import BadRequest, InvalidToken, RetryAfter, TelegramError

from bot.inbound.intake import ALLOWED_UPDATES, batch_of
from bot.inbound.way_in import Trouble, WayIn, pause_of
from bot.inbound.webhook_door import AGAIN_AFTER_S, WebhookDoor

log = logging.getLogger(__name__)

LOOK_S = 30.0
"""How often the platform is asked whether all is well. When nobody writes nothing comes, and that is well too. [s]"""
FIRST_RETRY_S = 1.0
SLOWEST_RETRY_S = 30.0
KEEP_WITHIN_S = 20.0
"""How long keeping one update may take, before the platform is told to come again. Our proposal. [s]"""
CONNECTIONS = 20
"""How many updates the platform may bring at once; of one chat it brings one at a time. Our proposal."""


@dataclass(frozen=True, slots=True)
class Hook:
    """Where updates are brought.

    Attributes:
        url: Address that the platform is given; https.
        secret: What it shows each time.
        address: Address of this machine to listen on.
        port: Port to listen on; 0 for a free one.
    """

    url: str
    secret: str = field(repr=False)
    address: str = "127.0.0.1"
    port: int = 0


class Webhook(WayIn):
    """The one door that updates are brought to.

    Args:
        hook: Where.
        parts: What every way in is built from.
        named: The same.

    Attributes:
        port: Where it listens, once it is open.
    """

    def __init__(self, hook: Hook, *parts: Any, **named: Any) -> None:
        super().__init__(*parts, **named)
        self._hook = hook
        self._listening: socket.socket | None = None
        self._is_set = False
        self._seen = 0
        self._is_stuck = False
        self.port = hook.port

    @property
    def name(self) -> str:
        """What this part of the program is called."""
        return "webhook"

    def open(self) -> None:
        """Listen; whoever comes waits until it runs.

        Raises:
            OSError: Nothing can listen there.
        """
        self._opened()

    def _opened(self) -> socket.socket:
        if self._listening is None:
            family = socket.AF_INET6 if ":" in self._hook.address else socket.AF_INET
            self._listening = socket.create_server((self._hook.address, self._hook.port), family=family)
            # A socket made like this names no protocol, so that Nagle's delay stays on: 40 ms for every answer.
            self._listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self.port = self._listening.getsockname()[1]
        return self._listening

    def close(self) -> None:
        """Listen no more."""
        if self._listening is not None:
            self._listening.close()

    async def run(self) -> None:
        """Answer at the door, and see to it that the platform brings updates there, until cancelled.

        The webhook stays set when this ends: what comes meanwhile waits at the platform for the next start.

        Raises:
            InvalidToken: The platform refused the token.
        """
        listening = self._opened()
        async with WebhookDoor(self._take, self._hook.url, self._hook.secret, listening) as door:
            wait_s = FIRST_RETRY_S
            while True:
                try:
                    await (self._look() if self._is_set else self._begin())
                except RetryAfter as error:
                    await asyncio.sleep(pause_of(error) + 0.5)
                    continue
                except InvalidToken:
                    log.critical("token_refused")
                    raise
                except TelegramError as error:
                    self._failed(error, wait_s)
                    await asyncio.sleep(wait_s)
                    wait_s = min(wait_s * 2, SLOWEST_RETRY_S)
                    continue
                wait_s = FIRST_RETRY_S
                _tell_of(door)
                await asyncio.sleep(LOOK_S)

    def _failed(self, error: TelegramError, wait_s: float) -> None:
        # A refusal of what is asked is one of the address: there is nothing else in it that could be wrong.
        self.trouble = Trouble.ADDRESS if isinstance(error, BadRequest) else Trouble.PLATFORM
        log.warning("webhook_failed", extra={"wait_s": wait_s, "cause": type(error).__name__})

    async def _set(self) -> None:
        """Set the webhook; the platform then brings what waited."""
        await self._bot.set_webhook(
            self._hook.url,
            secret_token=self._hook.secret,
            allowed_updates=ALLOWED_UPDATES,
            max_connections=CONNECTIONS,
            drop_pending_updates=False,
        )

    async def _begin(self) -> None:
        await self._set()
        self._is_set = True
        with self._activity:
            await self._heard()

    async def _look(self) -> None:
        """Ask the platform whether it still brings updates here, and gets through."""
        found = await self._bot.get_webhook_info()
        was_stuck, seen = self._is_stuck, self._seen
        self._seen = self.taken
        self._is_stuck = found.pending_update_count > 0 and self.taken == seen
        if _plain(found.url) != _plain(self._hook.url):
            log.warning("webhook_replaced")
            self.trouble = Trouble.ANOTHER
            await self._set()
        elif self._is_stuck:
            # What came just before this look is on its way; what still waits at the next one does not get through.
            if was_stuck:
                self.trouble = self.trouble or Trouble.UNDELIVERED
                log.warning("webhook_undelivered", extra={"count": found.pending_update_count})
        else:
            with self._activity:
                await self._heard()

    async def _take(self, update: Any) -> bool:
        """Keep one update; False when it cannot be kept now. One that cannot even be kept is noted, and is done."""
        with self._activity:
            batch = batch_of([update], self._clock.now())
            if batch.unreadable:
                log.error("updates_unreadable", extra={"count": batch.unreadable})
                return True
            try:
                async with asyncio.timeout(KEEP_WITHIN_S):
                    is_kept = await self._kept(batch, AGAIN_AFTER_S)
            except TimeoutError:
                log.warning("intake_waits", extra={"wait_s": AGAIN_AFTER_S})
                self._store_is_away(batch)
                return False
            if is_kept:
                self._confirm(batch)
            return is_kept


def _plain(url: str) -> str:
    return url.rstrip("/").lower()


def _tell_of(door: WebhookDoor) -> None:
    """Tell the log of those who were turned away since the last look: maybe a proxy loses the header."""
    if door.turned_away:
        log.warning("webhook_turned_away", extra={"count": door.turned_away})
        door.turned_away = 0
