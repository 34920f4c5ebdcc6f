from datetime import UTC, date, datetime, timedelta

import pytest
from set_up_once import set_up_once
from setting_out import House, Someone, block_of

from bot.messages import Action
from bot.store.blocks import Assignment
from bot.store.units import Units
from bot.usecases import setting_up
from core import errors
from core.programme.rows import BlockFile

BOT = "plimsoll_story_bot"


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def coach(house: House) -> Someone:
    def set_up() -> None:
        other = house.coach("Orla", 900)
        joined(house, other, "Ida", 90)
        takes(other, block_of("Orla's own"))
        house.coach("Marit", 100)

    set_up_once(house, "Marit, beside Orla's client and block", set_up)
    return house.someone(100)


def joined(
    house: House, coach: Someone, name: str, user_id: int, days: str = "mon thu", kit: str = "both"
) -> Someone:
    client = house.invited(coach, name, user_id)
    for answer in (
        "go on",
        "agree",
        "34",
        "neither",
        "none",
        "nothing",
        "kg",
        "lisbon",
        "7:00",
        days,
        "60",
        "home",
        kit,
        "alone",
        "longer",
    ):
        client.type(answer)
    assert client.sees.startswith("That is all. You have joined.")
    return client


def takes(coach: Someone, block) -> None:
    coach.does(setting_up.block_read, setting_up.BlockRead("block.xlsx", BlockFile(block=block)))


def running(house: House, coach: Someone, client: Someone) -> Assignment | None:
    client_id = house.client_of(coach, client).id
    return house.reading(coach, lambda unit: unit.blocks.running(client_id))


def planned(house: House, coach: Someone, client: Someone) -> list[tuple[date, str]]:
    client_id = house.client_of(coach, client).id
    found = house.reading(coach, lambda unit: unit.sessions.of_client(client_id, ("planned",)))
    return [(each.local_on, each.day_key) for each in reversed(found)]


@pytest.fixture
def ada(house: House, coach: Someone) -> Someone:
    def set_up() -> None:
        joined(house, coach, "Ada", 1)
        takes(coach, block_of())

    set_up_once(house, "Ada of Marit, who has a block", set_up)
    return house.someone(1)


# Invitations


def test_heavy_sessions_that_come_close_on_her_days_are_told_before_it_starts(
    house: House, coach: Someone
) -> None:
    joined(house, coach, "Cai", 2, days="mon tue")
    takes(coach, block_of())
    coach.assign("Cai, Harbour strength, 2026-04-13")

    assert "Less than 48 h apart:\nLower (Mon) and Upper (Tue), both heavy: squat" in coach.sees


def test_assigning_step_by_step_with_buttons(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign()
    assert (coach.sees, coach.buttons) == (
        "Who? Tap, or type the name. Those without a block come first.",
        ["Ada"],
    )
    coach.tap("Ada")
    assert coach.buttons == ["Harbour strength", "Back"]
    coach.tap("Harbour strength")
    assert coach.buttons[:2] == ["Tue 7 April", "Wed 8 April"]
    assert coach.buttons[6:] == ["Mon 13 April", "Back"]
    coach.tap("Mon 13 April")
    assert coach.sees == (
        "Ada: Harbour strength, 4 weeks\n"
        "First week at 07:00, clock of Lisbon:\n"
        "Mon 13 April: Lower\n"
        "Thu 16 April: Upper"
    )
    assert running(house, coach, ada) is None
    coach.tap("Start it")
    assert coach.sees == "Ada is on Harbour strength. First session: Mon 13 April."
    assert running(house, coach, ada).starts_on == date(2026, 4, 13)
    assert planned(house, coach, ada) == [
        (date(2026, 4, 13), "lower"),
        (date(2026, 4, 16), "upper"),
        (date(2026, 4, 20), "lower"),
    ]
    assert ada.sees == (
        "Marit has put you on a new block: Harbour strength. Your first session comes on Mon 13 April at 07:00."
    )


def test_assigning_step_by_step_in_words(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign()
    for said in ("ada", "harbour strength", "2026-04-13", "start it"):
        coach.type(said)
    assert running(house, coach, ada).starts_on == date(2026, 4, 13)


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("ADA", "Ada: which block? Tap, or type its name."),
        ("Ada, harbour STRENGTH", "Ada: from which day?"),
        ("Ada, Harbour strength, 2026-04-13", "Ada: Harbour strength, 4 weeks"),
        ("Ada, Oars, boats and bars, 2026-04-13", "Ada: Oars, boats and bars, 4 weeks"),
    ],
)
def test_one_line_goes_as_far_as_it_says(coach: Someone, ada: Someone, text: str, asked: str) -> None:
    takes(coach, block_of("Oars, boats and bars"))
    coach.assign(text)
    assert coach.sees.startswith(asked)


