"""What a client is sent of a block that was made to fit her."""

from datetime import date

import pytest
from fitting import (
    PLANK,
    PULL,
    PUSH,
    SQUAT,
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
from setting_out import House, Someone, prescription
from sqlalchemy import null, update

from bot.store.placements import Placed
from bot.store.tables import assignment
from bot.store.units import Units
from bot.usecases import swapping
from core.loads.equipment import default_kit
from core.programme.prescription import Dose, Prescription, Span
from core.programme.restrictions import Restriction
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


LIMIT = Prescription(order="A", exercise="bench-press", dose=Dose(sets=3, reps=Span(low=5, high=5), left=0))
EASY = Prescription(order="A", exercise="bench-press", dose=Dose(sets=3, reps=Span(low=5, high=5), left=2))


def test_what_is_for_trained_people_or_to_the_limit_alone_is_replaced_or_kept_as_she_says(
    house: House, coach: Someone
) -> None:
    ada = joined(house, coach, "Ada", 1, kit="both", months="2 months")
    takes(coach, slipway(LIMIT, PULL, second=(EASY, PUSH)))
    coach.assign("Ada, Slipway, 2026-04-13")
    assert changed(coach) == [
        "Bench press → dumbbell bench press: to the limit, alone without safeties; 2 left are safe",
        "Pull-up → pulldown: for trained people",
    ]
    coach.type("pull-up: keep")
    assert changed(coach)[1] == "Pull-up: kept as written; for trained people"
    coach.tap("Start it")

    first = sends(house, coach, ada)
    assert given(first) == ["dumbbell-bench-press", "pull-up"]
    ada.tap("Why these loads")
    assert "In place of bench press, which is not for training alone." in ada.sees
    # The same bench press with two left, on another day: one exercise keeps one log.
    assert given(sends(house, coach, ada, date(2026, 4, 16))) == ["dumbbell-bench-press", "push-up"]


def test_kept_to_the_limit_it_still_leaves_two(house: House, coach: Someone) -> None:
    ada = joined(house, coach, "Ada", 1, kit="both")
    takes(coach, slipway(LIMIT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.type("bench press: keep")
    assert changed(coach) == ["Bench press: kept as written; alone, with 2 left"]
    coach.tap("Start it")

    bench, _ = sends(house, coach, ada)
    assert (bench.exercise, bench.given.left) == ("bench-press", 3)


def test_a_block_that_was_begun_before_goes_on_as_it_was(house: House, coach: Someone) -> None:
    ada = joined(house, coach, "Ada", 1, kit="both", months="2 months")
    takes(coach, slipway(PULL, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.tap("Start it")
    client_id = house.client_of(coach, ada).id
    with house.units.open(coach.coach_id) as unit:
        running = unit.blocks.running(client_id)
        unit.connection.execute(
            update(assignment).where(assignment.c.id == running.id).values(changes=null())
        )
        assert unit.placements.of(running.id) is None

    assert given(sends(house, coach, ada)) == ["pull-up", "push-up"]


def test_with_a_bar_at_home_the_written_exercise_comes_back(
    house: House, coach: Someone, ada: Someone
) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.tap("Start it")
    with house.units.open(coach.coach_id) as unit:
        unit.kits.set_usual(house_client(unit), default_kit("both", MassUnit.KG))

    assert given(sends(house, coach, ada)) == ["back-squat", "push-up"]


def test_a_client_cannot_go_back_to_what_her_coach_replaced(
    house: House, coach: Someone, ada: Someone
) -> None:
    takes(coach, slipway(PUSH, prescription("goblet-squat", "B")))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.type("goblet squat: split squat")
    coach.tap("Start it")
    squat, _ = sends(house, coach, ada)
    assert squat.exercise == "split-squat"

    back = swapping.say.TAKE
    ada.tap("Start")
    ada.tap("Swap")
    assert not [label for label in ada.buttons if "Goblet squat" in label]
    ada.tap_data(ada.forged(ada.buttons[0], action=back, argument=0))
    items = house.reading(coach, lambda unit: [unit.sessions.item(squat.id)])
    assert given(items) == ["split-squat"]


def test_a_limit_that_is_said_later_holds_from_the_next_card_on(house: House, coach: Someone) -> None:
    ada = joined(house, coach, "Ada", 1, kit="both")
    takes(coach, slipway(SQUAT, PUSH, prescription("overhead-press", "D"), second=(SQUAT, PUSH)))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.type("back squat: front squat")
    assert changed(coach) == ["Back squat → front squat: as you said"]
    coach.tap("Start it")
    told = limited(coach, "Ada: no deep knee bend, no overhead")
    assert told.split("\n")[:5] == [
        "Ada: no arms overhead, no deep knee bend.",
        "",
        "From the next card on:",
        "Back squat → leg press: no deep knee bend",
        "Overhead press → incline dumbbell press: no arms overhead",
    ]

    items = sends(house, coach, ada)
    broken = {Restriction.OVERHEAD, Restriction.DEEP_KNEE}
    rows = house.reading(coach, lambda unit: [unit.exercises.get(each.exercise) for each in items])
    assert len(items) == 3
    assert not [row.key for row in rows if row.breaks & broken]
    ada.tap("Why these loads")
    assert "In place of overhead press, which your limits rule out." in ada.sees
    assert "The card that Ada has now stays as it is." in limited(coach, "Ada: no overhead, no jumping")


def test_another_coach_sees_and_changes_nothing_of_it(house: House, coach: Someone, ada: Someone) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.tap("Start it")
    limited(coach, "Ada: no jumping")
    other = house.people[900]
    client_id = house.client_of(coach, ada).id
    running = house.reading(coach, lambda unit: unit.blocks.running(client_id))

    assert house.reading(other, lambda unit: unit.placements.of(running.id)) is None
    assert house.reading(other, lambda unit: unit.restrictions.of(client_id)) == frozenset()
    assert house.reading(other, lambda unit: unit.kits.elsewhere(client_id)) == ()
    with house.units.open(other.coach_id) as unit:
        unit.placements.keep(running.id, {})
        unit.restrictions.say(client_id, [Restriction.GRIP], 900, house.now)
    assert kept(house, coach, ada) == {"back-squat": Placed(instead="goblet-squat", why=("kit",))}
    assert house.reading(coach, lambda unit: unit.restrictions.of(client_id)) == {Restriction.JUMPING}


def test_a_limit_that_is_taken_out_gives_back_what_the_kit_allows(house: House, coach: Someone) -> None:
    ada = joined(house, coach, "Ada", 1, kit="bodyweight")
    takes(coach, slipway(prescription("hip-thrust", "A"), PUSH))
    limited(coach, "Ada: floor")
    coach.assign("Ada, Slipway, 2026-04-13")
    assert changed(coach) == [
        "Hip thrust → back extension: no getting down to the floor",
        "Push-up → band chest press: no getting down to the floor",
    ]
    coach.tap("Start it")
    assert limited(coach, "Ada: none") == (
        "Ada has no limits.\nBefore: no getting down to the floor.\n\n"
        "From the next card on:\nHip thrust → glute bridge: no bar at home"
    )

    assert given(sends(house, coach, ada)) == ["glute-bridge", "push-up"]


def test_what_the_coach_chose_comes_back_when_a_limit_is_over(
    house: House, coach: Someone, ada: Someone
) -> None:
    takes(coach, slipway(SQUAT, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.type("back squat: bodyweight squat")
    coach.tap("Start it")
    limited(coach, "Ada: deep knee bend")
    assert "Back squat → " in coach.sees
    limited(coach, "Ada: none")

    assert given(sends(house, coach, ada)) == ["bodyweight-squat", "push-up"]


def test_what_a_later_limit_leaves_nothing_for_is_left_out_and_told(house: House, coach: Someone) -> None:
    ada = joined(house, coach, "Ada", 1, kit="bodyweight")
    takes(coach, slipway(SQUAT, PLANK, PUSH))
    coach.assign("Ada, Slipway, 2026-04-13")
    coach.tap("Start it")
    told = limited(coach, "Ada: floor")
    assert "Plank: nothing near it fits, left out" in told

    assert given(sends(house, coach, ada)) == ["bodyweight-squat", "band-chest-press"]
