"""What may stand in for an exercise when a client chooses, and what may not."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action, Message, decode
from bot.render.sessions_said import OLD_BUTTON
from bot.store.people import Client
from bot.store.units import Unit, Units
from bot.usecases import talk
from core.checkin.training_log import Item
from core.loads.order import OrderKind
from core.programme.catalogue import exercise
from core.programme.siblings import siblings

STATES = ("sent", "started", "asking", "done", "partial")


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada [Start]",
        ),
    )


def card(play: Talk) -> Message:
    """The newest session card on the screen."""
    screen = play.someone("Ada").screen
    return screen[[key for key in screen if key.startswith("session:")][-1]]


def sees(play: Talk) -> str:
    return plain_text(card(play))


def offered(play: Talk) -> list[str]:
    return [
        row[0].label for row in card(play).rows if row[0].label not in ("Back", "Back to the written one")
    ]


def forge(play: Talk, label: str, action: Action, argument: int) -> None:
    person = play.someone("Ada")
    data = person.forged(label, action=action, argument=argument)
    person.does(talk.tapped, talk.Tapped(decode(data)))


def ada(unit: Unit) -> Client:
    account = unit.accounts.find(1)
    assert account is not None
    return unit.clients.get(account.client_id or 0)


def first_item(play: Talk) -> Item:
    def first(unit: Unit) -> Item:
        return unit.sessions.items(unit.sessions.of_client(ada(unit).id, STATES)[0].id)[0]

    return play.house.reading(play.someone("Marit"), first)


def test_the_coachs_own_equals_come_first_then_the_catalogues(play: Talk) -> None:
    play.take("tick 2026-04-09 07:00")
    play.take("Ada [Start]")
    play.take("Ada [Swap]")

    assert [row[0].label for row in card(play).rows] == [
        "Dumbbell bench press",
        "Incline dumbbell press",
        "Machine chest press",
        "Dumbbell floor press",
        "Incline bench press",
        "Close-grip bench press",
        "Back",
    ]


def test_what_the_kit_cannot_load_is_not_offered(play: Talk) -> None:
    play.take("Ada has bodyweight at hand")

    play.take("Ada [Swap]")

    assert offered(play) == ["Glute bridge", "One-leg glute bridge", "Band glute bridge"]


def test_what_is_not_likely_there_is_offered_last(play: Talk) -> None:
    play.take("Ada has dumbbells at hand")
    play.take("Ada [Swap]")

    found = offered(play)
    assert found[:2] == ["Glute bridge", "Dumbbell Romanian deadlift"]
    assert found[-1] == "Band glute bridge"
    assert "Cable kickback" not in found


def test_what_pain_locks_is_not_offered(play: Talk) -> None:
    play.take("Ada [B1]")
    play.take("Ada [Swap]")
    before = offered(play)
    play.take("Ada [Back]")
    play.take("Ada: pain right thigh 5")
    play.take("Ada [Swap]")

    assert before == ["Step-up", "Split squat", "Leg extension", "Bodyweight step-up"]
    assert "Split squat" not in offered(play)


def test_what_pain_has_locked_since_it_was_offered_is_refused(play: Talk) -> None:
    play.take("Ada [B1]")
    play.take("Ada [Swap]")
    person = play.someone("Ada")
    tapped = person.data("Split squat")

    def locked(unit: Unit) -> None:
        unit.orders.add(ada(unit).id, OrderKind.PAUSE, play.house.now, exercise="split-squat")

    play.house.reading(play.someone("Marit"), locked)
    person.tap_data(tapped)

    assert sees(play).startswith("Split squat cannot be done here today. Nothing was changed.")


def test_what_the_coach_has_eased_today_stays_eased(play: Talk) -> None:
    person = play.someone("Ada")

    def eased(unit: Unit) -> None:
        unit.orders.add(ada(unit).id, OrderKind.EASE, play.house.now, facts={"percent": 10})

    play.house.reading(play.someone("Marit"), eased)
    play.take("tick 2026-04-09 07:00")
    play.take("Ada [Start]")
    before = plain_text(person.last)
    play.take("Ada [Swap]")
    play.take("Ada [Dumbbell bench press]")
    between = plain_text(person.last)
    play.take("Ada [Swap]")
    play.take("Ada [Back to the written one]")

    assert "Eased by your coach." in before
    assert "Eased by your coach." in between
    assert plain_text(person.last).endswith(before)


def test_a_swap_of_an_exercise_that_is_not_there_changes_nothing(play: Talk) -> None:
    forge(play, "Swap", Action.SWAP, 9999)

    assert sees(play).startswith(OLD_BUTTON)


@pytest.mark.parametrize("argument", [7, 99])
def test_a_choice_that_was_not_offered_changes_nothing(play: Talk, argument: int) -> None:
    play.take("Ada [Swap]")

    forge(play, "Glute bridge", Action.SWAP_TO, argument)

    assert sees(play).startswith(OLD_BUTTON)
    assert first_item(play).exercise == "hip-thrust"


def test_a_choice_before_anything_was_offered_changes_nothing(play: Talk) -> None:
    forge(play, "Swap", Action.SWAP_TO, 1)

    assert sees(play).startswith(OLD_BUTTON)


def test_with_nothing_to_put_in_its_place_it_says_so(play: Talk) -> None:
    def paused(unit: Unit) -> None:
        for each in siblings(exercise("calf-raise")):
            unit.orders.add(ada(unit).id, OrderKind.PAUSE, play.house.now, exercise=each.key)

    play.house.reading(play.someone("Marit"), paused)
    play.take("Ada [D]")
    play.take("Ada [Swap]")

    assert "There is nothing here to put in its place. Skip it, or ask your coach." in sees(play)


def test_the_written_one_is_not_promised_what_another_did(play: Talk) -> None:
    for step in ("[Swap]", "[Glute bridge]", "[Done as written]", *["[Skip]"] * 4, "[Nothing hurts]"):
        play.take(f"Ada {step}")

    assert "next time" not in sees(play)
    assert first_item(play).exercise == "glute-bridge"
