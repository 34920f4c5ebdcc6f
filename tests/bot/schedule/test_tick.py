import asyncio
from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta

import apscheduler.schedulers.base
import pytest
from faults.crew import ADA, BEN, DUE, two_crews
from sqlalchemy import func, select, update

from bot.clock import StoryClock
from bot.schedule import tick as ticking
from bot.schedule.clockwork import Clockwork
from bot.store.outbox import SENDS
from bot.store.tables import assignment, card, client, outbox, session
from bot.store.units import Units
from bot.usecases.session_view import card_key
from bot.usecases.undelivered import SESSION_CARDS
from tests.bot.schedule.desk import Desk

BENS, ADAS = 1, 2


class CardsDesk(Desk):
    """Both clients' first session falls due on Tuesday at 07:00."""

    def cards(self) -> list[int]:
        """Chats to which a card of a session was queued."""
        query = select(outbox.c.chat_id).where(outbox.c.key.contains(":card:"), outbox.c.op.in_(SENDS))
        return sorted(chat for (chat,) in self.rows(query))

    def state_of(self, client_id: int) -> tuple[str, bool]:
        query = select(session.c.state, session.c.late).where(session.c.client_id == client_id)
        return self.rows(query.order_by(session.c.local_on, session.c.id).limit(1))[0]


@pytest.fixture
async def desk(units: Units) -> AsyncIterator[CardsDesk]:
    two_crews(units)
    found = CardsDesk(units, DUE - timedelta(minutes=1))
    yield found
    found.write.close()


async def test_before_the_hour_nothing_goes_out_and_at_the_hour_each_card_once(desk):
    await desk.tick.run()
    assert desk.cards() == []

    desk.clock.move_to(DUE)
    await desk.tick.run()
    await desk.tick.run()
    await desk.another().run()

    assert desk.cards() == [ADA, BEN]
    assert desk.state_of(ADAS) == ("sent", False)


async def test_a_frozen_client_gets_no_card_and_the_state_says_so(desk):
    desk.do(update(client).where(client.c.id == ADAS).values(frozen_at=DUE, frozen_for="today"))
    desk.clock.move_to(DUE)

    await desk.tick.run()

    assert desk.cards() == [BEN]
    assert desk.state_of(ADAS) == ("held", False)


@pytest.mark.parametrize(
    ("awake_at", "cards", "state"),
    [
        ("2026-04-07T06:59", [ADA, BEN], ("sent", False)),
        ("2026-04-07T07:30", [ADA, BEN], ("sent", True)),
        ("2026-04-07T18:59", [ADA, BEN], ("sent", True)),
        ("2026-04-07T20:30", [], ("unsent", False)),
        ("2026-04-08T09:00", [], ("unsent", False)),
    ],
)
async def test_after_an_outage_a_session_goes_out_on_its_own_day_marked_late_or_not_at_all(
    desk, awake_at, cards, state
):
    desk.clock.move_to(datetime.fromisoformat(awake_at).replace(tzinfo=UTC))

    await desk.tick.run()

    assert desk.cards() == cards
    assert desk.state_of(ADAS) == state


async def test_a_late_session_waits_for_the_end_of_the_night(desk):
    early = datetime(2026, 4, 7, 1, tzinfo=UTC)
    desk.do(update(session).where(session.c.due_at == DUE).values(due_at=early))
    desk.clock = StoryClock(early + timedelta(hours=2))
    desk.tick = desk.another()

    await desk.tick.run()

    assert desk.cards() == []
    assert await desk.tick.next_due() == datetime(2026, 4, 7, 6, tzinfo=UTC)


async def test_a_session_that_fails_holds_up_nobody_else_and_is_tried_at_the_next_tick(desk, monkeypatch):
    send_session, failing = ticking.send_session, True

    def sometimes(command, person, unit, now):
        if failing and unit.sessions.get(command.session_id).client_id == BENS:
            raise RuntimeError("a bug")
        return send_session(command, person, unit, now)

    monkeypatch.setattr(ticking, "send_session", sometimes)
    monkeypatch.setattr(ticking, "SLICE", 1)
    desk.clock.move_to(DUE)

    await desk.tick.run()
    assert desk.cards() == [ADA]
    assert desk.state_of(BENS) == ("planned", False)

    failing = False
    await desk.tick.run()
    assert desk.cards() == [ADA, BEN]


