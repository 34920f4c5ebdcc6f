"""A sender in story time, with a way out that misbehaves on a plan and a process that can be killed at any step."""

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import Engine, insert, select

from bot.clock import Activity, StoryClock, Wake
from bot.messages import Lane, Message, Send
from bot.outbound.policy import Delivered, Outcome
from bot.outbound.sender import Sender
from bot.outbound.transport import Transport
from bot.store.outbox import SENDS, OutboxRow
from bot.store.tables import account, client, coach, outbox
from bot.store.units import Unit, Units

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
KEEPER, COXSWAIN = 1, 2
"""Two coaches; the second one's rows must never show."""

CLIENT, CHAT, COACH_CHAT = 1, 501, 500
OTHER_CLIENT, OTHER_CHAT, OTHER_COACH_CHAT = 2, 601, 600


class Killed(BaseException):
    """The process ends here."""


def populate(engine: Engine) -> None:
    """Two coaches with a client each."""
    with engine.begin() as connection:
        for number, (name, chat) in enumerate((("Maren", 500), ("Idris", 600)), 1):
            connection.execute(insert(coach).values(id=number, name=name, zone="UTC", created_at=NOW))
            connection.execute(
                insert(client).values(id=number, coach_id=number, name="Liv", state="active", created_at=NOW)
            )
            for role, who in (("coach", chat), ("client", chat + 1)):
                of = number if role == "client" else None
                values = {"user_id": who, "chat_id": who, "coach_id": number, "role": role, "client_id": of}
                connection.execute(insert(account).values(values))


def send(text: str, chat_id: int = CHAT, key: str | None = None, **facts: Any) -> Send:
    return Send(chat_id, Message(text), key=key or text, **facts)


@dataclass
class Steps:
    """Counts the steps of a process, and ends it at one; whatever it does after that fails too."""

    kill_at: int | None = None
    taken: int = 0
    dead: bool = False

    def at(self) -> None:
        self.taken += 1
        if self.dead or self.taken == self.kill_at:
            self.dead = True
            raise Killed


@dataclass
class Arrival:
    chat_id: int
    text: str
    op: str
    at: datetime
    message_id: int
    row: OutboxRow


Plan = Callable[[OutboxRow], Outcome | None]


def untroubled(_: OutboxRow) -> Outcome | None:
    """The plan of a platform where all goes well."""
    return None


@dataclass
class Post:
    """The platform as a phone sees it. A plan says what to answer: `Delivered`, or a fault.

    A fault of a row whose text is in `arrives_anyway` is answered although the message arrived. With a transport of
    its own it only counts the calls.
    """

    clock: StoryClock
    plan: Plan = untroubled
    arrives_anyway: set[str] = field(default_factory=set)
    arrived: list[Arrival] = field(default_factory=list)
    calls: list[OutboxRow] = field(default_factory=list)
    steps: Steps = field(default_factory=Steps)
    transport: Transport | None = None
    gates: dict[str, asyncio.Event] = field(default_factory=dict)
    most_at_once: int = 0
    _open: int = 0
    _called: asyncio.Event = field(default_factory=asyncio.Event)

    async def begun(self, count: int) -> None:
        """Wait until so many calls have begun."""
        while len(self.calls) < count:
            self._called.clear()
            await self._called.wait()

    async def deliver(self, row: OutboxRow) -> Outcome:
        self.steps.at()
        self.calls.append(row)
        self._called.set()
        self._open += 1
        self.most_at_once = max(self.most_at_once, self._open)
        try:
            return await self._answered(row)
        finally:
            self._open -= 1

    async def _answered(self, row: OutboxRow) -> Outcome:
        if self.transport is not None:
            return await self.transport.deliver(row)
        await asyncio.sleep(0)
        text = row.body.html if row.body else ""
        if text in self.gates:
            await self.gates[text].wait()
        outcome = self.plan(row)
        message_id = row.message_id or 100 + len(self.arrived)
        if outcome is None or text in self.arrives_anyway:
            self.arrived.append(Arrival(row.chat_id, text, row.op, self.clock.now(), message_id, row))
        await asyncio.sleep(0)
        self.steps.at()
        return outcome or Delivered(message_id)

    def texts(self, chat_id: int | None = None) -> list[str]:
        """New messages, oldest first."""
        return [each.text for each in self.arrived if each.op in SENDS and chat_id in (None, each.chat_id)]


