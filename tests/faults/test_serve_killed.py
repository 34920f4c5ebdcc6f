"""`plimsoll serve` as a process of its own: killed under traffic, stopped, started twice, started wrongly.

It runs on the machine's clock against the chat network in this process; nothing here sleeps: whatever is waited for is
an event of the network, or the end of the process.
"""

import asyncio
import os
import shutil
import signal
import sys
from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from faults.crew import TYPED, settle_down
from sqlalchemy import func, select, update

from bot.clock import WallClock
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.store.engine import make_engine
from bot.store.tables import client, inbox, item, logged_set, outbox, session
from bot.store.units import Units

ROOT = Path(__file__).parents[2]
TOKEN = "4100:served"
SECONDS = 120
"""How long anything may take before it counts as lost."""

CREWS = [
    ("Marit", 100, [("Ada", 101), ("Liv", 102), ("Runa", 103)]),
    ("Orla", 900, [("Ben", 901), ("Cleo", 902), ("Dara", 903)]),
]
PHONES = [user_id for _, _, clients in CREWS for _, user_id in clients]


class Watched(Network):
    """A network that says whenever something was said."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.said = asyncio.Event()
        self.calls: Counter[str] = Counter()

    def note(self, *of: Any, **facts: Any) -> None:
        super().note(*of, **facts)
        self.said.set()

    def call(self, method: str, *of: Any, **facts: Any) -> Any:
        self.calls[method] += 1
        self.said.set()
        return super().call(method, *of, **facts)

    async def until(self, holds: Any) -> None:
        """Wait until something holds; looked at whenever something was said."""

        async def wait() -> None:
            while not holds():
                self.said.clear()
                await self.said.wait()

        await asyncio.wait_for(wait(), SECONDS)

    def bot_texts(self, user_id: int) -> list[str]:
        return [each.text for each in self.phone(user_id, "").screen if not each.mine]


@pytest.fixture(scope="module")
def joined(sqlite_files, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("served") / "joined.db"
    engine = make_engine(sqlite_files.copy(path))
    settle_down(Units(engine), CREWS)
    engine.dispose()
    return path


@pytest.fixture
def database(joined: Path, tmp_path: Path) -> Path:
    """A database in which every client's first session is due now, at noon on the client's own clock."""
    path = tmp_path / "plimsoll.db"
    shutil.copyfile(joined, path)
    engine, now = make_engine(f"sqlite:///{path}"), datetime.now(UTC)  # noqa: TID251  (`serve` reads it too)
    ahead = 12 - now.hour
    zone = f"Etc/GMT{-ahead:+d}" if ahead else "Etc/GMT"
    today = (now + timedelta(hours=ahead)).date()
    with engine.begin() as connection:
        connection.execute(update(client).values(zone=zone))
        firsts = connection.execute(select(func.min(session.c.id)).group_by(session.c.client_id)).scalars()
        due = {"local_on": today, "due_at": now - timedelta(minutes=5)}
        first = session.c.id.in_(firsts.all())
        connection.execute(update(session).where(first).values(due))
        connection.execute(update(session).where(~first).values(due_at=now + timedelta(days=7)))
    engine.dispose()
    return path


@asynccontextmanager
async def network() -> AsyncIterator[tuple[Watched, str]]:
    found = Watched(WallClock(), TOKEN)
    for user_id in (*PHONES, 100, 900):
        found.phone(user_id, str(user_id)).started = True
    async with Server(found) as server:
        yield found, server.url


class Serving:
    """`plimsoll serve` while it runs."""

    def __init__(self, folder: Path, **settings: str) -> None:
        self.log = folder / f"serve-{len(list(folder.glob('serve-*')))}.log"
        self.settings = settings
        self.folder = folder

    async def start(self) -> asyncio.subprocess.Process:
        theirs = {name: value for name, value in os.environ.items() if not name.startswith("PLIMSOLL_")}
        ours = {f"PLIMSOLL_{name.upper()}": value for name, value in self.settings.items()}
        with self.log.open("wb") as said:
            self.process = await asyncio.create_subprocess_exec(
                sys.executable,
                "-c",
                "from bot.cli import app; app()",
                "serve",
                cwd=self.folder,
                env=theirs | ours | {"PYTHONPATH": str(ROOT)},
                stdin=asyncio.subprocess.DEVNULL,
                stdout=said,
                stderr=said,
            )
        return self.process

    async def ended(self, seconds: float = SECONDS) -> tuple[int, str]:
        status = await asyncio.wait_for(self.process.wait(), seconds)
        return status, self.log.read_text("utf-8", "replace")


@asynccontextmanager
async def serving(folder: Path, **settings: str) -> AsyncIterator[Serving]:
    found = Serving(folder, **settings)
    await found.start()
    try:
        yield found
    finally:
        if found.process.returncode is None:
            found.process.kill()
            await found.process.wait()


def settings(url: str, database: Path, **more: str) -> dict[str, str]:
    return {
        "token": TOKEN,
        "api_url": url,
        "database_url": f"sqlite:///{database}",
        "tick_s": "0.2",
        "messages_per_second": "30",
    } | more


async def trains(chat: Watched, user_id: int) -> None:
    """Somebody gets her card, types a set of each exercise as the bot asks for it, and asks for help at the end."""
    phone = chat.phone(user_id, "")
    await chat.until(lambda: any("Lower A" in text for text in chat.bot_texts(user_id)))
    for number, text in enumerate(TYPED[:4], 2):
        phone.type(text)
        await chat.until(lambda number=number: _answered(chat, user_id) >= number)
    phone.type("/help")
    await chat.until(lambda: any(text.startswith("In a session") for text in chat.bot_texts(user_id)))


def _answered(chat: Watched, user_id: int) -> int:
    """How far the card is: 1 as it came, one more for each exercise that it names as done."""
    done = [
        line for text in chat.bot_texts(user_id) for line in text.splitlines() if line.startswith("Done: ")
    ]
    return 1 + max((line.count(",") + 1 for line in done), default=0)


def check_nothing_lost(chat: Watched, database: Path) -> None:
    engine = make_engine(f"sqlite:///{database}")
    with engine.connect() as connection:
        done = connection.execute(select(inbox.c.state)).scalars().all()
        logged = connection.execute(
            select(session.c.client_id, item.c.position, logged_set.c.set_no, logged_set.c.reps)
            .join_from(logged_set, item, item.c.id == logged_set.c.item_id)
            .join(session, session.c.id == item.c.session_id)
            .where(logged_set.c.voided_at.is_(None), logged_set.c.side.is_distinct_from("R"))
        ).all()
        keys = connection.execute(select(outbox.c.key).where(outbox.c.key.contains(":help:"))).scalars().all()
    engine.dispose()
    counts = [8, 8, 8, 8], [10, 10, 9], [10, 10, 10], [12, 12, 12]
    expected = Counter(
        (client_id, position, set_no, reps)
        for client_id in range(1, 7)
        for position, each in enumerate(counts)
        for set_no, reps in enumerate(each, 1)
    )
    assert Counter(map(tuple, logged)) == expected
    assert set(done) == {"done"}
    assert len(done) == len(PHONES) * 5
    assert len(keys) == len(PHONES)
    for user_id in PHONES:
        first = [text for text in chat.bot_texts(user_id) if text.startswith("Lower A")]
        assert 1 <= len(first) <= 2, chat.bot_texts(user_id)
        # One death, and no more than one copy too many of anything; a card posted anew after it says why.
        copies = Counter(text for text in chat.bot_texts(user_id) if "I was away" not in text)
        assert max(copies.values()) <= 2


@pytest.mark.parametrize("spoken", [8, 20, 32])
async def test_killed_under_traffic_nothing_is_lost_and_nothing_comes_three_times(database, tmp_path, spoken):
    async with network() as (chat, url):
        people = [asyncio.create_task(trains(chat, user_id)) for user_id in PHONES]
        async with serving(tmp_path, **settings(url, database)) as first:
            await chat.until(lambda: chat.calls["sendMessage"] >= spoken)
            first.process.send_signal(signal.SIGKILL)
            status, _ = await first.ended()
        assert status == -signal.SIGKILL
        assert not all(person.done() for person in people)
        async with serving(tmp_path, **settings(url, database)) as second:
            await asyncio.gather(*people)
            await chat.until(lambda: chat.unfetched == 0)
            second.process.terminate()
            status, said = await second.ended()
    assert (status, "Traceback" in said) == (0, False), said
    check_nothing_lost(chat, database)


async def test_told_to_stop_it_ends_within_ten_seconds_and_well(database, tmp_path):
    async with network() as (chat, url), serving(tmp_path, **settings(url, database)) as bot:
        await chat.until(lambda: chat.calls["sendMessage"] >= 1)
        bot.process.terminate()
        status, said = await bot.ended(10)
    assert (status, "Traceback" in said) == (0, False), said


async def test_told_to_stop_while_the_platform_is_away_it_ends_too(database, tmp_path):
    async with network() as (_, url):
        """Its port is free again when the network is gone."""
    async with serving(tmp_path, **settings(url, database, log_format="text")) as bot:
        await _line(bot, "platform_away")
        bot.process.terminate()
        status, said = await bot.ended(10)
    assert (status, "Traceback" in said) == (0, False), said


async def _line(bot: Serving, words: str) -> None:
    """Wait until a line is in the log; the process's own log is all there is to see of it."""
    ended = asyncio.create_task(bot.process.wait())
    while words not in bot.log.read_text("utf-8"):
        assert not ended.done(), bot.log.read_text("utf-8")
        await asyncio.wait({ended}, timeout=0.02)
    ended.cancel()


