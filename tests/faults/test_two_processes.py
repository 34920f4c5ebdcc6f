"""Two `plimsoll serve` on one PostgreSQL, as processes: one leads, both answer, and when it is gone the other leads.

They run on the machine's clock against the chat network in this process. Nothing here sleeps: whatever is waited for is
an event of the network, a line of a log, or the end of a process. What takes 15 s at most on a coach's machine takes a
tenth of it here; `TEST_REAL_SPANS=1` has it take what it does there.
"""

import asyncio
import os
import signal
import sys
import time
from collections import Counter
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import AsyncExitStack, asynccontextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from databases import SHARED, PostgresServer
from faults.crew import settle_down
from faults.test_serve_killed import CREWS, PHONES, ROOT, SECONDS, TOKEN, Watched, network, trains
from sqlalchemy import create_engine, func, select, text, update

from bot.store.engine import make_engine
from bot.store.tables import client, inbox, item, logged_set, outbox, session
from bot.store.tether import LEAD_KEY, Spans
from bot.store.units import Units

IS_REAL = os.environ.get("TEST_REAL_SPANS", "") not in {"", "0"}
SPANS = Spans() if IS_REAL else Spans(ping_s=0.25, safe_s=0.6, timeout_s=0.9, transaction_s=1.0, again_s=0.1)
PROGRAM = """
import bot.cli.serving
from bot.store.tether import Spans
bot.cli.serving.Spans = lambda: {spans!r}
from bot.cli import app
app()
"""


@pytest.fixture(params=SHARED)
def url(request: pytest.FixtureRequest) -> Iterator[str]:
    """A database in which every client's first session is due now, at noon on the client's own clock."""
    server: PostgresServer = request.getfixturevalue("postgres")
    with server.database() as found:
        engine, now = make_engine(found), datetime.now(UTC)  # noqa: TID251  (`serve` reads it too)
        settle_down(Units(engine), CREWS)
        ahead = 12 - now.hour
        zone = f"Etc/GMT{-ahead:+d}" if ahead else "Etc/GMT"
        with engine.begin() as connection:
            connection.execute(update(client).values(zone=zone))
            firsts = select(func.min(session.c.id)).group_by(session.c.client_id)
            first = session.c.id.in_(connection.execute(firsts).scalars().all())
            due = {
                "local_on": (now + timedelta(hours=ahead)).date(),
                "due_at": now - timedelta(minutes=5),
            }
            connection.execute(update(session).where(first).values(due))
            connection.execute(update(session).where(~first).values(due_at=now + timedelta(days=7)))
        engine.dispose()
        yield found


class Process:
    """`plimsoll serve` while it runs, and what it has said."""

    def __init__(self, log: Path) -> None:
        self.log = log
        self.process: asyncio.subprocess.Process

    @property
    def said(self) -> str:
        return self.log.read_text("utf-8", "replace")

    def times(self, event: str) -> int:
        return self.said.count(f'"event": "{event}"')

    def signal(self, number: int) -> None:
        self.process.send_signal(number)


@asynccontextmanager
async def serving(folder: Path, name: str, url: str, api_url: str) -> AsyncIterator[Process]:
    found = Process(folder / f"{name}.log")
    given = {"TOKEN": TOKEN, "API_URL": api_url, "DATABASE_URL": url, "TICK_S": "0.2", "LOG_FORMAT": "json"}
    theirs = {key: value for key, value in os.environ.items() if not key.startswith("PLIMSOLL_")}
    with found.log.open("wb") as said:
        found.process = await asyncio.create_subprocess_exec(
            sys.executable,
            "-c",
            PROGRAM.format(spans=SPANS),
            "serve",
            cwd=folder,
            env=theirs
            | {f"PLIMSOLL_{key}": value for key, value in given.items()}
            | {"PYTHONPATH": str(ROOT)},
            stdin=asyncio.subprocess.DEVNULL,
            stdout=said,
            stderr=said,
        )
    try:
        yield found
    finally:
        if found.process.returncode is None:
            found.process.kill()
            await found.process.wait()


