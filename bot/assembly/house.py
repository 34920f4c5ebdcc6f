"""The running program: every part built, started in order, stopped in reverse."""

import asyncio
import logging
from collections.abc import Callable, Coroutine
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Engine
from telegram.error import BadRequest, InvalidToken, NetworkError, RetryAfter

from bot.assembly.leading import Leading
from bot.assembly.led import Led, ended
from bot.clock import Activity, Clock, Ids, Wake
from bot.inbound.aloud import Aloud
from bot.inbound.app import COMMANDS, make_application, make_bot
from bot.inbound.doors import Doors
from bot.inbound.menus import Menus
from bot.inbound.poll import Poll
from bot.inbound.way_in import Trouble, WayIn
from bot.inbound.worker import Worker
from bot.outbound.sender import Sender
from bot.outbound.tally import Tally
from bot.outbound.telegram import TelegramTransport
from bot.schedule.tick import Tick
from bot.store.engine import make_engine
from bot.store.hail import hail_from
from bot.store.outbox import OutboxRow
from bot.store.tether import Spans
from bot.store.units import Units
from bot.usecases.runner import Runner
from bot.usecases.undelivered import client_blocked, tell_of_doubt, tell_of_doubts
from bot.usecases.writer import Writer

log = logging.getLogger(__name__)

SLOWEST_RETRY_S = 30.0
KNOWN = frozenset(name for name, _ in COMMANDS)
"""Commands that there are."""


@dataclass(frozen=True, slots=True)
class Plan:
    """What a house is built from."""

    token: str = field(repr=False)
    database_url: str = field(repr=False)
    api_url: str
    per_second: float
    clock: Clock
    ids: Ids
    threads: int = 1
    way_in: Callable[..., WayIn] = field(default=Poll, repr=False)
    """Builds the one way in: updates are fetched, or brought to a webhook."""
    beside: Spans | None = None
    """Set where other processes may serve the same database, on PostgreSQL: when one of them is taken for lost."""