async def test_sessions_are_laid_out_two_weeks_ahead_again_and_again(desk):
    def last_day() -> datetime:
        return desk.rows(select(func.max(session.c.local_on)).where(session.c.client_id == ADAS))[0][0]

    first = last_day()
    for _ in range(2):
        desk.clock.move_to(desk.clock.now() + timedelta(days=8))
        await desk.tick.run()
        reach = last_day() - desk.clock.now().date()
        assert timedelta(days=7) <= reach <= timedelta(days=14)
    assert last_day() > first
    keys = desk.rows(select(session.c.assignment_id, session.c.week_no, session.c.day_key))
    assert len(keys) == len(set(keys))
    assert {row[0] for row in desk.rows(select(assignment.c.id))} == {1, 2}


@pytest.mark.parametrize(
    ("ended", "state"), [("expired", "unsent"), ("dead", "unsent"), ("doubtful", "sent"), ("queued", "sent")]
)
async def test_a_card_that_can_no_longer_arrive_leaves_its_session_unsent(desk, ended, state):
    desk.clock.move_to(DUE)
    await desk.tick.run()
    desk.do(update(outbox).where(outbox.c.chat_id == ADA, outbox.c.state == "queued").values(state=ended))

    await desk.tick.run()

    assert desk.state_of(ADAS)[0] == state
    assert desk.state_of(BENS)[0] == "sent"


async def test_a_card_that_is_shown_keeps_its_session_sent_whatever_becomes_of_a_later_edit(desk):
    desk.clock.move_to(DUE)
    await desk.tick.run()
    desk.do(update(outbox).where(outbox.c.chat_id == ADA).values(state="dead"))
    desk.do(update(card).where(card.c.chat_id == ADA).values(message_id=7))

    await desk.tick.run()

    assert desk.state_of(ADAS)[0] == "sent"


def test_keys_of_sessions_cards_begin_as_the_store_is_told():
    assert card_key(4711) == f"{SESSION_CARDS}4711"


async def test_the_clockwork_fires_the_tick_and_a_tick_that_fails_does_not_stop_it(desk, monkeypatch):
    desk.clock.move_to(DUE)
    fired = desk.activity._changed
    looks = 0
    lay_out = desk.tick._lay_out

    async def stumbling() -> None:
        nonlocal looks
        looks += 1
        if looks == 1:
            raise RuntimeError("a bug")
        await lay_out()

    monkeypatch.setattr(desk.tick, "_lay_out", stumbling)
    clockwork = Clockwork(desk.tick, 0.01)
    clockwork.start()
    while desk.cards() != [ADA, BEN]:
        fired.clear()
        await fired.wait()
    clockwork.stop()

    assert looks >= 2


async def test_how_late_a_tick_begins_and_how_many_fail_is_kept(desk, monkeypatch):
    began = asyncio.Queue()

    async def slow() -> None:
        began.put_nowait(clockwork.late_s)
        done = asyncio.Event()
        asyncio.get_running_loop().call_later(0.05, done.set)
        await done.wait()
        raise RuntimeError

    monkeypatch.setattr(desk.tick, "run", slow)
    clockwork = Clockwork(desk.tick, 0.01)
    never_ran = clockwork.runs
    clockwork.start()
    first, second = await began.get(), await began.get()

    assert (never_ran, clockwork.runs) == (False, True)
    assert 0 <= first < second
    assert second >= 0.05
    assert clockwork.ticks_failed == 1
    clockwork.stop()


async def test_the_clockwork_goes_on_when_the_machine_s_clock_is_set_back(desk, monkeypatch):
    ticks = asyncio.Queue()

    class Yesterday(datetime):
        @classmethod
        def now(cls, tz=None):
            return datetime(1970, 1, 1, tzinfo=UTC).astimezone(tz)

    async def noted() -> None:
        ticks.put_nowait(None)

    monkeypatch.setattr(desk.tick, "run", noted)
    clockwork = Clockwork(desk.tick, 0.01)
    clockwork.start()
    await ticks.get()
    monkeypatch.setattr(apscheduler.schedulers.base, "datetime", Yesterday)
    for _ in range(3):
        await asyncio.wait_for(ticks.get(), 10)
    clockwork.stop()
