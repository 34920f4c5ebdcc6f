from datetime import UTC, date, datetime, time, timedelta

import pytest
from setting_out import NOW, House, Someone, block_of

from bot.messages import Person
from bot.store.units import Unit, Units
from bot.usecases.layout import LayOut, laid_out, lay_out, running_short
from core.errors import TooFewTrainingDays
from core.programme.block import Block


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900)
    return house.coach("Marit", 100)


def on_block(
    house: House,
    coach: Someone,
    block: Block,
    starts_on: date,
    zone: str = "Europe/Lisbon",
    hour: time = time(7),
    days: tuple[int, ...] = (0, 3),
    state: str = "active",
) -> int:
    with house.units.open(coach.coach_id) as unit:
        client_id = unit.clients.add("Ada", house.now)
        unit.clients.change(client_id, state=state, zone=zone, hour=hour, days=list(days))
        version, _ = unit.blocks.keep(block, house.now)
        unit.blocks.assign(client_id, version, starts_on, house.now)
    return client_id


def laid(unit: Unit, client_id: int) -> list[tuple[int, str, date, datetime]]:
    found = unit.sessions.of_client(client_id, ("planned",))
    return [(each.week_no, each.day_key, each.local_on, each.due_at) for each in reversed(found)]


def test_two_weeks_are_laid_out_at_the_clients_own_hour(house: House, coach: Someone) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13))
    with house.units.open(coach.coach_id) as unit:
        assert lay_out(client_id, unit, NOW) == 3
        assert laid(unit, client_id) == [
            (1, "lower", date(2026, 4, 13), datetime(2026, 4, 13, 6, tzinfo=UTC)),
            (1, "upper", date(2026, 4, 16), datetime(2026, 4, 16, 6, tzinfo=UTC)),
            (2, "lower", date(2026, 4, 20), datetime(2026, 4, 20, 6, tzinfo=UTC)),
        ]
        running = unit.blocks.running(client_id)
        assert running is not None
        assert running.laid_until == date(2026, 4, 20)


def test_laying_out_again_adds_only_what_is_new(house: House, coach: Someone) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13))
    with house.units.open(coach.coach_id) as unit:
        lay_out(client_id, unit, NOW)
        assert lay_out(client_id, unit, NOW) == 0
        assert lay_out(client_id, unit, NOW + timedelta(days=3)) == 1
        assert len(laid(unit, client_id)) == 4


def test_a_session_that_was_sent_is_not_laid_again(house: House, coach: Someone) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13))
    with house.units.open(coach.coach_id) as unit:
        lay_out(client_id, unit, NOW)
        first = unit.sessions.next_planned(client_id)
        assert first is not None
        unit.sessions.change(first.id, state="sent")
        assert lay_out(client_id, unit, NOW) == 0


def test_the_date_is_the_clients_and_not_the_machines(house: House, coach: Someone) -> None:
    # 16:40 UTC on 6 April is 04:40 on 7 April in Auckland, so 21 April lies inside the two weeks there.
    client_id = on_block(
        house, coach, block_of(days=("Lower",)), date(2026, 4, 21), zone="Pacific/Auckland", days=(1,)
    )
    with house.units.open(coach.coach_id) as unit:
        lay_out(client_id, unit, NOW)
        assert laid(unit, client_id) == [
            (1, "lower", date(2026, 4, 21), datetime(2026, 4, 20, 19, tzinfo=UTC))
        ]


def test_an_hour_that_the_clocks_jump_over_falls_an_hour_later(house: House, coach: Someone) -> None:
    # 01:30 on 29 March 2026 does not exist in Lisbon: clocks go from 01:00 to 02:00, which is 01:00 UTC.
    client_id = on_block(
        house, coach, block_of(days=("Lower",)), date(2026, 3, 29), hour=time(1, 30), days=(6,)
    )
    with house.units.open(coach.coach_id) as unit:
        lay_out(client_id, unit, datetime(2026, 3, 20, 12, tzinfo=UTC))
        assert [due_at for *_, due_at in laid(unit, client_id)] == [datetime(2026, 3, 29, 1, 30, tzinfo=UTC)]


@pytest.mark.parametrize("state", ["joining", "paused", "stopped"])
def test_nothing_is_laid_out_for_who_does_not_train(house: House, coach: Someone, state: str) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13), state=state)
    with house.units.open(coach.coach_id) as unit:
        assert (lay_out(client_id, unit, NOW), laid(unit, client_id)) == (0, [])


def test_nothing_is_laid_out_without_a_block(house: House, coach: Someone) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13))
    with house.units.open(coach.coach_id) as unit:
        unit.blocks.end(client_id, NOW)
        assert lay_out(client_id, unit, NOW) == 0


def test_too_few_training_days_are_a_mistake_to_mend(house: House, coach: Someone) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13), days=(0,))
    with house.units.open(coach.coach_id) as unit, pytest.raises(TooFewTrainingDays) as caught:
        lay_out(client_id, unit, NOW)
    assert caught.value.facts == {"needed": 2, "given": 1}


def test_whose_sessions_run_short_is_asked_over_all_coaches(house: House, coach: Someone) -> None:
    mine = on_block(house, coach, block_of(), date(2026, 4, 13))
    other = house.people[900]
    theirs = on_block(house, other, block_of(), date(2026, 4, 13))
    until = date(2026, 4, 13)
    with house.units.open(coach.coach_id) as unit:
        assert running_short(unit.connection, until) == [(coach.coach_id, mine), (other.coach_id, theirs)]
        laid_out(LayOut(mine), Person(0, 0, coach.coach_id, "clock"), unit, NOW)
        assert running_short(unit.connection, until) == [(other.coach_id, theirs)]
        assert running_short(unit.connection, date(2026, 4, 21)) == [
            (coach.coach_id, mine),
            (other.coach_id, theirs),
        ]


def test_another_coach_cannot_lay_out_a_client_of_mine(house: House, coach: Someone) -> None:
    client_id = on_block(house, coach, block_of(), date(2026, 4, 13))
    with house.units.open(house.people[900].coach_id) as unit, pytest.raises(LookupError):
        lay_out(client_id, unit, NOW)