class House:
    """Every part of the program, in one event loop."""

    _terms = 0
    """How often it has begun to send."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.clock = plan.clock
        self.activity = Activity()
        self.inbox_wake = Wake(self.activity.changed)
        self.outbox_wake = Wake(self.activity.changed)
        self._word = plan.ids.word(12) if plan.beside is not None else "sender"
        self.led = Led(self, self._word)
        self.leading: Leading | None = None
        self.engine = self._make_engine(plan.database_url, plan.beside)
        self.units = Units(self.engine)
        self.write = Writer(plan.threads)
        self.runner = Runner(
            self.units,
            self.write,
            plan.clock,
            plan.ids,
            activity=self.activity,
            inbox_wake=self.inbox_wake,
            outbox_wake=self.outbox_wake,
        )
        self.bot = make_bot(plan.token, plan.api_url)
        self.application = make_application(self.bot)
        self.aloud = Aloud(self.bot, self.units, self.activity, self.clock)
        self.worker = Worker(self.application, self.runner, self.inbox_wake, self.aloud, shared=self.leading)
        self.menus = Menus(self.bot, self.units, self.write, plan.clock, KNOWN)
        self.menus.is_shared = plan.beside is not None
        self.application.bot_data["doors"] = Doors(self.runner, plan.ids, self.worker, self.menus)
        self.tick = Tick(self.units, self.runner)
        self.way_in = self._make_way_in()
        self.sends = Tally(TelegramTransport(self.bot, self.units, self.write))
        self.sender = self.make_sender()
        self._tasks: list[asyncio.Task[None]] = []
        self._tied: asyncio.Task[None] | None = None
        self.known_at: float | None = None
        """When the platform said who the bot is, on the loop's own clock; None before. [s]"""
        self.failed: asyncio.Future[None] = asyncio.get_running_loop().create_future()
        """Gets the exception of a part that ended by itself."""
        self.ended: str | None = None
        """Name of the part that ended by itself."""

    def _make_engine(self, url: str, beside: Spans | None) -> Engine:
        if beside is None:
            return make_engine(url)
        engine = make_engine(url, beside.transaction_s)
        hail_from(engine, self._word)
        self.leading = Leading(url, self._word, self.led, beside)
        return engine

    def _make_way_in(self) -> WayIn:
        way_in = self.plan.way_in(
            self.bot,
            self.units,
            self.write,
            self.clock,
            inbox_wake=self.inbox_wake,
            activity=self.activity,
            after_outage=self.led.after_outage,
            aloud=self.aloud,
        )
        way_in.on_heard = self.led.heard
        return way_in

    def make_sender(self) -> Sender:
        """Return a sender for one time of leading: of two of them, each has a name of its own."""
        self._terms += 1
        sender = Sender(
            self.units,
            self.sends,
            self.clock,
            wake=self.outbox_wake,
            activity=self.activity,
            write=self.write,
            owner=self._word if self.leading is None else f"{self._word}:{self._terms}",
            per_second=self.plan.per_second,
            on_blocked=self._blocked,
            on_doubtful=self._doubtful,
        )
        if self.leading is not None:
            sender.lead = self.leading
        return sender

    async def _blocked(self, chat_id: int) -> None:
        await self.write(lambda: client_blocked(chat_id, self.units, self.clock.now()))
        self.outbox_wake.set()

    async def _doubtful(self, row: OutboxRow) -> None:
        await self.write(lambda: tell_of_doubt(row, self.units, self.clock.now()))
        self.outbox_wake.set()

    async def start(self) -> None:
        """Start every part: the way out first, then the worker, then the way in. Waits for the platform.

        Raises:
            telegram.error.InvalidToken: The platform refused the token.
        """
        await self._known()
        self.known_at = asyncio.get_running_loop().time()
        if self.leading is None:
            await self.write(lambda: tell_of_doubts(self.units, self.clock.now()))
            self.begin(self._tasks, "sender", self.sender.run())
        else:
            self._tied = self._watched("lead", self.leading.run())
        self.begin(self._tasks, "worker", self.worker.run())
        if self.leading is None or not self.way_in.is_led:
            self.begin(self._tasks, self.way_in.name, self.way_in.run())
        self.begin(self._tasks, "menus", self.menus.run())
        if self.leading is None and self.led.fired is not None:
            self.led.fired.start()

    def begin(self, among: list[asyncio.Task[None]], part: str, work: Coroutine[Any, Any, None]) -> None:
        """Begin with a part; when it ends by itself the program does."""
        among.append(self._watched(part, work))

    @property
    def leads(self) -> bool:
        """Whether this process sends, ticks and fetches."""
        return self.leading is None or self.leading.leads

    @property
    def trouble(self) -> Trouble | None:
        """What keeps anything from being taken in just now."""
        is_lost = self.leading is not None and not self.leading.is_tied
        return self.way_in.trouble or (Trouble.STORE if is_lost else None)

    async def _known(self) -> None:
        """Have the platform say who the bot is; a network that is away may come back."""
        wait_s = 1.0
        while True:
            try:
                return await self.application.initialize()
            except (BadRequest, InvalidToken):
                raise
            except (NetworkError, RetryAfter) as error:
                log.warning("platform_away", extra={"wait_s": wait_s, "cause": type(error).__name__})
            await asyncio.sleep(wait_s)
            wait_s = min(wait_s * 2, SLOWEST_RETRY_S)

    def _watched(self, part: str, work: Coroutine[Any, Any, None]) -> "asyncio.Task[None]":
        task = asyncio.create_task(work, name=part)

        def ended(done: "asyncio.Task[None]") -> None:
            if done.cancelled() or self.failed.done():
                return
            error = done.exception() or RuntimeError(f"{part} ended by itself")
            log.critical("part_ended", extra={"part": part}, exc_info=error)
            self.ended = part
            self.failed.set_exception(error)

        task.add_done_callback(ended)
        return task

    def parts(self) -> dict[str, bool]:
        """Return of every part that was started whether it runs."""
        tied = [] if self._tied is None else [self._tied]
        return {task.get_name(): not task.done() for task in (*self._tasks, *self.led.tasks, *tied)}

    def quiet(self) -> bool:
        """Return whether nothing is left to do until time moves on or somebody speaks."""
        return self.worker.quiet and self.sender.quiet()

    async def stop(self) -> None:
        """Stop every part: the way in first, so that what was fetched can end; the lead last."""
        if self.leading is not None:
            self.leading.retire()
        await ended([*self.led.tasks, *self._tasks])
        await ended([*self.led.asides, *([] if self._tied is None else [self._tied])])
        if not self.failed.done():
            self.failed.cancel()
        elif not self.failed.cancelled():
            self.failed.exception()
        self.way_in.close()
        self.aloud.close()
        await self.application.shutdown()
        await self.bot.shutdown()  # the application leaves it open when the platform never knew the bot
        self.write.close()
        self.engine.dispose()
