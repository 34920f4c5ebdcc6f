"""The worker alone, with an application that only says what it was given."""

import asyncio
import json
from typing import Any

import pytest
from mailroom import NOW, populate
from sqlalchemy import select

from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.inbound.worker import AT_ONCE, Worker
from bot.store.inbox import NewUpdate
from bot.store.tables import inbox
from bot.store.units import Units
from bot.usecases.runner import Runner
from bot.usecases.writer import Writer


def raw(update_id: int, chat_id: int, text: str) -> str:
    who = {"id": chat_id, "is_bot": False, "first_name": "Ada"}
    chat = {"id": chat_id, "type": "private"}
    message = {"message_id": 1, "date": 0, "chat": chat, "from": who, "text": text}
    return json.dumps({"update_id": update_id, "message": message})


class Reading:
    """An application whose handlers settle a row, some of them only when they are let."""

    bot = None

    def __init__(self, bench: "Bench") -> None:
        self.bench = bench
        self.began: list[str] = []
        self.ended: list[str] = []
        self.gates: dict[str, asyncio.Event] = {}
        self.changed = asyncio.Event()

    async def process_update(self, update: Any) -> None:
        text = update.message.text
        self.bench.runner.taken.add(update.update_id)
        self.began.append(text)
        self.changed.set()
        if text in self.gates:
            await self.gates[text].wait()
        await self.bench.write(lambda: self._settle(update.update_id))
        self.ended.append(text)
        self.changed.set()

    def _settle(self, update_id: int) -> None:
        with self.bench.units.open(None) as house:
            house.inbox.done(update_id, NOW)

    async def until(self, holds: Any) -> None:
        while not holds():
            self.changed.clear()
            await self.changed.wait()


class Saying:
    """Notes whom a text would be said to without a row."""

    def __init__(self) -> None:
        self.rows: list[int] = []

    def watch(self, *_: Any) -> None:
        """What is kept is watched over elsewhere."""

    def begin(self, rows: Any) -> None:
        self.rows += [row.update_id for row in rows]


class Bench:
    def __init__(self, units: Units) -> None:
        populate(units.engine)
        self.units, self.write, self.wake = units, Writer(), Wake()
        self.runner = Runner(
            units,
            self.write,
            StoryClock(NOW),
            CountedIds(),
            activity=Activity(),
            inbox_wake=self.wake,
            outbox_wake=Wake(),
        )
        self.reading = Reading(self)
        self.aloud = Saying()
        self.worker = Worker(self.reading, self.runner, self.wake, self.aloud)  # type: ignore[arg-type]
        self.running: asyncio.Task[None] | None = None

    def keep(self, *rows: tuple[int, int, str], urgency: int = 0) -> None:
        with self.units.open(None) as house:
            house.inbox.add(
                [
                    NewUpdate(number, chat, chat, "message", urgency, raw(number, chat, text), "new", NOW)
                    for number, chat, text in rows
                ]
            )
        self.wake.set()

    async def resting(self) -> None:
        """Wait until the worker has looked and found nothing to do."""
        await self.runner.activity.until(lambda: self.worker.quiet)

    def start(self) -> None:
        self.running = asyncio.create_task(self.worker.run())

    async def stop(self) -> None:
        if self.running is not None:
            self.running.cancel()
            await asyncio.wait({self.running})
        self.write.close()


@pytest.fixture
async def bench(units: Units):
    found = Bench(units)
    yield found
    for gate in found.reading.gates.values():
        gate.set()
    await found.stop()


async def test_one_chat_goes_in_order_and_other_chats_go_on_beside_a_slow_one(bench):
    bench.reading.gates["slow"] = asyncio.Event()
    bench.keep((1, 501, "slow"), (2, 501, "after"), (3, 601, "beside"), (4, 601, "beside too"))
    bench.start()

    await bench.reading.until(lambda: "beside too" in bench.reading.ended)
    assert bench.reading.began == ["slow", "beside", "beside too"]

    bench.reading.gates["slow"].set()
    await bench.reading.until(lambda: "after" in bench.reading.ended)
    assert bench.reading.ended == ["beside", "beside too", "slow", "after"]


