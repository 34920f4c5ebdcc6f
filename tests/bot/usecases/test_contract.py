"""A contract: counted from sessions that were done, told to the coach alone, once."""

from datetime import date, datetime
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk

from bot.messages import Person
from bot.store.contracts import Contract, next_contract_due
from bot.store.units import Units
from bot.usecases.contract_end import ContractEnds, left_of, tell_end


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def marits(play: Talk, look: Any) -> Any:
    return play.house.reading(play.someone("Marit"), look)


def standing(play: Talk) -> Contract | None:
    found: Contract | None = marits(play, lambda unit: unit.contracts.standing(unit.clients.roster()[0].id))
    return found


def told(play: Talk) -> list[tuple[int, str]]:
    return [
        (each.chat_id, each.message.html) for each in play.house.sends if "ends soon" in each.message.html
    ]


def trained(play: Talk, on: date) -> None:
    play.tick(datetime(on.year, on.month, on.day, 7, tzinfo=LISBON))
    play.take("Ada [All done as written]")
    play.take("Ada: skip")
    play.take("Ada [Nothing hurts]")
    play.take("Ada: 2 left")


def test_sessions_are_counted_and_told_when_two_are_left(play: Talk) -> None:
    play.take("Marit: /contract Ada 3 sessions")
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    assert told(play) == []
    trained(play, date(2026, 4, 7))
    play.tick(datetime(2026, 4, 7, 9, tzinfo=LISBON))
    play.tick(datetime(2026, 4, 7, 10, tzinfo=LISBON))
    [(chat, text)] = told(play)
    assert chat == 100
    assert "3 sessions from Mon 6 April, 2 left" in text


def test_what_was_taken_back_is_not_told(play: Talk) -> None:
    play.take("Marit: /contract Ada 3 sessions")
    found = standing(play)
    assert found is not None
    marits(play, lambda unit: unit.contracts.falls_due(found.id, play.house.now))
    clock = Person(0, 0, play.someone("Marit").coach_id, "clock")
    assert marits(play, lambda unit: tell_end(ContractEnds(found.id), clock, unit, play.house.now)) == []
    again = standing(play)
    assert again is not None
    assert again.due_at is None


def test_a_last_day_is_told_fourteen_days_before(play: Talk) -> None:
    play.take("Marit: /contract Ada until 30 June")
    assert marits(play, lambda unit: next_contract_due(unit.connection)) == datetime(
        2026, 6, 16, 8, tzinfo=LISBON
    )
    found = standing(play)
    assert found is not None
    clock = Person(0, 0, play.someone("Marit").coach_id, "clock")
    late = datetime(2026, 6, 16, 23, tzinfo=LISBON)
    assert marits(play, lambda unit: tell_end(ContractEnds(found.id), clock, unit, late)) == []
    due = marits(play, lambda unit: next_contract_due(unit.connection))
    assert due == datetime(2026, 6, 17, 7, tzinfo=LISBON)


def test_what_is_near_when_it_is_noted_is_not_told_again(play: Talk) -> None:
    play.take("Marit: /contract Ada until 10 April")
    play.tick(datetime(2026, 4, 7, 9, tzinfo=LISBON))
    assert told(play) == []


def test_a_new_one_takes_the_place_of_the_old(play: Talk) -> None:
    play.take("Marit: /contract Ada 12 sessions")
    play.take("Marit: /contract Ada until 30 June")
    assert "Before: 12 sessions from Mon 6 April, 12 left." in play.someone("Marit").sees
    play.take("Marit: /contract Ada none")
    assert standing(play) is None
    play.take("Marit: /contract Ada")
    assert "none noted" in play.someone("Marit").sees


def test_what_was_done_before_it_on_the_same_day_does_not_count(play: Talk) -> None:
    trained(play, date(2026, 4, 7))
    play.take("Marit: /contract Ada 12 sessions")
    found = standing(play)
    assert found is not None
    assert found.since_on == date(2026, 4, 8)
    assert marits(play, lambda unit: left_of(found, unit)) == 12


def test_the_client_never_sees_it_and_another_coach_neither(play: Talk) -> None:
    play.take("Marit: /contract Ada 2 sessions")
    play.take("Ada: /contract Ada 100 sessions")
    play.take("Orla: /contract Ada 100 sessions")
    assert all(
        "contract" not in each.message.html.casefold() for each in play.house.sends if each.chat_id == 1
    )
    assert "Which client?" in play.someone("Orla").sees
    found = standing(play)
    assert found is not None
    assert found.sessions == 2
    clock = Person(0, 0, play.someone("Orla").coach_id, "clock")
    orlas = play.house.reading(
        play.someone("Orla"), lambda unit: tell_end(ContractEnds(found.id), clock, unit, play.house.now)
    )
    assert orlas == []


@pytest.mark.parametrize(
    ("line", "said"), [("/contract", "Until when"), ("/contract Ada soon", "could not read")]
)
def test_what_is_not_read_changes_nothing(play: Talk, line: str, said: str) -> None:
    play.take(f"Marit: {line}")
    assert said in play.someone("Marit").sees
    assert standing(play) is None
