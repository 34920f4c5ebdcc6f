"""Misses, pauses and digests fall due by the clock: once each, however often it is asked."""

from collections.abc import AsyncIterator
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from faults.crew import ADA, DUE, two_crews
from sqlalchemy import func, select, update

from bot.clock import Activity, CountedIds, StoryClock, Wake
from bot.schedule.tick import Tick
from bot.store.tables import alert, client, metadata, outbox, picture, session
from bot.store.units import Units
from bot.usecases import digest
from bot.usecases.runner import Runner
from bot.usecases.writer import Writer

GRACE = datetime(2026, 4, 8, 11, tzinfo=UTC)
"""Noon in Lisbon on the day after the first session."""
SUNDAY = datetime(2026, 4, 12, 17, tzinfo=UTC)
"""Sunday, 18:00 in Lisbon."""


class Clockroom:
    def __init__(self, units: Units) -> None:
        self.units = units
        self.clock = StoryClock(DUE)
        self.write = Writer()
        activity = Activity()
        wakes = Wake(activity.changed), Wake(activity.changed)
        self.runner = Runner(
            units, self.write, self.clock, CountedIds(), activity=activity, inbox_wake=wakes[0], outbox_wake=wakes[1]
        )  # fmt: skip
        self.tick = Tick(units, self.runner)

    async def at(self, instant: datetime) -> None:
        self.clock.move_to(instant)
        await self.tick.run()

    def rows(self, query: Any) -> list[tuple[Any, ...]]:
        with self.units.read(None) as unit:
            return [tuple(row) for row in unit.connection.execute(query)]

    def states(self) -> list[tuple[str, str | None]]:
        return self.rows(
            select(session.c.state, session.c.left_reason)
            .where(session.c.local_on == date(2026, 4, 7))
            .order_by(session.c.id)
        )

    def keys(self, like: str) -> list[str]:
        query = select(outbox.c.key).where(outbox.c.key.like(f"%{like}%")).order_by(outbox.c.id)
        return [row[0] for row in self.rows(query)]

    def sizes(self) -> dict[str, int]:
        return {
            table.name: self.rows(select(func.count()).select_from(table))[0][0]
            for table in metadata.sorted_tables
        }


@pytest.fixture
async def room(units: Units) -> AsyncIterator[Clockroom]:
    two_crews(units)
    found = Clockroom(units)
    await found.tick.run()
    yield found
    found.write.close()


async def test_a_session_is_missed_when_its_grace_is_over_and_not_before(room: Clockroom) -> None:
    await room.at(GRACE - timedelta(minutes=1))
    assert room.states() == [("sent", None), ("sent", None)]

    await room.at(GRACE)
    assert room.states() == [("missed", None), ("missed", None)]
    assert [key.partition(":")[0] for key in room.keys(":missed:")] == ["1", "2"]


async def test_a_tick_more_changes_nothing(room: Clockroom) -> None:
    for instant in (GRACE, SUNDAY):
        await room.at(instant)
        before = room.sizes()
        await room.tick.run()
        await Tick(room.units, room.runner).run()

        assert room.sizes() == before


async def test_each_coach_hears_of_her_own_client_alone(room: Clockroom) -> None:
    await room.at(GRACE)
    found = room.rows(
        select(alert.c.coach_id, client.c.coach_id)
        .join(client, client.c.id == alert.c.client_id)
        .where(alert.c.key.startswith("misses:"))
    )

    assert found == [(1, 1), (2, 2)]


async def test_nobody_is_called_silent_while_nobody_can_speak(room: Clockroom) -> None:
    fetched: list[datetime | None] = [None]
    room.tick.rounds.attend(lambda: fetched[0], None)
    await room.at(GRACE)
    assert room.states() == [("sent", None), ("sent", None)]

    fetched[0] = GRACE - timedelta(minutes=4)
    await room.tick.run()
    assert room.states() == [("sent", None), ("sent", None)]

    fetched[0] = GRACE - timedelta(minutes=2)
    await room.tick.run()
    assert room.states() == [("missed", None), ("missed", None)]


@pytest.mark.parametrize(
    ("away", "expected"),
    [(timedelta(minutes=59), ("missed", None)), (timedelta(minutes=61), ("unsent", "system"))],
)
async def test_an_outage_is_never_the_clients_miss(
    room: Clockroom, away: timedelta, expected: tuple[str, str | None]
) -> None:
    back = GRACE - timedelta(hours=3)
    fetched = [back]
    room.tick.rounds.attend(lambda: fetched[0], back - away)
    await room.at(back)
    fetched[0] = GRACE
    # While it ran on, the last good fetch was never long ago.
    room.tick.rounds._good = GRACE - timedelta(minutes=1)
    await room.at(GRACE)

    assert room.states() == [expected, expected]
    assert len(room.keys(":missed:")) == (2 if expected[0] == "missed" else 0)


async def test_an_outage_while_it_runs_counts_too(room: Clockroom) -> None:
    fetched = [DUE]
    room.tick.rounds.attend(lambda: fetched[0], DUE)
    await room.tick.run()
    fetched[0] = GRACE
    await room.at(GRACE)

    assert room.states() == [("unsent", "system"), ("unsent", "system")]


