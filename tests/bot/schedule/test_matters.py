"""Matters that are looked at again: once, whatever runs twice, breaks off or stands still; each coach her own."""

from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from faults.crew import ADAS, BENS, MARIT, ORLA, two_crews
from sqlalchemy import delete, select, text, update

from bot.messages import Level, Message, Tell
from bot.store.tables import alert, due_question, outbox
from bot.store.units import Units
from bot.usecases import alerting
from bot.usecases.effects import apply
from tests.bot.schedule.desk import Desk

NIGHT = datetime(2026, 4, 8, 22, 30, tzinfo=UTC)
"""23:30 in Lisbon: quiet hours, in which what cannot wait is told all the same."""
MINUTE = timedelta(minutes=1)


class MattersDesk(Desk):
    """Two coaches and a client each, about whom there is a matter."""

    def tell(self, client_id: int, level: Level) -> None:
        with self.units.open(2 if client_id == ADAS else 1) as unit:
            tell = Tell(client_id, f"stop:{client_id}", 1, level, Message(f"matter {client_id}"))
            apply([tell], unit, self.clock.now())

    def told(self, chat_id: int) -> list[tuple[str, str]]:
        query = select(outbox.c.lane, outbox.c.body).where(outbox.c.chat_id == chat_id)
        with self.units.engine.connect() as connection:
            rows = connection.execute(query.order_by(outbox.c.id)).all()
        return [(row.lane, row.body["html"]) for row in rows if "matter" in row.body["html"]]


@pytest.fixture
async def desk(units: Units) -> AsyncIterator[MattersDesk]:
    two_crews(units)
    found = MattersDesk(units, NIGHT)
    found.do(delete(due_question))  # what the layout of the weeks has planned is the matter of other tests
    yield found
    found.write.close()


async def test_it_is_told_again_once_however_often_the_tick_runs(desk: MattersDesk) -> None:
    desk.tell(ADAS, Level.NOW)
    await desk.tick.run()
    assert len(desk.told(MARIT)) == 1

    for minutes, times in ((15, 2), (60, 3), (75, 3), (600, 3)):
        desk.clock.move_to(NIGHT + minutes * MINUTE)
        await desk.tick.run()
        await desk.tick.run()
        await desk.another().run()
        assert len(desk.told(MARIT)) == times

    assert {lane for lane, _ in desk.told(MARIT)} == {"safety"}
    assert desk.told(ORLA) == []


async def test_each_coach_hears_of_her_own_client_alone(desk: MattersDesk) -> None:
    desk.tell(ADAS, Level.NOW)
    desk.tell(BENS, Level.NOW)
    desk.clock.move_to(NIGHT + 15 * MINUTE)
    await desk.tick.run()

    assert [words.splitlines()[-1] for _, words in desk.told(MARIT)] == [f"matter {ADAS}"] * 2
    assert [words.splitlines()[-1] for _, words in desk.told(ORLA)] == [f"matter {BENS}"] * 2


async def test_what_can_wait_waits_for_the_morning_and_is_not_told_again(desk: MattersDesk) -> None:
    desk.tell(ADAS, Level.TODAY)
    desk.clock.move_to(NIGHT + 15 * MINUTE)
    await desk.tick.run()

    query = select(outbox.c.due_at, outbox.c.body).where(outbox.c.chat_id == MARIT)
    with desk.units.engine.connect() as connection:
        rows = connection.execute(query).all()
    due = [row.due_at.astimezone(UTC) for row in rows if "matter" in row.body["html"]]
    assert due == [datetime(2026, 4, 9, 6, tzinfo=UTC)]


async def test_what_breaks_off_leaves_no_trace_and_is_done_at_the_next_tick(
    desk: MattersDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.tell(ADAS, Level.NOW)
    desk.tell(BENS, Level.NOW)
    desk.clock.move_to(NIGHT + 15 * MINUTE)

    def breaks(*_: Any) -> Any:
        raise RuntimeError("the process ends here")

    with monkeypatch.context() as patched:
        patched.setattr(alerting, "_again", breaks)
        await desk.tick.run()
    assert len(desk.told(MARIT)) == len(desk.told(ORLA)) == 1

    await desk.tick.run()
    assert len(desk.told(MARIT)) == len(desk.told(ORLA)) == 2


async def test_after_an_outage_it_is_told_once_and_then_at_its_pace(desk: MattersDesk) -> None:
    desk.tell(ADAS, Level.NOW)
    late = NIGHT + timedelta(hours=6)
    desk.clock.move_to(late)
    await desk.tick.run()
    await desk.tick.run()
    assert len(desk.told(MARIT)) == 2

    desk.clock.move_to(late + 15 * MINUTE)
    await desk.tick.run()
    assert len(desk.told(MARIT)) == 3


async def test_the_story_s_clock_is_told_when_the_next_is_due(desk: MattersDesk) -> None:
    await desk.tick.run()
    desk.do(update(alert).values(due_at=None))
    without = await desk.tick.rounds.next_due()
    desk.tell(ADAS, Level.NOW)

    assert await desk.tick.rounds.next_due() == NIGHT + 15 * MINUTE
    assert without is None or without > NIGHT + 15 * MINUTE


async def test_it_is_asked_for_by_its_index(desk: MattersDesk) -> None:
    if desk.units.engine.dialect.name != "sqlite":
        return
    plan = "EXPLAIN QUERY PLAN SELECT id FROM alert WHERE closed_at IS NULL AND due_at <= :now ORDER BY due_at, id"
    with desk.units.engine.connect() as connection:
        rows = connection.execute(text(plan), {"now": NIGHT.isoformat()}).all()
    assert any("ix_alert_due" in row.detail for row in rows)
    assert not any("TEMP B-TREE" in row.detail for row in rows)
