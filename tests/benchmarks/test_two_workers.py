"""Two processes on one PostgreSQL beside one, on the same replies: how many are answered a second, and what it costs.

The chat network runs in the process of the test, and PostgreSQL beside it, on the same cores: where there are two, two
processes of the program have to share them with both.
"""

from contextlib import AsyncExitStack
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from benchmarks.at_work import TOKEN, at_work, network, share
from benchmarks.full_house import FIRST_USER, full_house
from benchmarks.going_on import GoingOn
from databases import PostgresServer
from faults.crew import DUE, TYPED
from sqlalchemy import create_engine, func, select

from bot.store.tables import inbox, logged_set
from bot.store.transfer import transfer

pytestmark = pytest.mark.benchmark

CHATS = 20
SAID = TYPED[:3]
"""What each of them types, all of it at once."""
SETS = 4 + 2 * 3 + 2 * 3
"""Rows of sets that follow from it: those of the second and third exercise are done on each side."""
USERS = range(FIRST_USER, FIRST_USER + CHATS)
LIFTED = 1000.0
"""Messages a second, so that the platform's cap holds back nothing."""
SETTLING = timedelta(seconds=3)
LOOK = timedelta(seconds=0.25)


@dataclass
class Run:
    """What the replies took."""

    cpu_ms: list[float]
    waits: list[float]
    took_s: float

    @property
    def a_second(self) -> float:
        return len(self.waits) / self.took_s


async def replies(processes: int, url: str, tmp_path: Path) -> Run:
    clock = GoingOn(DUE)
    served = (url, str(LIFTED), "0.5", DUE.isoformat(), clock.since.isoformat())
    async with network(clock, USERS) as (chat, api), AsyncExitStack() as stack:
        programs = [
            await stack.enter_async_context(
                at_work("served", TOKEN, api, *served, log=tmp_path / f"{processes}-{number}.log")
            )
            for number in range(processes)
        ]
        await chat.until(lambda: len(chat.sent_at) >= CHATS + 2)
        await clock.sleep_until(clock.now() + SETTLING)
        before = [each.cpu_s for each in programs]
        for text in SAID:
            for user_id in USERS:
                chat.typed(user_id, text)
        while len(rows := settled(url)) < CHATS * len(SAID):
            await clock.sleep_until(clock.now() + LOOK)
        await chat.until(lambda: not chat.waiting)
        await clock.sleep_until(clock.now() + SETTLING)
        cost = [
            (each.cpu_s - already) / (CHATS * len(SAID)) * 1000
            for each, already in zip(programs, before, strict=True)
        ]
    took = max(done for _, done in rows) - min(received for received, _ in rows)
    return Run(cost, [(done - received).total_seconds() for received, done in rows], took.total_seconds())


def settled(url: str) -> list[tuple[datetime, datetime]]:
    """When each reply that is answered was taken in, and when its answer was in the outbox."""
    engine = create_engine(url)
    with engine.connect() as connection:
        found = connection.execute(
            select(inbox.c.received_at, inbox.c.done_at).where(inbox.c.state == "done")
        )
        rows = [(each.received_at, each.done_at) for each in found]
    engine.dispose()
    return rows


async def test_two_processes_on_one_database_beside_one(
    sqlite_files, postgres: PostgresServer, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    filled = sqlite_files.copy(tmp_path / "filled.db")
    full_house(tmp_path / "filled.db", CHATS, CHATS).dispose()
    runs: list[Run] = []
    for processes in (1, 2):
        with postgres.database(migrated=False) as url:
            transfer(filled, url)
            runs.append(await replies(processes, url, tmp_path))
            engine = create_engine(url)
            with engine.connect() as connection:
                sets = connection.execute(select(func.count(logged_set.c.id))).scalar_one()
            engine.dispose()
        assert sets == SETS * CHATS
    one, two = runs
    with capsys.disabled():
        print(f"\n{CHATS} chats, {len(SAID)} replies each, all at once, on PostgreSQL:")  # noqa: T201
        for name, each in (("one process", one), ("two processes", two)):
            cpu = " + ".join(f"{ms:.1f}" for ms in each.cpu_ms)
            print(  # noqa: T201
                f"  {name}: {each.a_second:.1f} replies a second, processor time of a reply {cpu} ms, half within"
                f" {share(each.waits, 0.5):.1f} s, 99 of 100 within {share(each.waits, 0.99):.1f} s"
            )
        print(f"  {two.a_second / one.a_second:.2f} times as many")  # noqa: T201
    assert all(ms > 0 for ms in two.cpu_ms)