async def turns(count: int) -> None:
    """Let everybody else take some turns."""
    for _ in range(count):
        await asyncio.sleep(0)


def first_time(
    outcome: Outcome, text: str | None = None, times: int = 1
) -> Callable[[OutboxRow], Outcome | None]:
    """A plan that answers the first calls with a fault."""
    left = [times]

    def plan(row: OutboxRow) -> Outcome | None:
        if left[0] and (text is None or (row.body is not None and row.body.html == text)):
            left[0] -= 1
            return outcome
        return None

    return plan


class Rig:
    """One process: a sender on a database."""

    def __init__(self, engine: Engine, clock: StoryClock, post: Post, per_second: float = 25) -> None:
        self.engine, self.clock, self.post = engine, clock, post
        self.units = Units(engine)
        self.activity = Activity()
        self.wake = Wake(self.activity.changed)
        self.blocked: list[int] = []
        self.doubtful: list[str] = []
        self.sender = Sender(
            self.units,
            post,
            clock,
            wake=self.wake,
            activity=self.activity,
            write=self._write,
            owner="sender",
            per_second=per_second,
            on_blocked=self._blocked,
            on_doubtful=self._doubtful,
        )
        self.running: asyncio.Task[None] | None = None

    async def _write(self, work: Callable[[], Any], priority: int = 0) -> Any:  # noqa: ARG002  (the real one has it)
        self.post.steps.at()
        await asyncio.sleep(0)
        result = work()
        self.post.steps.at()
        return result

    async def _blocked(self, chat_id: int) -> None:
        self.blocked.append(chat_id)

    async def _doubtful(self, row: OutboxRow) -> None:
        self.doubtful.append(row.key)

    def queue(self, *effects: Send, coach_id: int | None = KEEPER) -> None:
        """Queue in one transaction and wake the sender."""
        with self.units.open(coach_id) as unit:
            for effect in effects:
                if effect.card is None:
                    unit.outbox.put(coach_id, effect, self.clock.now())
                else:
                    unit.cards.start(effect, self.clock.now())
        self.wake.set()

    def change(self, work: Callable[[Unit], object]) -> None:
        """Do something else in the coach's unit and wake the sender."""
        with self.units.open(KEEPER) as unit:
            work(unit)
        self.wake.set()

    def start(self) -> None:
        self.running = asyncio.create_task(self.sender.run())

    async def idle(self) -> None:
        """Wait until nothing moves, or the process has ended."""
        if self.running is None:
            self.start()
        assert self.running is not None
        waiting = asyncio.create_task(self.activity.until(self.sender.quiet))
        await asyncio.wait({waiting, self.running}, return_when=asyncio.FIRST_COMPLETED)
        waiting.cancel()
        if self.running.done():
            self.running.result()

    async def go_on(self, span: timedelta = timedelta(hours=1)) -> None:
        """Let the story run, stopping wherever somebody sleeps."""
        end = self.clock.now() + span
        await self.idle()
        while (waking := self.clock.next_waking()) is not None and waking <= end:
            self.clock.move_to(waking)
            await self.idle()
        self.clock.move_to(end)
        await self.idle()

    async def stop(self) -> None:
        if self.running is not None and not self.running.done():
            self.running.cancel()
            await asyncio.wait({self.running})

    def states(self) -> dict[str, str]:
        """What the rows are, by key."""
        with self.engine.connect() as connection:
            found = connection.execute(select(outbox.c.key, outbox.c.state))
            return {row.key.partition(":")[2]: row.state for row in found}


SAFETY, TALK, BULK = Lane.SAFETY, Lane.TALK, Lane.BULK
