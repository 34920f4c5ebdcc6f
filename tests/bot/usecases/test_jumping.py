"""Any exercise by a typed line."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-09 07:00",))


def at(play: Talk) -> str:
    """The exercise that is open on the card."""
    shown = plain_text(play.someone("Ada").last).partition("\n\n")[2]
    return shown.split("  ")[1]


@pytest.mark.parametrize(
    ("typed", "exercise"),
    [
        ("go to lateral raises", "Lateral raise"),
        ("Go to the plank.", "Plank"),
        ("jump to push-up", "Push-up"),
        ("exercise 3", "Lateral raise"),
        ("number 1", "Bench press"),
        ("b1", "Dumbbell overhead press"),
        ("go to E", "Plank"),
        ("next is the bench", "Bench press"),
        ("now pushdowns", "Pushdown"),
    ],
)
def test_it_is_opened_by_name_number_or_letter(play: Talk, typed: str, exercise: str) -> None:
    play.take(f"Ada: {typed}")

    assert at(play) == exercise


def test_several_that_may_be_meant_are_asked_about(play: Talk) -> None:
    play.take("Ada: go to press")

    said = plain_text(play.someone("Ada").last)
    assert said.startswith("Which one? Type its letter: A Bench press, B1 Dumbbell overhead press.")


@pytest.mark.parametrize(
    "typed", ["exercise 7", "exercise 0", "go to b9", "go to squat", "go to back squat", "go to z"]
)
def test_what_the_session_has_not_is_said(play: Talk, typed: str) -> None:
    play.take(f"Ada: {typed}")

    assert plain_text(play.someone("Ada").last).startswith("There is no ")


@pytest.mark.parametrize(
    "typed", ["go to bed early they say", "now it is raining", "exercise is fun", "plank"]
)
def test_other_words_go_to_the_coach(play: Talk, typed: str) -> None:
    play.take(f"Ada: {typed}")

    assert typed in plain_text(play.someone("Marit").last)


def test_what_is_done_or_left_out_is_said(play: Talk) -> None:
    play.take("Ada [Start]")
    play.take("Ada [Done as written]")
    play.take("Ada: go to bench press")
    done = plain_text(play.someone("Ada").last)
    play.take("Ada [Skip]")
    play.take("Ada: b1")

    assert done.startswith("A Bench press is done already. undo takes back what was last.")
    assert plain_text(play.someone("Ada").last).startswith("B1 Dumbbell overhead press is left out today.")


def test_when_all_is_done_nothing_is_opened(play: Talk) -> None:
    play.take("Ada [All done as written]")
    play.take("Ada [Skip]")
    play.take("Ada: exercise 1")

    assert "exercise 1" in plain_text(play.someone("Marit").last)


@pytest.mark.parametrize(
    ("first", "then"), [("b2", "Dumbbell overhead press"), ("b1", "Lateral raise"), ("c", "Pushdown")]
)
def test_after_one_of_two_in_turn_comes_the_other(play: Talk, first: str, then: str) -> None:
    play.take(f"Ada: go to {first}")
    play.take("Ada [Done as written]")

    assert at(play) == then


def test_after_both_comes_what_stands_after_them_and_at_the_end_what_was_passed_over(play: Talk) -> None:
    play.take("Ada: go to b2")
    found = []
    for _ in range(3):
        play.take("Ada [Done as written]")
        found.append(at(play))
    play.take("Ada: skip")
    play.take("Ada [Done as written]")

    assert found == ["Dumbbell overhead press", "Push-up", "Pushdown"]
    assert at(play) == "Bench press"
