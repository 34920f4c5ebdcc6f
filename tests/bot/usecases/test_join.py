from datetime import time, timedelta

import pytest
from joining import BY_BUTTON, STEPS, answer, joins, up_to
from setting_out import House, Someone, plain_text

from bot.messages import Action, Level
from bot.store.units import Units


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


def test_a_coach_who_brings_her_code_is_greeted_with_what_comes_next(house: House, coach: Someone) -> None:
    assert coach.sees == (
        "Welcome, Marit. This chat is now yours as a coach.\n\n"
        "Send me a block as a file (xlsx, csv or yaml), and I check it. /template sends you a form.\n"
        "/invite Ada makes a link for a client.\n"
        "/assign puts a client on a block."
    )


def test_a_coach_who_starts_again_is_reminded_and_stays_the_coach(house: House, coach: Someone) -> None:
    coach.start("coachcode100")
    assert "/assign puts a client on a block." in coach.sees
    assert house.reading(coach, lambda unit: unit.accounts.find(100).role) == "coach"


def test_a_new_code_moves_the_coach_to_her_new_account(house: House, coach: Someone) -> None:
    with house.units.open(coach.coach_id) as unit:
        unit.invites.add("newphone", "coach", None, house.now + timedelta(days=1), house.now)
    house.someone(101).start("newphone")
    assert house.reading(coach, lambda unit: unit.accounts.coach(unit.tenant).user_id) == 101
    assert house.reading(coach, lambda unit: unit.accounts.find(100)) is None


def test_a_stranger_gets_one_line_on_how_to_be_invited_and_no_more_for_an_hour(
    house: House, coach: Someone
) -> None:
    stranger = house.someone(666)
    for _ in range(3):
        stranger.start()
        stranger.type("let me in")
    assert [plain_text(message) for message in stranger.screen.values()] == [
        (
            "I only talk with people whose coach has invited them: ask your coach for a link, and open that. "
            "A link works once, and for two weeks."
        )
    ]
    house.now += timedelta(hours=1, seconds=1)
    stranger.start("guessed")
    assert len(stranger.screen) == 2


def test_a_used_code_and_an_expired_code_let_nobody_in(house: House, coach: Someone, ada: Someone) -> None:
    thief = house.someone(666)
    code = "code1x2"
    thief.start(code)
    assert "ask your coach for a link" in thief.sees
    with house.units.open(coach.coach_id) as unit:
        unit.invites.add("late", "client", "Bo", house.now + timedelta(days=14), house.now)
    house.now += timedelta(days=14)
    late = house.someone(667)
    late.start("late")
    assert "ask your coach for a link" in late.sees
    assert house.reading(coach, lambda unit: len(unit.clients.roster())) == 1


def test_a_client_of_one_coach_is_told_so_when_she_opens_anothers_link(
    house: House, coach: Someone, ada: Someone
) -> None:
    other = house.people[900]
    with house.units.open(other.coach_id) as unit:
        unit.invites.add("elsewhere", "client", "Ada", house.now + timedelta(days=1), house.now)
    ada.start("elsewhere")
    assert ada.sees == (
        "You are with a coach here already, so I did not use that link, and nothing has changed. "
        "If you want to change coach, speak with both of them first."
    )
    assert house.reading(
        other, lambda unit: (unit.clients.roster(), len(unit.invites.open_ones(house.now)))
    ) == (
        [],
        1,
    )


# The questions


def test_the_caution_says_what_it_does_what_it_cannot_do_and_that_nobody_watches(ada: Someone) -> None:
    assert ada.sees == (
        "Joining, 1 of 15\n\n"
        "Hello Ada. I am a program. Marit writes your training, and I bring it to you.\n\n"
        "What I do. I send each session at your hour. I keep what you lifted and how your body took it. "
        "I work out your next loads by Marit's rules. Marit sees what you write here.\n\n"
        "What I cannot do. I am no doctor. I cannot examine you, or tell you that training is safe for you. "
        "Nobody watches this chat in real time. In an emergency call your local emergency number.\n\n"
        "If something hurts or you feel unwell: stop, and say so here. You can leave at any time with /stop."
    )
    assert ada.buttons == ["Go on"]


@pytest.mark.parametrize("by", ["button", "text"])
def test_joining_by_buttons_and_by_words_keeps_the_same(
    house: House, coach: Someone, ada: Someone, by: str
) -> None:
    joins(ada, by)
    client = house.client_of(coach, ada)
    assert (client.state, client.join_step, client.joined_at) == ("active", None, house.now)
    assert (client.age_band, client.unit, client.zone) == ("18-39", "kg", "Europe/Lisbon")
    assert (client.hour, client.days, client.kit_kind) == (time(7), [0, 1, 3], "bar")
    assert (client.usually_alone, client.safety_arms, client.experience) == (True, False, "new")
    assert (client.minutes, client.limits_said) == (60, None)
    assert (client.frozen_at, client.frozen_for) == (None, None)
    kit = house.reading(coach, lambda unit: unit.kits.usual(client.id))
    assert (kit.place, kit.usually_alone, kit.safety_arms, kit.bar is not None) == ("gym", True, False, True)
    answers = house.reading(coach, lambda unit: unit.health_answers.standing(client.id))
    assert {question: each.yes for question, each in answers.items()} == {
        "pregnant": False,
        "birth": False,
        "screen": False,
    }


