from collections.abc import Sequence
from datetime import datetime, time

import pytest
from joining import STEPS, answer, told, up_to
from setting_out import House, Someone, plain_text

from bot.messages import Action, Effect, Level, Person, decode
from bot.store.units import Unit, Units
from bot.usecases import join


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900, zone="America/Halifax")
    return house.coach("Marit", 100)


@pytest.fixture
def ada(house: House, coach: Someone) -> Someone:
    return house.invited(coach, "Ada", 1)


def test_without_consent_nothing_more_is_asked_and_she_can_come_back(
    house: House, coach: Someone, ada: Someone
) -> None:
    ada.tap("Go on")
    ada.tap("No")
    assert "Without it I cannot bring you training, so we stop here, and I ask you nothing more." in ada.sees
    ada.type("34")
    assert (house.client_of(coach, ada).join_step, house.client_of(coach, ada).age_band) == ("consent", None)
    assert house.reading(coach, lambda unit: unit.clients.consented(1)) is False
    ada.start()
    assert "Do you agree that I keep and use this data for your training?" in ada.sees
    ada.type("no")
    ada.tap("Show me the question again")
    ada.tap("I agree")
    client = house.client_of(coach, ada)
    assert client.join_step == "age"
    assert house.reading(coach, lambda unit: unit.clients.consented(client.id)) is True


@pytest.mark.parametrize("answered", ["Under 18", "17", "under 18", "I am 16 years old"])
def test_a_minor_is_refused_kindly_and_nothing_is_kept(
    house: House, coach: Someone, ada: Someone, answered: str
) -> None:
    up_to(ada, "age")
    if answered in ada.buttons:
        ada.tap(answered)
    else:
        ada.type(answered)
    assert ada.sees.startswith("This bot is only for people of 18 and over, so I cannot take you on.")
    client = house.client_of(coach, ada)
    assert (client.state, client.age_band, client.join_step) == ("stopped", None, None)
    assert house.reading(coach, lambda unit: unit.clients.consented(client.id)) is False
    assert told(house) == [
        (Level.TODAY, "Ada could not join: the age given is under 18. Nothing else was kept.")
    ]
    ada.type("kg")
    assert ada.sees.startswith("You do not train here now")


@pytest.mark.parametrize(
    ("typed", "band"),
    [("18", "18-39"), ("39", "18-39"), ("40", "40-59"), ("59", "40-59"), ("60", "60+"), ("60+", "60+")],
)
def test_an_age_in_years_gives_its_band(
    house: House, coach: Someone, ada: Someone, typed: str, band: str
) -> None:
    up_to(ada, "age")
    ada.type(typed)
    assert house.client_of(coach, ada).age_band == band


@pytest.mark.parametrize("typed", ["0", "121", "800", "eighteen"])
def test_what_is_no_age_is_asked_again(house: House, coach: Someone, ada: Someone, typed: str) -> None:
    up_to(ada, "age")
    ada.type(typed)
    assert house.client_of(coach, ada).join_step == "age"


@pytest.mark.parametrize("by", ["button", "text"])
def test_a_yes_to_the_health_question_holds_the_plan_and_tells_the_coach_now(
    house: House, coach: Someone, ada: Someone, by: str
) -> None:
    up_to(ada, "health")
    ada.tap("One or more") if by == "button" else ada.type("one or more")
    client = house.client_of(coach, ada)
    assert (client.frozen_at, client.frozen_for, client.join_step) == (
        house.now,
        "health question",
        "pressure",
    )
    assert "Please see a doctor before you train with this plan." in ada.sees
    [tell] = house.tells
    assert (tell.level, tell.client_id) == (Level.NOW, client.id)
    [[button]] = tell.message.rows
    tap = decode(button.data or "")
    assert tap is not None
    release = house.reading(coach, lambda unit: unit.prompts.get(tap.prompt))
    assert (tap.action, release.kind, release.subject, release.user_id) == (
        Action.RELEASE,
        "release",
        client.id,
        coach.user_id,
    )
    assert house.reading(house.people[900], lambda unit: unit.prompts.get(tap.prompt)) is None


def test_a_held_plan_stays_held_at_the_end_of_joining(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "health")
    ada.tap("One or more")
    ada.tap("No")
    for step in STEPS[STEPS.index("limits") :]:
        answer(ada, step, "button")
    assert "Your plan is on hold: see a doctor first. Marit takes it up again, nobody else." in ada.sees
    assert house.client_of(coach, ada).frozen_at == house.now
    assert "On hold: the health question. You decide." in plain_text(house.tells[-1].message)


