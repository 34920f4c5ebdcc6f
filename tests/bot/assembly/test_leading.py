"""Several processes on one database, here several in one loop: who leads, and who works on which chat."""

import asyncio
import logging
from collections import defaultdict
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import AsyncExitStack, ExitStack, asynccontextmanager
from dataclasses import replace
from datetime import UTC, datetime
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest
from databases import SHARED, PostgresServer
from sqlalchemy import create_engine, select, text

from bot.assembly.leading import Leading
from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.inbound.worker import Worker
from bot.store.engine import AlreadyRunning, make_engine, take_lock
from bot.store.hail import hail_from
from bot.store.inbox import NewUpdate
from bot.store.tables import inbox
from bot.store.tether import Spans
from bot.store.units import Units
from bot.usecases.runner import Runner
from bot.usecases.writer import Writer

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
SOON = Spans(ping_s=0.05, safe_s=2.0, timeout_s=4.0, again_s=0.05, alone_s=0.2)
LONG_S = 30.0


@pytest.fixture(params=SHARED)
def url(request: pytest.FixtureRequest) -> Iterator[str]:
    server: PostgresServer = request.getfixturevalue("postgres")
    with server.database() as found:
        yield found


def run(url: str, statement: str, **values: object) -> None:
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(statement), values)
    engine.dispose()


class Noting:
    """What a process leads with: it notes that it was told to."""

    def __init__(self) -> None:
        self.events: list[str | None] = []
        self.changed = asyncio.Event()
        self.gate = asyncio.Event()
        self.gate.set()

    def _note(self, what: str) -> None:
        self.events.append(what)
        self.changed.set()

    def lead(self) -> None:
        self._note("lead")

    async def stand_by(self) -> None:
        self._note("stand by")
        await self.gate.wait()
        self._note("stood by")

    def hailed(self, kind: str | None) -> None:
        self._note(f"heard {kind}")

    def roused(self) -> None:
        self._note("roused")

    async def until(self, holds: Callable[[], bool]) -> None:
        async def look() -> None:
            while not holds():
                self.changed.clear()
                await self.changed.wait()

        await asyncio.wait_for(look(), LONG_S)

    async def does(self, what: str, times: int = 1) -> None:
        await self.until(lambda: self.events.count(what) >= times)


@asynccontextmanager
async def process(
    url: str, word: str, spans: Spans = SOON, **more: Any
) -> AsyncIterator[tuple[Leading, Noting]]:
    led = Noting()
    found = Leading(url, word, led, spans, **more)  # type: ignore[arg-type]
    running = asyncio.create_task(found.run())
    try:
        yield found, led
    finally:
        found.retire()
        running.cancel()
        await asyncio.wait({running})


async def once(holds: Callable[[], bool]) -> None:
    """Wait until something holds that nobody tells of."""
    loop = asyncio.get_running_loop()
    end = loop.time() + LONG_S
    while not holds():
        assert loop.time() < end
        await asyncio.to_thread(lambda: None)


async def test_one_leads_the_others_stand_by_and_when_it_ends_another_leads(url: str) -> None:
    async with process(url, "b") as (second, led):
        async with process(url, "a") as (first, other):
            await once(lambda: first.leads or second.leads)
            for each in (led, other):
                await each.does("heard None")
            assert first.leads is not second.leads
        await once(lambda: second.leads)
        assert led.events.count("lead") == 1


async def test_a_leader_whose_connection_ends_leads_no_more_until_it_has_ended_what_it_led(
    url: str, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.INFO)
    async with process(url, "a") as (first, led):
        await led.does("lead")
        async with process(url, "b") as (second, _):
            led.gate.clear()
            await once(lambda: second.is_tied)
            run(url, "SELECT pg_terminate_backend(:pid)", pid=first._tether.pid)
            await led.does("stand by")
            await once(lambda: second.leads)
        # Nobody else leads now, and what it led has not ended yet.
        await once(lambda: first._tether.pid is not None)
        assert led.events.count("lead") == 1
        led.gate.set()
        await led.does("lead", 2)
    assert led.events[-3:] == ["stand by", "stood by", "lead"]
    said = [each.message for each in caplog.records if each.name == "bot.assembly.leading"]
    assert said == ["leads", "stands_by", "line_lost", "stands_by", "leads", "leads"]