async def test_the_digest_goes_once_a_week_at_the_coachs_hour(room: Clockroom) -> None:
    await room.at(SUNDAY - timedelta(minutes=1))
    assert room.keys("digest:") == []

    await room.at(SUNDAY)
    await room.at(SUNDAY + timedelta(hours=2))
    assert sorted(room.keys("digest:")) == [
        "1:digest:2026-W15",
        "1:digest:2026-W15:picture:0",
        "2:digest:2026-W15",
        "2:digest:2026-W15:picture:0",
    ]
    assert room.rows(select(func.count()).select_from(picture)) == [(2,)]


@pytest.mark.parametrize(("late", "sent"), [(timedelta(days=2), 4), (timedelta(days=3, minutes=1), 0)])
async def test_a_digest_goes_late_after_an_outage_but_not_very_late(
    room: Clockroom, late: timedelta, sent: int
) -> None:
    await room.at(SUNDAY + late)

    assert len(room.keys("digest:")) == sent


async def test_a_late_digest_waits_for_the_end_of_the_night(room: Clockroom) -> None:
    await room.at(SUNDAY + timedelta(hours=9))
    query = select(outbox.c.due_at).where(outbox.c.key.like("%digest:%"))

    assert {row[0] for row in room.rows(query)} == {datetime(2026, 4, 13, 6, tzinfo=UTC)}


async def test_a_digest_that_fails_is_tried_three_times_and_holds_nothing_up(
    room: Clockroom, monkeypatch: pytest.MonkeyPatch
) -> None:
    tried: list[int] = []

    def broken(units: Units, coach_id: int, on: date, due_at: datetime) -> digest.SendDigest:
        tried.append(coach_id)
        raise RuntimeError("no ink")

    monkeypatch.setattr(digest, "prepared", broken)
    await room.at(SUNDAY)
    for _ in range(4):
        await room.tick.run()

    assert sorted(tried) == [1, 1, 1, 2, 2, 2]
    assert room.keys("digest:") == []
    coming = await room.tick.rounds.next_due()
    assert coming is not None
    assert coming > SUNDAY


async def test_the_hour_is_set_by_the_coach(room: Clockroom) -> None:
    with room.units.open(1) as unit:
        unit.connection.execute(
            update(metadata.tables["coach"])
            .where(metadata.tables["coach"].c.id == 1)
            .values(digest_weekday=3)
        )
    await room.at(datetime(2026, 4, 9, 17, tzinfo=UTC))

    assert [key for key in room.keys("digest:") if "picture" not in key] == ["1:digest:2026-W15"]


async def test_no_digest_comes_of_a_week_before_the_first_session(units: Units) -> None:
    two_crews(units)
    room = Clockroom(units)
    with units.open(None) as unit:
        unit.connection.execute(session.update().values(state="held"))
    await room.at(SUNDAY)
    room.write.close()

    assert room.keys("digest:") == []


async def test_the_story_stops_at_the_grace_and_at_the_digest(room: Clockroom) -> None:
    assert await room.tick.rounds.next_due() == GRACE

    await room.at(GRACE)
    with room.units.open(None) as unit:
        unit.connection.execute(session.update().where(session.c.state == "planned").values(state="unsent"))
    assert await room.tick.next_due() == SUNDAY


async def test_a_chosen_pause_ends_on_its_day(room: Clockroom) -> None:
    with room.units.open(1) as unit:
        unit.connection.execute(
            client.update()
            .where(client.c.coach_id == 1)
            .values(state="paused", paused_until=date(2026, 4, 10))
        )
    await room.at(datetime(2026, 4, 9, 6, tzinfo=UTC))
    midnight = datetime(2026, 4, 9, 23, tzinfo=UTC)
    assert await room.tick.rounds.next_due() == midnight

    await room.at(midnight)
    query = select(client.c.state, client.c.paused_until).where(client.c.coach_id == 1)
    assert room.rows(query) == [("active", None)]


MIDNIGHT_THERE = datetime(2026, 4, 8, 15, tzinfo=UTC)
"""Midnight in Tokyo, as 9 April begins."""
FIRST_BACK = datetime(2026, 4, 11, 15, tzinfo=UTC)
"""Midnight in Tokyo, as 12 April begins: the first day after the absence."""


async def test_the_clock_of_somebody_who_travels_is_turned_once_and_back(room: Clockroom) -> None:
    with room.units.open(None) as house:
        ada = house.accounts.find(ADA)
        assert ada is not None
        house.of(ada.coach_id).aways.add(
            ada.client_id or 0, date(2026, 4, 9), date(2026, 4, 11), DUE, training=True, zone="Asia/Tokyo"
        )
    zones = select(client.c.zone).where(client.c.id == ada.client_id)

    assert await room.tick.rounds.next_due() <= MIDNIGHT_THERE
    await room.at(MIDNIGHT_THERE - timedelta(seconds=1))
    assert room.rows(zones) == [("Europe/Lisbon",)]
    await room.at(MIDNIGHT_THERE)
    assert room.rows(zones) == [("Asia/Tokyo",)]
    sizes = room.sizes()
    await room.at(MIDNIGHT_THERE)
    assert room.sizes() == sizes
    await room.at(FIRST_BACK)
    assert room.rows(zones) == [("Europe/Lisbon",)]
    await room.at(FIRST_BACK)
    assert room.rows(zones) == [("Europe/Lisbon",)]
