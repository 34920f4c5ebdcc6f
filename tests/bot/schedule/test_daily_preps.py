"""A daily prep falls due: once a day, whatever runs twice, breaks off or stands still meanwhile."""

from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta

import pytest
from faults.crew import ADA, ADAS, BENS, two_crews
from sqlalchemy import select, text, update

from bot.store.due import preps_due_anywhere
from bot.store.tables import client, daily_prep, outbox
from bot.store.units import Units
from core.programme.daily_prep import DailyPrep
from core.programme.exercises import Site
from tests.bot.schedule.desk import Desk

REST_DAY = datetime(2026, 4, 8, 6, tzinfo=UTC)
"""Wednesday, 07:00 in Lisbon."""


@pytest.fixture
async def desk(units: Units) -> AsyncIterator[Desk]:
    two_crews(units)
    with units.open(2) as unit:
        unit.daily_preps.start(ADAS, DailyPrep(sites=(Site.NECK,)), REST_DAY, REST_DAY - timedelta(days=2))
    found = Desk(units, REST_DAY - timedelta(minutes=1))
    yield found
    found.write.close()


def sent(desk: Desk) -> list[tuple[int, str, str]]:
    query = select(outbox.c.chat_id, outbox.c.key, outbox.c.state).where(
        outbox.c.key.contains(":daily-prep:")
    )
    return desk.rows(query.order_by(outbox.c.id))


def due(desk: Desk) -> list[datetime]:
    return [each for (each,) in desk.rows(select(daily_prep.c.due_at))]


async def test_it_goes_out_once_and_is_due_again_tomorrow_however_often_the_tick_runs(desk: Desk) -> None:
    await desk.tick.run()
    assert sent(desk) == []

    desk.clock.move_to(REST_DAY)
    await desk.tick.run()
    await desk.tick.run()
    await desk.another().run()

    assert sent(desk) == [(ADA, f"2:daily-prep:{ADAS}:2026-04-08", "queued")]
    assert due(desk) == [REST_DAY + timedelta(days=1)]
    assert await desk.tick.next_due() is not None


async def test_a_process_that_dies_between_neither_doubles_nor_loses_it(desk: Desk, monkeypatch) -> None:
    desk.clock.move_to(REST_DAY)
    put = "bot.usecases.runner.apply"

    def dies(*_: object) -> None:
        raise RuntimeError("a bug")

    with monkeypatch.context() as broken:
        broken.setattr(put, dies)
        await desk.tick.run()
    assert sent(desk) == []
    assert due(desk) == [REST_DAY]

    await desk.tick.run()
    assert len(sent(desk)) == 1


async def test_after_days_of_outage_only_todays_comes(desk: Desk) -> None:
    desk.clock.move_to(REST_DAY + timedelta(days=4, hours=3))
    await desk.tick.run()

    assert [key for _, key, _ in sent(desk)] == [f"2:daily-prep:{ADAS}:2026-04-12"]


async def test_what_is_due_is_found_by_an_index_and_what_has_ended_is_not(desk: Desk) -> None:
    with desk.units.read(None) as house:
        assert preps_due_anywhere(house.connection, REST_DAY, 10) == [(2, 1)]
        assert preps_due_anywhere(house.connection, REST_DAY - timedelta(minutes=1), 10) == []
        if house.connection.dialect.name == "sqlite":
            plan = house.connection.execute(
                text(
                    "EXPLAIN QUERY PLAN SELECT id FROM daily_prep WHERE ended_at IS NULL AND due_at <= :now"
                ),
                {"now": "2026-04-08"},
            ).all()
            assert "ix_daily_prep_due" in str(plan)
    desk.do(update(daily_prep).values(ended_at=REST_DAY))
    with desk.units.read(None) as house:
        assert preps_due_anywhere(house.connection, REST_DAY, 10) == []


async def test_one_that_cannot_go_holds_up_nobody_elses(desk: Desk) -> None:
    with desk.units.open(1) as unit:
        unit.daily_preps.start(BENS, DailyPrep(sites=(Site.NECK,)), REST_DAY, REST_DAY)
    desk.do(update(client).where(client.c.id == ADAS).values(frozen_at=REST_DAY, frozen_for="today"))
    desk.clock.move_to(REST_DAY)

    await desk.tick.run()

    assert [key for _, key, _ in sent(desk)] == [f"1:daily-prep:{BENS}:2026-04-08"]
    assert due(desk) == [REST_DAY + timedelta(days=1)] * 2
