from collections.abc import Sequence
from datetime import datetime, time, timedelta

import pytest
from setting_out import House, Someone, plain_text
from sqlalchemy import select

from bot.messages import Action, Effect, Level, Person, Send, decode
from bot.store.tables import outbox
from bot.store.units import Unit, Units
from bot.usecases import join

BY_BUTTON = {
    "caution": ["Go on"],
    "consent": ["I agree"],
    "age": ["18–39"],
    "health": ["None of these"],
    "unit": ["kg"],
    "zone": ["Same clock as Lisbon"],
    "hour": ["07:00"],
    "days": ["Mon", "Tue", "Thu", "That is all"],
    "kit": ["Bar and plates"],
    "alone": ["Alone"],
    "experience": ["Under 3 months"],
}
BY_TEXT = {
    "caution": "go on",
    "consent": "I agree",
    "age": "34",
    "health": "none",
    "unit": "KG",
    "zone": "lisbon",
    "hour": "7",
    "days": "mon tue thu",
    "kit": "bar",
    "alone": "alone",
    "experience": "2 months",
}
STEPS = list(BY_BUTTON)


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


def answer(person: Someone, step: str, by: str) -> None:
    if by == "text":
        person.type(BY_TEXT[step])
    else:
        for label in BY_BUTTON[step]:
            person.tap(label)


def up_to(person: Someone, step: str, by: str = "button") -> None:
    for each in STEPS[: STEPS.index(step)]:
        answer(person, each, by)


def joins(person: Someone, by: str = "button") -> None:
    for step in STEPS:
        answer(person, step, by)


def told(house: House) -> list[tuple[Level, str]]:
    return [(tell.level, plain_text(tell.message).split("\n")[0]) for tell in house.tells]


# A code, and who brings it


