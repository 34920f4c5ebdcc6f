"""A coach's own exercises in the chat: kept, changed, taken out; hers alone."""

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

import pytest
from dialogs.talks import LISBON, Talk
from setting_out import House, Someone, plain_text
from sqlalchemy import select

from bot.messages import Send
from bot.store import tables
from bot.store.units import Units
from bot.usecases import own_exercises, setting_up
from core.loads.decision import Inputs
from core.programme.exercises import Exercise

BLOCKS = Path(__file__).parents[2] / "blocks"
SQUAT = "own-heel-raised-goblet-squat"
HEAD = "Exercise,Other names,Pattern,Load counted,Lifted with,Equals,Cue"


@pytest.fixture
def house(units: Units) -> House:
    return House(units)


@pytest.fixture
def orla(house: House) -> Someone:
    return house.coach("Orla", 900)


@pytest.fixture
def marit(house: House, orla: Someone) -> Someone:
    return house.coach("Marit", 100)


def known(house: House, coach: Someone) -> Mapping[str, Exercise]:
    found: Mapping[str, Exercise] = house.reading(coach, lambda unit: unit.exercises.catalogue())
    return found


def sends(coach: Someone, content: bytes, name: str = "own.csv") -> list[str]:
    """What a coach reads who sends a file."""
    command = setting_up.FileSent("file1", name, len(content))
    found = coach.does(setting_up.file_sent, setting_up.opened(command, content, known(coach.house, coach)))
    return [plain_text(each.message) for each in found if isinstance(each, Send)]


def hers(*rows: str) -> bytes:
    return "\n".join((HEAD, *rows)).encode()


def asks(coach: Someone, text: str = "") -> list[str]:
    found = coach.does(own_exercises.exercises_asked, own_exercises.ExercisesAsked(text, b"form"))
    return [plain_text(each.message) for each in found if isinstance(each, Send)]


def runs(house: House, coach: Someone, block: str, name: str = "Ada", user_id: int = 1) -> Someone:
    """A client who has joined and runs a block."""
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
        "mon tue thu fri",
        "60",
        "gym",
        "both",
        "alone",
        "longer",
    ):
        client.type(answer)
    coach.assign(f"{name}, {block}, 2026-04-07")
    coach.type("start it")
    return client


def test_what_she_sends_is_hers_alone(house: House, marit: Someone, orla: Someone) -> None:
    [told] = sends(marit, (BLOCKS / "own-exercises.csv").read_bytes())

    assert told.startswith("Kept: 3 exercises of yours.")
    assert SQUAT in known(house, marit)
    assert SQUAT not in known(house, orla)
    assert house.reading(marit, lambda unit: unit.exercises.own())[0].key == SQUAT
    assert house.reading(orla, lambda unit: unit.exercises.own()) == ()
    assert asks(orla)[0].startswith("You have added no exercises yet.")
    assert asks(orla, "remove wedge squat") == ["You have no exercise “wedge squat”. Nothing was changed."]


def test_two_coaches_may_each_have_one_of_the_same_name(house: House, marit: Someone, orla: Someone) -> None:
    sends(marit, hers("Quay press,,vertical press,total,barbell,,Slow."))
    sends(orla, hers("Quay press,,horizontal press,per hand,dumbbell,,Fast."))

    assert known(house, marit)["own-quay-press"].cue == "Slow."
    assert known(house, orla)["own-quay-press"].cue == "Fast."
    asks(orla, "remove quay press")
    assert not known(house, marit)["own-quay-press"].retired


def test_the_form_goes_out_with_what_she_has(marit: Someone) -> None:
    sends(marit, hers("Quay press,,vertical press,total,barbell,,Slow."))

    listed, form = marit.does(own_exercises.exercises_asked, own_exercises.ExercisesAsked("", b"form"))

    assert isinstance(listed, Send)
    assert isinstance(form, Send)
    assert "Quay press: vertical press, barbell, total" in plain_text(listed.message)
    assert (form.message.media_kind, form.message.picture_id is not None) == ("document", True)


def test_the_same_name_again_changes_hers_from_now_on(house: House, marit: Someone) -> None:
    sends(marit, hers("Quay press,,vertical press,total,barbell,,Slow."))

    [told] = sends(marit, hers("quay press,,vertical press,total,barbell,,Slower."))

    assert "Changed from now on\nquay press: vertical press, barbell, total" in told
    assert known(house, marit)["own-quay-press"].cue == "Slower."
    [told] = sends(marit, hers("Quay press,,vertical press,a side,barbell,,"))
    assert "Quay press is in the log total, by reps".lower() in told.lower()
    assert known(house, marit)["own-quay-press"].basis == "total"


