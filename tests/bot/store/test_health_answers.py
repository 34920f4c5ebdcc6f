"""Answers about health: one stands for a question, older ones stay voided, and no coach sees another's."""

from datetime import UTC, date, datetime

import pytest
from sqlalchemy import func, select

from bot.store.tables import health_answer
from bot.store.units import Units

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
ON = date(2026, 1, 20)


@pytest.fixture
def coaches(units: Units) -> tuple[int, int]:
    with units.open(None) as house:
        return house.coaches.add("Marit", "Europe/Oslo", NOW), house.coaches.add("Orla", "Europe/Oslo", NOW)


def test_a_newer_answer_stands_and_the_older_one_is_kept_voided(
    units: Units, coaches: tuple[int, int]
) -> None:
    with units.open(coaches[0]) as unit:
        client_id = unit.clients.add("Ada", NOW)
        unit.health_answers.keep(client_id, "birth", NOW, yes=False)
        unit.health_answers.keep(client_id, "birth", NOW, yes=True, said_on=ON)
        [(question, answer)] = unit.health_answers.standing(client_id).items()
        kept = unit.connection.execute(select(func.count()).select_from(health_answer)).scalar_one()
    assert (question, answer.yes, answer.said_on, answer.released_on) == ("birth", True, ON, None)
    assert kept == 2


def test_a_release_stamps_what_was_a_yes_and_waits_once(units: Units, coaches: tuple[int, int]) -> None:
    with units.open(coaches[0]) as unit:
        client_id = unit.clients.add("Ada", NOW)
        unit.health_answers.keep(client_id, "birth", NOW, yes=True)
        unit.health_answers.keep(client_id, "screen", NOW, yes=False)
        unit.health_answers.keep(client_id, "pressure", NOW, yes=True)
        first = unit.health_answers.release(client_id, ON, "birth", "screen")
        again = unit.health_answers.release(client_id, date(2026, 5, 1), "birth", "screen")
        found = unit.health_answers.standing(client_id)
    assert (first, again) == (["birth"], [])
    assert {name: each.released_on for name, each in found.items()} == {
        "birth": ON,
        "screen": None,
        "pressure": None,
    }


def test_another_coach_sees_voids_and_releases_nothing(units: Units, coaches: tuple[int, int]) -> None:
    mine, other = coaches
    with units.open(mine) as unit:
        client_id = unit.clients.add("Ada", NOW)
        unit.health_answers.keep(client_id, "birth", NOW, yes=True)
    with units.open(other) as unit:
        assert unit.health_answers.standing(client_id) == {}
        assert unit.health_answers.release(client_id, ON, "birth") == []
        unit.health_answers.drop(client_id, "birth", NOW)
    with units.open(mine) as unit:
        [answer] = unit.health_answers.standing(client_id).values()
    assert (answer.yes, answer.released_on) == (True, None)
