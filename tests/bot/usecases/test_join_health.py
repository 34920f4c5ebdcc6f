"""What is said of health in joining and later: kept, told once, held until the coach's word, never seen next door."""

from datetime import date

import pytest
from joining import STEPS, answer, told, up_to
from setting_out import House, Someone, plain_text

from bot.messages import Level
from bot.store.units import Unit, Units
from bot.usecases import coach_settings, own_settings


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    house.coach("Orla", 900)
    return house.coach("Marit", 100)


@pytest.fixture
def ada(house: House, coach: Someone) -> Someone:
    return house.invited(coach, "Ada", 1)


def answers(house: House, coach: Someone) -> dict[str, bool]:
    def look(unit: Unit) -> dict[str, bool]:
        client_id = unit.clients.roster()[0].id
        return {name: each.yes for name, each in unit.health_answers.standing(client_id).items()}

    found: dict[str, bool] = house.reading(coach, look)
    return found


def goes_on(ada: Someone, step: str) -> None:
    for each in STEPS[STEPS.index(step) :]:
        answer(ada, each, "button")


def released(coach: Someone) -> None:
    coach.tap("Release the plan")
    coach.tap("Yes, release")


@pytest.mark.parametrize("by", ["Pregnant", "pregnant", "I'm pregnant"])
def test_a_pregnancy_holds_the_plan_and_stays_said_after_the_release(
    house: House, coach: Someone, ada: Someone, by: str
) -> None:
    up_to(ada, "pregnancy")
    ada.tap(by) if by in ada.buttons else ada.type(by)
    assert "Please see a doctor before you train with this plan." in ada.sees
    assert told(house) == [(Level.NOW, "Ada is pregnant, as Ada says when joining.")]
    goes_on(ada, "health")
    assert "Pregnant." in plain_text(house.tells[-1].message)
    assert house.client_of(coach, ada).frozen_for == "health question"
    released(coach)
    assert house.client_of(coach, ada).frozen_at is None
    assert answers(house, coach) == {"pregnant": True, "screen": False}


def test_a_birth_is_kept_with_its_date_and_the_release_with_hers(
    house: House, coach: Someone, ada: Someone
) -> None:
    up_to(ada, "pregnancy")
    ada.tap("Gave birth in the last 12 months")
    assert (answers(house, coach), house.client_of(coach, ada).frozen_at) == ({}, None)
    ada.type("2026-01-20")
    goes_on(ada, "health")
    released(coach)

    def look(unit: Unit):
        return unit.health_answers.standing(unit.clients.roster()[0].id)["birth"]

    birth = house.reading(coach, look)
    assert (birth.yes, birth.said_on, birth.released_on) == (True, date(2026, 1, 20), date(2026, 4, 6))


@pytest.mark.parametrize("by", ["Skip", "skip", "rather not say"])
def test_the_date_of_a_birth_may_be_left_out(house: House, coach: Someone, ada: Someone, by: str) -> None:
    up_to(ada, "pregnancy")
    ada.type("gave birth")
    ada.tap(by) if by in ada.buttons else ada.type(by)
    assert house.client_of(coach, ada).join_step == "health"
    assert "gave birth in the last 12 months, as Ada says." in told(house)[0][1]
    ada.tap("None of these")
    assert house.client_of(coach, ada).frozen_at is not None


@pytest.mark.parametrize(
    ("said", "untreated"),
    [
        ("No", False),
        ("Yes, treated", False),
        ("Yes, not treated", True),
        ("Rather not say", True),
        ("no", False),
        ("treated", False),
        ("untreated", True),
        ("not sure", True),
    ],
)
def test_blood_pressure_counts_as_untreated_where_nobody_says_that_it_is(
    house: House, coach: Someone, ada: Someone, said: str, untreated: bool
) -> None:
    up_to(ada, "health")
    ada.tap("One or more")
    ada.tap(said) if said in ada.buttons else ada.type(said)
    assert answers(house, coach)["pressure"] is untreated
    assert house.client_of(coach, ada).join_step == "limits"


def test_one_can_go_back_to_the_health_question_and_a_no_releases_nothing(
    house: House, coach: Someone, ada: Someone
) -> None:
    up_to(ada, "health")
    ada.tap("One or more")
    ada.tap("Back")
    ada.tap("None of these")
    assert ada.sees.startswith("Your plan is still on hold from before.")
    assert house.client_of(coach, ada).frozen_at is not None