@pytest.mark.parametrize(
    ("text", "error", "facts"),
    [
        ("Adda", errors.UnknownClient, {"written": "Adda", "known": "Ada"}),
        ("Ida", errors.UnknownClient, {"written": "Ida", "known": "Ada"}),
        ("Ada, Harbor", errors.UnknownBlock, {"written": "Harbor", "known": "Harbour strength"}),
        ("Ada, Orla's own", errors.UnknownBlock, {"written": "Orla's own", "known": "Harbour strength"}),
        (
            "Ada, Harbour strength, next week",
            errors.StartUnreadable,
            {"written": "next week", "example": "2026-04-07"},
        ),
        (
            "Ada, Harbour strength, 2026-04-06",
            errors.StartOutside,
            {"written": "2026-04-06", "first": date(2026, 4, 7), "last": date(2026, 10, 4)},
        ),
        (
            "Ada, Harbour strength, 2062-04-13",
            errors.StartOutside,
            {"written": "2062-04-13", "first": date(2026, 4, 7), "last": date(2026, 10, 4)},
        ),
    ],
)
def test_what_is_unknown_is_told_with_what_is_known(
    coach: Someone, ada: Someone, text: str, error: type[errors.DomainError], facts: dict[str, object]
) -> None:
    with pytest.raises(error) as caught:
        coach.assign(text)
    assert caught.value.facts == facts


def test_a_block_can_start_today_while_the_hour_is_to_come(
    house: House, coach: Someone, ada: Someone
) -> None:
    house.now = datetime(2026, 4, 13, 5, 59, tzinfo=UTC)  # 06:59 in Lisbon
    coach.assign("Ada, Harbour strength, 2026-04-13")
    house.now += timedelta(minutes=1)
    with pytest.raises(errors.StartOutside):
        coach.tap("Start it")
    assert running(house, coach, ada) is None


def test_nobody_joined_and_no_block_are_told(house: House, coach: Someone) -> None:
    with pytest.raises(errors.NobodyToAssign):
        coach.assign()
    house.invited(coach, "Bo", 2)
    with pytest.raises(errors.NobodyToAssign):
        coach.assign()
    with pytest.raises(errors.NotJoinedYet):
        coach.assign("bo")
    joined(house, coach, "Ada", 1)
    with pytest.raises(errors.NoBlockYet):
        coach.assign()


def test_too_few_training_days_are_told_before_it_starts(house: House, coach: Someone, ada: Someone) -> None:
    takes(coach, block_of("Three days", days=("Lower", "Upper", "Row")))
    coach.assign("Ada, Three days, 2026-04-13")
    assert coach.sees == (
        "Ada: Three days, 4 weeks\n"
        "Ada trains on 2 days (Mon Thu), and the block has 3 sessions a week. It cannot start like this."
    )
    assert coach.buttons == ["Not yet", "Back"]
    with pytest.raises(errors.TooFewTrainingDays):
        coach.tap_data(coach.forged("Not yet", action=Action.CONFIRM))
    assert running(house, coach, ada) is None


def test_what_cannot_be_loaded_with_the_kit_is_named_with_what_is_done_instead(
    house: House, coach: Someone, ada: Someone
) -> None:
    joined(house, coach, "Bo", 2, kit="dumbbells")
    coach.assign("Bo, Harbour strength, 2026-04-13")
    assert coach.sees.endswith(
        "Changed for Bo:\n"
        "Back squat → goblet squat: no bar at home\n"
        "To choose otherwise, type back squat: leave out, or an exercise after the colon."
    )


