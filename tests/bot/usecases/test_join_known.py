"""What a coach fills in with an invitation: read by what it looks like, only confirmed, never health or consent."""

from datetime import UTC, datetime, time

import pytest
from joining import answer
from setting_out import House, Someone

from bot.messages import Action
from bot.store.units import Units
from bot.usecases.join_known import known_read
from core.errors import InviteUnread

NOW = datetime(2026, 4, 6, 16, 40, tzinfo=UTC)
BEFORE = ("caution", "consent", "age", "pregnancy", "health", "limits")

READ = [
    ("", {}),
    ("kg", {"unit": "kg"}),
    ("lbs, 6.30", {"unit": "lb", "hour": "06:30"}),
    ("mon, wed, fri", {"days": [0, 2, 4]}),
    ("mon-fri", {"days": [0, 1, 2, 3, 4]}),
    ("São Paulo", {"zone": "America/Sao_Paulo"}),
    ("Europe/Riga", {"zone": "Europe/Riga"}),
    ("home, dumbbells", {"place": "home", "kit": "dumbbells"}),
    ("gym; ", None),
    ("18, 45 min", {"hour": "18:00", "minutes": 45}),
    ("trained,, both,", {"experience": "trained", "kit": "both"}),
    ("2 months", {"experience": "new"}),
    ("17:40, 17:50", None),
    ("Lisbn", None),
    ("pregnant", None),
    ("I agree", None),
    ("34 years old", None),
    ("none of these", None),
    ("500 min", None),
]


@pytest.mark.parametrize(("text", "expected"), READ)
def test_each_thing_is_read_or_refused_whole(text: str, expected: dict[str, object] | None) -> None:
    if expected is None:
        with pytest.raises(InviteUnread):
            known_read(text, NOW)
    else:
        assert known_read(text, NOW) == expected


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900)
    return house.coach("Marit", 100)


def invited(house: House, coach: Someone, known: str) -> Someone:
    bo = house.invited(coach, f"Bo: {known}", 2)
    for step in BEFORE:
        answer(bo, step, "button")
    return bo


def test_what_is_confirmed_is_kept_and_the_rest_is_asked(house: House, coach: Someone) -> None:
    bo = invited(house, coach, "lb, 6:30, Oslo, home")
    assert "Unit: lb\nClock: Oslo\nHour: 06:30\nPlace: home" in bo.sees
    bo.type("all right")
    for step in ("days", "minutes", "kit", "alone", "experience"):
        answer(bo, step, "text")
    client = house.client_of(coach, bo)
    assert (client.unit, client.zone, client.hour) == ("lb", "Europe/Oslo", time(6, 30))
    kit = house.reading(coach, lambda unit: unit.kits.usual(client.id))
    assert (kit.place, kit.unit.value) == ("home", "lb")


def test_one_thing_is_changed_and_comes_back_to_the_look_over_it(house: House, coach: Someone) -> None:
    bo = invited(house, coach, "kg, Lisbon, mon thu, 60 min")
    bo.type("clock")
    bo.type("17:40")
    bo.tap("London")
    bo.type("days")
    bo.tap("Sat")
    bo.tap("That is all")
    bo.type("length")
    bo.type("back")
    assert "Unit: kg\nClock: London\nDays: Mon Thu Sat\nLength: 60 min" in bo.sees
    bo.type("hello")
    assert bo.sees.startswith("I could not read that. Tap All right")
    bo.tap_data(bo.forged("All right", action=Action.CHANGE, argument=9))
    assert house.client_of(coach, bo).join_step == "known"


def test_a_question_after_the_look_goes_back_to_it(house: House, coach: Someone) -> None:
    bo = invited(house, coach, "kg")
    bo.tap("All right")
    assert house.client_of(coach, bo).join_step == "zone"
    bo.tap("Back")
    assert "Marit has filled this in for you." in bo.sees
    bo.tap("Back")
    assert house.client_of(coach, bo).join_step == "limits"


def test_a_link_with_something_unread_is_not_made(house: House, coach: Someone) -> None:
    with pytest.raises(InviteUnread):
        house.invited(coach, "Bo: pregnant", 2)
    assert house.reading(coach, lambda unit: unit.invites.open_ones(house.now)) == []
