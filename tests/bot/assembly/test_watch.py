import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from telegram.error import InvalidToken

from bot.assembly.house import House, Plan
from bot.assembly.watch import LOOK_S, FetchingDied, PartEnded, Watch, farewell, watched
from bot.clock import CountedIds, StoryClock
from bot.localchat.faults import Fault, Kind
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.render.outage import stopping
from bot.store.heartbeat import Heartbeat, Mark

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
TOKEN = "4100:story"
COACHES = (801, 802)


class Seconds:
    """A clock of seconds, and a sleep that moves it; after a number of sleeps it sleeps for ever."""

    def __init__(self, sleeps: int = 10_000) -> None:
        self.now = 100.0
        self.left = sleeps
        self.used_up = asyncio.Event()
        self.before_look: Any = lambda: None

    def time(self) -> float:
        return self.now

    async def sleep(self, seconds: float) -> None:
        self.left -= 1
        if self.left < 0:
            self.used_up.set()
            await asyncio.Event().wait()
        self.now += seconds
        self.before_look()
        await asyncio.sleep(0)


class Place:
    """A program that is built, and whose fetching is played."""

    def __init__(self, url: str, network: Network, server: Server, house: House) -> None:
        self.network, self.server, self.house = network, server, house
        self.heartbeat = Heartbeat(url)
        self.seconds = Seconds()

    def fetch(self) -> None:
        self.house.way_in._good_at = self.seconds.now
        self.house.way_in.last_good = NOW + timedelta(seconds=self.seconds.now)

    def watch(self, limit_s: float = 600) -> Watch:
        return Watch(self.house, self.heartbeat, limit_s, time=self.seconds.time, sleep=self.seconds.sleep)

    def said_to(self, chat_id: int) -> list[str]:
        return [each.text for each in self.network.record if (each.chat_id, each.sender) == (chat_id, "bot")]

    def add_coaches(self) -> None:
        for number, chat_id in enumerate(COACHES, 1):
            self.network.phone(chat_id, f"Coach {number}").start()
            with self.house.units.open(None) as unit:
                coach_id = unit.coaches.add(f"Coach {number}", "Europe/Oslo", NOW)
                unit.accounts.bind(chat_id, chat_id, coach_id, "coach")


@asynccontextmanager
async def standing(url: str) -> AsyncIterator[Place]:
    network = Network(StoryClock(NOW), TOKEN)
    async with Server(network) as server:
        house = House(Plan(TOKEN, url, server.url, 25, network.clock, CountedIds()))
        place = Place(url, network, server, house)
        place.add_coaches()
        try:
            await house.application.initialize()
            yield place
        finally:
            await house.stop()


@pytest.fixture
async def place(database_url: str) -> AsyncIterator[Place]:
    async with standing(database_url) as place:
        yield place


async def test_silence_of_the_limit_ends_the_program(place: Place) -> None:
    with pytest.raises(FetchingDied) as ended:
        await place.watch(limit_s=600).run()

    assert ended.value.silent_s == 600
    assert place.seconds.now == 100 + 600
    assert str(ended.value) == (
        "Stopped: no message could be taken in for 10 minutes. "
        "Run plimsoll doctor to see why, and start again."
    )


async def test_a_fetch_begins_the_count_anew(place: Place) -> None:
    place.fetch()
    watch = place.watch(limit_s=600)
    for _ in range(39):
        place.seconds.now += LOOK_S
        watch.look()
    place.fetch()
    silences = []
    for _ in range(3):
        place.seconds.now += LOOK_S
        silences.append(watch.look())

    assert silences == [0, 15, 30]


async def test_a_program_that_fetches_is_left_alone(place: Place) -> None:
    place.seconds.left = 500
    place.seconds.before_look = place.fetch
    watching = asyncio.create_task(place.watch(limit_s=120).run())
    await asyncio.wait_for(place.seconds.used_up.wait(), 60)

    assert not watching.done()
    watching.cancel()


