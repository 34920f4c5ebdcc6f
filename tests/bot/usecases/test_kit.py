"""Typed kit: who may, for which place, what is kept, and what stays as it was."""

import pytest
from dialogs.talks import Talk
from sqlalchemy import select

from bot.messages import Action
from bot.store.people import Client
from bot.store.tables import decision
from bot.store.units import Units
from bot.usecases.kit import cannot_load
from bot.usecases.kit_known import is_kind_alone, kits_of
from bot.usecases.session_view import made_of
from core import errors
from core.loads.equipment import default_kit
from core.loads.kit import Kit
from core.loads.kit_text import kit_lines
from core.loads.kit_words import read_kit
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Basis
from core.units import Mass, Unit


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def client(play: Talk, name: str = "Ada", coach: str = "Marit") -> Client:
    return play.house.client_of(play.someone(coach), play.someone(name))


def kits(play: Talk, name: str = "Ada", coach: str = "Marit") -> tuple[Kit, ...]:
    whose = client(play, name, coach)
    return play.house.reading(play.someone(coach), lambda unit: kits_of(whose, unit))


def sees(play: Talk, name: str = "Ada") -> str:
    return play.someone(name).sees


def take(play: Talk, *steps: str) -> None:
    for step in steps:
        play.take(step)


def test_what_is_kept_is_what_was_read_back_and_nobody_else_has_it(play: Talk) -> None:
    ben = kits(play, "Ben", "Orla")
    take(play, "Ada: /kit bar 15 / dumbbells none", "Ada [Keep]")

    [kit] = kits(play)
    expected = default_kit("both", Unit.KG).model_copy(
        update={"bar": Mass.of(15), "dumbbells": (), "safety_arms": True}
    )
    assert kit == expected
    assert kits(play, "Ben", "Orla") == ben


@pytest.mark.parametrize("answer", ["[Leave it]", ": leave it", ": Leave."])
def test_what_is_left_is_not_kept(play: Talk, answer: str) -> None:
    before = kits(play)
    take(play, "Ada: /kit bar 15", f"Ada {answer}" if answer[0] == "[" else f"Ada{answer}")

    assert (kits(play), sees(play)) == (before, "Nothing was kept.")


def test_another_place_stands_beside_the_usual_one(play: Talk) -> None:
    [gym] = kits(play)
    take(play, "Ada: /kit Home: bar 15", "Ada: keep", "Ada: /kit place home / plates 5x2", "Ada: keep")

    usual, home = kits(play)
    assert usual == gym
    assert (home.place, kit_lines(home)) == (
        "home",
        ("bar 15", "plates 5x2", "safety arms no", "alone yes"),
    )


def test_who_trains_alone_is_known_to_the_settings_too_and_only_of_the_usual_place(play: Talk) -> None:
    take(play, "Ada: /kit home: alone no", "Ada: keep")
    assert client(play).usually_alone is True

    take(play, "Ada: /kit alone no / safety arms no", "Ada: keep")
    assert (client(play).usually_alone, client(play).safety_arms) == (False, False)


def test_a_coach_says_it_for_her_own_client_alone(play: Talk) -> None:
    before = kits(play)
    with pytest.raises(errors.UnknownClient):
        play.take("Orla: /kit Ada: bar 10")
    with pytest.raises(errors.UnknownClient):
        play.take("Marit: /kit Ben")
    assert kits(play) == before

    take(play, "Marit: /kit Ada, home: bar 10 / alone no", "Marit: keep it")
    assert kit_lines(kits(play)[1]) == ("bar 10", "safety arms no", "alone no")
    assert sees(play).startswith("Your coach has written down what there is to lift, home:\nbar 10\n")
    assert len(kits(play, "Ben", "Orla")) == 1


def test_a_coach_s_other_words_leave_the_question_open(play: Talk) -> None:
    take(play, "Marit: /kit Ada / bar 10", "Marit: hm", "Marit: leave it")

    assert sees(play, "Marit") == "Nothing was kept."


def test_the_buttons_of_one_are_nothing_to_another(play: Talk) -> None:
    before = kits(play)
    take(play, "Ada: /kit bar 15")
    keep = play.someone("Ada").data("Keep")
    for other in ("Ben", "Orla", "Marit"):
        play.someone(other).tap_data(keep)

    assert kits(play) == before


def test_what_was_said_meanwhile_is_not_overwritten(play: Talk) -> None:
    take(play, "Ada: /kit bar 15", "Ada keeps [Keep] as mine", "Marit: /kit Ada / bar 10", "Marit [Keep]")
    take(play, "Ada taps the old mine")
    assert "This is settled." in sees(play)

    take(play, "Ada: /kit bar 15")
    client_id, belted = client(play).id, kits(play)[0].model_copy(update={"belt": True})
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.kits.set_usual(client_id, belted)
    take(play, "Ada [Keep]")
    assert sees(play).startswith("Nothing was kept: something else was said meanwhile.")
    assert (kits(play)[0].bar, kits(play)[0].belt) == (Mass.of(10), True)


