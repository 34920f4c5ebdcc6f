"""A coach's rules: over the defaults, the most specific last; what fits no more is left out; none is another's."""

import logging
from datetime import UTC, datetime, time, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import event, insert

from bot.store.rules import DEFAULTS, left_out_anywhere
from bot.store.tables import rule
from bot.store.units import Unit, Units
from core.policy import Policy
from core.units import Mass

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
BENCH = "bench-press"


@pytest.fixture
def coaches(units: Units) -> tuple[int, int]:
    with units.open(None) as house:
        return house.coaches.add("Marit", "Europe/Oslo", NOW), house.coaches.add("Orla", "Europe/Oslo", NOW)


def planted(unit: Unit, key: str, value: object, client_id: int | None = None) -> None:
    row = {"coach_id": unit.tenant, "client_id": client_id, "key": key, "value": value}
    unit.connection.execute(insert(rule).values(**row, by_user_id=1, at=NOW))


def test_without_a_rule_the_defaults_hold(units: Units, coaches: tuple[int, int]) -> None:
    with units.open(coaches[0]) as unit:
        assert unit.rules.policy() is DEFAULTS
        assert unit.rules.policy(7, BENCH) == Policy()
        assert (unit.rules.standing(), unit.rules.unfit()) == ([], [])


def test_the_more_specific_holds_over_the_more_general(units: Units, coaches: tuple[int, int]) -> None:
    with units.open(coaches[0]) as unit:
        ada, bo = unit.clients.add("Ada", NOW), unit.clients.add("Bo", NOW)
        unit.rules.set("cap_upper", Decimal("0.01"), 1, NOW, client_id=ada, exercise=BENCH)
        unit.rules.set("cap_upper", Decimal("0.02"), 1, NOW, exercise=BENCH)
        unit.rules.set("cap_upper", Decimal("0.03"), 1, NOW, client_id=ada)
        unit.rules.set("cap_upper", Decimal("0.04"), 1, NOW)
        unit.rules.set("pain_drop", Decimal("0.3"), 1, NOW, client_id=ada)
        asked = [(ada, BENCH), (bo, BENCH), (ada, None), (bo, None), (None, None), (None, BENCH)]
        found = [unit.rules.policy(*each).cap_upper for each in asked]
        drops = [unit.rules.policy(*each).pain_drop for each in asked]
    assert [str(each) for each in found] == ["0.01", "0.02", "0.03", "0.04", "0.04", "0.02"]
    assert [str(each) for each in drops] == ["0.3", "0.20", "0.3", "0.20", "0.20", "0.20"]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("cap_upper", Decimal("0.04")),
        ("cap_upper_mass", Mass.of("1.25")),
        ("cap_upper_mass", Mass.of(2, "lb")),
        ("cap_week_upper", None),
        ("quiet_from", time(22, 30)),
        ("miss_run", 3),
        ("limit_from_60", True),
    ],
)
def test_every_kind_of_value_comes_back_as_it_was(
    units: Units, coaches: tuple[int, int], field: str, value: object
) -> None:
    with units.open(coaches[0]) as unit:
        unit.rules.set(field, value, 1, NOW)  # type: ignore[arg-type]
    with units.open(coaches[0]) as unit:
        assert getattr(unit.rules.policy(), field) == value
    with units.open(coaches[1]) as unit:
        assert unit.rules.policy() == Policy()


def test_a_newer_rule_ends_the_older_and_who_set_them_when_is_kept(
    units: Units, coaches: tuple[int, int]
) -> None:
    later, last = NOW + timedelta(hours=1), NOW + timedelta(hours=2)
    with units.open(coaches[0]) as unit:
        ada = unit.clients.add("Ada", NOW)
        unit.rules.set("miss_run", 3, 1, NOW)
        newer = unit.rules.set("miss_run", 4, 2, later)
        unit.rules.set("miss_run", 5, 2, later, client_id=ada)
        kept = [
            (each.value, each.by_user_id, each.at, each.voided_at) for each in unit.rules.history("miss_run")
        ]
        assert unit.rules.at("miss_run", None, None) == unit.rules.get(newer)
        unit.rules.drop("miss_run", last)
        stands = [(each.client_id, each.value) for each in unit.rules.standing()]
        of_ada = unit.rules.history("miss_run", ada)
    assert kept == [(4, 2, later, None), (3, 1, NOW, later)]
    assert stands == [(ada, 5)]
    assert [each.value for each in of_ada] == [5]


