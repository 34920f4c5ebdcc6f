"""What every way in does alike: an update is kept before it is confirmed; when the platform was last heard."""

import asyncio
import contextlib
import logging
from abc import ABC, abstractmethod
from collections.abc import Awaitable, Callable
from datetime import datetime, timedelta
from enum import StrEnum

from telegram.error import RetryAfter, TelegramError

from bot.clock import Activity, Clock, Wake
from bot.inbound.aloud import SAY_WITHOUT_S, Aloud
from bot.inbound.fetching import FetchingBot
from bot.inbound.intake import Batch
from bot.store.units import Units
from bot.usecases.writer import Priority, Writer

log = logging.getLogger(__name__)

GAP_S = 120.0
"""When nothing good came for longer than this, taps may have been lost: the platform drops them after 150 s."""


class Trouble(StrEnum):
    """Why nothing is taken in."""

    PLATFORM = "platform"
    """It answers nothing."""
    ANOTHER = "another"
    """Another program fetches with the same token, or has updates brought to itself."""
    STORE = "store"
    """What came cannot be kept."""
    ADDRESS = "address"
    """The platform takes no webhook at the address that was set."""
    UNDELIVERED = "undelivered"
    """The platform cannot bring what waits: it does not get through to the webhook."""


def _nobody_asks() -> None:
    """What is told where nobody wants to know."""


class WayIn(ABC):
    """The one way in of a program: it fetches updates, or has them brought."""

    def __init__(
        self,
        bot: FetchingBot,
        units: Units,
        write: Writer,
        clock: Clock,
        *,
        inbox_wake: Wake,
        activity: Activity,
        after_outage: Callable[[], Awaitable[bool | None]],
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
        self.on_heard: Callable[[], None] = _nobody_asks
        """Told whenever the platform was heard here."""
        self.taken = 0
        """How many updates were kept; one that comes twice counts twice."""
        self.last_good: datetime | None = None
        """Instant at which the platform was last heard, all being well; for whoever watches over the program."""
        self.trouble: Trouble | None = None
        """What keeps it from taking anything in just now."""

    is_led = False
    """Whether only one process at a time may use it."""

    @property
    @abstractmethod
    def name(self) -> str:
        """What this part of the program is called."""

    @abstractmethod
    async def run(self) -> None:
        """Take updates in until cancelled.

        Raises:
            telegram.error.InvalidToken: The platform refused the token.
        """

    def open(self) -> None:  # noqa: B027  (a fetcher needs nothing)
        """Take hold of what it needs of this machine.

        Raises:
            OSError: Somebody else has it.
        """

    def close(self) -> None:  # noqa: B027  (the same)
        """Let go of what was taken hold of."""

    @property
    def good_at(self) -> float | None:
        """When the platform was last heard, on the loop's own clock; None before the first time. [s]"""
        return self._good_at

    def fetched_before(self, instant: datetime | None) -> None:
        """Say when it was last heard before this program started: after a quick restart no tap is lost."""
        away = self._clock.now() - instant if instant is not None else None
        self._was_away = away is None or not timedelta(0) <= away <= timedelta(seconds=GAP_S)

    def heard_elsewhere(self, *, is_seen_to: bool) -> None:
        """Note that another process on the same database heard the platform.

        Args:
            is_seen_to: Whether others see to what follows an outage.
        """
        at, before = asyncio.get_running_loop().time(), self._good_at
        self._good_at, self.last_good = at, self._clock.now()
        if is_seen_to:
            self._was_away = False
        else:
            self._was_away |= before is not None and at - before > GAP_S

    async def _heard(self) -> None:
        """Note that the platform was heard and all is well."""
        # The network's own seconds count here, not the program's clock: taps are lost by the platform's time.
        at, before = asyncio.get_running_loop().time(), self._good_at
        self._good_at, self.last_good, self.trouble = at, self._clock.now(), None
        self._was_away |= before is not None and at - before > GAP_S
        self.on_heard()
        if not self._was_away:
            return
        try:
            # False: it is for another process to do.
            self._was_away = await self._after_outage() is False
        except Exception:
            log.exception("after_outage_failed")

    async def _kept(self, batch: Batch, wait_s: float) -> bool:
        """Keep a batch; False when the store does not take it, and it will be tried again after `wait_s`. [s]"""

        def add() -> None:
            with self._units.open(None) as house:
                house.inbox.add(batch.rows)

        keeping = asyncio.ensure_future(self._write(add, Priority.SAFETY))
        try:
            await asyncio.wait({keeping}, timeout=SAY_WITHOUT_S)
            if not keeping.done():
                self._aloud.begin(batch.rows)
            await keeping
        except Exception:
            log.exception("intake_waits", extra={"wait_s": wait_s})
            self._store_is_away(batch)
            return False
        finally:
            keeping.cancel()
        return True

    def _store_is_away(self, batch: Batch) -> None:
        self.trouble = Trouble.STORE
        self._aloud.begin(batch.rows)

    def _confirm(self, batch: Batch) -> None:
        """Do what follows at once when a batch is kept: taps are acknowledged, the worker is roused."""
        self.taken += len(batch.rows)
        self._aloud.watch(batch.rows)
        for tap in batch.taps:
            task = asyncio.create_task(self._acknowledge(tap))
            self._acks.add(task)
            task.add_done_callback(self._acks.discard)
        self._wake.set()

    async def _acknowledge(self, tap: str) -> None:
        # The spinner on the client's button dies in seconds: one try, no retry, and nothing depends on it.
        with self._activity, contextlib.suppress(TelegramError):
            await self._bot.answer_callback_query(tap, read_timeout=5, connect_timeout=5)


def pause_of(error: RetryAfter) -> float:
    """Return how long the platform asks to be left alone. [s]"""
    wait = error.retry_after
    return wait.total_seconds() if isinstance(wait, timedelta) else float(wait)
