from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

import pytest
from setting_out import block_of, prescription
from sqlalchemy import event

from bot.store.blocks import Assignment
from bot.store.units import Unit, Units
from core.checkin.training_log import Session
from core.programme.block import Block
from core.programme.prescription import Load
from core.programme.versions import ChangedDay, ChangedWeek, Course, Later

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
START = date(2026, 4, 7)
FIRST = block_of()
SECOND, THIRD = (FIRST.model_copy(update={"weeks": weeks}) for weeks in (5, 6))
WEEK = ChangedWeek(
    week=2, days=(ChangedDay(key="lower", rows=(prescription("back-squat", "A", Load.of(40)),)),)
)


def later(hours: int) -> datetime:
    return NOW + timedelta(hours=hours)


@dataclass(frozen=True)
class Client:
    """A client of one of two coaches, who runs the first version of a block."""

    units: Units
    coach_id: int
    client_id: int
    running: Assignment

    def kept(self, value: Block) -> int:
        with self.units.open(self.coach_id) as unit:
            return unit.blocks.keep(value, NOW)[0]


def client_of(units: Units, coach: str) -> Client:
    with units.open(None) as house:
        unit = house.of(house.coaches.add(coach, "Europe/Lisbon", NOW))
        client_id = unit.clients.add("Ada", NOW)
        unit.blocks.assign(client_id, unit.blocks.keep(FIRST, NOW)[0], START, NOW)
        running = unit.blocks.running(client_id)
        assert running is not None
        return Client(units, unit.tenant, client_id, running)


@pytest.fixture
def ada(units: Units) -> Client:
    client_of(units, "Orla")
    return client_of(units, "Marit")


def session(of: Client, unit: Unit, on: date, sent_at: datetime | None = None) -> Session:
    unit.sessions.lay(of.client_id, of.running.id, 2, "lower", on, NOW)
    found = unit.moves.of_assignment(of.running.id)[-1]
    if sent_at is not None:
        unit.sessions.change(found.id, state="sent", sent_at=sent_at)
    return unit.sessions.get(found.id)


def test_what_is_applied_holds_from_its_date_in_the_order_of_the_decisions(ada: Client) -> None:
    second, third = ada.kept(SECOND), ada.kept(THIRD)
    with ada.units.open(ada.coach_id) as unit:
        unit.versions.apply(ada.running, second, date(2026, 4, 21), later(1))
        unit.versions.apply(ada.running, third, date(2026, 4, 14), later(2))
    with ada.units.open(ada.coach_id) as unit:
        course = unit.versions.course(ada.running)
        found = [unit.versions.block_for(ada.running, date(2026, 4, day)).weeks for day in (13, 14, 21)]
        newest = unit.versions.newest(ada.running)

    assert course == Course(
        starts_on=START,
        first=FIRST,
        later=(
            Later(block=SECOND, from_on=date(2026, 4, 21)),
            Later(block=THIRD, from_on=date(2026, 4, 14)),
        ),
    )
    assert (found, newest) == ([4, 6, 6], third)


def test_what_is_taken_back_holds_no_more_and_its_row_stays(ada: Client) -> None:
    second = ada.kept(SECOND)
    with ada.units.open(ada.coach_id) as unit:
        row = unit.versions.get(unit.versions.apply(ada.running, second, START, later(1)))
        assert row is not None
        assert unit.versions.newest(ada.running) == second
        unit.versions.take_back(row, later(2))
        after = unit.versions.get(row.id)

        assert after == replace(row, voided_at=later(2))
        assert unit.versions.standing(ada.running.id) == []
        assert unit.versions.course(ada.running) == Course(starts_on=START, first=FIRST)
        assert unit.versions.course(ada.running, later(2)).later == (Later(block=SECOND, from_on=START),)


def test_a_week_is_changed_once_and_an_earlier_change_makes_room(ada: Client) -> None:
    other = WEEK.model_copy(update={"days": ()})
    with ada.units.open(ada.coach_id) as unit:
        first = unit.versions.week(unit.versions.change_week(ada.running, other, later(1)))
        unit.versions.change_week(ada.running, WEEK, later(2))
        unit.versions.change_week(ada.running, other.model_copy(update={"week": 1}), later(3))

        assert first is not None
        assert (first.value, first.voided_at) == (other, None)
        assert [each.week_no for each in unit.versions.weeks(ada.running.id)] == [1, 2]
        assert unit.versions.weeks(ada.running.id)[1].value == WEEK
        gone = unit.versions.week(first.id)
        assert gone is not None
        assert gone.voided_at == later(2)
        unit.versions.unchange_week(ada.running.id, 2, later(4))
        assert [each.week_no for each in unit.versions.weeks(ada.running.id)] == [1]


