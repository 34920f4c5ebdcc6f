"""Settings: taps that are not offered, what is planned at an hour that is over, and who has no plan."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.render.own_settings import STALE
from bot.store.units import Unit, Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("Ada: /settings",))


def forge(play: Talk, label: str, action: Action, argument: int = 0) -> None:
    ada = play.someone("Ada")
    ada.tap_data(ada.forged(label, action=action, argument=argument))


def sees(play: Talk) -> str:
    return play.someone("Ada").sees


def client(play: Talk):
    return play.house.client_of(play.someone("Marit"), play.someone("Ada"))


@pytest.mark.parametrize(("action", "argument"), [(Action.CHANGE, 14), (Action.PICK, 0)])
def test_a_tap_that_the_menu_does_not_offer_changes_nothing(
    play: Talk, action: Action, argument: int
) -> None:
    before = client(play)

    forge(play, "Hour", action, argument)

    assert sees(play).startswith(STALE)
    assert client(play).hour == before.hour


@pytest.mark.parametrize(("action", "argument"), [(Action.PICK, 60), (Action.TOGGLE, 2)])
def test_a_tap_that_a_question_does_not_offer_changes_nothing(
    play: Talk, action: Action, argument: int
) -> None:
    play.take("Ada [Hour]")

    forge(play, "18:00", action, argument)

    assert sees(play).startswith(STALE)
    assert f"{client(play).hour:%H:%M}" == "07:00"


def test_an_older_card_of_settings_is_over(play: Talk) -> None:
    play.take("Ada keeps [Hour] as hour")
    play.take("Ada: /settings")

    play.take("Ada taps the old hour")

    assert "from before" in sees(play)


def test_a_question_without_an_answer_says_what_is_missing(play: Talk) -> None:
    play.take("Ada [Days]")
    for day in ("Mon", "Tue", "Thu", "Fri"):
        play.take(f"Ada [{day}: yes]")

    play.take("Ada [That is all]")

    assert sees(play).startswith("Please choose at least one day.")


def test_an_hour_that_is_over_brings_todays_card_at_once_and_not_late(play: Talk) -> None:
    play.take("Ada [Hour]")
    play.take("Ada [18:00]")
    play.take("tick 2026-04-07 10:00")
    play.take("Ada [Hour]")
    play.take("Ada [06:00]")
    told = sees(play)

    card = play.take("tick 2026-04-07 10:02")

    assert "Next: Lower A, today, 10:02." in told
    assert "Lower A · week 1 of 4 · Tue 7 April" in card[1]
    assert not any("Late today" in line for line in card)


def test_without_a_block_everything_can_be_set_and_nothing_is_planned(play: Talk) -> None:
    def ended(unit: Unit) -> None:
        account = unit.accounts.find(1)
        assert account is not None
        unit.blocks.end(account.client_id or 0, play.house.now)
        unit.sessions.drop_planned(account.client_id or 0)

    play.house.reading(play.someone("Marit"), ended)
    play.take("Ada [Days]")

    play.take("Ada: sun")

    assert "Your days: Sun.\nNothing is planned just now." in sees(play)
    assert client(play).days == [6]


def test_the_unit_is_that_of_the_kit_too_and_company_stays(play: Talk) -> None:
    play.take("Ada [Unit]")
    play.take("Ada [lb]")

    client_id = client(play).id
    kit = play.house.reading(play.someone("Marit"), lambda unit: unit.kits.usual(client_id))

    assert (kit.unit.value, kit.safety_arms, kit.usually_alone) == ("lb", True, True)


def test_who_has_stopped_is_not_asked_any_more(play: Talk) -> None:
    ada = play.someone("Ada")
    hour = ada.data("Hour")
    ada.stop()
    ada.tap("Stop")
    before = sees(play)

    ada.tap_data(hour)

    assert "Your settings" not in sees(play)
    assert "stopped" in before


@pytest.mark.parametrize("asked", ["today", "week"])
def test_a_coach_gets_her_own_help(play: Talk, asked: str) -> None:
    play.take(f"Marit: /{asked}")

    assert "/assign puts a client on a block" in play.someone("Marit").sees


@pytest.mark.parametrize(
    ("asked", "answered", "column", "value"),
    [
        ("length", "50", "minutes", 50),
        ("length", "1 h 15", "minutes", 75),
        ("lifting", "2 months", "experience", "new"),
        ("company", "someone is there", "usually_alone", False),
        ("limits", "nothing", "limits_said", None),
        ("weekly line", "none", "weekly_line", "none"),
        ("unit", "lb", "unit", "lb"),
    ],
)
def test_each_setting_is_asked_and_answered_in_words_too(
    play: Talk, asked: str, answered: str, column: str, value: object
) -> None:
    play.take(f"Ada: /settings {asked}")
    play.take(f"Ada: {answered}")
    assert getattr(client(play), column) == value
    assert "Your settings" in sees(play)


@pytest.mark.parametrize("minutes", ["14", "241", "long", "1 hour 500"])
def test_a_length_that_nobody_trains_is_asked_again(play: Talk, minutes: str) -> None:
    play.take("Ada: /settings length")
    play.take(f"Ada: {minutes}")
    assert client(play).minutes == 60


def test_a_place_keeps_what_is_known_of_its_kit_and_company_goes_along(play: Talk) -> None:
    play.take("Ada: /kit home: dumbbells 5 10")
    play.take("Ada [Keep]")
    play.take("Ada: /settings place")
    play.take("Ada [Home]")
    client_id = client(play).id
    kit = play.house.reading(play.someone("Marit"), lambda unit: unit.kits.usual(client_id))
    assert (kit.place, [str(each.value) for each in kit.dumbbells]) == ("home", ["5", "10"])
    assert (kit.usually_alone, kit.safety_arms) == (True, True)


@pytest.mark.parametrize("step", ["Ada [Take it back]", "Ada: Take it back."])
def test_consent_is_taken_back_as_easily_as_it_was_given(play: Talk, step: str) -> None:
    play.take("Ada: /settings consent")
    play.take(step)
    found = client(play)
    consented = play.house.reading(play.someone("Marit"), lambda unit: unit.clients.consented(found.id))
    assert (found.state, consented) == ("stopped", False)
    assert play.take("tick 2026-04-07 07:00") == []


def test_what_is_asked_of_consent_is_not_answered_by_other_words_or_taps(play: Talk) -> None:
    play.take("Ada: /settings consent")
    forge(play, "Take it back", Action.PICK)
    play.take("Ada: yes")
    assert client(play).state == "active"


def test_who_is_joining_says_it_in_joining_and_who_has_stopped_nowhere(play: Talk) -> None:
    for step in ("Marit: /invite Cleo", "Cleo opens the link", "Cleo: i am pregnant"):
        play.take(step)
    assert play.house.client_of(play.someone("Marit"), play.someone("Cleo")).frozen_at is None
    for step in ("Ada: /stop", "Ada [Stop]", "Ada: i am pregnant"):
        play.take(step)
    known = play.house.reading(
        play.someone("Marit"), lambda unit: unit.health_answers.standing(client_id_of(unit))
    )
    assert not known["pregnant"].yes


def client_id_of(unit: Unit) -> int:
    return next(each.id for each in unit.clients.everybody() if each.name == "Ada")


def test_a_yes_to_the_health_question_holds_a_session_that_is_running(play: Talk) -> None:
    for step in ("tick 2026-04-07 07:00", "Ada [Start]", "Ada: /settings health", "Ada: one or more"):
        play.take(step)
    found = client(play)
    states = play.house.reading(
        play.someone("Marit"),
        lambda unit: [each.state for each in unit.sessions.of_client(found.id, ("started", "held"))],
    )
    assert (found.frozen_for, states) == ("health question", ["held"])
    play.take("Ada [Back]")
    play.take("Ada: /settings health")
    play.take("Ada: none")
    assert sees(play).startswith("Your plan is still on hold from before.")
    assert client(play).frozen_at is not None