def test_at_the_end_the_client_hears_what_comes_next_and_the_coach_who_has_joined(
    house: House, ada: Someone
) -> None:
    joins(ada)
    assert ada.sees == (
        "That is all. You have joined.\n\n"
        "Your days: Mon Tue Thu at 07:00, clock of Lisbon.\n"
        "Next: Marit puts you on a block. Then each session comes by itself, and one tap or a short line "
        "answers it. If something hurts, say so here.\n\n"
        "/settings changes any of this. /stop ends it at any time."
    )
    assert ada.buttons == ["Say what I have to lift"]
    assert [(tell.level, plain_text(tell.message)) for tell in house.tells] == [
        (
            Level.TODAY,
            (
                "Ada has joined.\n"
                "Mon Tue Thu at 07:00, clock of Lisbon, 60 min\n"
                "At the gym: bar and plates, kg, alone\n"
                "18-39 years, new to lifting\n\n"
                "Next: /assign"
            ),
        )
    ]


@pytest.mark.parametrize("step", STEPS)
@pytest.mark.parametrize("by", ["button", "text"])
def test_joining_goes_on_where_it_was_interrupted(
    house: House, coach: Someone, ada: Someone, step: str, by: str
) -> None:
    up_to(ada, step)
    house.now += timedelta(days=3)
    ada.start()
    assert ada.sees.startswith(f"Joining, {STEPS.index(step) + 1} of 15\n")
    for each in STEPS[STEPS.index(step) :]:
        answer(ada, each, by)
    assert house.client_of(coach, ada).state == "active"


@pytest.mark.parametrize("step", [step for step in STEPS if step != "limits"])
def test_what_cannot_be_read_repeats_the_question_with_an_example(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    ada.type("what? <b>80 8 8</b>")
    assert ada.sees.startswith(("I could not read that. ", "I know no city like that"))
    assert f"Joining, {STEPS.index(step) + 1} of 15" in ada.sees
    assert house.client_of(coach, ada).join_step == step


@pytest.mark.parametrize("step", STEPS)
def test_a_question_whose_prompt_was_closed_is_put_anew(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    with house.units.open(coach.coach_id) as unit:
        unit.prompts.open("pain", 1, 1, house.now, expects_text=True)
    answer(ada, step, "text")
    following = [*STEPS, None][STEPS.index(step) + 1]
    assert house.client_of(coach, ada).join_step == following


@pytest.mark.parametrize("step", STEPS)
def test_the_same_tap_twice_does_nothing_the_second_time(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    data = ada.data(BY_BUTTON[step][0])
    ada.tap_data(data)
    before = (ada.sees, house.client_of(coach, ada))
    ada.tap_data(data)
    assert (ada.sees, house.client_of(coach, ada)) == before


def test_a_button_of_an_earlier_question_shows_the_open_one_and_says_why(
    house: House, coach: Someone, ada: Someone
) -> None:
    old = ada.data("Go on")
    ada.tap("Go on")
    ada.tap("I agree")
    ada.tap_data(old)
    assert ada.sees.startswith(
        "That button was from an earlier question. Here is where we are.\n\nJoining, 3 of 15"
    )
    assert house.client_of(coach, ada).join_step == "age"


def test_a_button_after_joining_changes_nothing(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "experience")
    old = ada.data("3 months or longer")
    ada.tap("Under 3 months")
    ada.tap_data(old)
    assert house.client_of(coach, ada).experience == "new"


FORGED = {"limits": Action.TOGGLE, "days": Action.TOGGLE}


@pytest.mark.parametrize("step", [step for step in STEPS if step not in ("caution", "consent")])
def test_a_forged_choice_that_was_not_offered_changes_nothing(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    before = house.client_of(coach, ada)
    ada.tap_data(ada.forged(BY_BUTTON[step][0], argument=99, action=FORGED.get(step, Action.PICK)))
    ada.tap_data(ada.forged(BY_BUTTON[step][0], action=Action.AGREE))
    assert house.client_of(coach, ada) == before


def test_a_tap_on_the_prompt_of_another_coachs_client_changes_nothing(
    house: House, coach: Someone, ada: Someone
) -> None:
    bo = house.invited(house.people[900], "Bo", 2)
    bo.tap_data(ada.data("Go on"))
    coach.tap_data(ada.data("Go on"))
    house.someone(666).tap_data(ada.data("Go on"))
    assert house.client_of(coach, ada).join_step == "caution"
    assert house.client_of(house.people[900], bo).join_step == "caution"


def test_every_question_fits_its_buttons_and_answers_silently(house: House, ada: Someone) -> None:
    joins(ada)
    shown = [send.message for send in house.sends if send.chat_id == ada.user_id]
    assert all(message.silent for message in shown)