async def test_an_urgent_row_overtakes_in_its_own_chat_and_goes_before_other_chats(bench):
    bench.keep((1, 501, "first"), (2, 601, "hers"))
    bench.keep((3, 501, "urgent"), urgency=2)
    bench.start()

    await bench.reading.until(lambda: len(bench.reading.ended) == 3)

    assert bench.reading.began.index("urgent") == 0
    assert bench.reading.began.index("first") > 0


async def test_no_more_chats_than_so_many_are_worked_on_at_once(bench):
    chats = range(1000, 1000 + AT_ONCE + 3)
    for chat in chats:
        bench.reading.gates[f"{chat}"] = asyncio.Event()
    bench.keep(*((chat, chat, f"{chat}") for chat in chats))
    bench.start()

    await bench.reading.until(lambda: len(bench.reading.began) == AT_ONCE)
    bench.reading.gates[bench.reading.began[0]].set()
    await bench.reading.until(lambda: len(bench.reading.began) == AT_ONCE + 1)

    assert len(bench.worker._busy) == AT_ONCE
    assert not bench.worker.quiet


async def test_a_row_that_waits_is_taken_up_when_its_time_has_come(bench):
    bench.keep((1, 501, "later"))
    with bench.units.open(None) as house:
        house.inbox.postpone(1, NOW.replace(minute=50))
    bench.start()
    clock = bench.runner.clock
    await asyncio.sleep(0)

    await bench.resting()
    assert bench.reading.began == []
    clock.move_to(NOW.replace(minute=50))
    await bench.reading.until(lambda: bench.reading.ended == ["later"])


async def test_stopping_lets_what_is_begun_end(bench):
    bench.reading.gates["begun"] = asyncio.Event()
    bench.keep((1, 501, "begun"), (2, 501, "not begun"))
    bench.start()
    await bench.reading.until(lambda: bench.reading.began == ["begun"])

    bench.running.cancel()
    await asyncio.sleep(0)
    bench.reading.gates["begun"].set()
    await asyncio.wait({bench.running})

    assert (bench.reading.began, bench.reading.ended) == (["begun"], ["begun"])
    with bench.units.engine.connect() as connection:
        states = connection.execute(select(inbox.c.state).order_by(inbox.c.update_id)).scalars().all()
    assert states == ["done", "new"]


async def test_a_row_by_itself_takes_one_look(bench):
    write, looks = bench.runner.write, []

    async def counted(work, priority):
        looks.append(getattr(work, "__name__", ""))
        return await write(work, priority)

    bench.runner.write = counted
    bench.keep((1, 501, "alone"))
    bench.start()
    await bench.reading.until(lambda: bench.reading.ended == ["alone"])
    await bench.resting()
    assert looks == ["look"]


async def test_a_row_that_comes_for_a_busy_chat_while_it_is_looked_for_is_not_forgotten(bench):
    write, begun, goes_on = bench.runner.write, asyncio.Event(), asyncio.Event()

    async def slow(work, priority):
        found = await write(work, priority)
        if bench.reading.began == ["first"] and not begun.is_set():
            begun.set()
            await goes_on.wait()
        return found

    bench.reading.gates["first"] = asyncio.Event()
    bench.keep((1, 501, "first"))
    bench.start()
    await bench.reading.until(lambda: bench.reading.began == ["first"])
    bench.runner.write = slow
    bench.keep((2, 501, "second"))
    await begun.wait()
    bench.reading.gates["first"].set()
    await bench.reading.until(lambda: bench.reading.ended == ["first"])
    await asyncio.sleep(0)
    goes_on.set()
    await bench.reading.until(lambda: bench.reading.ended == ["first", "second"])
