"""What a tick costs among very many clients; and what it costs others when very many are due at once."""

import asyncio
import json
import os
import sys
from dataclasses import dataclass
from pathlib import Path
from subprocess import run
from time import perf_counter, process_time
from typing import Any

import pytest
from benchmarks.at_work import ROOT
from benchmarks.full_house import full_house
from faults.crew import DUE
from sqlalchemy import func, select, update

from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.schedule.tick import Tick
from bot.store.tables import outbox, session
from bot.store.units import Units
from bot.usecases.runner import Runner
from bot.usecases.writer import Priority, Writer

pytestmark = pytest.mark.benchmark

SIZES = (10_000, 100_000, *((1_000_000,) if os.environ.get("TEST_MILLION_CLIENTS") == "1" else ()))
DUE_EACH, ROUNDS = 100, 3
TARGET_TIMES, MOST_TIMES = 1.5, 4.0
AT_ONCE, OF_THEM = 500, 10_000
QUEUED_S, REPLY_S = 5.0, 0.100
EVERY = 0.02
"""How often a reply comes while the cards are made. [s]"""


@dataclass
class Desk:
    """A tick over a database, with its runner, on a clock that stands."""

    engine: Any

    def __post_init__(self) -> None:
        units, activity = Units(self.engine), Activity()
        self.write = Writer(1)
        self.clock = StoryClock(DUE)
        runner = Runner(
            units,
            self.write,
            self.clock,
            CountedIds(),
            activity=activity,
            inbox_wake=Wake(),
            outbox_wake=Wake(),
        )
        self.tick = Tick(units, runner)

    def cards(self) -> int:
        with self.engine.connect() as connection:
            return int(
                connection.execute(
                    select(func.count(outbox.c.id)).where(outbox.c.state == "queued")
                ).scalar_one()
            )

    def close(self) -> None:
        self.write.close()
        self.engine.dispose()


async def timed(desk: Desk, first: int | None) -> float:
    """Processor time of a tick, with the sessions of a hundred more clients due in it or none. [ms]"""
    if first is not None:
        with desk.engine.begin() as connection:
            some = (
                select(session.c.id).where(session.c.state == "planned").order_by(session.c.id).offset(first)
            )
            ids = list(connection.execute(some.limit(DUE_EACH)).scalars())
            connection.execute(update(session).where(session.c.id.in_(ids)).values(due_at=DUE))
    begun = process_time()
    await desk.tick.run()
    return (process_time() - begun) * 1000


async def test_a_tick_follows_what_is_due(
    sqlite_files, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    took: dict[int, tuple[float, float]] = {}
    lines = [f"a tick with {DUE_EACH} due, and with none, best of {ROUNDS}, processor time [ms]:"]
    for size in SIZES:
        sqlite_files.copy(tmp_path / f"{size}.db")
        desk = Desk(full_house(tmp_path / f"{size}.db", size, 0))
        await desk.tick.run()
        before = desk.cards()
        some = [await timed(desk, 50 + DUE_EACH * number) for number in range(ROUNDS)]
        none = [await timed(desk, None) for _ in range(ROUNDS)]
        assert desk.cards() - before == DUE_EACH * ROUNDS
        took[size] = min(some), min(none)
        desk.close()
        lines.append(f"  {size:9} clients: {took[size][0]:8.0f} {took[size][1]:8.1f}")
    few, many = took[SIZES[0]], took[SIZES[-1]]
    times = many[0] / few[0]
    lines.append(
        f"  {times:.2f} times with {DUE_EACH} due, {many[1] / few[1]:.1f} times with none"
        f" (target {TARGET_TIMES} with {DUE_EACH} due: {'held' if times <= TARGET_TIMES else 'missed'})"
    )
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201
    assert times < MOST_TIMES


async def waits_of_replies(desk: Desk, over: asyncio.Event) -> list[float]:
    """How long replies wait for their turn in the store, one at a time, until it is over. [s]"""
    loop, found = asyncio.get_running_loop(), []
    while not over.is_set():
        begun = perf_counter()
        found.append(await desk.write(perf_counter, Priority.REPLY) - begun)
        pause = asyncio.Event()
        loop.call_later(EVERY, pause.set)
        await pause.wait()
    return found


async def test_very_many_due_at_once_beside_a_job_for_each(
    sqlite_files, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sqlite_files.copy(tmp_path / "many.db")
    desk = Desk(full_house(tmp_path / "many.db", OF_THEM, AT_ONCE))
    over, begun, spent = asyncio.Event(), perf_counter(), process_time()
    replies = asyncio.create_task(waits_of_replies(desk, over))
    await desk.tick.run()
    took, spent = perf_counter() - begun, process_time() - spent
    over.set()
    waits = await replies
    cards = desk.cards()
    desk.close()

    jobs = f"sqlite:///{tmp_path / 'jobs.db'}"
    filled = peer("fill", jobs)
    ran = peer("morning", jobs)

    whole = took / AT_ONCE * OF_THEM
    lines = [
        f"{AT_ONCE} of {OF_THEM} clients due at once, queued in {took:.1f} s, processor {spent:.1f} s:",
        (
            f"  at that pace {OF_THEM} take {whole:.0f} s (target {QUEUED_S:.0f} s for {OF_THEM}:"
            f" {'held' if whole < QUEUED_S else 'missed'})"
        ),
        (
            f"  longest wait of {len(waits)} replies for their turn {max(waits) * 1000:.0f} ms"
            f" (target {REPLY_S * 1000:.0f} ms: {'held' if max(waits) < REPLY_S else 'missed'})"
        ),
        (
            f"  a job for each of {OF_THEM}, which only counts: filled in {filled['filled']:.1f} s, the same morning in"
            f" {ran['took']:.1f} s, of which the longest with nothing else running {ran['blocked']:.1f} s,"
            f" {ran['memory']:.0f} MB"
        ),
    ]
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201
    assert cards >= AT_ONCE
    assert sorted(waits)[int(0.99 * len(waits))] < REPLY_S


def peer(what: str, url: str) -> dict[str, float]:
    done = run(  # noqa: S603  (a module of ours)
        [sys.executable, "-m", "benchmarks.job_each", what, url, str(OF_THEM), str(AT_ONCE)],
        cwd=ROOT,
        env=dict(os.environ) | {"PYTHONPATH": f"{ROOT}:{ROOT / 'tests'}"},
        capture_output=True,
        text=True,
        check=True,
        timeout=200,
    )
    found: dict[str, float] = json.loads(done.stdout.splitlines()[-1])
    return found
