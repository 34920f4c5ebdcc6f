"""Questions that fall due: asked once and at a decent hour, whatever runs twice, breaks off or stands still."""

from collections.abc import AsyncIterator, Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from faults.crew import ADA, ADAS, BEN, BENS, two_crews
from sqlalchemy import delete, select, text, update

from bot.clock import StoryClock
from bot.messages import Effect, Message, Send
from bot.store.due_questions import DueQuestion, next_question_due, questions_due_anywhere
from bot.store.people import Client
from bot.store.tables import account, client, due_question, outbox
from bot.store.units import Unit, Units
from bot.usecases import asking
from core.local_time import local_date
from tests.bot.schedule.desk import Desk

MORNING = datetime(2026, 4, 8, 7, tzinfo=UTC)
"""A Wednesday without a session, 08:00 in Lisbon."""
WEDNESDAY = date(2026, 4, 8)
KIND = "how it is"


def asker(question: DueQuestion, one: Client, unit: Unit, now: datetime) -> Sequence[Effect]:
    found = unit.accounts.of_client(one.id)
    assert found is not None
    if question.facts.get("needless"):
        return []
    if question.facts.get("breaks"):
        raise RuntimeError("the process ends here")
    key = f"asked:{one.id}:{question.local_on.isoformat()}"
    return [Send(found.chat_id, Message("How is it?"), key=key, client_id=one.id, unasked=True)]


class AskingDesk(Desk):
    """Two coaches and a client each, who can be asked something."""

    def plan(
        self, on: date = WEDNESDAY, at: datetime = MORNING, whose: int = ADAS, **facts: Any
    ) -> int | None:
        with self.units.open(2 if whose == ADAS else 1) as unit:
            return unit.due_questions.plan(whose, KIND, on, at, at - timedelta(days=3), facts=facts)


@pytest.fixture
async def desk(units: Units, monkeypatch: pytest.MonkeyPatch) -> AsyncIterator[AskingDesk]:
    monkeypatch.setattr(asking, "ASKERS", {KIND: asker})
    two_crews(units)
    found = AskingDesk(units, MORNING - timedelta(minutes=1))
    found.do(delete(due_question))  # what the layout of the weeks has planned is the matter of other tests
    yield found
    found.write.close()


def asked(desk: AskingDesk) -> list[int]:
    query = select(outbox.c.chat_id).where(outbox.c.key.contains(":asked:")).order_by(outbox.c.id)
    return [chat for (chat,) in desk.rows(query)]


def stands(desk: AskingDesk) -> list[tuple[bool, bool]]:
    """Whether each question was sent, and whether it was dropped."""
    query = select(due_question.c.sent_at, due_question.c.dropped_at).where(due_question.c.kind == KIND)
    query = query.order_by(due_question.c.id)
    return [(sent is not None, dropped is not None) for sent, dropped in desk.rows(query)]


async def test_it_goes_out_once_however_often_the_tick_runs(desk: AskingDesk) -> None:
    desk.plan()
    await desk.tick.run()
    assert asked(desk) == []

    desk.clock.move_to(MORNING)
    await desk.tick.run()
    await desk.tick.run()
    await desk.another().run()

    assert asked(desk) == [ADA]
    assert stands(desk) == [(True, False)]


async def test_of_a_kind_there_is_one_a_date(desk: AskingDesk) -> None:
    assert desk.plan() is not None
    assert desk.plan() is None
    assert desk.plan(on=WEDNESDAY + timedelta(days=1)) is not None


async def test_each_coach_s_client_is_asked_by_her_own_and_neither_sees_the_other_s(desk: AskingDesk) -> None:
    mine, other = desk.plan(), desk.plan(whose=BENS)
    desk.clock.move_to(MORNING)
    await desk.tick.run()

    assert sorted(asked(desk)) == sorted([ADA, BEN])
    assert mine is not None
    assert other is not None
    with desk.units.open(1) as unit, pytest.raises(LookupError):
        unit.due_questions.get(mine)
    with desk.units.open(1) as unit:
        unit.due_questions.drop(mine, MORNING)
        unit.due_questions.note(mine, {"seen": True})
        assert unit.due_questions.newest(ADAS, KIND) is None
        assert unit.due_questions.on(ADAS, KIND, WEDNESDAY) is None
        assert unit.due_questions.of_client(ADAS, KIND, WEDNESDAY) == []
    with desk.units.open(2) as unit:
        assert unit.due_questions.get(mine).answers is None
    assert stands(desk) == [(True, False), (True, False)]