async def until(holds: Callable[[], object], *processes: Process) -> float:
    """Look again and again; returns how long it took. [s]"""
    began = time.monotonic()
    never = asyncio.get_running_loop().create_future()
    while not holds():
        assert time.monotonic() - began < SECONDS, [each.said for each in processes]
        await asyncio.wait({never}, timeout=0.02)
    return time.monotonic() - began


def run(url: str, statement: str, **values: object) -> None:
    engine = create_engine(url, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(statement), values)
    engine.dispose()


def check_nothing_lost(chat: Watched, url: str) -> None:
    engine = make_engine(url)
    with engine.connect() as connection:
        states = connection.execute(select(inbox.c.state)).scalars().all()
        logged = connection.execute(
            select(session.c.client_id, item.c.position, logged_set.c.set_no)
            .join_from(logged_set, item, item.c.id == logged_set.c.item_id)
            .join(session, session.c.id == item.c.session_id)
            .where(logged_set.c.voided_at.is_(None), logged_set.c.side.is_distinct_from("R"))
        ).all()
        left = connection.execute(select(outbox.c.key).where(outbox.c.state.in_(("doubtful", "dead")))).all()
    engine.dispose()
    assert Counter(map(tuple, logged)) == Counter(
        (client_id, position, set_no)
        for client_id in range(1, 7)
        for position, count in enumerate((4, 3, 3, 3))
        for set_no in range(1, count + 1)
    )
    assert Counter(states) == {"done": len(PHONES) * 5}
    assert left == []


async def test_whatever_becomes_of_the_one_that_leads_the_other_leads_soon_and_nothing_is_lost(
    url: str, tmp_path: Path
) -> None:
    took: dict[str, float] = {}
    async with network() as (chat, api_url), AsyncExitStack() as stack:

        async def start(name: str) -> Process:
            return await stack.enter_async_context(serving(tmp_path, name, url, api_url))

        first = await start("first")
        await until(lambda: first.times("leads") == 1, first)
        second = await start("second")
        await until(lambda: second.times("stands_by") == 1, first, second)
        people = [asyncio.create_task(trains(chat, user_id)) for user_id in PHONES]
        await until(lambda: chat.calls["sendMessage"] >= 14, first, second)

        first.signal(signal.SIGKILL)
        took["killed"] = await until(lambda: second.times("leads") == 1, second)
        third = await start("third")
        await until(lambda: chat.calls["sendMessage"] >= 22 and third.times("stands_by"), second, third)

        second.signal(signal.SIGSTOP)
        took["halted"] = await until(lambda: third.times("leads") == 1, second, third)
        second.signal(signal.SIGCONT)
        await until(lambda: second.times("stands_by") == 2, second, third)

        run(
            url,
            "SELECT pg_terminate_backend(pid) FROM pg_locks WHERE locktype = 'advisory' AND objid = :key AND granted",
            key=LEAD_KEY,
        )
        took["cut off"] = await until(
            lambda: second.times("leads") + third.times("leads") == 3, second, third
        )
        await asyncio.gather(*people)
        for each in (second, third):
            each.signal(signal.SIGTERM)
        statuses = [await asyncio.wait_for(each.process.wait(), 20) for each in (second, third)]
    assert statuses == [0, 0], (second.said, third.said)
    assert second.times("outbox_settled") > 0
    check_nothing_lost(chat, url)
    copies = Counter(
        (user_id, words)
        for user_id in PHONES
        for words in chat.bot_texts(user_id)
        if "I was away" not in words
    )
    assert max(copies.values()) <= 1 + len(took)
    print({name: round(seconds, 1) for name, seconds in took.items()})  # noqa: T201  (the figures of the map)
    assert max(took.values()) < (15 if IS_REAL else SPANS.timeout_s + SPANS.ping_s + 5)
