from datetime import UTC, datetime, timedelta
from functools import cached_property

import pytest
from sqlalchemy import Engine, func, insert, select, text
from sqlalchemy.exc import DBAPIError

from bot.store.tables import chat, client, coach
from bot.store.units import Unit, Units

NOW = datetime(2026, 4, 6, 7, tzinfo=UTC)
HOUSE = ("accounts", "chats", "coaches", "inbox", "outbox", "seconds")
TENANTS = sorted(
    name for name, value in vars(Unit).items() if isinstance(value, cached_property) and name not in HOUSE
)
"""Every other repository is of a tenant."""


def chats(engine: Engine) -> int:
    with engine.connect() as connection:
        return connection.execute(select(func.count()).select_from(chat)).scalar_one()


def add_chat(unit: Unit) -> None:
    unit.connection.execute(insert(chat).values(chat_id=1))


def add_and_fail(units: Units, error: BaseException, coach_id: int | None = None) -> None:
    with units.open(None) as house:
        add_chat(house if coach_id is None else house.of(coach_id))
        raise error


class Killed(BaseException):
    """What ends a program."""


def test_a_unit_that_ends_well_is_kept(engine: Engine, units: Units) -> None:
    with units.open(None) as unit:
        add_chat(unit)

    assert chats(engine) == 1


@pytest.mark.parametrize("error", [ValueError, Killed, KeyboardInterrupt])
def test_a_unit_that_ends_in_any_exception_changes_nothing(
    engine: Engine, units: Units, error: type[BaseException]
) -> None:
    with pytest.raises(error):
        add_and_fail(units, error())

    assert chats(engine) == 0


def test_a_unit_of_a_coach_shares_the_transaction_of_the_house(engine: Engine, units: Units) -> None:
    with pytest.raises(ValueError, match="late"):
        add_and_fail(units, ValueError("late"), coach_id=3)

    assert chats(engine) == 0


def test_a_reading_unit_cannot_write(engine: Engine, units: Units) -> None:
    with pytest.raises(DBAPIError, match=r"(?i)read-?only"), units.read(None) as unit:
        add_chat(unit)

    assert chats(engine) == 0


def test_a_connection_that_has_read_writes_again(engine: Engine, units: Units) -> None:
    for _ in range(2):
        with units.read(None) as unit:
            unit.connection.execute(text("SELECT 1"))
    with units.open(None) as unit:
        add_chat(unit)

    assert chats(engine) == 1


def test_a_reading_unit_waits_for_no_writer(units: Units) -> None:
    with units.open(None) as writing:
        add_chat(writing)
        with units.read(None) as reading:
            seen = reading.connection.execute(select(chat.c.chat_id)).all()

    assert seen == []


@pytest.mark.parametrize("name", TENANTS)
def test_rows_of_a_tenant_exist_only_where_one_is_known(units: Units, name: str) -> None:
    with units.open(None) as house:
        with pytest.raises(RuntimeError, match="no tenant"):
            getattr(house, name)
        assert getattr(house.of(3), name).coach_id == 3


def test_an_invitation_is_found_before_its_coach_is_known(units: Units) -> None:
    with units.open(None) as house:
        coach_id = house.coaches.add("Orla", "Europe/Dublin", NOW)
        house.of(coach_id).invites.add("a code", "client", "Ada", NOW + timedelta(days=7), NOW)
        found, other = house.invite_of("a code"), house.invite_of("another code")

    assert found is not None
    assert (found.coach_id, other) == (coach_id, None)


@pytest.mark.parametrize("name", HOUSE)
def test_rows_of_the_house_exist_without_a_tenant(units: Units, name: str) -> None:
    with units.open(None) as house:
        assert getattr(house, name).connection is house.connection


def test_a_coach_never_gets_a_client_of_another(units: Units) -> None:
    with units.open(None) as house:
        first = house.coaches.add("Orla", "Europe/Dublin", NOW)
        second = house.coaches.add("Marit", "Europe/Oslo", NOW)
        client_id = (
            house.of(first)
            .connection.execute(
                insert(client)
                .values(coach_id=first, name="Ada", state="active", created_at=NOW)
                .returning(client.c.id)
            )
            .scalar_one()
        )
    with units.read(second) as unit, pytest.raises(LookupError):
        unit.clients.get(client_id)
    with units.read(first) as unit:
        assert unit.clients.get(client_id).name == "Ada"
    with units.read(None) as house:
        assert len(house.connection.execute(select(coach.c.id)).all()) == 2