def test_what_is_tried_is_not_kept(units: Units, coaches: tuple[int, int]) -> None:
    with units.open(coaches[0]) as unit:
        unit.rules.set("miss_run", 3, 1, NOW)
        tried = unit.rules.tried("miss_run", 4, 7)
        without = unit.rules.without("miss_run")
        found = [tried.policy(7).miss_run, tried.policy(8).miss_run, without.policy(8).miss_run]
        assert found == [4, 3, 2]
        assert unit.rules.policy(7).miss_run == 3


def test_what_does_not_fit_any_more_is_left_out_told_and_no_crash(
    units: Units, coaches: tuple[int, int], caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.WARNING)
    with units.open(coaches[0]) as unit:
        planted(unit, "policy:miss_run", {"is": 99})
        planted(unit, "policy:no_such_setting", {"is": 1})
        planted(unit, "policy:pain_drop", "half")
        unit.rules.set("cap_upper", Decimal("0.04"), 1, NOW)
        policy = unit.rules.policy()
        unfit = [each.field for each in unit.rules.unfit()]
        found = left_out_anywhere(unit.connection)
    assert (policy.miss_run, policy.pain_drop, policy.cap_upper) == (2, Decimal("0.20"), Decimal("0.04"))
    assert unfit == ["miss_run", "no_such_setting", "pain_drop"]
    assert found == 3
    assert {record.message for record in caplog.records} == {"rule_left_out"}
    assert [vars(record)["part"] for record in caplog.records] == unfit


def test_of_two_that_cannot_stand_beside_each_other_the_later_is_left_out(
    units: Units, coaches: tuple[int, int]
) -> None:
    with units.open(coaches[0]) as unit:
        ada = unit.clients.add("Ada", NOW)
        unit.rules.set("quiet_from", time(22), 1, NOW, client_id=ada)
        unit.rules.set("week_asked_at", time(21), 1, NOW, client_id=ada)
        assert unit.rules.policy(ada).week_asked_at == time(21)
        unit.rules.drop("quiet_from", NOW, client_id=ada)
        assert unit.rules.policy(ada).week_asked_at == time(18)
        assert [each.field for each in unit.rules.unfit()] == ["week_asked_at"]


def test_rows_of_other_kinds_in_the_table_are_no_rules(units: Units, coaches: tuple[int, int]) -> None:
    with units.open(coaches[0]) as unit:
        ada = unit.clients.add("Ada", NOW)
        unit.check_ins.turn(ada, 1, NOW, on=False)
        assert unit.rules.standing() == []
        unit.rules.set("miss_run", 3, 1, NOW, client_id=ada)
        unit.rules.drop("miss_run", NOW, client_id=ada)
        assert unit.check_ins.is_off(ada)


def test_another_coach_reads_and_ends_nothing(units: Units, coaches: tuple[int, int]) -> None:
    with units.open(coaches[0]) as unit:
        kept = unit.rules.set("miss_run", 3, 1, NOW)
    with units.open(coaches[1]) as unit:
        assert (unit.rules.get(kept), unit.rules.standing(), unit.rules.history("miss_run")) == (None, [], [])
        unit.rules.drop("miss_run", NOW)
    with units.open(coaches[0]) as unit:
        assert unit.rules.policy().miss_run == 3


def test_all_rules_are_read_with_one_query_a_unit(units: Units, coaches: tuple[int, int]) -> None:
    asked: list[str] = []
    with units.open(coaches[0]) as unit:
        event.listen(unit.connection, "before_cursor_execute", lambda *args: asked.append(args[2]))
        for client_id in range(1, 201):
            unit.rules.policy(client_id)
            unit.rules.policy(client_id, BENCH)
    assert len(asked) == 1
