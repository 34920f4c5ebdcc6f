"""The loop between the outbox and the platform: lanes, pace, one claim and one settlement a call."""

import asyncio
import contextlib
import logging
from collections.abc import Awaitable, Callable
from datetime import datetime
from typing import TypeVar

from telegram.error import InvalidToken

from bot.clock import Activity, Clock, Going, Wake
from bot.messages import Lane
from bot.outbound.lead import Alone, Lead
from bot.outbound.limits import Limits
from bot.outbound.policy import Again, Outcome, Shut, Step, Stop, TooFast, next_step, spread
from bot.outbound.transport import Transport, Write
from bot.outbound.turn import Landed, Turn, leave, settled, turned
from bot.store.engine import passing
from bot.store.outbox import OutboxRow
from bot.store.set_back import outbox_set_back
from bot.store.units import Units
from bot.usecases.writer import Priority

log = logging.getLogger(__name__)

T = TypeVar("T")

WIDTHS = {Lane.SAFETY: 1, Lane.TALK: 2, Lane.BULK: 2}
"""Calls in flight by lane. A process that dies puts no more than these in doubt."""

STORE_WAITS_S = (0.05, 0.2, 0.5, 1.0)
"""Between tries while the store is away, on the machine's own clock: a story that stands still gets over it too. [s]"""
STOP_TRIES = 3
"""How often a stop lets the store be tried: a database that is away must not keep the program from ending."""
STOP_GRACE_S = 8.0
"""How long a stop waits for calls in flight; what is cut off is in doubt at the next start."""


async def _nothing(_: object) -> None:
    return None


