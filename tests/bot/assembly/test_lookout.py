import asyncio
from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta
from types import SimpleNamespace

import pytest
from sqlalchemy import insert, text
from sqlalchemy.exc import OperationalError

from bot.assembly import lookout as lookout_module
from bot.assembly.house import House, Plan
from bot.assembly.lookout import LATELY_S, Lookout
from bot.clock import CountedIds, StoryClock
from bot.localchat.network import Network
from bot.localchat.server import Server
from bot.messages import Lane
from bot.monitoring.figures import prometheus_text
from bot.schedule.clockwork import Clockwork
from bot.store.tables import client, coach, inbox, outbox

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
TOKEN = "4100:story"


@pytest.fixture
async def lookout(database_url: str) -> AsyncIterator[Lookout]:
    network = Network(StoryClock(NOW), TOKEN)
    async with Server(network) as server:
        house = House(Plan(TOKEN, database_url, server.url, 25, network.clock, CountedIds()))
        try:
            yield Lookout(house, Clockwork(house.tick, 15))
        finally:
            await house.stop()


def heard(lookout: Lookout, ago_s: float) -> None:
    lookout._house.way_in._good_at = asyncio.get_running_loop().time() - ago_s


async def test_a_part_that_has_ended_is_named(lookout: Lookout) -> None:
    async def end() -> None:
        raise LookupError

    starting = lookout.alive()
    house = lookout._house
    house._tasks = [house._watched("worker", asyncio.Event().wait()), house._watched("poll", end())]
    lookout._clockwork.start()
    await asyncio.wait({house._tasks[1]})

    assert starting == {"starting": True}
    assert lookout.alive() == {"worker": True, "poll": False, "tick": True}
    lookout._clockwork.stop()
    await asyncio.sleep(0)
    assert lookout.alive()["tick"] is False


@pytest.mark.parametrize(("ago_s", "is_heard"), [(LATELY_S - 1, True), (LATELY_S + 1, False)])
async def test_it_is_ready_when_the_platform_was_heard_lately(
    lookout: Lookout, ago_s: float, *, is_heard: bool
) -> None:
    never = await lookout.ready()
    heard(lookout, ago_s)

    assert never == {"database": True, "schema": True, "platform": False}
    assert await lookout.ready() == {"database": True, "schema": True, "platform": is_heard}


async def test_a_program_that_has_just_been_told_who_it_is_need_not_have_fetched_yet(
    lookout: Lookout,
) -> None:
    lookout._house.known_at = asyncio.get_running_loop().time() - 5

    assert (await lookout.ready())["platform"] is True
    assert (await lookout.figures()).fetch_age_s is None


async def test_another_schema_is_not_ready(lookout: Lookout) -> None:
    with lookout._house.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0001'"))
    heard(lookout, 0)

    assert await lookout.ready() == {"database": True, "schema": False, "platform": True}


def _away(_: object = None) -> None:
    raise OperationalError("", {}, Exception())


async def _stuck(*_: object) -> None:
    await asyncio.Event().wait()


@pytest.mark.parametrize("is_stuck", [False, True])
async def test_a_store_that_is_away_or_stuck_is_told_in_time(
    lookout: Lookout, monkeypatch: pytest.MonkeyPatch, *, is_stuck: bool
) -> None:
    monkeypatch.setattr(lookout_module, "ANSWER_S", 0.01 if is_stuck else 5.0)
    monkeypatch.setattr(lookout_module, "current", _away)
    with monkeypatch.context() as patch:
        patch.setattr(lookout._house, "units", SimpleNamespace(read=_away))
        if is_stuck:
            patch.setattr(lookout._house, "write", _stuck, raising=True)
            patch.setattr(_stuck, "close", lambda: None, raising=False)
        ready, figures = await lookout.ready(), await lookout.figures()

    assert ready == {"database": False, "schema": False, "platform": False}
    assert figures.workload is None


async def test_the_figures_are_the_parts_own_and_hold_nothing_of_anybody(lookout: Lookout) -> None:
    house = lookout._house
    with house.units.open(None) as unit:
        for statement in (
            insert(coach).values(id=61001007, name="Orla Quill", zone="Europe/Lisbon", created_at=NOW),
            insert(coach).values(id=62001007, name="Bram Tarn", zone="Europe/Oslo", created_at=NOW),
            insert(client).values(id=71, coach_id=61001007, name="Ada Wren", state="active", created_at=NOW),
            insert(inbox).values(
                update_id=918273,
                chat_id=504030,
                user_id=504030,
                kind="message",
                state="new",
                payload='{"text": "knee 3"}',
                received_at=NOW - timedelta(seconds=90),
            ),
            insert(outbox).values(
                coach_id=62001007,
                client_id=71001007,
                chat_id=504030,
                key="card:Ada",
                op="send",
                lane="talk",
                rank=1,
                body={"html": "Ada, knee"},
                due_at=NOW,
                state="dead",
                cause="chat 504030",
                created_at=NOW,
            ),
        ):
            unit.connection.execute(statement)
    heard(lookout, 3)
    house.way_in.taken, house.runner.answered = 5, 4
    house.sends.outcomes[Lane.TALK, "blocked"] = 1
    figures = await lookout.figures()
    written = prometheus_text(figures).decode()

    assert (figures.taken, figures.answered, figures.open_age_s) == (5, 4, 90.0)
    assert figures.fetch_age_s == pytest.approx(3, abs=1)
    assert 'plimsoll_outbox_rows{lane="talk",state="dead"} 1.0' in written
    theirs = ("Ada", "Orla", "Bram", "Wren", "knee", "504030", "918273", "Lisbon", "Oslo", "001007")
    ours = [line for line in written.splitlines() if not line.startswith(("process_", "#"))]
    assert [each for each in theirs if each in "\n".join(ours)] == []
