import pytest
from setting_out import House, Someone

from bot.store.units import Units
from bot.usecases import restrictions
from core import errors
from core.programme.restrictions import Restriction

ANSWERS = (
    "go on",
    "agree",
    "34",
    "neither",
    "none",
    "nothing",
    "kg",
    "lisbon",
    "7:00",
    "mon thu",
    "60",
    "home",
    "dumbbells",
    "alone",
    "longer",
)


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    other = house.coach("Orla", 900)
    house.invited(other, "Ida", 90)
    marit = house.coach("Marit", 100)
    ada = house.invited(marit, "Ada", 1)
    for answer in ANSWERS:
        ada.type(answer)
    return marit


def limits(coach: Someone, text: str) -> str:
    coach.does(restrictions.limits, restrictions.LimitsSaid(text))
    return coach.sees


def standing(house: House, coach: Someone) -> frozenset[Restriction]:
    client = house.client_of(coach, house.people[1])
    return house.reading(coach, lambda unit: unit.restrictions.of(client.id))


def test_limits_are_kept_and_read_back_with_those_that_they_replace(house: House, coach: Someone) -> None:
    assert limits(coach, "Ada: no overhead, deep knee bend") == "Ada: no arms overhead, no deep knee bend."
    assert standing(house, coach) == {Restriction.OVERHEAD, Restriction.DEEP_KNEE}
    assert (
        limits(coach, "ada: no hanging") == "Ada: no hanging.\nBefore: no arms overhead, no deep knee bend."
    )
    assert limits(coach, "Ada") == "Ada: no hanging."
    assert limits(coach, "Ada:") == "Ada: no hanging."
    assert limits(coach, "Ada: none") == "Ada has no limits.\nBefore: no hanging."
    assert (limits(coach, "Ada"), standing(house, coach)) == ("Ada has no limits.", frozenset())


def test_a_line_that_is_not_wholly_understood_changes_nothing(house: House, coach: Someone) -> None:
    limits(coach, "Ada: floor")
    told = limits(coach, "Ada: no overhead, no running")

    assert told.startswith(
        "I do not know “no running” as a limit, so nothing was kept.\n\nI know: no arms overhead; "
    )
    assert standing(house, coach) == {Restriction.FLOOR}


def test_how_it_is_said_and_what_there_is(coach: Someone) -> None:
    told = limits(coach, " ")

    assert told.startswith("Whose limits? /limits Ada: no overhead, no deep knee bend\n")
    assert told.endswith(".".join([f"I know: {'; '.join(each.value for each in Restriction)}", ""]))


@pytest.mark.parametrize("name", ["Ida", "Zoe: no overhead"])
def test_only_a_client_of_her_own_is_found(coach: Someone, name: str) -> None:
    with pytest.raises(errors.UnknownClient):
        limits(coach, name)


def test_who_has_not_agreed_yet_has_none_kept(house: House, coach: Someone) -> None:
    house.invited(coach, "Bo", 2)

    with pytest.raises(errors.NotJoinedYet):
        limits(coach, "Bo: no overhead")


def test_a_client_is_told_that_it_is_for_coaches(house: House, coach: Someone) -> None:
    ada = house.people[1]

    assert "Only a coach can do that" in limits(ada, "Ada: none")
    assert standing(house, coach) == frozenset()