async def test_when_the_server_loses_every_connection_all_come_back_and_one_leads(url: str) -> None:
    async with process(url, "a") as (first, one), process(url, "b") as (second, two):
        await once(lambda: first.leads or second.leads)
        for each in (one, two):
            await each.does("heard None")
        run(
            url,
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
            " WHERE datname = current_database() AND pid <> pg_backend_pid()",
        )
        await once(lambda: "stand by" in one.events + two.events)
        for each in (one, two):
            await each.does("heard None", 2)
        await once(lambda: first.leads is not second.leads)


async def test_who_has_not_heard_lately_may_not_send_and_looks_again_once_it_has(url: str) -> None:
    seconds = [100.0]
    slow = Spans(ping_s=0.05, safe_s=6.0, timeout_s=9.0, again_s=0.05)
    engine = make_engine(url)
    async with process(url, "a", slow, time=lambda: seconds[0]) as (first, led):
        await led.does("lead")
        with engine.connect() as connection:
            assert (first.is_safe(), first.may_claim(connection)) == (True, True)
            seconds[0] += 5.9
            assert first.is_safe()
            seconds[0] += 60.0
            assert (first.is_safe(), first.may_claim(connection)) == (False, False)
        await led.does("roused")
        assert first.is_safe()
    engine.dispose()


async def test_who_thinks_that_it_leads_may_not_send_when_the_server_says_otherwise(url: str) -> None:
    rare = Spans(ping_s=LONG_S, safe_s=2 * LONG_S, timeout_s=3 * LONG_S, again_s=0.05)
    engine = make_engine(url)
    async with process(url, "a", rare) as (first, led):
        await led.does("lead")
        run(url, "SELECT pg_terminate_backend(:pid)", pid=first._tether.pid)
        async with process(url, "b") as (second, other):
            await other.does("lead")
            with engine.connect() as connection:
                assert (first.is_safe(), first.may_claim(connection)) == (True, False)
                assert second.may_claim(connection)
    engine.dispose()


async def test_a_server_that_does_not_answer_is_cut_off_and_tied_anew(url: str) -> None:
    hasty = Spans(ping_s=0.05, safe_s=0.3, timeout_s=4.0, again_s=0.05)
    async with process(url, "a", hasty) as (first, led):
        await led.does("lead")
        before = first._tether.pid

        def wait_in_vain() -> None:
            first._tether._tied.execute(text("SET statement_timeout = 0"))
            first._tether._tied.execute(text("SELECT pg_sleep(600)"))

        stuck = asyncio.create_task(first._tied(wait_in_vain))
        await led.does("stood by")
        await asyncio.wait({stuck})
        assert stuck.exception() is not None
        await once(lambda: first._tether.pid not in (None, before))


async def test_who_needs_the_database_alone_ends_those_that_come_back_meanwhile(url: str) -> None:
    with take_lock(url):
        found = Leading(url, "a", Noting(), SOON)  # type: ignore[arg-type]
        with pytest.raises(AlreadyRunning):
            await asyncio.wait_for(found.run(), LONG_S)


async def test_who_needs_the_database_alone_for_a_moment_ends_nobody(url: str) -> None:
    patient = replace(SOON, alone_s=LONG_S)
    with ExitStack() as stack:
        stack.enter_context(take_lock(url))
        async with process(url, "a", patient) as (first, led):
            await once(lambda: first._refused_at is not None)
            stack.close()
            await led.does("lead")
            assert first._refused_at is None