SENT = [(None, 40), (later(1), 60), (later(2), 60), (later(3), 40), (later(6), 40)]


@pytest.mark.parametrize(("sent_at", "kg"), SENT)
def test_a_session_that_was_sent_is_seen_with_what_stood_when_it_was_sent(
    ada: Client, sent_at: datetime | None, kg: int
) -> None:
    second = ada.kept(SECOND)
    with ada.units.open(ada.coach_id) as unit:
        sent = session(ada, unit, date(2026, 4, 14), sent_at)
        unit.versions.change_week(ada.running, WEEK, later(2))
        unit.versions.apply(ada.running, second, START, later(2))
        found = unit.versions.block_of(sent)
        day = found.day("lower")

        assert day is not None
        assert day.in_week(2)[0].dose.load == Load.of(kg)
        assert found.weeks == (5 if kg == 40 else 4)
        assert unit.versions.day_name(sent) == "Lower"


def test_what_was_taken_back_after_a_session_was_sent_is_still_what_it_was_sent_with(ada: Client) -> None:
    with ada.units.open(ada.coach_id) as unit:
        sent = session(ada, unit, date(2026, 4, 14), later(3))
        unit.versions.change_week(ada.running, WEEK, later(2))
        unit.versions.unchange_week(ada.running.id, 2, later(4))
        day = unit.versions.block_of(sent).day("lower")

        assert day is not None
        assert day.in_week(2)[0].dose.load == Load.of(40)
        assert unit.versions.course(ada.running).weeks == ()


def test_a_day_that_no_version_has_is_called_by_its_key(ada: Client) -> None:
    with ada.units.open(ada.coach_id) as unit:
        unknown = replace(session(ada, unit, START), day_key="legs")

        assert unit.versions.day_name(unknown) == "legs"


def test_who_runs_a_block_is_found_whichever_version_she_runs(ada: Client) -> None:
    second = ada.kept(SECOND)
    with ada.units.open(ada.coach_id) as unit:
        other, _ = unit.blocks.keep(block_of("Slipway"), NOW)

        assert [each.client_id for each in unit.versions.runners(second)] == [ada.client_id]
        assert unit.versions.runners(other) == []
        assert [unit.versions.number(each) for each in (ada.running.version_id, second, other)] == [1, 2, 1]
        unit.blocks.end(ada.client_id, NOW)
        assert unit.versions.runners(second) == []


def test_one_coach_never_sees_what_another_decided(ada: Client) -> None:
    second = ada.kept(SECOND)
    with ada.units.open(ada.coach_id) as unit:
        row = unit.versions.get(unit.versions.apply(ada.running, second, START, later(1)))
        week_id = unit.versions.change_week(ada.running, WEEK, later(1))
    other = client_of(ada.units, "Idris")
    with ada.units.open(other.coach_id) as unit:
        assert row is not None
        unit.versions.take_back(row, later(2))
        unit.versions.unchange_week(ada.running.id, 2, later(2))

        assert unit.versions.get(row.id) is None
        assert unit.versions.week(week_id) is None
        assert unit.versions.standing(ada.running.id) == []
        assert unit.versions.weeks(ada.running.id) == []
        assert unit.versions.runners(second) == []
        assert unit.blocks.running_all().keys() == {other.client_id}
    with ada.units.open(ada.coach_id) as unit:
        assert unit.versions.get(row.id) == row
        assert len(unit.versions.weeks(ada.running.id)) == 1


def test_all_are_read_at_once(ada: Client) -> None:
    second = ada.kept(SECOND)
    with ada.units.open(ada.coach_id) as unit:
        for name in ("Ben", "Cleo"):
            client_id = unit.clients.add(name, NOW)
            unit.blocks.assign(client_id, ada.running.version_id, START, NOW)
        unit.versions.apply(ada.running, second, START, later(1))
        unit.versions.change_week(ada.running, WEEK, later(1))
        planned = session(ada, unit, START)
    asked: list[str] = []
    with ada.units.open(ada.coach_id) as unit:
        event.listen(unit.connection, "before_cursor_execute", lambda *given: asked.append(given[2]))
        running = unit.blocks.running_all()
        unit.versions.read_all()
        count = len(asked)
        courses = [unit.versions.course(each) for each in running.values()]
        block = unit.versions.block_of(planned)

    assert count == 4
    assert len(asked) - count == 2  # each of the two versions once
    assert [len(each.later) for each in courses] == [1, 0, 0]
    assert block == courses[0].block_on(START)
