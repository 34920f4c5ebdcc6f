import pytest
from sqlalchemy import event

from bot.store.rows import settable
from bot.store.tables import inbox
from bot.store.units import Units


def test_a_change_that_is_built_once_takes_no_column_that_there_is_not() -> None:
    assert settable(inbox, {"state": "done"}) == {"state": "done"}
    with pytest.raises(KeyError, match="stat"):
        settable(inbox, {"stat": "done"})


def test_reading_and_writing_in_turn_has_no_statement_prepared_anew(engine) -> None:
    if engine.dialect.name != "sqlite":
        return
    units, said = Units(engine), []
    for each in (engine, units._reading):
        event.listen(each, "before_cursor_execute", lambda *given: said.append(given[2]))
    for _ in range(3):
        with units.open(None) as house:
            house.connection.exec_driver_sql("DELETE FROM inbox")
        with units.read(None) as house:
            house.connection.exec_driver_sql("SELECT 1")
    assert [each for each in said if each.startswith("PRAGMA")] == ["PRAGMA query_only=1"]
