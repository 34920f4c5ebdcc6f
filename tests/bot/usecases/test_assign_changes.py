"""What is done in place of what, for one client: shown before her block starts, and chosen by her coach."""

import pytest
from fitting import (
    PLANK,
    PUSH,
    SQUAT,
    WEEKS,
    changed,
    given,
    house_client,
    joined,
    kept,
    limited,
    sends,
    slipway,
    takes,
)
from set_up_once import set_up_once
from setting_out import House, Someone

from bot.messages import Action
from bot.store.placements import Placed
from bot.store.units import Units
from core.loads.equipment import default_kit
from core.programme.block import Block, Day, Line
from core.units import Unit as MassUnit


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    def set_up() -> None:
        other = house.coach("Orla", 900)
        joined(house, other, "Ida", 90)
        house.coach("Marit", 100)

    set_up_once(house, "Marit, beside Orla's client", set_up)
    return house.someone(100)


@pytest.fixture
def ada(house: House, coach: Someone) -> Someone:
    set_up_once(house, "Ada of Marit, who fits blocks", lambda: joined(house, coach, "Ada", 1))
    return house.someone(1)


def test_changes_are_shown_kept_and_sent(house: House, coach: Someone, ada: Someone) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    assert changed(coach) == ["Back squat → goblet squat: no bar at home"]
    coach.tap("Start it")

    assert kept(house, coach, ada) == {"back-squat": Placed(instead="goblet-squat", why=("kit",))}
    items = sends(house, coach, ada)
    assert given(items) == ["goblet-squat", "push-up"]
    assert "Goblet squat (instead of back squat)" in ada.sees


def test_who_gets_all_as_written_is_shown_nothing_of_it(house: House, coach: Someone) -> None:
    cai = joined(house, coach, "Cai", 2, kit="both")
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Cai, Slipway, 2026-04-13")

    assert "Changed" not in coach.sees
    coach.tap("Start it")
    assert kept(house, coach, cai) == {}


@pytest.mark.parametrize(
    ("typed", "line", "sent"),
    [
        ("Back squat: split squat", "Back squat → split squat: as you said", ["split-squat", "push-up"]),
        ("back squat: leave out", "Back squat: left out, as you said", ["push-up"]),
    ],
)
def test_a_coach_types_what_she_wants_otherwise(
    house: House, coach: Someone, ada: Someone, typed: str, line: str, sent: list[str]
) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.type(typed)
    assert changed(coach) == [line]
    coach.type("start it")

    assert given(sends(house, coach, ada)) == sent


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        (
            "back squat: leg press",
            "Leg press is nothing for Ada: limits or kit do not allow it. Another one?",
        ),
        ("back squat: keep", "Back squat is nothing for Ada: limits or kit do not allow it. Another one?"),
        ("deadlift: push-up", "Deadlift is not in this block."),
        ("bak squat: push-up", "I know no exercise called bak squat. Like it: Back squat, Hack squat."),
        ("back squat: zzz", "I know no exercise called zzz."),
    ],
)
def test_what_cannot_be_is_said_and_nothing_changes(
    coach: Someone, ada: Someone, typed: str, note: str
) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    before = coach.sees
    coach.type(typed)

    said, _, card = coach.sees.partition("\n\n")
    assert said.startswith(note.partition(" Like it")[0])
    assert card == before


def test_other_words_show_the_card_again(coach: Someone, ada: Someone) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    before = coach.sees
    coach.type("hm")

    assert coach.sees == before


def test_a_day_keeps_something(coach: Someone, ada: Someone) -> None:
    takes(coach, slipway(SQUAT, second=(PUSH,)))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.type("back squat: leave out")

    assert coach.sees.startswith("Then nothing would be left on Day 1. Something has to stay.")


@pytest.fixture
def asked(house: House, coach: Someone) -> Someone:
    """A coach who is asked about a plank for Ada, who must not get down to the floor."""
    joined(house, coach, "Ada", 1, kit="bodyweight")
    takes(coach, slipway(PLANK, PUSH))
    limited(coach, "Ada: no getting down to the floor")
    coach.assign("Ada, Slipway, 2026-04-13")
    return coach