class Handling:
    """Handlers that take their time, and note what took effect, as the runner does: in the row's transaction."""

    bot = None

    def __init__(self, url: str, word: str, effects: list[tuple[int, int]], chance: Random) -> None:
        self.engine = make_engine(url, 10.0)
        hail_from(self.engine, word)
        self.units, self.write, self.wake = Units(self.engine), Writer(), Wake()
        self.effects, self.chance = effects, chance
        self.worked = 0
        self.runner = Runner(
            self.units,
            self.write,
            StoryClock(NOW),
            CountedIds(),
            activity=Activity(),
            inbox_wake=self.wake,
            outbox_wake=Wake(),
        )

    async def process_update(self, update: Any) -> None:
        self.runner.taken.add(update.update_id)
        for _ in range(self.chance.randrange(4)):
            await asyncio.to_thread(lambda: None)
        await self.write(lambda: self._settle(update.update_id, update.effective_chat.id))
        for _ in range(self.chance.randrange(4)):
            await asyncio.to_thread(lambda: None)

    def _settle(self, update_id: int, chat_id: int) -> None:
        with self.units.open(None) as house:
            if house.inbox.claim(update_id) is not None:
                house.inbox.done(update_id, NOW)
                self.effects.append((chat_id, update_id))
                self.worked += 1


def raw(update_id: int, chat_id: int) -> str:
    who = f'{{"id": {chat_id}, "is_bot": false, "first_name": "Ada"}}'
    chat = f'{{"id": {chat_id}, "type": "private"}}'
    return (
        f'{{"update_id": {update_id}, "message": '
        f'{{"message_id": 1, "date": 0, "chat": {chat}, "from": {who}, "text": "8"}}}}'
    )


@pytest.mark.parametrize(("seed", "chats", "rows", "cuts"), [(1, 25, 6, 0), (2, 3, 30, 0), (3, 12, 10, 3)])
async def test_two_workers_share_an_inbox_each_chat_in_order_and_each_row_once(
    url: str, seed: int, chats: int, rows: int, cuts: int
) -> None:
    chance = Random(seed)  # noqa: S311  (no secret)
    numbers = list(range(1, chats * rows + 1))
    whose = {number: 500 + chance.randrange(chats) for number in numbers}
    urgent = set(chance.sample(numbers, 5))
    effects: list[tuple[int, int]] = []
    async with AsyncExitStack() as stack:
        handlers = [Handling(url, word, effects, chance) for word in ("a", "b")]
        with handlers[0].units.open(None) as house:
            house.inbox.add(
                [
                    NewUpdate(
                        each,
                        whose[each],
                        whose[each],
                        "message",
                        2 * (each in urgent),
                        raw(each, whose[each]),
                        "new",
                        NOW,
                    )
                    for each in numbers
                ]
            )
        tied = []
        for word in ("a", "b"):
            leading, led = await stack.enter_async_context(process(url, word))
            await led.does("heard None")
            tied.append(leading)
        for handling, leading in zip(handlers, tied, strict=True):
            aloud = SimpleNamespace(begin=lambda _: None, watch=lambda *_: None)
            worker = Worker(handling, handling.runner, handling.wake, aloud, shared=leading)  # type: ignore[arg-type]
            running = asyncio.create_task(worker.run())
            stack.push_async_callback(asyncio.wait, {running})
            stack.callback(running.cancel)
        for cut in range(cuts):
            await once(lambda cut=cut: len(effects) > (cut + 1) * len(numbers) / (cuts + 2))
            tied[cut % 2]._tether.cut()
        await once(lambda: len(effects) >= len(numbers))
    with handlers[0].engine.connect() as connection:
        states = connection.execute(select(inbox.c.state)).scalars().all()
    for each in handlers:
        each.write.close()
        each.engine.dispose()

    order: defaultdict[int, list[int]] = defaultdict(list)
    for chat, update in effects:
        order[chat].append(update)
    assert set(states) == {"done"}
    assert len(effects) == len(numbers)
    for chat, done in order.items():
        mine = [each for each in numbers if whose[each] == chat]
        assert done == sorted(mine, key=lambda each: (each not in urgent, each))
    assert min(each.worked for each in handlers) > 0