def test_a_coach_who_brings_her_code_is_greeted_with_what_comes_next(house: House, coach: Someone) -> None:
    assert coach.sees == (
        "Welcome, Marit. This chat is now yours as a coach.\n\n"
        "Send me a block as a spreadsheet (xlsx), and I check it.\n"
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
        "Joining, 1 of 11\n\n"
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
    assert (client.frozen_at, client.frozen_for) == (None, None)
    kit = house.reading(coach, lambda unit: unit.kits.usual(client.id))
    assert (kit.usually_alone, kit.safety_arms, kit.bar is not None) == (True, False, True)


def test_at_the_end_the_client_hears_what_comes_next_and_the_coach_who_has_joined(
    house: House, ada: Someone
) -> None:
    joins(ada)
    assert ada.sees == (
        "That is all. You have joined.\n\n"
        "Your days: Mon Tue Thu at 07:00, clock of Lisbon.\n"
        "Next: Marit puts you on a block. Then each session comes by itself, and one tap or a short line "
        "answers it. If something hurts, say so here.\n\n"
        "/stop ends it at any time."
    )
    assert ada.buttons == []
    assert [(tell.level, plain_text(tell.message)) for tell in house.tells] == [
        (
            Level.TODAY,
            (
                "Ada has joined.\n"
                "Mon Tue Thu at 07:00, clock of Lisbon\n"
                "bar and plates, kg, alone\n"
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
    assert ada.sees.startswith(f"Joining, {STEPS.index(step) + 1} of 11\n")
    for each in STEPS[STEPS.index(step) :]:
        answer(ada, each, by)
    assert house.client_of(coach, ada).state == "active"


@pytest.mark.parametrize("step", STEPS)
def test_what_cannot_be_read_repeats_the_question_with_an_example(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    ada.type("what? <b>80 8 8</b>")
    assert ada.sees.startswith(("I could not read that. ", "I know no city like that"))
    assert f"Joining, {STEPS.index(step) + 1} of 11" in ada.sees
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
        "That button was from an earlier question. Here is where we are.\n\nJoining, 3 of 11"
    )
    assert house.client_of(coach, ada).join_step == "age"


def test_a_button_after_joining_changes_nothing(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "experience")
    old = ada.data("3 months or longer")
    ada.tap("Under 3 months")
    ada.tap_data(old)
    assert house.client_of(coach, ada).experience == "new"


@pytest.mark.parametrize("step", [step for step in STEPS if step not in ("caution", "consent")])
def test_a_forged_choice_that_was_not_offered_changes_nothing(
    house: House, coach: Someone, ada: Someone, step: str
) -> None:
    up_to(ada, step)
    before = house.client_of(coach, ada)
    ada.tap_data(ada.forged(BY_BUTTON[step][0], argument=99))
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


# Consent, age, health


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
    assert ada.sees.startswith("You have stopped here")


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
    assert (client.frozen_at, client.frozen_for, client.join_step) == (house.now, "health question", "unit")
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
    for step in STEPS[STEPS.index("unit") :]:
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
    assert ada.sees.startswith("Your clock: London, 17:40 now.\n\nJoining, 7 of 11")
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
    ada.type("Europe/Riga")
    assert house.client_of(coach, ada).zone == "Europe/Riga"


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
    assert (house.client_of(coach, ada).days, house.client_of(coach, ada).join_step) == ([5], "kit")


def test_one_can_go_back_a_question_but_not_behind_health(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "hour")
    ada.tap("Back")
    ada.type("back")
    assert house.client_of(coach, ada).join_step == "unit"
    assert "Back" not in ada.buttons
    ada.type("back")
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
    assert "Joining, 10 of 11" in ada.sees


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


# Leaving


def test_stop_is_asked_once_and_can_be_taken_back(house: House, coach: Someone, ada: Someone) -> None:
    up_to(ada, "unit")
    ada.stop()
    assert ada.buttons == ["Stop", "Go on"]
    ada.tap("Go on")
    assert ada.sees == "Nothing has changed. We go on."
    assert house.client_of(coach, ada).join_step == "unit"
    ada.type("kg")
    assert house.client_of(coach, ada).join_step == "zone"


@pytest.mark.parametrize("step", [*STEPS, None])
def test_stop_ends_it_from_the_first_day_on(
    house: House, coach: Someone, ada: Someone, step: str | None
) -> None:
    up_to(ada, step) if step else joins(ada)
    ada.stop()
    ada.tap("Stop")
    client = house.client_of(coach, ada)
    assert (client.state, client.join_step) == ("stopped", None)
    assert house.reading(coach, lambda unit: unit.clients.consented(client.id)) is False
    assert house.cancelled == [client.id]
    assert ada.sees == (
        "You have stopped. No more sessions come. Your consent is taken back, and nothing new is kept.\n\n"
        "To come back, ask Marit for a new link. To have what was kept erased, ask Marit too."
    )
    where = " while joining" if step else ""
    assert told(house)[-1] == (
        Level.TODAY,
        (
            f"Ada has stopped{where}. No more sessions go out, and the consent is taken back. "
            "To take up again, send a new /invite. If erasing is asked for, it is for you to see to."
        ),
    )


def test_a_tap_on_stop_is_good_once(house: House, coach: Someone, ada: Someone) -> None:
    ada.stop()
    first, other = ada.data("Stop"), ada.data("Go on")
    ada.stop()
    ada.tap("Stop")
    for data in (first, other):
        ada.tap_data(data)
    assert house.client_of(coach, ada).state == "stopped"
    assert len([tell for tell in house.tells if tell.key.startswith("stopped:")]) == 1


def test_a_stale_tap_on_a_question_about_stopping_stops_nothing(
    house: House, coach: Someone, ada: Someone
) -> None:
    ada.stop()
    data = ada.data("Stop")
    ada.tap("Go on")
    ada.tap_data(data)
    assert house.client_of(coach, ada).state == "joining"
    ada.stop()
    ada.tap_data(ada.forged("Stop", action=Action.PICK))
    assert (house.client_of(coach, ada).state, ada.buttons) == ("joining", ["Stop", "Go on"])


def test_who_has_stopped_gets_one_line_and_comes_back_with_a_new_link(
    house: House, coach: Someone, ada: Someone
) -> None:
    joins(ada)
    ada.stop()
    ada.tap("Stop")
    ada.stop()
    ada.start()
    ada.type("80 8 8 8")
    assert ada.sees == (
        "You have stopped here, so I kept nothing of that and passed nothing on. "
        "Ask your coach for a new link to come back."
    )
    before = house.client_of(coach, ada).id
    house.invited(coach, "Ada Berg", ada.user_id)
    assert ada.sees.startswith("Joining, 1 of 11\n\nHello Ada Berg.")
    joins(ada, "text")
    client = house.client_of(coach, ada)
    assert (client.id, client.name, client.state) == (before, "Ada Berg", "active")
    assert house.reading(coach, lambda unit: unit.clients.consented(client.id)) is True


def test_who_was_on_hold_is_still_on_hold_when_she_comes_back(
    house: House, coach: Someone, ada: Someone
) -> None:
    up_to(ada, "health")
    ada.tap("One or more")
    ada.stop()
    ada.tap("Stop")
    house.invited(coach, "Ada", ada.user_id)
    up_to(ada, "health")
    ada.tap("None of these")
    assert ada.sees.startswith(
        "Your plan is still on hold from before. Marit takes it up again, nobody else."
    )
    assert house.client_of(coach, ada).frozen_at is not None
    assert told(house)[-1] == (
        Level.NOW,
        "Ada is joining again, and the plan is still on hold from before.",
    )
    assert len(house.tells[-1].message.rows) == 1


def test_a_coach_has_nothing_to_stop_and_a_stranger_is_a_stranger(house: House, coach: Someone) -> None:
    coach.stop()
    assert coach.sees == "You are the coach here, so there is nothing to stop. Nothing has changed."
    stranger = house.someone(666)
    stranger.stop()
    assert "ask your coach for a link" in stranger.sees


def test_a_client_who_has_joined_and_starts_again_hears_that_nothing_is_open(ada: Someone) -> None:
    joins(ada)
    ada.start()
    assert ada.sees.startswith("You have joined, and nothing is open.")


def test_nothing_of_a_joining_is_seen_by_another_coach(house: House, coach: Someone, ada: Someone) -> None:
    joins(ada)
    other = house.people[900]
    assert house.reading(other, lambda unit: unit.clients.roster()) == []
    assert [send.chat_id for send in house.sends if isinstance(send, Send) and send.chat_id == 900] == [900]


def test_the_last_word_on_stopping_outlives_the_cancelling_of_what_was_queued(
    house: House, coach: Someone, ada: Someone
) -> None:
    joins(ada)
    ada.stop()
    ada.tap("Stop")
    with house.units.open(None) as unit:
        queued = unit.connection.execute(
            select(outbox.c.body).where(outbox.c.chat_id == ada.user_id, outbox.c.state == "queued")
        ).scalars()
        texts = [body["html"] for body in queued if body]
    assert [text.split(".")[0] for text in texts] == ["<b>You have stopped"]