async def test_time_in_which_the_process_was_halted_does_not_count(place: Place) -> None:
    watch = place.watch(limit_s=600)
    place.seconds.now += 8 * 3600

    assert watch.look() == 2 * LOOK_S


async def test_a_good_fetch_leaves_a_heartbeat(place: Place) -> None:
    watch = place.watch()
    watch.look()
    assert place.heartbeat.at(Mark.FETCHED) is None

    place.fetch()
    watch.look()
    assert place.heartbeat.at(Mark.FETCHED) == place.house.way_in.last_good


async def test_every_look_rouses_the_worker_for_what_was_put_back(place: Place) -> None:
    place.seconds.left = 1
    watching = asyncio.create_task(place.watch().run())
    await asyncio.wait_for(place.house.inbox_wake.wait(), 60)

    watching.cancel()


async def test_every_coach_is_told_on_the_way_out_and_the_reason_is_raised(place: Place) -> None:
    with pytest.raises(FetchingDied):
        await watched(place.house, place.heartbeat, place.watch())

    assert [len(place.said_to(chat_id)) for chat_id in COACHES] == [1, 1]
    assert place.said_to(801)[0].startswith("Plimsoll stops: it gets no messages any more.")
    assert place.heartbeat.at(Mark.COACHES_TOLD) == NOW


@pytest.mark.parametrize(("hours", "times"), [(0, 1), (5.9, 1), (6, 2)])
async def test_a_program_that_dies_again_and_again_does_not_tell_each_time(
    place: Place, hours: float, times: int
) -> None:
    await farewell(place.house, place.heartbeat)
    place.network.clock.move_to(NOW + timedelta(hours=hours))  # type: ignore[attr-defined]
    await farewell(place.house, place.heartbeat)

    assert len(place.said_to(801)) == times


async def test_a_coach_who_cannot_be_reached_keeps_nobody_from_being_told(place: Place) -> None:
    place.network.faults.plan(Fault(Kind.FORBIDDEN, method="sendMessage", chat_id=801))

    assert await farewell(place.house, place.heartbeat) == 1
    assert [len(place.said_to(chat_id)) for chat_id in COACHES] == [0, 1]


async def test_a_way_out_that_is_stuck_is_given_up(place: Place) -> None:
    place.network.faults.plan(Fault(Kind.SLOW_BEFORE, method="sendMessage", times=9, seconds=30))

    assert await asyncio.wait_for(farewell(place.house, place.heartbeat, limit_s=0.2), 60) == 0
    assert place.heartbeat.at(Mark.COACHES_TOLD) is None


async def test_a_database_that_is_away_does_not_hide_the_reason(place: Place) -> None:
    place.house.units = SimpleNamespace(read=_broken)  # type: ignore[assignment]
    with pytest.raises(FetchingDied):
        await watched(place.house, place.heartbeat, place.watch())


def _broken(_: object) -> None:
    raise OSError


async def test_a_database_that_went_away_keeps_no_coach_from_being_told(place: Place) -> None:
    looks = []

    def go_away() -> None:
        looks.append(place.seconds.now)
        place.house.units = SimpleNamespace(read=_broken)  # type: ignore[assignment]

    place.seconds.before_look = go_away
    with pytest.raises(FetchingDied):
        await watched(place.house, place.heartbeat, place.watch(limit_s=1200))

    assert looks[-1] == 100 + 1200, (
        "those who were known first are still known when they cannot be asked for again"
    )
    assert [len(place.said_to(chat_id)) for chat_id in COACHES] == [1, 1]