def test_limits_are_kept_in_words_and_too_much_of_them_is_said(
    house: House, coach: Someone, ada: Someone
) -> None:
    up_to(ada, "limits")
    ada.type("x" * 301)
    assert ada.sees.startswith("That is too much to keep here.")
    ada.type("no running")
    ada.type("tore <b>my</b> ACL")
    ada.tap("Knee")
    ada.tap("Wrist")
    ada.type("done")
    assert house.client_of(coach, ada).limits_said == "wrist, knee. no running; tore <b>my</b> ACL"


# Later, from /settings


@pytest.fixture
def joined(house: House, coach: Someone, ada: Someone) -> Someone:
    up_to(ada, "experience")
    ada.tap("3 months or longer")
    house.tells.clear()
    return ada


def test_saying_it_twice_tells_it_once(house: House, coach: Someone, joined: Someone) -> None:
    joined.type("I'm pregnant.")
    joined.type("pregnant")
    assert told(house) == [(Level.NOW, "Ada is pregnant, as Ada says.")]
    assert house.client_of(coach, joined).frozen_at is None


def test_what_is_over_binds_until_the_coach_lets_loads_rise(
    house: House, coach: Someone, joined: Someone
) -> None:
    joined.type("i am pregnant")
    joined.type("I am no longer pregnant")
    assert answers(house, coach) == {"pregnant": True, "birth": False, "screen": False, "pregnant over": True}
    coach.tap("Let loads rise again")
    coach.tap("Not yet")
    assert answers(house, coach)["pregnant"] is True
    coach.tap("Let loads rise again")
    coach.tap("Yes, release")
    assert answers(house, coach)["pregnant"] is False


def test_pregnant_again_before_the_release_waits_for_nothing(
    house: House, coach: Someone, joined: Someone
) -> None:
    for said in ("i am pregnant", "i am no longer pregnant", "i am pregnant"):
        joined.type(said)
    coach.tap("Let loads rise again")
    coach.tap("Yes, release")
    assert answers(house, coach) == {"pregnant": True, "birth": False, "screen": False}


def test_a_birth_after_a_pregnancy_holds_the_plan(house: House, coach: Someone, joined: Someone) -> None:
    joined.type("i am pregnant")
    joined.type("I gave birth")
    joined.type("1 april")
    assert answers(house, coach) == {"pregnant": False, "birth": True, "screen": False}
    assert house.client_of(coach, joined).frozen_at is not None
    joined.type("i am no longer pregnant")
    assert (
        "A birth that you told me of still counts for 12 months, unless Marit takes it back." in joined.sees
    )
    assert answers(house, coach)["birth"] is True


def test_a_birth_said_by_a_slip_counts_until_the_coach_takes_it_back(
    house: House, coach: Someone, joined: Someone
) -> None:
    for said in ("I gave birth", "1 april", "i am no longer pregnant"):
        joined.type(said)
    assert "unless Marit takes it back. I have told Marit." in joined.sees
    assert told(house)[-1] == (Level.TODAY, "Ada did not give birth in the last 12 months, as Ada says now.")
    coach.tap("It was a slip")
    coach.tap("Not yet")
    assert answers(house, coach)["birth"] is True
    coach.tap("It was a slip")
    assert "Do this only after you have spoken with them." in coach.sees
    coach.tap("Yes, release")
    assert (answers(house, coach)["birth"], "birth slip" in answers(house, coach)) == (False, False)
    assert coach.sees == (
        "Taken back. The loads of Ada go by the log from the next session on.\nThe plan itself is still on hold."
    )
    assert house.client_of(coach, joined).frozen_at is not None


def test_a_birth_said_again_is_no_slip_any_more(house: House, coach: Someone, joined: Someone) -> None:
    for said in ("I gave birth", "1 april", "i am no longer pregnant", "I gave birth", "1 april"):
        joined.type(said)
    coach.tap("It was a slip")
    coach.tap("Yes, release")
    assert answers(house, coach)["birth"] is True


def test_treated_pressure_waits_for_the_coach_too(house: House, coach: Someone, joined: Someone) -> None:
    for said in ("Yes, not treated", "Yes, treated"):
        joined.does(coach_settings.settings, own_settings.Settings("blood pressure"))
        joined.tap(said)
    assert answers(house, coach)["pressure"] is True
    coach.tap("Let loads rise again")
    coach.tap("Yes, release")
    assert answers(house, coach)["pressure"] is False


def test_nothing_of_it_is_seen_by_another_coach(house: House, coach: Someone, joined: Someone) -> None:
    joined.type("i am pregnant")
    other = house.people[900]
    assert house.reading(other, lambda unit: unit.health_answers.standing(1)) == {}
    assert not any(send.chat_id == 900 and "regnant" in send.message.html for send in house.sends)
