import pytest
from joining import STEPS, joins, told, up_to
from setting_out import House, Someone
from sqlalchemy import select

from bot.messages import Action, Level, Send
from bot.store.tables import outbox
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
        "To come back, ask Marit for a new link. To have what was kept erased, send /forget."
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
        "You do not train here now, so I kept nothing of that and passed nothing on. "
        "Ask your coach for a new link to come back."
    )
    before = house.client_of(coach, ada).id
    house.invited(coach, "Ada Berg", ada.user_id)
    assert ada.sees.startswith("Joining, 1 of 15\n\nHello Ada Berg.")
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
