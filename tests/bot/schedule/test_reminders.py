"""Reminders and contracts that fall due: told once by the tick, whatever runs twice; nobody else's are touched."""

from collections.abc import AsyncIterator
from datetime import UTC, date, datetime, timedelta

import pytest
from faults.crew import ADAS, MARIT, ORLA, two_crews
from sqlalchemy import delete, select

from bot.store.tables import due_question, outbox
from bot.store.units import Units
from tests.bot.schedule.desk import Desk

MARITS, ORLAS = 2, 1
MORNING = datetime(2026, 4, 8, 7, tzinfo=UTC)
"""A Wednesday without a session, 08:00 in Lisbon."""


@pytest.fixture
async def desk(units: Units) -> AsyncIterator[Desk]:
    two_crews(units)
    found = Desk(units, MORNING - timedelta(minutes=1))
    found.do(delete(due_question))
    yield found
    found.write.close()


def told(desk: Desk, word: str) -> list[int]:
    query = select(outbox.c.chat_id, outbox.c.body).order_by(outbox.c.id)
    return [chat for chat, body in desk.rows(query) if body is not None and word in body["html"]]


async def test_two_ticks_of_two_programs_tell_once(desk: Desk) -> None:
    with desk.units.open(MARITS) as unit:
        unit.reminders.add(ADAS, "ask about the hip", MORNING, MORNING - timedelta(days=1))
    with desk.units.open(ORLAS) as unit:
        unit.reminders.add(None, "order bands", MORNING, MORNING - timedelta(days=1))

    await desk.tick.run()
    assert told(desk, "Reminder.") == []
    desk.clock.move_to(MORNING)
    await desk.tick.run()
    await desk.another().run()
    await desk.tick.run()

    assert sorted(told(desk, "Reminder.")) == sorted([MARIT, ORLA])
    assert told(desk, "ask about the hip") == [MARIT]


async def test_a_contract_that_ends_is_told_once_to_its_coach(desk: Desk) -> None:
    with desk.units.open(MARITS) as unit:
        unit.contracts.put(ADAS, date(2026, 4, 1), MORNING, until_on=date(2026, 4, 22), due_at=MORNING)
    assert await desk.tick.next_due() is not None
    desk.clock.move_to(MORNING)
    await desk.tick.run()
    await desk.another().run()

    assert told(desk, "the contract ends soon") == [MARIT]
