"""One played week: the program lives, dies and lives again; people do what they do; things break by plan."""

import asyncio
import sqlite3
import time
from collections import Counter
from contextlib import closing, suppress
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path

import httpx
from faults.breaking import KINDS, PHASES, Break, LifePlan, WeekPlan
from faults.invariants import INVARIANTS, Seen, waited_for_safety
from faults.lives import Life, SetOff
from faults.people import CLIENTS, COACHES, acts
from faults.watching import OTHERS, Watched
from setting_out import plain_text
from sqlalchemy import Engine, func, select

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
LOCKED_S = (0.7, 3.0)
"""How long the database is locked, by who is named in the plan. [s]"""


@dataclass
class Result:
    """What a week came to."""

    broken: list[str] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)
    safety_s: list[float] = field(default_factory=list)
    led_to: list[str] = field(default_factory=list)


class Week:
    """One played week."""

    def __init__(self, folder: Path, plan: WeekPlan, plant: str | None) -> None:
        self.folder, self.plan, self.plant = folder, plan, plant
        self.database = folder / "plimsoll.db"
        self.clock = SetOff()
        self.chat = Watched(self.clock, TOKEN)
        self.result = Result()
        self.lives = 0
        self.words: dict[int, str] = {}
        self.engine: Engine = make_engine(f"sqlite:///{self.database}")
        for user_id in (*CLIENTS, *COACHES):
            self.chat.phone(user_id, str(user_id)).started = True

    async def play(self) -> Result:
        async with Server(self.chat) as server:
            self.url = server.url
            for number, (name, at, _) in enumerate(PHASES):
                self.clock.set_to(at)
                self.chat.tell(f"--- {name}")
                await self._phase(number)
        self._look()
        self.engine.dispose()
        return self.result

    async def _phase(self, number: int) -> None:
        people = acts(number, self.chat, self.plan)
        lives = self.plan.lives[number]
        for each in lives:
            await self._life(each, people)
        if number == len(PHASES) - 1:
            life = await self._born()
            await self._fetches(life)
            await self._comes_to_rest(life, people)
            status = await life.stop(10)
            if status != 0:
                self.result.broken.append(f"told to stop, it ended with {status}")
        for person in people:
            if not person.done():
                self.result.broken.append("somebody still waits for an answer")
                person.cancel()
        ended = await asyncio.gather(*people, return_exceptions=True)
        self.result.broken += [each for each in ended if isinstance(each, str)]

    async def _born(self) -> Life:
        self.lives += 1
        self.chat.born.clear()
        settings = {
            "token": TOKEN,
            "api_url": self.url,
            "database_url": f"sqlite:///{self.database}",
            "tick_s": "0.3",
            "messages_per_second": "30",
        }
        return Life(self.folder / f"serve-{self.lives}.log", settings, self.clock.off, self.plant)

    async def _life(self, plan: LifePlan, people: list["asyncio.Task[str | None]"]) -> None:
        life = await self._born()
        if plan.from_birth:
            await self._kill(life, plan.kill_s or 0)
            return
        await self._fetches(life)
        breaks = [asyncio.create_task(self._breaks(each, life)) for each in plan.breaks]
        if plan.kill_s is not None:
            await self._kill(life, plan.kill_s)
        else:
            await asyncio.wait(breaks)
            await self._comes_to_rest(life, people)
            await self._kill(life, 0)
        for each in breaks:
            each.cancel()
        await asyncio.gather(*breaks, return_exceptions=True)

    async def _fetches(self, life: Life) -> None:
        born = asyncio.create_task(self.chat.born.wait())
        await asyncio.wait({life.ended, born}, timeout=START_S, return_when=asyncio.FIRST_COMPLETED)
        born.cancel()

    async def _kill(self, life: Life, after_s: float) -> None:
        if await life.within(after_s):
            said = life.log.read_text("utf-8", "replace")[-600:]
            self.result.broken.append(f"it ended by itself with {life.process.exitcode}: {said}")
            return
        self.chat.kills.append(time.monotonic())
        self.chat.tell("killed")
        self.result.counts["kills"] += 1
        await life.kill()

    async def _breaks(self, each: Break, life: Life) -> None:
        if await life.within(each.after_s):
            return
        self.result.counts[each.kind] += 1
        self.chat.tell(f"breaks: {each.kind} ({each.chat_id})")
        if each.kind == "a second poller":
            await self._second_poller()
        elif each.kind == "the database locked":
            await self._locked(each, life)
        else:
            self.chat.faults.plan(KINDS[each.kind](each.chat_id))

    async def _second_poller(self) -> None:
        with suppress(httpx.HTTPError):
            async with httpx.AsyncClient(timeout=5) as other:
                for _ in range(2):
                    await other.post(
                        f"{self.url}/bot{TOKEN}/getUpdates", json={"timeout": 1, "limit": OTHERS}
                    )

    async def _locked(self, each: Break, life: Life) -> None:
        seconds = LOCKED_S[each.chat_id % 2]
        with closing(sqlite3.connect(self.database, isolation_level=None, timeout=0.2)) as holder:
            with suppress(sqlite3.OperationalError):
                holder.execute("BEGIN IMMEDIATE")
            await life.within(seconds)
            self.chat.tell("the database is free again")

    async def _comes_to_rest(self, life: Life, people: list["asyncio.Task[str | None]"]) -> None:
        """Nothing breaks any more: wait until everybody is through and nothing is left to do."""
        self.chat.faults.planned.clear()
        await asyncio.wait(people, timeout=REST_S)
        self.chat.faults.planned.clear()
        await life.within(LOOKS_S)
        end = time.monotonic() + REST_S
        while not self._at_rest():
            if await life.within(0.1) or time.monotonic() > end:
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
        with self.engine.connect().execution_options(readonly=True) as connection:
            due = (outbox.c.state == "queued") & (outbox.c.due_at <= soon)
            asked = (
                select(func.count()).where(inbox.c.state == "new"),
                select(func.count()).where((outbox.c.state == "sending") | due),
                select(func.count()).where(
                    session.c.state == "planned", session.c.due_at <= self.clock.now()
                ),
            )
            return tuple(connection.execute(each).scalar_one() for each in asked)

    def _look(self) -> None:
        self.seen = seen = Seen(self.chat, self.engine, self.words)
        result = self.result
        for name, holds in INVARIANTS.items():
            result.broken += [f"{name}: {each}" for each in holds(seen)]
        result.safety_s = [waited for _, waited in waited_for_safety(seen) if waited is not None]
        result.counts.update(
            {f"said: {kind}": n for kind, n in Counter(s.kind for s in self.chat.said).items()}
        )
        result.counts["messages of the bot"] = len(self.chat.came)
        result.counts["lives"] = self.lives
        begun = self.chat.log[0][0]
        result.led_to = [f"{at - begun:7.2f} s  {what}" for at, what in self.chat.log]