def test_what_cannot_be_placed_is_asked_before_it_starts(house: House, asked: Someone) -> None:
    assert asked.sees == (
        "Ada cannot do plank: no getting down to the floor. Nothing near it fits. What instead?\n"
        "Tap, or type the name of an exercise, or leave out."
    )
    assert asked.buttons == ["Leave it out", "Band Pallof press", "Hanging knee raise", "Back"]
    asked.tap_data(asked.forged("Leave it out", action=Action.CONFIRM, argument=0))
    assert asked.sees.startswith("Ada cannot do plank")
    assert kept_none(house, asked)
    asked.type("start it")
    assert asked.sees.startswith("Ada cannot do plank")
    assert kept_none(house, asked)


def kept_none(house: House, coach: Someone) -> bool:
    ada = house.client_of(coach, house.people[1])
    return house.reading(coach, lambda unit: unit.blocks.running(ada.id)) is None


@pytest.mark.parametrize(
    ("how", "answer", "line", "sent"),
    [
        (
            "tap",
            "Band Pallof press",
            "Plank → band Pallof press: as you said",
            ["band-pallof-press", "band-chest-press"],
        ),
        ("type", "wall sit", "Plank → wall sit: as you said", ["wall-sit", "band-chest-press"]),
        ("tap", "Leave it out", "Plank: left out, as you said", ["band-chest-press"]),
        ("type", "Leave out", "Plank: left out, as you said", ["band-chest-press"]),
    ],
)
def test_her_answer_is_what_is_sent(
    house: House, asked: Someone, how: str, answer: str, line: str, sent: list[str]
) -> None:
    ada = house.people[1]
    asked.tap(answer) if how == "tap" else asked.type(answer)
    assert changed(asked)[0] == line
    asked.tap("Start it")

    assert given(sends(house, asked, ada)) == sent


def test_an_answer_that_is_against_the_limit_is_not_taken(asked: Someone) -> None:
    asked.type("side plank")
    assert asked.sees.startswith(
        "Side plank is nothing for Ada: limits or kit do not allow it. Another one?\n\nAda cannot"
    )
    asked.type("keep")
    assert asked.sees.startswith("Plank is nothing for Ada")


def test_an_old_or_forged_answer_shows_the_question_again(asked: Someone) -> None:
    asked.tap_data(asked.forged("Leave it out", argument=9))
    assert "Here is where we are.\n\nAda cannot do plank" in asked.sees
    old = asked.data("Leave it out")
    asked.type("wall sit")
    asked.tap_data(old)
    assert changed(asked)[0] == "Plank → wall sit: as you said"


def test_going_back_to_the_date_keeps_answers_and_to_another_block_forgets_them(asked: Someone) -> None:
    asked.tap("Leave it out")
    asked.tap("Back")
    asked.type("2026-04-14")
    assert changed(asked)[0] == "Plank: left out, as you said"
    asked.tap("Back")
    asked.tap("Back")
    asked.tap("Slipway")
    asked.type("2026-04-14")
    assert asked.sees.startswith("Ada cannot do plank")


def test_a_day_that_would_be_left_empty_by_an_answer_is_not(house: House, coach: Someone) -> None:
    joined(house, coach, "Ada", 1, kit="bodyweight")
    takes(coach, slipway(PLANK, second=(PUSH,)))
    limited(coach, "Ada: floor")
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.tap("Leave it out")

    assert coach.sees.startswith("Then nothing would be left on Day 1.")


def test_too_few_days_are_told_before_anything_is_asked(house: House, coach: Someone) -> None:
    joined(house, coach, "Ada", 1, kit="bodyweight")
    days = tuple(
        Day(key=f"d{no}", name=f"Day {no}", lines=(Line(weeks=WEEKS, prescription=PLANK),)) for no in range(3)
    )
    takes(coach, Block(name="Slipway", weeks=2, days=days))
    limited(coach, "Ada: floor")
    coach.assign("Ada, Slipway, 2026-04-13")

    assert coach.sees.endswith("It cannot start like this.")


def test_what_another_place_lacks_is_told(house: House, coach: Someone, ada: Someone) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    with house.units.open(coach.coach_id) as unit:
        unit.kits.set_usual(house_client(unit), default_kit("both", MassUnit.KG))
    coach.assign("Ada, Slipway, 2026-04-13")

    assert coach.sees.endswith("No load for it at home, swapped on the day: Back squat.")
