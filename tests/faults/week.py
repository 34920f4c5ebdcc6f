"""One played week: the program lives, dies and lives again; people do what they do; things break by plan."""

import asyncio
import signal
import threading
import time
from collections import Counter
from collections.abc import Coroutine
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
from faults.breaking import KINDS, LEADS, Break, LifePlan, WeekPlan
from faults.calendars import Phase
from faults.invariants import INVARIANTS, Seen, waited_for_safety
from faults.lives import Life, SetOff
from faults.people import CLIENTS, COACHES, acts
from faults.stores import LOCKED, SERVER_KINDS, Store
from faults.watching import OTHERS, Watched
from setting_out import plain_text
from sqlalchemy import Engine, func, select
from sqlalchemy.exc import DBAPIError

from bot.localchat.server import Server
from bot.store.engine import make_engine
from bot.store.outbox import message_of
from bot.store.tables import inbox, outbox, session

TOKEN = "4100:broken"
REST_S = 60.0
"""How long it may take until all is at rest, once nothing breaks any more. [s]"""
START_S = 30.0
LOOKS_S = 1.5
"""Within which the program has looked for what is due, several times. [s]"""
HOUR = timedelta(hours=1)
ASLEEP_S = (0.4, 1.5)
"""How long an hour asleep takes, by who is named in the plan. [s]"""

People = list["asyncio.Task[str | None]"]


@dataclass
class Result:
    """What a week came to."""

    broken: list[str] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)
    safety_s: list[float] = field(default_factory=list)
    taken_over_s: list[float] = field(default_factory=list)
    led_to: list[str] = field(default_factory=list)


AWAY = "The database cannot be reached"
"""What a process says that ends at its start since the database is away."""