def test_one_that_nobody_trains_is_taken_out_and_had_back(house: House, marit: Someone) -> None:
    sends(
        marit, hers("Quay press,,vertical press,total,barbell,,", "Quay row,,row,total,barbell,Quay press,")
    )

    assert asks(marit, "remove QUAY presses")[0].startswith("Quay press is out")
    assert known(house, marit)["own-quay-press"].retired
    assert known(house, marit)["own-quay-row"].equals == ()
    assert asks(marit, "remove quay press") == ["You have no exercise “quay press”. Nothing was changed."]
    assert asks(marit, "remove quay rwo") == [
        "You have no exercise “quay rwo”. Did you mean Quay row? Nothing was changed."
    ]
    assert [one.key for one in house.reading(marit, lambda unit: unit.exercises.own())] == ["own-quay-row"]
    [told] = sends(marit, hers("Quay press,,vertical press,total,barbell,,"))
    assert "New\nQuay press" in told
    assert known(house, marit)["own-quay-row"].equals == ("own-quay-press",)


def test_one_that_runs_stays_wherever_it_stands_in_the_block(house: House, marit: Someone) -> None:
    sends(
        marit,
        hers(
            "Quay press,,vertical press,total,barbell,,",
            "Quay row,,row,total,barbell,,",
            "Quay dip,,dip,bw,body,,",
        ),
    )
    block = (
        "Name;Quay\nWeeks;2\nFirst day of the week;Monday\nSession days;Lower\n\n"
        "Day;Order;Exercise;Sets;Reps;Load;Instead\n"
        "Lower;A;Quay press;3;8;40 kg;Quay row\n"
    )
    sends(marit, block.encode(), "quay.csv")
    runs(house, marit, "Quay")

    for name in ("Quay press", "Quay row"):
        assert asks(marit, f"remove {name}") == [
            f"{name} stays, since it is in use: Ada (Quay). Take it out of the block first. Nothing was changed."
        ]
    assert asks(marit, "remove Quay dip")[0].startswith("Quay dip is out")


def test_ours_cannot_be_taken_out(marit: Someone) -> None:
    assert asks(marit, "remove Back squat") == ["Back squat is one of mine and stays. Nothing was changed."]
    assert asks(marit, "remove") == ["Which one? Write its name with it: /exercises remove Wedge squat"]


def test_a_file_that_is_wrong_keeps_nothing_of_it(house: House, marit: Someone) -> None:
    [told] = sends(
        marit, hers("Quay press,,vertical press,total,barbell,,", "Quay row,,rowing,total,barbell,,")
    )

    assert told.startswith("own.csv was not taken: 1 problem.")
    assert "own-quay-press" not in known(house, marit)


def test_no_client_has_a_hand_in_it(house: House, marit: Someone) -> None:
    sends(marit, (BLOCKS / "own-exercises.csv").read_bytes())
    sends(marit, (BLOCKS / "quayside.csv").read_bytes(), "quayside.csv")
    ada = runs(house, marit, "Quayside strength")

    found = ada.does(own_exercises.exercises_asked, own_exercises.ExercisesAsked("remove wharf plank"))

    assert [plain_text(each.message) for each in found if isinstance(each, Send)][1:] == [
        "Only a coach can do that here. Nothing was changed."
    ]


def test_what_was_decided_keeps_the_exercise_as_it_was(units: Units) -> None:
    play = Talk(units)
    marit = play.someone("Marit")
    sends(marit, (BLOCKS / "own-exercises.csv").read_bytes())
    sends(marit, (BLOCKS / "quayside.csv").read_bytes(), "quayside.csv")
    marit.assign("Ada, Quayside strength, 2026-04-14")
    marit.tap("Start it")
    play.tick(datetime(2026, 4, 14, 7, tzinfo=LISBON))

    sends(marit, hers("Heel-raised goblet squat,,squat,total,dumbbell,,Changed."))

    with units.read(None) as house:
        kept = house.connection.execute(
            select(tables.decision.c.inputs).where(tables.decision.c.exercise == SQUAT)
        ).scalars()
        assert {Inputs.model_validate_json(each).exercise.cue for each in kept} == {
            "Heels on the wedge, knees forward."
        }
    play.someone("Ada").tap("Start")
    assert "Changed." in play.someone("Ada").sees