async def test_a_second_one_on_the_same_database_is_refused(database, tmp_path):
    async with network() as (chat, url), serving(tmp_path, **settings(url, database)) as bot:
        await chat.until(lambda: chat.calls["getUpdates"] >= 1)
        async with serving(tmp_path, **settings(url, database)) as other:
            status, said = await other.ended()
        assert bot.process.returncode is None
        pid = bot.process.pid
    assert status == 2
    assert f"already running on this database (process {pid})" in " ".join(said.split())


async def test_a_refused_token_ends_it_with_what_to_set(database, tmp_path):
    async with network() as (_, url), serving(tmp_path, **settings(url, database, token="1:wrong")) as bot:
        status, said = await bot.ended()
    assert (status, "Traceback" in said) == (2, False), said
    assert "Set PLIMSOLL_TOKEN to the token of your bot" in " ".join(said.split())
    assert "1:wrong" not in said


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"token": ""}, "PLIMSOLL_TOKEN is not set."),
        ({"databse_url": "sqlite:///x.db"}, "PLIMSOLL_DATABSE_URL is not a setting. Did you mean"),
        ({"tick_s": "often"}, "PLIMSOLL_TICK_S cannot be used"),
    ],
)
async def test_a_missing_unknown_or_bad_setting_ends_it_with_what_to_set(tmp_path, changes, words):
    given = settings("http://127.0.0.1:9", tmp_path / "none.db") | changes
    async with serving(tmp_path, **given) as bot:
        status, said = await bot.ended()
    assert status == 2
    assert words in " ".join(said.split())
    assert not (tmp_path / "none.db").exists()
