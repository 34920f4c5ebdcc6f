"""Other training: kept by a tap or a line, added to, taken back; sets go to their exercise; never another's."""

from datetime import date
from typing import Any

import pytest
from dialogs.talks import Talk

from bot.messages import Action
from bot.render import other_training as say
from bot.store.units import Units
from bot.usecases import other_training


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def kept(play: Talk, coach_id: int = 100) -> list[tuple[str, int, int | None, int | None]]:
    found: dict[int, Any] = play.house.reading(
        play.house.someone(coach_id), lambda unit: unit.other_training.since(date(2026, 3, 1))
    )
    return [(each.kind, each.local_on.day, each.minutes, each.effort) for of in found.values() for each in of]


def sees(play: Talk) -> str:
    return play.house.someone(1).sees


def test_one_tap_keeps_it(play: Talk) -> None:
    play.take("Ada: /other")
    play.take("Ada [A hike]")

    assert kept(play) == [("hike", 6, None, None)]
    assert kept(play, 900) == []


def test_a_second_tap_on_the_same_button_keeps_nothing_more(play: Talk) -> None:
    play.take("Ada: /other")
    play.take("Ada [A hike]")
    play.take("Ada taps that again")

    assert kept(play) == [("hike", 6, None, None)]


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        (["Ada: 45 min"], ("run", 6, 45, None)),
        (["Ada: 45"], ("run", 6, 45, None)),
        (["Ada: 45 min, hard"], ("run", 6, 45, 4)),
        (["Ada: very easy"], ("run", 6, None, 1)),
        (["Ada [90 min]", "Ada [Very hard]"], ("run", 6, 90, 5)),
        (["Ada: yesterday", "Ada: 1h"], ("run", 5, 60, None)),
    ],
)
def test_minutes_effort_and_the_day_are_added(
    play: Talk, steps: list[str], expected: tuple[str, int, int | None, int | None]
) -> None:
    play.take("Ada: ran")
    for step in steps:
        play.take(step)

    assert kept(play) == [expected]


@pytest.mark.parametrize("text", ["0 min", "900 min", "45 min in the rain", "it was fine"])
def test_what_is_no_length_is_not_added(play: Talk, text: str) -> None:
    play.take("Ada: ran")
    play.take(f"Ada: {text}")

    assert kept(play)[0][2] is None


def test_it_is_taken_back(play: Talk) -> None:
    play.take("Ada: ran 30 min")
    play.take("Ada keeps [Undo] as undo")
    play.take("Ada [Undo]")
    again = play.take("Ada taps the old undo")

    assert kept(play) == []
    assert again == []


def test_it_may_be_typed_after_the_command(play: Talk) -> None:
    play.take("Ada: /other swam 30 min")
    play.take("Ada: /other other")
    play.take("Ada: /other whatever that was")

    assert kept(play) == [("swim", 6, 30, None), ("other", 6, None, None)]
    assert "What did you do today?" in sees(play)


def test_in_doubt_nothing_is_kept_until_it_is_confirmed(play: Talk) -> None:
    play.take("Ada: ran by the sea")
    before = kept(play)
    play.take("Ada: run")
    play.take("Ada [A run, Mon 6 April]")

    assert before == []
    assert kept(play) == [("run", 6, None, None), ("run", 6, None, None)]


def test_a_kind_typed_while_it_is_asked_is_kept(play: Talk) -> None:
    play.take("Ada: /other")
    play.take("Ada: something else")
    other = sees(play)
    play.take("Ada: physical work")

    assert other.startswith("Passed on")
    assert kept(play) == [("physical work", 6, None, None)]


def test_in_a_session_a_bare_number_goes_to_the_exercise(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    play.take("Ada [Start]")
    play.take("Ada: swam")
    play.take("Ada: 8 8 8 8")

    assert "Noted: Hip thrust 90 kg × 8 8 8 8." in sees(play)
    assert kept(play) == [("swim", 7, None, None)]


def test_in_a_session_what_is_not_clear_goes_to_the_coach(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    play.take("Ada [Start]")
    play.take("Ada: ran by the sea")
    play.take("Ada: /other")
    play.take("Ada: rowing")

    assert kept(play) == []


@pytest.mark.parametrize(
    ("action", "argument"),
    [
        (Action.TRIM, 20),
        (Action.FEEL, 1),
        (Action.MOVE, 0),
        (Action.UNDO, 0),
        (Action.CONFIRM, 0),
        (Action.PICK, 30),
    ],
)
def test_a_tap_that_is_not_offered_keeps_nothing(play: Talk, action: Action, argument: int) -> None:
    play.take("Ada: /other")
    ada = play.house.someone(1)
    ada.tap_data(ada.forged("A run", action=action, argument=argument))

    assert kept(play) == []
    assert "What did you do today?" in ada.sees


@pytest.mark.parametrize(("action", "argument"), [(Action.TRIM, 601), (Action.FEEL, 6), (Action.PICK, 1)])
def test_nor_is_what_is_kept_changed_by_one(play: Talk, action: Action, argument: int) -> None:
    play.take("Ada: ran")
    ada = play.house.someone(1)
    ada.tap_data(ada.forged("Undo", action=action, argument=argument))

    assert kept(play) == [("run", 6, None, None)]
    assert say.STALE in ada.sees


def test_the_button_of_the_week_opens_it_as_often_as_it_is_tapped(play: Talk) -> None:
    play.take("Ada: /week")
    play.take("Ada keeps [Other training] as open")
    play.take("Ada [Other training]")
    play.take("Ada [A run]")
    play.take("Ada: /today")

    assert play.house.someone(1).buttons[-1:] != []
    assert kept(play) == [("run", 6, None, None)]


def test_today_without_a_session_has_the_button(play: Talk) -> None:
    play.take("Ada: /today")

    assert play.house.someone(1).buttons == ["Other training"]


def test_on_hold_there_is_no_button(play: Talk) -> None:
    play.take("Ada: chest pain and short of breath")
    play.take("Ada: /week")

    assert play.house.someone(1).buttons == []


def test_who_has_left_keeps_nothing(play: Talk) -> None:
    play.take("Ada: /other")
    ada, marit = play.house.someone(1), play.house.someone(100)
    data = ada.data("A run")
    client = play.house.client_of(marit, ada)
    with play.units.open(marit.coach_id) as unit:
        unit.clients.change(client.id, state="stopped")
    ada.tap_data(data)

    assert kept(play) == []


def test_a_coach_and_a_stranger_have_none(play: Talk) -> None:
    for user_id in (900, 555):
        play.house.someone(user_id).does(other_training.other_said, other_training.OtherSaid("ran"))

    assert kept(play) == kept(play, 900) == []


def test_what_comes_next_is_the_same_with_it(play: Talk) -> None:
    before = play.take("Marit: /client Ada")
    play.take("Ada: very hard football match 120 min")
    after = play.take("Marit: /client Ada")

    assert [line for line in after if "Other training" not in line and line] == [
        line for line in before if line
    ]
