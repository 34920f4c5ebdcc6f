"""Two whole programs on one database, in one loop: what the one that leads does, and what the other knows of it."""

import asyncio
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime

import pytest
from databases import SHARED, PostgresServer
from sqlalchemy import select

from bot.assembly.house import House, Plan
from bot.assembly.lookout import Lookout
from bot.assembly.watch import PartEnded, Watch, watched
from bot.clock import RandomIds, StoryClock
from bot.inbound.way_in import GAP_S, Trouble
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.monitoring.figures import prometheus_text
from bot.schedule.clockwork import Clockwork
from bot.store.heartbeat import Heartbeat
from bot.store.neighbours import hold
from bot.store.tables import inbox
from bot.store.tether import Spans

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
TOKEN = "4100:two"
SOON = Spans(ping_s=0.05, safe_s=2.0, timeout_s=4.0, again_s=0.05)
LONG_S = 30.0
ORLA = 801


@pytest.fixture(params=SHARED)
def url(request: pytest.FixtureRequest) -> Iterator[str]:
    server: PostgresServer = request.getfixturevalue("postgres")
    with server.database() as found:
        yield found


async def once(holds: Callable[[], object]) -> None:
    loop = asyncio.get_running_loop()
    end = loop.time() + LONG_S
    while not holds():
        assert loop.time() < end
        await asyncio.to_thread(lambda: None)


@asynccontextmanager
async def program(url: str, network: Network, api_url: str) -> AsyncIterator[tuple[House, Lookout]]:
    with hold(url, lambda: None):
        house = House(Plan(TOKEN, url, api_url, 25, network.clock, RandomIds(), beside=SOON))
        house.led.fired = clockwork = Clockwork(house.tick, 60)
        try:
            await house.start()
            yield house, Lookout(house, clockwork)
        finally:
            clockwork.stop()
            await house.stop()


async def test_one_program_leads_and_when_it_stops_the_other_goes_on_where_it_was(
    url: str, tmp_path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("bot.assembly.led.HEARD_S", 0.0)
    network = Network(StoryClock(NOW), TOKEN)
    orla = network.phone(ORLA, "Orla")
    orla.start()
    async with Server(network) as server, program(url, network, server.url) as (second, lookout):
        await once(lambda: second.leads)
        async with program(url, network, server.url) as (first, other):
            with first.units.open(None) as unit:
                unit.accounts.bind(ORLA, ORLA, unit.coaches.add("Orla", "Europe/Lisbon", NOW), "coach")
            await once(lambda: first.leading.is_tied and first.leading._ear._open is not None)
            orla.type("hello")
            await once(lambda: first.way_in.good_at is not None)
            assert other.alive() == dict.fromkeys(("worker", "menus", "lead"), True)
            assert lookout.alive() == dict.fromkeys(
                ("worker", "menus", "sender", "poll", "lead", "tick"), True
            )
            told = [
                b"plimsoll_leads 1.0" in prometheus_text(await each.figures()) for each in (lookout, other)
            ]
            assert told == [True, False]
            assert all((await other.ready()).values())
            assert (first.way_in.taken, first.trouble) == (0, None)

            # The one that leads breaks: the other goes on, so that nobody is told that the bot stops.
            second.begin(second.led.tasks, "sender", _breaks())
            heartbeat = Heartbeat(url)
            with pytest.raises(PartEnded):
                await watched(second, heartbeat, Watch(second, heartbeat, 600))
            await second.stop()
            await once(lambda: first.leads)
            orla.type("/help")
            await once(lambda: [each for each in orla.screen if not each.mine and "/block" in each.text])
            assert "tick" in other.alive()
    assert [each.text for each in orla.screen if "stops" in each.text] == []
    with first.engine.connect() as connection:
        assert connection.execute(select(inbox.c.state)).scalars().all()[-1] == "done"
    first.engine.dispose()


async def _breaks() -> None:
    raise LookupError


async def test_a_program_that_is_not_tied_says_that_the_store_is_away(url: str) -> None:
    network = Network(StoryClock(NOW), TOKEN)
    async with Server(network) as server:
        house = House(Plan(TOKEN, url, server.url, 25, network.clock, RandomIds(), beside=SOON))
        assert house.trouble is Trouble.STORE
        house.way_in.trouble = Trouble.PLATFORM
        assert house.trouble is Trouble.PLATFORM
        await house.stop()


@pytest.mark.parametrize(
    ("before_s", "is_seen_to", "was_away"),
    [
        (None, True, False),
        (None, False, True),
        (5.0, True, False),
        (5.0, False, False),
        (GAP_S + 5, True, False),
        (GAP_S + 5, False, True),
    ],
)
async def test_who_leads_sees_to_what_an_outage_lost_though_another_heard_first(
    url: str, before_s: float | None, is_seen_to: bool, was_away: bool
) -> None:
    network = Network(StoryClock(NOW), TOKEN)
    async with Server(network) as server:
        house = House(Plan(TOKEN, url, server.url, 25, network.clock, RandomIds(), beside=SOON))
        way_in = house.way_in
        if before_s is not None:
            way_in._good_at = asyncio.get_running_loop().time() - before_s
            way_in._was_away = False
        way_in.heard_elsewhere(is_seen_to=is_seen_to)
        assert (way_in._was_away, way_in.last_good) == (was_away, NOW)
        assert await house.led.after_outage() is False
        await house.stop()
