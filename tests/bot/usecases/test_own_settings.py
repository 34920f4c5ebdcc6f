"""Settings: taps that are not offered, what is planned at an hour that is over, and who has no plan."""

import pytest
from dialogs.talks import Talk

from bot.messages import Action
from bot.render.own_settings import STALE
from bot.store.units import Unit, Units


@pytest.fixture
def play(units: Units) -> Talk:
    made = Talk(units)
    made.take("Ada: /settings")
    return made


def forge(play: Talk, label: str, action: Action, argument: int = 0) -> None:
    ada = play.someone("Ada")
    ada.tap_data(ada.forged(label, action=action, argument=argument))


def sees(play: Talk) -> str:
    return play.someone("Ada").sees


def client(play: Talk):
    return play.house.client_of(play.someone("Marit"), play.someone("Ada"))


@pytest.mark.parametrize(("action", "argument"), [(Action.CHANGE, 4), (Action.PICK, 0)])
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

    assert play.someone("Marit").sees.startswith("Set up")