async def test_in_quiet_hours_it_waits_for_their_end(desk: AskingDesk) -> None:
    night = datetime(2026, 4, 8, 1, tzinfo=UTC)
    desk.clock = StoryClock(night)
    desk.tick = desk.another()
    desk.plan(at=night)
    await desk.tick.run()
    assert (asked(desk), stands(desk)) == ([], [(False, False)])
    with desk.units.read(None) as house:
        assert next_question_due(house.connection) == datetime(2026, 4, 8, 6, tzinfo=UTC)

    desk.clock.move_to(datetime(2026, 4, 8, 6, tzinfo=UTC))
    await desk.tick.run()
    assert asked(desk) == [ADA]


@pytest.mark.parametrize("late", [timedelta(hours=14), timedelta(days=1), timedelta(days=5)])
async def test_when_its_day_is_over_it_is_left_out(desk: AskingDesk, late: timedelta) -> None:
    desk.plan()
    desk.clock.move_to(MORNING + late)
    await desk.tick.run()

    assert (asked(desk), stands(desk)) == ([], [(False, True)])


async def test_after_an_outage_of_days_only_today_s_is_asked(desk: AskingDesk) -> None:
    for days in range(5):
        desk.plan(on=WEDNESDAY + timedelta(days=days), at=MORNING + timedelta(days=days))
    desk.clock.move_to(MORNING + timedelta(days=4, hours=2))
    await desk.tick.run()
    await desk.tick.run()

    assert asked(desk) == [ADA]
    assert stands(desk) == [(False, True)] * 4 + [(True, False)]


async def test_on_its_own_day_it_may_come_hours_late(desk: AskingDesk) -> None:
    desk.plan()
    desk.clock.move_to(MORNING + timedelta(hours=9))
    await desk.tick.run()

    assert asked(desk) == [ADA]


@pytest.mark.parametrize(
    "change",
    [
        update(client).where(client.c.id == ADAS).values(state="paused"),
        update(client).where(client.c.id == ADAS).values(state="stopped"),
        update(client).where(client.c.id == ADAS).values(frozen_at=MORNING),
        update(account).where(account.c.client_id == ADAS).values(reachable=False),
    ],
    ids=["paused", "gone", "on hold", "out of reach"],
)
async def test_who_is_not_there_for_it_is_not_asked_then_or_later(desk: AskingDesk, change: Any) -> None:
    desk.plan()
    desk.plan(whose=BENS)
    desk.do(change)
    desk.clock.move_to(MORNING)
    await desk.tick.run()

    assert asked(desk) == [BEN]
    assert stands(desk) == [(False, True), (True, False)]


def heard(desk: AskingDesk, number: int, at: datetime = MORNING - timedelta(minutes=30)) -> None:
    """Messages of the day that she did not ask for."""
    with desk.units.open(2) as unit:
        for each in range(number):
            effect = Send(ADA, Message("."), key=f"other:{at.date()}:{each}", client_id=ADAS, unasked=True)
            unit.outbox.put(2, effect, at)


@pytest.mark.parametrize(("number", "comes"), [(2, True), (3, False)])
async def test_a_day_that_has_brought_three_leaves_it_out(desk: AskingDesk, number: int, comes: bool) -> None:
    heard(desk, number)
    desk.plan()
    desk.clock.move_to(MORNING)
    await desk.tick.run()

    assert asked(desk) == ([ADA] if comes else [])
    assert stands(desk) == [(comes, not comes)]


async def test_what_yesterday_brought_does_not_count(desk: AskingDesk) -> None:
    heard(desk, 3, MORNING - timedelta(days=1))
    desk.plan()
    desk.clock.move_to(MORNING)
    await desk.tick.run()

    assert asked(desk) == [ADA]


