"""Buttons under an alert: each does what it says once, and an old one says how things stand."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import Someone

from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def test_seen_is_kept_with_its_time_and_opens_again_when_the_matter_grows(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain left knee 5")
    marit.tap("Seen")

    def seen() -> object:
        ada = play.house.client_of(marit, play.someone("Ada"))
        return play.house.reading(marit, lambda unit: unit.alerts.of_client(ada.id)[0].seen_at)

    assert seen() == play.house.now
    play.typed(play.someone("Ada"), "pain left knee 8")
    assert seen() is None


def test_under_a_stop_sign_nothing_is_eased_or_paused(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "chest pain and my left arm is numb")
    assert marit.buttons == ["Release the plan", "Seen", "Write to them", "Show the log"]

    for code in ("ea", "pa", "pk", "tu", "no"):
        forged = marit.data("Seen").split(":")
        marit.tap_data(":".join([*forged[:3], code, "k"]))

    assert "This is how things stand." in marit.sees
    ada = play.house.client_of(marit, play.someone("Ada"))
    assert play.house.reading(marit, lambda unit: unit.orders.standing(ada.id)) == []


def test_choosing_can_be_left_again(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain left knee 5")
    before = marit.sees
    marit.tap("Ease next session")
    marit.tap("Back")

    assert marit.sees == before


def test_all_of_it_is_eased_and_taken_back(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain left knee 5")
    marit.tap("Ease next session")
    marit.tap("All of it −20 %")
    assert "20 % less and one set fewer, for everything." in marit.sees
    assert "Eased by your coach." in play.someone("Ada").sees

    marit.tap("Do not ease")
    assert "less and one set fewer" not in marit.sees
    assert "Eased by your coach." not in play.someone("Ada").sees


def test_an_exercise_that_is_paused_already_is_not_paused_twice(play: Talk, marit: Someone) -> None:
    ada = play.someone("Ada")
    ada.tap("Start")
    play.typed(ada, "pain left knee 5")
    marit.tap("Pause this exercise")
    marit.tap("Pause this exercise")

    client = play.house.client_of(marit, ada)
    orders = play.house.reading(marit, lambda unit: unit.orders.standing(client.id))
    assert [order.exercise for order in orders] == ["hip-thrust"]
    assert marit.buttons.count("Take up hip thrust again") == 1


def test_where_nothing_of_the_block_loads_it_there_is_nothing_to_pause(play: Talk, marit: Someone) -> None:
    ada = play.someone("Ada")
    client = play.house.client_of(marit, ada)
    play.house.reading(marit, lambda unit: unit.blocks.end(client.id, play.house.now))
    play.house.reading(
        marit,
        lambda unit: [
            unit.sessions.change(each.id, state="missed")
            for each in unit.sessions.of_client(client.id, ("sent",))
        ],
    )
    play.typed(ada, "pain left knee 5")
    marit.tap("Pause this exercise")

    assert marit.sees.endswith("Nothing in the block of Ada loads it.")
    assert marit.buttons == ["Back"]


def test_a_number_that_was_not_offered_changes_nothing(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain left knee 5")
    marit.tap("Ease next session")

    marit.tap_data(marit.forged("All of it −20 %", argument=55))

    assert "This is how things stand." in marit.sees
    ada = play.house.client_of(marit, play.someone("Ada"))
    assert play.house.reading(marit, lambda unit: unit.orders.standing(ada.id)) == []


def orders_of(play: Talk, marit: Someone) -> list[tuple[str, str]]:
    ada = play.house.client_of(marit, play.someone("Ada"))
    kept = play.house.reading(marit, lambda unit: unit.orders.standing(ada.id))
    return [(each.exercise or "", str(each.value.mass)) for each in kept]


def test_a_load_is_given_in_four_taps_where_none_is_looked_for(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain left calf 5")
    for label in ("Give a load", "Calf raise", "10 kg"):
        marit.tap(label)
    assert "no load. No new load is looked for while it hurts" in marit.sees
    assert orders_of(play, marit) == []

    marit.tap("Hold it")

    assert orders_of(play, marit) == [("calf-raise", "10 kg")]


def test_a_load_is_typed_in_reply_to_the_alert(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain left calf 5")
    play.replied(marit, "left calf, 5 of 10", "calf raise 12.5")
    marit.tap("Hold it")

    assert orders_of(play, marit) == [("calf-raise", "12.5 kg")]


def test_no_load_is_offered_where_none_is_on_hold(play: Talk, marit: Someone) -> None:
    play.typed(play.someone("Ada"), "pain neck 5")

    assert "Give a load" not in marit.buttons