@pytest.mark.parametrize("typed", ["no chest pain", "I take tablets", "maybe", "none but one"])
def test_a_half_read_health_answer_is_never_taken_for_a_no(
    house: House, coach: Someone, ada: Someone, typed: str
) -> None:
    up_to(ada, "health")
    ada.does(half_read, typed)
    assert house.client_of(coach, ada).join_step == "health"


def half_read(text: str, person: Person, unit: Unit, now: datetime) -> Sequence[Effect]:
    """What joining makes of it; the scan for stop signs, which comes first, has tests of its own."""
    return join.heard(text, unit.clients.get(person.client_id or 0), person, unit, now)


# Zone, hour, days and the rest


def test_a_typed_time_suggests_cities_and_never_guesses(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "zone")
    ada.type("17:40")
    assert ada.sees.startswith("Clocks that show this time now:")
    assert ada.buttons == ["Casablanca", "Dublin", "Lagos", "Las Palmas", "Lisbon", "London", "Back"]
    assert house.client_of(coach, ada).zone is None
    ada.tap("London")
    assert ada.sees.startswith("Your clock: London, 17:40 now.\n\nJoining, 9 of 15")
    assert house.client_of(coach, ada).zone == "Europe/London"


def test_a_misspelt_city_is_asked_about(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "zone")
    ada.type("Lisbn")
    assert (ada.sees.split("\n")[0], ada.buttons) == (
        "I do not have that one by name. Did you mean one of these?",
        ["Lisbon", "Back"],
    )
    assert house.client_of(coach, ada).zone is None


def test_a_zone_outside_the_list_is_typed_by_its_name(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "zone")
    ada.type("America/Indiana/Knox")
    assert house.client_of(coach, ada).zone == "America/Indiana/Knox"


@pytest.mark.parametrize(("typed", "hour"), [("6:30", time(6, 30)), ("6.30", time(6, 30)), ("18", time(18))])
def test_an_hour_is_typed_as_people_write_it(
    house: House, coach: Someone, ada: Someone, typed: str, hour: time
) -> None:
    up_to(ada, "hour")
    ada.type(typed)
    assert house.client_of(coach, ada).hour == hour
    assert ada.sees.startswith(f"Your hour: {hour:%H:%M}.")


def test_days_are_toggled_and_no_day_is_asked_again(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "days")
    ada.tap("That is all")
    assert ada.sees.startswith("Please choose at least one day.")
    ada.tap("Wed")
    ada.tap("Sat")
    assert "Chosen: Wed Sat" in ada.sees
    ada.tap("Wed: yes")
    assert "Chosen: Sat" in ada.sees
    ada.type("that is all")
    assert (house.client_of(coach, ada).days, house.client_of(coach, ada).join_step) == ([5], "minutes")


def test_one_can_go_back_a_question_but_not_behind_health(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "hour")
    ada.tap("Back")
    ada.type("back")
    ada.tap("Back")
    assert house.client_of(coach, ada).join_step == "limits"
    assert "Back" not in ada.buttons
    ada.tap("Nothing")
    assert house.client_of(coach, ada).join_step == "unit"


@pytest.mark.parametrize(
    ("typed", "alone", "arms"),
    [("someone", False, False), ("alone, with safety arms", True, True), ("Alone.", True, False)],
)
def test_company_and_safety_arms_reach_the_kit(
    house: House, coach: Someone, ada: Someone, typed: str, alone: bool, arms: bool
) -> None:
    up_to(ada, "alone")
    ada.type(typed)
    kit = house.reading(coach, lambda unit: unit.kits.usual(house_client(unit)))
    assert (kit.usually_alone, kit.safety_arms) == (alone, arms)


def house_client(unit: Unit) -> int:
    return unit.clients.roster()[0].id


def test_safety_arms_are_not_offered_without_a_bar(house: House, ada: Someone) -> None:
    up_to(ada, "kit")
    ada.tap("Dumbbells")
    assert ada.buttons == ["Alone", "Someone is there", "Back"]
    ada.type("safety arms")
    assert "Joining, 14 of 15" in ada.sees


@pytest.mark.parametrize(
    ("typed", "experience"),
    [
        ("new", "new"),
        ("2 months", "new"),
        ("11 weeks", "new"),
        ("3 months", "trained"),
        ("5 years", "trained"),
        ("longer", "trained"),
    ],
)
def test_experience_is_read_in_words_and_in_time(
    house: House, coach: Someone, ada: Someone, typed: str, experience: str
) -> None:
    up_to(ada, "experience")
    ada.type(typed)
    assert house.client_of(coach, ada).experience == experience


def test_a_name_with_marks_of_html_is_shown_as_typed(house: House, coach: Someone) -> None:
    odd = house.invited(coach, "A<b>&Co", 7)
    assert "Hello A&lt;b&gt;&amp;Co." in odd.last.html