async def test_a_coach_who_comes_later_is_known_after_a_while(place: Place) -> None:
    place.seconds.left = 42
    watch = place.watch(limit_s=10_000)
    with place.house.units.open(None) as unit:
        unit.accounts.bind(803, 803, unit.coaches.add("Coach 3", "Europe/Oslo", NOW), "coach")
    known: list[tuple[int, ...]] = []
    place.seconds.before_look = lambda: known.append(watch.chats)
    await watch._learn_chats()
    watching = asyncio.create_task(watch.run())
    first = watch.chats
    with place.house.units.open(None) as unit:
        unit.accounts.bind(804, 804, unit.coaches.add("Coach 4", "Europe/Oslo", NOW), "coach")
    await asyncio.wait_for(place.seconds.used_up.wait(), 60)
    watching.cancel()

    assert (first, known[-1]) == ((801, 802, 803), (801, 802, 803, 804))


async def test_a_part_that_ended_is_named_and_the_coaches_are_told(place: Place) -> None:
    async def break_down() -> None:
        raise LookupError("words of somebody")

    place.seconds.left = 0
    place.house._watched("worker", break_down())
    with pytest.raises(PartEnded) as ended:
        await watched(place.house, place.heartbeat, place.watch())

    assert str(ended.value) == (
        "Stopped: the worker ended by itself (LookupError). The log says where. "
        "Run plimsoll doctor, and start again."
    )
    assert len(place.said_to(801)) == 1


async def test_a_refused_token_stays_a_refused_token_and_nobody_is_told(place: Place) -> None:
    async def refuse() -> None:
        raise InvalidToken

    place.seconds.left = 0
    place.house._watched("poll", refuse())
    with pytest.raises(InvalidToken):
        await watched(place.house, place.heartbeat, place.watch())

    assert place.said_to(801) == []


async def test_a_running_program_whose_fetches_all_fail_is_found(database_url: str) -> None:
    async with standing(database_url) as place:
        place.network.faults.plan(Fault(Kind.CONFLICT, method="getUpdates", times=10_000))
        await place.house.start()
        with pytest.raises(FetchingDied):
            await watched(place.house, place.heartbeat, place.watch(limit_s=120))

        assert len(place.said_to(802)) == 1


def test_the_words_name_danger_before_the_rest() -> None:
    words = stopping().html

    assert words.index("warning sign") < words.index("session")
    assert len(words) < 500


def test_a_heartbeat_that_cannot_be_kept_is_no_reason_to_stop(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    heartbeat = Heartbeat(f"sqlite:///{tmp_path / 'nowhere' / 'plimsoll.db'}")
    heartbeat.set(Mark.STARTED, NOW)
    heartbeat.set(Mark.STARTED, NOW)

    assert heartbeat.at(Mark.STARTED) is None
    assert [each.msg for each in caplog.records] == ["heartbeat_not_kept"]


@pytest.mark.parametrize(
    "content", ["", "[1]", '{"started": 3}', '{"started": "soon"}', '{"started": "2026-04-06"}']
)
def test_a_heartbeat_that_makes_no_sense_says_never(tmp_path: Path, content: str) -> None:
    heartbeat = Heartbeat(f"sqlite:///{tmp_path / 'plimsoll.db'}")
    heartbeat.path.write_text(content)

    assert heartbeat.at(Mark.STARTED) is None


def test_marks_are_kept_apart(tmp_path: Path) -> None:
    heartbeat = Heartbeat(f"sqlite:///{tmp_path / 'plimsoll.db'}")
    heartbeat.set(Mark.STARTED, NOW)
    heartbeat.set(Mark.FETCHED, NOW + timedelta(seconds=1))
    heartbeat.set(Mark.STARTED, None)

    assert heartbeat.at(Mark.STARTED) is None
    assert heartbeat.at(Mark.FETCHED) == NOW + timedelta(seconds=1)
    assert [each.name for each in tmp_path.iterdir()] == ["plimsoll.db.heartbeat"]


def test_on_a_server_the_heartbeat_lies_where_the_program_was_started() -> None:
    assert Heartbeat("postgresql://nobody@/x").path == Path("plimsoll.heartbeat")