def test_a_block_that_is_over_goes_on_no_more(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Start it")
    takes(coach, block_of("Winter"))
    house.now += timedelta(days=70)
    coach.assign("Ada, Winter, 2026-06-18")

    assert coach.sees.endswith("Harbour strength has been over since Sun 10 May.")


def test_who_has_a_block_is_offered_last_and_the_old_one_is_named(
    house: House, coach: Someone, ada: Someone
) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Start it")
    joined(house, coach, "Bo", 2)
    takes(coach, block_of("Winter"))
    coach.assign()
    assert coach.buttons == ["Bo", "Ada"]
    coach.assign("Ada, Winter, 2026-04-14")
    assert coach.sees.endswith("Until then Ada goes on with Harbour strength.")
    coach.tap("Start it")
    assert planned(house, coach, ada)[:3] == [
        (date(2026, 4, 13), "lower"),
        (date(2026, 4, 16), "lower"),
        (date(2026, 4, 20), "upper"),
    ]


def test_a_block_plays_out_until_the_day_on_which_another_begins(
    house: House, coach: Someone, ada: Someone
) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Start it")
    takes(coach, block_of("Winter"))
    coach.assign("Ada, Winter, 2026-05-04")
    coach.tap("Start it")
    before = [on for on, _ in planned(house, coach, ada) if on < date(2026, 5, 4)]
    assert before == [date(2026, 4, day) for day in (13, 16, 20, 23, 27, 30)]


def test_a_block_that_begins_today_ends_the_other_at_once(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Start it")
    takes(coach, block_of("Winter"))
    house.now = datetime(2026, 4, 14, 5, 0, tzinfo=UTC)
    coach.assign("Ada, Winter, 2026-04-14")
    assert coach.sees.endswith("Ends what Ada runs now: Harbour strength.")


def test_a_plan_on_hold_is_said_to_both(house: House, coach: Someone, ada: Someone) -> None:
    client_id = house.client_of(coach, ada).id
    with house.units.open(coach.coach_id) as unit:
        unit.clients.change(client_id, frozen_at=house.now, frozen_for="health question")
    coach.assign("Ada, Harbour strength, 2026-04-13")
    assert coach.sees.endswith("Ada's plan is on hold; no session goes out until you release it.")
    coach.tap("Start it")
    assert "Your plan is on hold, so no session comes until Marit has taken it up again." in ada.sees


def test_the_client_is_told_after_her_quiet_hours(house: House, coach: Someone, ada: Someone) -> None:
    house.now = datetime(2026, 4, 6, 22, 0, tzinfo=UTC)  # 23:00 in Lisbon
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Start it")
    told = [send for send in house.sends if send.key.startswith("begins:")]
    assert [(send.chat_id, send.due_at, send.message.silent) for send in told] == [
        (ada.user_id, datetime(2026, 4, 7, 6, 0, tzinfo=UTC), False)
    ]


def test_not_yet_starts_nothing_and_back_goes_back(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    for asked in ("Ada: from which day?", "Ada: which block?", "Who?"):
        coach.tap("Back")
        assert coach.sees.startswith(asked)
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Not yet")
    assert coach.sees == "Nothing was started. /assign asks again."
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.type("not yet")
    assert coach.sees == "Nothing was started. /assign asks again."
    assert running(house, coach, ada) is None


def test_starting_twice_starts_once(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    data = coach.data("Start it")
    coach.tap_data(data)
    before = (running(house, coach, ada), planned(house, coach, ada))
    coach.tap_data(data)
    assert (running(house, coach, ada), planned(house, coach, ada)) == before
    assert len([send for send in house.sends if send.key.startswith("begins:")]) == 1


def test_a_stale_button_shows_the_card_as_it_stands(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign()
    old = coach.data("Ada")
    coach.tap("Ada")
    coach.tap("Harbour strength")
    coach.tap_data(old)
    assert coach.sees.startswith(
        "That button was from an earlier question. Here is where we are.\n\nAda: from which"
    )
    coach.tap("Mon 13 April")
    start, back = coach.data("Start it"), coach.data("Back")
    coach.tap_data(start)
    coach.tap_data(back)
    assert coach.sees == "This is settled, or can no longer be done. /assign asks again."


@pytest.mark.parametrize("label", ["Ada", "Harbour strength", "Mon 13 April"])
def test_a_forged_choice_that_was_not_offered_is_not_taken(
    house: House, coach: Someone, ada: Someone, label: str
) -> None:
    coach.assign()
    for each in ("Ada", "Harbour strength", "Mon 13 April"):
        if each == label:
            break
        coach.tap(each)
    before = coach.sees
    for argument in (0, 1, 99_999):  # 1 is the client, and the block, of the other coach
        coach.tap_data(coach.forged(label, argument=argument))
        assert coach.sees.endswith(before)


def test_another_coach_cannot_tap_it(house: House, coach: Someone, ada: Someone) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    house.people[900].tap_data(coach.data("Start it"))
    ada.tap_data(coach.data("Start it"))
    assert running(house, coach, ada) is None


def test_a_client_who_has_stopped_meanwhile_is_not_started(
    house: House, coach: Someone, ada: Someone
) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    old = coach.data("Back")
    ada.stop()
    ada.tap("Stop")
    with pytest.raises(errors.NotJoinedYet):
        coach.tap("Start it")
    coach.tap_data(coach.forged("Start it", revision=9))
    assert coach.sees == "This is settled, or can no longer be done. /assign asks again."
    coach.tap_data(old)
    assert running(house, coach, ada) is None


def test_stopping_ends_the_block_and_drops_what_was_planned(
    house: House, coach: Someone, ada: Someone
) -> None:
    coach.assign("Ada, Harbour strength, 2026-04-13")
    coach.tap("Start it")
    client = house.client_of(coach, ada)
    with house.units.open(coach.coach_id) as unit:
        first, second, *_ = reversed(unit.sessions.of_client(client.id, ("planned",)))
        unit.sessions.change(first.id, state="started")
        unit.sessions.change(second.id, state="sent")
    ada.stop()
    ada.tap("Stop")
    assert (running(house, coach, ada), planned(house, coach, ada)) == (None, [])
    assert house.reading(
        coach, lambda unit: [unit.sessions.get(each.id).state for each in (first, second)]
    ) == [
        "partial",
        "left_out",
    ]