class Sender:
    """Sends what is queued until it is cancelled, or until the platform does not know the bot; while `lead` lets it.

    Args:
        units: The store.
        transport: Makes the calls.
        clock: Time.
        wake: Set after every commit that queued something.
        activity: Told when the sender is busy.
        write: Runs store functions off the event loop.
        owner: Name that claims carry; of two senders on one database each has its own.
        per_second: Pace overall. [messages / s]
        on_blocked: Told of a chat that lets nothing through, before its rows are given up.
        on_doubtful: Told of a row that was given up in doubt.
    """

    def __init__(
        self,
        units: Units,
        transport: Transport,
        clock: Clock,
        *,
        wake: Wake,
        activity: Activity,
        write: Write,
        owner: str,
        per_second: float,
        on_blocked: Callable[[int], Awaitable[None]] = _nothing,
        on_doubtful: Callable[[OutboxRow], Awaitable[None]] = _nothing,
    ) -> None:
        self._units = units
        self._transport = transport
        self._clock = clock
        self._wake = wake
        self._activity = activity
        self._write = write
        self._owner = owner
        self._limits = Limits(per_second)
        self._on_blocked = on_blocked
        self._on_doubtful = on_doubtful
        self.lead: Lead = Alone()
        self._flying: dict[int, OutboxRow] = {}
        self._landed: dict[int, Landed] = {}
        """What became of calls that are not written down yet, by row: the next turn does."""
        self._turns = False
        self._calls: set[asyncio.Task[None]] = set()
        self._pauses: dict[int, datetime] = {}
        self._going = Going()
        self._failure: BaseException | None = None
        self._stopping = self._resting = False
        self._rests_until: datetime | None = None

    def quiet(self) -> bool:
        """Return whether nothing is claimable, nothing in flight, until time moves on or somebody wakes it."""
        due = self._rests_until is not None and self._rests_until <= self._clock.now()
        return self._resting and not due and not self._flying and not self._wake.pending

    async def run(self) -> None:
        """Send until cancelled; then let the calls in flight end.

        Raises:
            InvalidToken: The platform does not know this bot.
        """
        loop = asyncio.create_task(self._loop(), name="sender loop")
        try:
            await asyncio.shield(loop)
        except asyncio.CancelledError:
            self._stopping = True
            self._wake.set()
            await asyncio.wait({loop})
            if loop.exception() is not None:
                log.warning("sender_stopped_short")
            raise
        finally:
            await self._ended()

    async def _ended(self) -> None:
        if self._calls:
            _, late = await asyncio.wait(self._calls, timeout=STOP_GRACE_S)
            for call in late:
                call.cancel()

    async def _loop(self) -> None:
        with self._activity:
            for row in await self._tried(self._rescue):
                await self._doubtful(row)
        self._turns = True
        try:
            while not self._stopping:
                with self._activity:
                    self._resting = False
                    self._wake.clear()
                    if self._failure is not None:
                        raise self._failure
                    self._rests_until = await self._fill()
                    nap = asyncio.create_task(self._nap(self._rests_until))
                    # Whoever moves the clock must find us asleep on it as soon as we say that we rest.
                    await asyncio.sleep(0)
                    self._resting = True
                await self._rest(nap)
        finally:
            self._turns = False
            leave(self._landed)

    async def _nap(self, until: datetime | None) -> None:
        if until is None:
            await self._wake.wait()
        else:
            await self._clock.sleep_until(until)

    async def _rest(self, nap: "asyncio.Task[None]") -> None:
        called = asyncio.create_task(self._wake.wait())
        await asyncio.wait({nap, called}, return_when=asyncio.FIRST_COMPLETED)
        for task in (nap, called):
            task.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await task

    def _rescue(self) -> list[OutboxRow]:
        # One process at a time sends: what is in flight now was left behind by another.
        with self._units.open(None) as house:
            may = self.lead.may_claim(house.connection)
            return house.outbox.rescue(None, self._clock.now()) if may else []

    async def _fill(self) -> datetime | None:
        """Take a turn and begin its calls; return when to look again, None when only a call can tell."""
        now = self._clock.now()
        if (seen := self._going.back_from(now)) is not None:
            await self._set_back(seen, now)
        turn = await self._turn(now)
        if self._stopping or self._failure is not None:
            await self._tried(lambda: self._give_back(turn.claimed))
            return None
        for row in turn.claimed:
            self._limits.take(row.chat_id, now)
            self._flying[row.id] = row
            call = asyncio.create_task(self._carry(row), name=f"outbox {row.id}")
            self._calls.add(call)
            call.add_done_callback(self._calls.discard)
        return turn.again_at

    async def _turn(self, now: datetime) -> Turn:
        """Write down what landed, and claim what goes out now, in one transaction."""
        landed, self._landed, paced = self._landed, {}, self._limits
        flying = [row for row in self._flying.values() if row.id not in landed]
        free = {lane: width - sum(row.lane is lane for row in flying) for lane, width in WIDTHS.items()}
        steps = [(each.step, each.row) for each in landed.values()]
        try:
            turn = await self._tried(
                lambda: turned(self._units, steps, free, paced, self._owner, now, self.lead)
            )
        except BaseException:
            leave(landed)
            raise
        for each in landed.values():
            self._flying.pop(each.row.id, None)
            if not each.written.done():
                each.written.set_result(each.row.id in turn.given_up)
        return turn

    async def _set_back(self, seen: datetime, now: datetime) -> None:
        """Follow a clock that was set back: what had been due, and what was paused, must not wait all over again."""
        log.warning("clock_set_back", extra={"late_s": round((seen - now).total_seconds())})
        self._limits.set_back(seen - now)
        self._pauses = {chat: until - (seen - now) for chat, until in self._pauses.items()}
        await self._tried(lambda: outbox_set_back(self._units, seen, now))

    def _give_back(self, rows: list[OutboxRow]) -> None:
        with self._units.open(None) as house:
            for row in rows:
                house.outbox.unclaim(row)

    async def _carry(self, row: OutboxRow) -> None:
        with self._activity:
            try:
                if self.lead.is_safe():
                    await self._settled(row, await self._transport.deliver(row))
                else:  # halted since the claim
                    await self._tried(lambda: self._give_back([row]))
            except asyncio.CancelledError:
                raise
            except BaseException as error:  # noqa: BLE001  (raised again by the loop, which then ends)
                self._failure = self._failure or error
                self._wake.set()
            finally:
                if self._flying.get(row.id) is row:  # not one that was claimed again meanwhile
                    del self._flying[row.id]

    async def _settled(self, row: OutboxRow, outcome: Outcome) -> None:
        now = self._clock.now()
        paused = any(until > now for chat, until in self._pauses.items() if chat != row.chat_id)
        step = next_step(outcome, row, now, spread(row), others_paused=paused)
        if isinstance(step, Again) and isinstance(outcome, TooFast):
            self._pause(row.chat_id, step, now)
        if isinstance(step, Shut):
            await self._shut(row)
        given_up = await self._written(step, row)
        facts = {"outbox_id": row.id, "attempt": row.attempts, "outcome": type(step).__name__.lower()}
        log.info("outbox_settled", extra=facts)
        if given_up:
            await self._doubtful(row)
        if isinstance(step, Stop):
            log.critical("token_refused")
            raise InvalidToken(step.cause)

    async def _written(self, step: Step, row: OutboxRow) -> bool:
        """Have what became of a call written down, with the next turn where there is one; True when given up."""
        if self._turns and not isinstance(step, Stop):  # a turn would claim it once more
            self._landed[row.id] = Landed(step, row, asyncio.get_running_loop().create_future())
            written = self._landed[row.id].written
            self._wake.set()
            if (given_up := await written) is not None:
                return given_up
        found = await self._tried(lambda: settled(self._units, [(step, row)], self._clock.now()))
        self._wake.set()
        return row.id in found

    def _pause(self, chat_id: int, step: Again, now: datetime) -> None:
        self._pauses = {chat: until for chat, until in self._pauses.items() if until > now}
        self._pauses[chat_id] = max(step.due_at, self._pauses.get(chat_id, step.due_at))
        if step.pause_all:
            self._limits.pause(max(self._pauses.values()))

    async def _shut(self, row: OutboxRow) -> None:
        """Tell of a chat that shuts us out, once: whoever is told marks it, and only then are its rows given up."""

        def known() -> bool:
            with self._units.read(None) as house:
                return not house.chats.is_reachable(row.chat_id)

        if not await self._tried(known):
            await self._told(lambda: self._on_blocked(row.chat_id), row)

    async def _doubtful(self, row: OutboxRow) -> None:
        log.warning("outbox_doubtful", extra={"outbox_id": row.id})
        await self._told(lambda: self._on_doubtful(row), row)

    async def _told(self, tell: Callable[[], Awaitable[None]], row: OutboxRow) -> None:
        """Tell somebody else; a mistake of theirs must not hold up the mail."""
        try:
            await tell()
        except Exception:
            log.exception("outbox_listener_failed", extra={"outbox_id": row.id})

    async def _tried(self, work: Callable[[], T]) -> T:
        """Run a store function for as long as its faults are passing ones: what was sent must be written down."""
        tries = 0
        while True:
            try:
                return await self._write(work, Priority.DELIVERY)
            except Exception as error:
                if not passing(error) or (self._stopping and tries >= STOP_TRIES):
                    raise
                log.warning("outbox_store_away", extra={"attempt": tries})
            await asyncio.sleep(STORE_WAITS_S[min(tries, len(STORE_WAITS_S) - 1)])
            tries += 1