async def test_a_place_is_kept_for_a_card_that_is_still_to_come(desk: AskingDesk) -> None:
    heard(desk, 2)
    desk.plan()
    with desk.units.open(2) as unit:
        planned = unit.sessions.of_client(ADAS, ("planned",))[0]
        unit.sessions.change(planned.id, local_on=WEDNESDAY, due_at=MORNING + timedelta(hours=8))
    desk.clock.move_to(MORNING)
    await desk.tick.run()

    assert asked(desk) == []


async def test_what_has_become_needless_is_dropped_and_so_is_a_kind_that_nobody_knows(
    desk: AskingDesk, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.plan(needless=True)
    desk.clock.move_to(MORNING)
    await desk.tick.run()
    monkeypatch.setattr(asking, "ASKERS", {})
    desk.plan(whose=BENS)
    await desk.tick.run()

    assert (asked(desk), stands(desk)) == ([], [(False, True), (False, True)])


async def test_a_process_that_ends_while_it_asks_leaves_it_to_the_next_one(desk: AskingDesk) -> None:
    desk.plan(breaks=True)
    desk.plan(whose=BENS)
    desk.clock.move_to(MORNING)
    await desk.tick.run()
    assert (asked(desk), stands(desk)) == ([BEN], [(False, False), (True, False)])

    desk.do(update(due_question).where(due_question.c.client_id == ADAS).values(facts={}))
    await desk.another().run()
    await desk.another().run()

    assert asked(desk) == [BEN, ADA]


async def test_it_counts_as_one_that_nobody_asked_for(desk: AskingDesk) -> None:
    desk.plan()
    desk.clock.move_to(MORNING)
    await desk.tick.run()

    with desk.units.open(2) as unit:
        since = MORNING - timedelta(hours=8)
        assert unit.outbox.unasked_since(ADA, since, since + timedelta(days=1)) == 1


async def test_the_day_is_that_of_her_own_calendar(desk: AskingDesk) -> None:
    desk.do(update(client).where(client.c.id == ADAS).values(zone="Pacific/Auckland"))
    late = datetime(2026, 4, 8, 20, tzinfo=UTC)
    assert local_date(late, "Pacific/Auckland") == WEDNESDAY + timedelta(days=1)
    desk.plan(on=WEDNESDAY + timedelta(days=1), at=late)
    desk.clock.move_to(late)
    await desk.tick.run()

    assert asked(desk) == [ADA]


async def test_answers_are_kept_as_they_come_and_what_went_out_is_not_dropped(desk: AskingDesk) -> None:
    found = desk.plan()
    assert found is not None
    desk.clock.move_to(MORNING)
    await desk.tick.run()
    with desk.units.open(2) as unit:
        unit.due_questions.note(found, {"first": 1})
        half = unit.due_questions.get(found)
        unit.due_questions.answered(found, {"first": 1, "second": 2}, MORNING)
        unit.due_questions.drop(found, MORNING)
        whole = unit.due_questions.on(ADAS, KIND, WEDNESDAY)

    assert (half.answers, half.answered_at) == ({"first": 1}, None)
    assert whole is not None
    assert (whole.answers, whole.answered_at, whole.dropped_at) == ({"first": 1, "second": 2}, MORNING, None)


async def test_the_longest_due_are_found_first_by_an_index(desk: AskingDesk) -> None:
    second = desk.plan(at=MORNING)
    first = desk.plan(whose=BENS, at=MORNING - timedelta(minutes=5))
    with desk.units.read(None) as house:
        found = questions_due_anywhere(house.connection, MORNING, 5)
        assert found == [(1, first), (2, second)]
        assert questions_due_anywhere(house.connection, MORNING, 1) == [(1, first)]
        query = text(
            "EXPLAIN QUERY PLAN SELECT coach_id, id FROM due_question WHERE sent_at IS NULL "
            "AND dropped_at IS NULL AND due_at <= '2026-04-08' ORDER BY due_at, id LIMIT 5"
        )
        plan = [row.detail for row in house.connection.execute(query)]

    assert "ix_due_question_due" in plan[0]
