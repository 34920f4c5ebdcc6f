"""The platform's menu of commands, for everybody, and for each client's and coach's own chat.

A menu only shows: who may do what is asked anew by every use-case. It is registered when somebody is first heard after
a start, and when she has become another, one call at a time with room between them, beside the talk. What fails is
logged, and tried again when she speaks later.
"""

import asyncio
import logging
from dataclasses import dataclass
from datetime import datetime, timedelta

from telegram import BotCommand, BotCommandScope, BotCommandScopeChat, BotCommandScopeDefault
from telegram.error import RetryAfter, TelegramError

from bot.clock import Clock
from bot.inbound.fetching import FetchingBot
from bot.render.command_names import Audience, shown_to
from bot.store.units import Units
from bot.usecases.writer import Priority, Writer

log = logging.getLogger(__name__)

GAP_S = 0.2
"""Between two calls, on the machine's own clock: five a second leave the platform's limits to the talk. [s] Our
proposal."""
LOOKED_AGAIN = timedelta(minutes=10)
"""After so long somebody whose menu stands is looked at again when she speaks. Our proposal."""
LONGEST_PAUSE_S = 600.0
"""A longer pause that the platform asks for is cut to this; then it may ask again. [s]"""
SETTLED = frozenset({Audience.CLIENT, Audience.COACH})


@dataclass(frozen=True, slots=True)
class Shown:
    """The menu of a chat as it was registered last."""

    audience: Audience
    at: datetime


class Menus:
    """Keeps the menus.

    Args:
        bot: Makes the calls.
        units: Where it is kept who somebody is.
        write: Runs what reads it.
        clock: Time.
        known: Commands that there are.
    """

    def __init__(
        self, bot: FetchingBot, units: Units, write: Writer, clock: Clock, known: frozenset[str]
    ) -> None:
        self._bot = bot
        self._units = units
        self._write = write
        self._clock = clock
        self._known = known
        self._shown: dict[int, Shown] = {}
        self._waiting: asyncio.Queue[tuple[int, int]] = asyncio.Queue()
        self._queued: set[int] = set()
        self.gap_s = GAP_S
        self.is_shared = False
        """Whether other processes register menus too: then what was registered here long ago may stand no more."""

    def heard(self, user_id: int, chat_id: int) -> None:
        """Look at the menu of somebody who was heard, soon; not where it was seen to a moment ago."""
        shown = self._shown.get(user_id)
        stands = shown is not None and shown.audience in SETTLED
        if user_id in self._queued or (stands and shown and self._clock.now() - shown.at < LOOKED_AGAIN):
            return
        self._queued.add(user_id)
        self._waiting.put_nowait((user_id, chat_id))

    async def done(self) -> None:
        """Wait until everybody who was heard has been looked at."""
        await self._waiting.join()

    async def run(self) -> None:
        """Register the menu for everybody, then those of chats, until it is cancelled."""
        await self._register(Audience.ANYBODY, BotCommandScopeDefault())
        while True:
            user_id, chat_id = await self._waiting.get()
            self._queued.discard(user_id)
            try:
                await self._look_at(user_id, chat_id)
            except Exception:  # a menu is worth no more than a line in the log
                log.exception("menu_failed")
            finally:
                self._waiting.task_done()

    async def _look_at(self, user_id: int, chat_id: int) -> None:
        audience = await self._write(lambda: self._audience(user_id), Priority.DUE)
        before = self._shown.get(user_id)
        if self.is_shared and before is not None and self._clock.now() - before.at >= LOOKED_AGAIN:
            before = None
        if audience is Audience.ANYBODY and before is None:
            return
        if before is None or before.audience is not audience:
            if not await self._register(audience, BotCommandScopeChat(chat_id)):
                return
            await asyncio.sleep(self.gap_s)
        self._shown[user_id] = Shown(audience, self._clock.now())

    def _audience(self, user_id: int) -> Audience:
        with self._units.read(None) as house:
            account = house.accounts.find(user_id)
            if account is None:
                return Audience.ANYBODY
            if account.role == "coach":
                return Audience.COACH
            state = house.of(account.coach_id).clients.get(account.client_id or 0).state
        if state == "joining":
            return Audience.JOINING
        return Audience.ANYBODY if state == "stopped" else Audience.CLIENT

    async def _register(self, audience: Audience, scope: BotCommandScope) -> bool:
        """Register a menu; one for a chat that shows what everybody sees is taken away. False where that failed."""
        try:
            if audience is Audience.ANYBODY and isinstance(scope, BotCommandScopeChat):
                await self._bot.delete_my_commands(scope=scope)
            else:
                shown = [BotCommand(name, words) for name, words in shown_to(audience, self._known)]
                await self._bot.set_my_commands(shown, scope=scope)
        except RetryAfter as error:
            log.warning("menu_too_fast")
            wait = error.retry_after
            seconds = wait.total_seconds() if isinstance(wait, timedelta) else float(wait)
            await asyncio.sleep(min(seconds, LONGEST_PAUSE_S))
            return False
        except TelegramError as error:
            log.warning("menu_not_registered", extra={"cause": type(error).__name__})
            return False
        return True
