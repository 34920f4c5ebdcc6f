from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from typing import Any

import pytest
from sqlalchemy import Engine, event, text

from bot.store.read_once import Memory, tables_in, written_by
from bot.store.units import Units
from core.loads.equipment import default_kit
from core.units import Unit as MassUnit

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)


@contextmanager
def asked(units: Units) -> Iterator[list[str]]:
    """The statements that the database is asked meanwhile."""
    seen: list[str] = []

    def note(_: Any, __: Any, statement: str, *___: Any) -> None:
        seen.append(statement)

    event.listen(units.engine, "before_cursor_execute", note)
    yield seen
    event.remove(units.engine, "before_cursor_execute", note)


def client_of(units: Units, coach: str) -> tuple[int, int]:
    with units.open(None) as house:
        unit = house.of(house.coaches.add(coach, "Europe/Lisbon", NOW))
        return unit.tenant, unit.clients.add("Ada", NOW)


def test_what_is_asked_twice_in_a_transaction_is_read_once(units: Units) -> None:
    coach_id, client_id = client_of(units, "Marit")

    with units.open(coach_id) as unit, asked(units) as seen:
        first = unit.clients.get(client_id)
        again = unit.of(coach_id).clients.get(client_id)

    assert again == first
    assert len([each for each in seen if "client" in tables_in(each)]) == 1


def test_what_the_transaction_has_written_is_read_anew(units: Units) -> None:
    coach_id, client_id = client_of(units, "Marit")

    with units.open(coach_id) as unit:
        before = unit.clients.get(client_id).name, unit.kits.usual(client_id)
        unit.clients.change(client_id, name="Ada Berg")
        unit.kits.set_usual(client_id, default_kit("both", MassUnit.KG))
        after = unit.clients.get(client_id).name, unit.kits.usual(client_id)

    assert before == ("Ada", None)
    assert after == ("Ada Berg", default_kit("both", MassUnit.KG))


def test_the_next_transaction_sees_what_another_one_has_written_since(units: Units) -> None:
    coach_id, client_id = client_of(units, "Marit")

    with units.read(coach_id) as before:
        for _ in range(2):
            assert before.clients.get(client_id).name == "Ada"
        with units.open(coach_id) as unit:
            unit.clients.change(client_id, name="Ada Berg")
        assert before.clients.get(client_id).name == "Ada"  # the snapshot of its transaction
    with units.read(coach_id) as after:
        assert after.clients.get(client_id).name == "Ada Berg"


def test_what_was_read_is_forgotten_where_a_part_of_the_transaction_is_taken_back(units: Units) -> None:
    coach_id, client_id = client_of(units, "Marit")

    with units.open(coach_id) as unit:
        part = unit.connection.begin_nested()
        unit.clients.change(client_id, name="Ada Berg")
        assert unit.clients.get(client_id).name == "Ada Berg"
        part.rollback()
        assert unit.clients.get(client_id).name == "Ada"


def test_what_one_coach_has_read_is_not_there_for_another(units: Units) -> None:
    coach_id, client_id = client_of(units, "Marit")
    other_id, _ = client_of(units, "Orla")

    with units.read(coach_id) as unit:
        unit.clients.get(client_id)
        with pytest.raises(LookupError):
            unit.of(other_id).clients.get(client_id)


def test_a_list_is_each_askers_own(units: Units) -> None:
    coach_id, client_id = client_of(units, "Marit")

    with units.read(coach_id) as unit:
        unit.sessions.of_client(client_id, ("planned",)).append(None)  # type: ignore[arg-type]
        assert unit.sessions.of_client(client_id, ("planned",)) == []


@pytest.mark.parametrize("known_before", [False, True])
def test_what_rests_on_another_reading_is_forgotten_with_it(known_before: bool) -> None:
    memory, stands = Memory(), [1]

    def inner() -> int:
        memory.notice("SELECT item.id FROM item")
        return stands[0]

    def outer() -> int:
        return memory.recall("inner", inner) * 10

    if known_before:
        memory.recall("inner", inner)
    assert memory.recall("outer", outer) == 10
    stands[0] = 2
    assert memory.recall("outer", outer) == 10

    memory.notice("UPDATE item SET state=? WHERE item.id = ?")

    assert memory.recall("outer", outer) == 20


@pytest.mark.parametrize(
    ("statement", "tables"),
    [
        ("INSERT INTO decision (coach_id, exercise) VALUES (?, ?)", {"decision"}),
        ('UPDATE "card" SET wanted=? WHERE card.client_id = ?', {"card"}),
        ("DELETE FROM item WHERE item.session_id IN (SELECT session.id FROM session)", {"item"}),
        ("REPLACE INTO kit SELECT * FROM client", {"kit", "client"}),
        ("BEGIN IMMEDIATE", set()),
    ],
)
def test_a_statement_changes_what_it_is_about_or_else_all_that_it_names(
    statement: str, tables: set[str]
) -> None:
    assert written_by(statement) == tables


def test_a_connection_that_is_lost_ends_its_transaction_without_more_ado(engine: Engine) -> None:
    with engine.connect() as connection:
        connection.execute(text("SELECT 1"))
        connection.invalidate()
        connection.rollback()

        assert connection.execute(text("SELECT 1")).scalar_one() == 1