def test_a_tap_that_is_not_offered_shows_the_question_again(play: Talk) -> None:
    take(play, "Ada: /kit bar 15")
    ada = play.someone("Ada")
    ada.tap_data(ada.forged("Keep", action=Action.PICK))

    assert sees(play).startswith("Gym. Is this right?")
    assert kits(play)[0].bar == Mass.of(20)


def test_what_was_decided_before_stays_to_the_byte(play: Talk) -> None:
    def kept() -> list[tuple[object, ...]]:
        with play.units.read(None) as unit:
            return [tuple(row) for row in unit.connection.execute(select(decision))]

    play.take("tick 2026-04-07 07:00")
    before = kept()
    take(play, "Ada: /kit bar 15 / plates 10x1", "Ada: keep")

    assert (len(before) > 0, kept()) == (True, before)


def test_the_open_card_says_the_plates_that_there_are_now(play: Talk) -> None:
    take(play, "tick 2026-04-07 07:00", "Ada: start")
    assert "Plates a side: 25 + 10 kg" in sees(play)

    take(play, "Ada: /kit plates 15x1 10x1 5x2", "Ada: keep", "Ada: /today")
    assert "Plates a side: 15 + 10 + 5 + 5 kg" in sees(play)


def test_a_stop_sign_in_it_comes_first(play: Talk) -> None:
    before = kits(play)
    play.take("Ada: /kit bar 15, I have chest pain")

    assert "emergency number" in "".join(message.html for message in play.someone("Ada").screen.values())
    assert (kits(play), client(play).frozen_at is not None) == (before, True)


def test_a_place_must_be_one(play: Talk) -> None:
    play.take("Marit: /kit Ada, <b>: bar 20")

    assert sees(play, "Marit") == "“<b>” cannot be a place. Use a short name, like home or gym."


def test_a_stranger_and_one_who_joins_have_no_kit(play: Talk) -> None:
    marit = play.someone("Marit")
    eir = play.house.invited(marit, "Eir", 77)
    play.names[77] = "Eir"
    asked = eir.sees
    take(play, "Somebody: /kit bar 20", "Eir: /kit bar 20")

    assert "invit" in sees(play, "Somebody")
    assert eir.sees == asked


def test_a_change_of_unit_leaves_what_was_said(play: Talk) -> None:
    take(play, "Ada: /kit bar 15", "Ada: keep", "Ada: /settings", "Ada [Unit]", "Ada [lb]")

    assert (kits(play)[0].bar, kits(play)[0].unit) == (Mass.of(15), Unit.KG)


def test_a_kit_of_its_kind_alone_is_known_as_such() -> None:
    usual = default_kit("dumbbells", Unit.LB)

    assert is_kind_alone(usual)
    assert is_kind_alone(usual.model_copy(update={"place": "attic", "usually_alone": False}))
    assert not is_kind_alone(usual.model_copy(update={"belt": True}))


@pytest.mark.parametrize(
    ("load", "collars", "side"),
    [("25", "none", ("20", "5")), ("25", "2.5 each", ("20", "5")), ("0", "2.5 each", ())],
)
def test_what_is_counted_a_side_lies_on_one_side(load: str, collars: str, side: tuple[str, ...]) -> None:
    a_side = CATALOGUE["hip-thrust"].model_copy(update={"basis": Basis.PER_SIDE})
    there = read_kit(f"bar 20\nplates 20x1 5x1\ncollars {collars}", (Kit(place="shed", unit=Unit.KG),)).kit
    made = made_of(Mass.of(load), a_side, there)

    assert made is not None
    assert (made.bar, made.side) == (Mass.of(20), tuple(map(Mass.of, side)))
    assert made_of(Mass.of(22), a_side, there) is None
    assert made_of(Mass.of(25), a_side, there.model_copy(update={"bar": None})) is None


@pytest.mark.parametrize(
    "text",
    ["can't load", "Can’t load it.", "I cannot load 22.5 kg", "cant load that", "no 22.5", "no 22,5kg here"],
)
def test_words_that_say_that_a_load_cannot_be_loaded(text: str) -> None:
    assert cannot_load(text)


@pytest.mark.parametrize("text", ["no", "no pain", "can't", "22.5", "can't load my car", "no 8 8 8", "load"])
def test_words_that_do_not(text: str) -> None:
    assert not cannot_load(text)


def test_only_in_a_session_is_it_pointed_at(play: Talk) -> None:
    play.take("Ada: can't load")
    assert sees(play) == "Passed on to your coach."

    take(play, "tick 2026-04-07 07:00", "Ada: start", "Ada: can't load 90")
    assert sees(play) == (
        "I know only the kind of your kit: /kit takes what it is. For now, type what you can load."
    )