class Week:
    """One played week."""

    def __init__(
        self, folder: Path, plan: WeekPlan, store: Store, *, processes: int = 1, plant: str | None = None
    ) -> None:
        self.folder, self.plan, self.store, self.plant = folder, plan, store, plant
        self.processes = processes
        self.clock = SetOff(folder / "clock")
        self.chat = Watched(self.clock, TOKEN)
        self.result = Result()
        self.alive: list[Life] = []
        self.cuts: list[float] = []
        self.lives = 0
        self.words: dict[int, str] = {}
        self.mending: set[asyncio.Task[None]] = set()
        self.engine: Engine = make_engine(store.url)
        for user_id in (*CLIENTS, *COACHES):
            self.chat.phone(user_id, str(user_id)).started = True

    async def play(self) -> Result:
        async with Server(self.chat) as server:
            self.url = server.url
            for phase, lives in zip(self.plan.calendar.phases, self.plan.lives, strict=True):
                self.clock.set_to(phase.at)
                self.chat.tell(f"--- {phase.name}")
                await self._phase(phase, lives)
            await self._ends()
        self._look()
        self.engine.dispose()
        return self.result

    async def _phase(self, phase: Phase, lives: tuple[LifePlan, ...]) -> None:
        people = acts(phase, self.chat, self.plan)
        for each in lives:
            await self._life(each, phase, people)
        for person in people:
            if not person.done():
                self.result.broken.append("somebody still waits for an answer")
                person.cancel()
        ended = await asyncio.gather(*people, return_exceptions=True)
        self.result.broken += [each for each in ended if isinstance(each, str)]

    async def _ends(self) -> None:
        """Nothing breaks: all comes to rest, and whoever is told to stop does."""
        await self._born()
        await self._fetches()
        await self._comes_to_rest([])
        for status in await asyncio.gather(*(life.stop(10) for life in self.alive)):
            if status != 0:
                self.result.broken.append(f"told to stop, it ended with {status}")

    async def _born(self) -> None:
        """Have as many processes as there are to be."""
        for life in [each for each in self.alive if each.ended.done()]:
            self.alive.remove(life)
            self._ended(life)
        while len(self.alive) < self.processes:
            self.lives += 1
            name = f"serve-{self.lives}"
            settings = {
                "token": TOKEN,
                "api_url": self.url,
                "database_url": self.store.url_for(name),
                "tick_s": "0.3",
                "messages_per_second": "30",
            }
            self.alive.append(Life(name, self.folder, settings, self.clock.file, self.plant))

    async def _life(self, plan: LifePlan, phase: Phase, people: People) -> None:
        await self._born()
        if plan.from_birth:
            await self._within(plan.kill_s or 0)
            await self._kill(self.alive[-1])
            return
        await self._fetches()
        breaks = [asyncio.create_task(self._breaks(each)) for each in plan.breaks]
        if plan.kill_s is not None:
            await self._within(plan.kill_s)
            await self._kill(await self._victim(plan.victim))
        else:
            await asyncio.wait(breaks)
            await self._comes_to_rest(people)
            for instant in phase.moves:
                if instant > self.clock.now():  # an hour asleep may have passed it
                    await self._sleeps(instant, LOOKS_S)
                    await self._comes_to_rest(people)
            for life in list(self.alive):
                await self._kill(life)
        for each in breaks:
            each.cancel()
        await asyncio.gather(*breaks, return_exceptions=True)

    async def _fetches(self) -> None:
        born = asyncio.create_task(self.chat.born.wait())
        ended = [life.ended for life in self.alive]
        await asyncio.wait({*ended, born}, timeout=START_S, return_when=asyncio.FIRST_COMPLETED)
        born.cancel()

    async def _within(self, seconds: float) -> bool:
        """Let them live so long; whether one ended by itself."""
        ended = [life.ended for life in self.alive]
        done, _ = await asyncio.wait(ended, timeout=seconds, return_when=asyncio.FIRST_COMPLETED)
        return bool(done)

    async def _victim(self, drawn: float) -> Life:
        """Who is killed: it is the one that leads more often than another."""
        if self.processes == 1:
            return self.alive[0]
        leader = await asyncio.to_thread(self.store.leader)
        others = [life for life in self.alive if life.name != leader]
        if (drawn < LEADS and len(others) < len(self.alive)) or not others:
            return next(life for life in self.alive if life not in others)
        return others[int((drawn - LEADS) / (1 - LEADS) * len(others)) if drawn >= LEADS else 0]

    async def _kill(self, life: Life) -> None:
        self.alive.remove(life)
        if life.ended.done():
            self._ended(life)
            return
        led = self.processes == 1 or await asyncio.to_thread(self.store.leader) == life.name
        self.chat.kills.append(time.monotonic())
        self.chat.tell(f"killed: {life.name}{', which led' if led else ''}")
        self.result.counts["kills"] += 1
        await life.kill()
        self.chat.all_dead = not self.alive
        if led:
            self.chat.born.clear()
            if self.alive:
                self.chat.led_kills.append(time.monotonic())

    def _ended(self, life: Life) -> None:
        """One ended by itself: at its start, where the database is away, it may, and is started again."""
        self.chat.all_dead = not self.alive
        self.chat.born.clear()
        is_away = life.process.exitcode == 3 and AWAY in life.log.read_text("utf-8", "replace")
        if is_away and any(at > time.monotonic() - START_S for at in self.cuts):
            self.result.counts["ended at its start without a database"] += 1
            return
        said = life.log.read_text("utf-8", "replace")[-600:]
        self.result.broken.append(f"it ended by itself with {life.process.exitcode}: {said}")

    async def _breaks(self, each: Break) -> None:
        if await self._within(each.after_s):
            return
        self.result.counts[each.kind] += 1
        self.chat.tell(f"breaks: {each.kind} ({each.chat_id})")
        if each.kind == "a second poller":
            await self._second_poller()
        elif each.kind == LOCKED:
            await self._locked(each)
        elif each.kind in SERVER_KINDS:
            self.cuts.append(time.monotonic())
            if self.processes > 1:
                self.chat.lost_leads.append(time.monotonic())
            await self._mended(asyncio.to_thread(self.store.broken, each.kind))
        elif each.kind == "an hour asleep":
            await self._sleeps(self.clock.now() + HOUR, ASLEEP_S[each.chat_id % 2])
        else:
            self.chat.faults.plan(KINDS[each.kind](each.chat_id))

    async def _second_poller(self) -> None:
        with suppress(httpx.HTTPError):
            async with httpx.AsyncClient(timeout=5) as other:
                for _ in range(2):
                    await other.post(
                        f"{self.url}/bot{TOKEN}/getUpdates", json={"timeout": 1, "limit": OTHERS}
                    )

    async def _locked(self, each: Break) -> None:
        over = threading.Event()
        try:
            await self._mended(asyncio.to_thread(self.store.hold, each.chat_id, over))
        finally:
            over.set()

    async def _mended(self, work: Coroutine[Any, Any, None]) -> None:
        """Wait for what breaks and mends the store; it goes on when nobody waits for it any more."""
        task = asyncio.create_task(work)
        self.mending.add(task)
        task.add_done_callback(self.mending.discard)
        await asyncio.shield(task)
        self.chat.tell("the database is free again")

    async def _sleeps(self, until: datetime, seconds: float) -> None:
        """The machine is suspended: whoever lives stands still while the clock goes on."""
        for life in self.alive:
            life.signal(signal.SIGSTOP)
        self.clock.set_to(until, lived=True)
        try:
            await self._within(seconds)
        finally:
            for life in self.alive:
                life.signal(signal.SIGCONT)
            self.chat.wakes.append(time.monotonic())
            self.chat.tell(f"awake at {until:%d %b %H:%M} UTC")

    async def _comes_to_rest(self, people: People) -> None:
        """Nothing breaks any more: wait until everybody is through and nothing is left to do."""
        self.chat.faults.planned.clear()
        await asyncio.gather(*self.mending)
        await self._born()
        if people:
            await asyncio.wait(people, timeout=REST_S)
        self.chat.faults.planned.clear()
        await self._within(LOOKS_S)
        end = time.monotonic() + REST_S
        while not self._at_rest():
            if await self._within(0.1) or time.monotonic() > end:
                self.result.broken.append(f"it does not come to rest: {self._open()}")
                break
        self._remember()

    def _remember(self) -> None:
        """Keep what messages say: the program forgets the words of what has arrived after two days."""
        with self.engine.connect().execution_options(readonly=True) as connection:
            for each in connection.execute(select(outbox.c.id, outbox.c.body)):
                if each.body is not None:
                    self.words[each.id] = plain_text(message_of(each.body))

    def _at_rest(self) -> bool:
        return self.chat.unfetched == 0 and not any(self._open())

    def _open(self) -> tuple[int, ...]:
        """How many updates wait, how many messages, those for later left out, and how many sessions that are due."""
        soon = self.clock.now() + timedelta(minutes=2)
        due = (outbox.c.state == "queued") & (outbox.c.due_at <= soon)
        asked = (
            select(func.count()).where(inbox.c.state == "new"),
            select(func.count()).where((outbox.c.state == "sending") | due),
            select(func.count()).where(session.c.state == "planned", session.c.due_at <= self.clock.now()),
        )
        try:
            with self.engine.connect().execution_options(readonly=True) as connection:
                return tuple(connection.execute(each).scalar_one() for each in asked)
        except DBAPIError:
            return (-1,)

    def _look(self) -> None:
        self.seen = seen = Seen(self.chat, self.engine, self.words, self.plan.calendar)
        result = self.result
        for name, holds in INVARIANTS.items():
            result.broken += [f"{name}: {each}" for each in holds(seen)]
        waits = [
            (seen.lost_lead(said, wait), wait) for said, wait in waited_for_safety(seen) if wait is not None
        ]
        result.safety_s = [wait for lost, wait in waits if not lost]
        result.taken_over_s = [wait for lost, wait in waits if lost]
        result.counts.update(
            {f"said: {kind}": n for kind, n in Counter(s.kind for s in self.chat.said).items()}
        )
        result.counts["messages of the bot"] = len(self.chat.came)
        result.counts["lives"] = self.lives
        begun = self.chat.log[0][0]
        result.led_to = [f"{at - begun:7.2f} s  {what}" for at, what in self.chat.log]
