"""What is answered after the number: taps that are not offered, words, what is told again and what is not."""

from datetime import date

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action, decode
from bot.store.units import Units
from bot.usecases import talk as talking


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada [Start]",
        ),
    )


def kept(play: Talk) -> list[tuple[object, ...]]:
    """What stands of pain, with all that is said of it."""

    def look(unit):
        found = unit.body.since(unit.accounts.find(1).client_id, date(2026, 4, 7))
        return [
            (
                each.site,
                each.side,
                each.score,
                each.when_felt,
                each.painkiller,
                each.weak,
                each.fever,
                each.sudden,
            )
            for each in found
        ]

    return play.house.reading(play.someone("Marit"), look)


@pytest.mark.parametrize(
    ("action", "argument"),
    [(Action.TOOK, 3), (Action.WHEN, 2), (Action.FEEL, 1), (Action.SCORE, 4), (Action.SIDE, 1)],
)
def test_an_answer_that_is_not_asked_for_changes_nothing(play: Talk, action: Action, argument: int) -> None:
    ada = play.someone("Ada")
    play.take("Ada: pain left knee 2")

    data = ada.forged("Rather not say", action=action, argument=argument)
    ada.does(talking.tapped, talking.Tapped(decode(data)))

    assert kept(play) == [("knee", "L", 2, "during", False, False, False, False)]
    assert "Did you take something for it?" in ada.sees


def test_a_time_that_there_is_not_shows_the_question_again(play: Talk) -> None:
    ada = play.someone("Ada")
    play.take("Ada: pain left knee 2")
    play.take("Ada [Felt at another time]")

    data = ada.forged("Before", argument=4)
    ada.does(talking.tapped, talking.Tapped(decode(data)))

    assert ada.sees == "Left knee: when did you feel it?"


def test_when_it_was_felt_is_mended_without_being_told_again(play: Talk) -> None:
    play.take("Ada: pain left knee 5")
    play.take("Ada [Felt at another time]")

    lines = play.take("Ada [Next morning]")

    assert kept(play) == [("knee", "L", 5, "next morning", False, False, False, False)]
    assert not any("Marit" in line or "told before" in line for line in lines)
    # What was asked before is asked still.
    assert any("Did you take something for it?" in line for line in lines)


def test_the_time_that_is_typed_needs_no_button(play: Talk) -> None:
    play.take("Ada: pain left knee 2")
    play.take("Ada: before the session")

    assert kept(play)[0][3] == "before"


def test_something_taken_is_read_higher_for_the_rest_of_the_day_and_asked_once(play: Talk) -> None:
    play.take("Ada: pain left knee 2")
    play.take("Ada: yes")

    assert "Did you" not in plain_text(play.someone("Ada").last)
    lines = play.take("Ada: pain right wrist 3")
    assert [each[4] for each in kept(play)] == [True, True]
    assert any("Took something for it, so it is read one band higher." in line for line in lines)


def test_it_is_not_asked_of_no_pain_nor_of_what_locks_anyway(play: Talk) -> None:
    for step in ("Ada: pain left knee 0", "Ada: pain left knee 8", "Ada [None of these]"):
        assert not any("Did you take something" in line for line in play.take(step))


def test_nobody_is_advised_on_what_was_taken(play: Talk) -> None:
    play.take("Ada: pain left knee 2")
    said = "\n".join(play.take("Ada [Yes]")).lower()

    assert [
        word for word in ("dose", "medicine", "tablet", "ibuprofen", "you can take") if word in said
    ] == []


def test_words_of_the_card_go_before_what_was_taken(play: Talk) -> None:
    for step in ("Ada: pain left knee 2", "Ada [Back]", "Ada: 90 8 8 8 8"):
        if step != "Ada [Back]":
            play.take(step)
    for _ in range(4):
        play.take("Ada: skip")
    play.take("Ada: no")

    assert "how many more" in plain_text(play.someone("Ada").last)
    assert kept(play)[0][4] is False


@pytest.mark.parametrize(
    ("words", "sudden", "weak", "fever"),
    [
        ("with a pop", True, False, False),
        ("weaker", False, True, False),
        ("a fever", False, False, True),
    ],
)
def test_what_it_feels_like_can_be_typed(
    play: Talk, words: str, sudden: bool, weak: bool, fever: bool
) -> None:
    play.take("Ada: pain low back 2")
    play.take(f"Ada: {words}")

    assert kept(play)[-1][5:] == (weak, fever, sudden)


def test_a_fever_is_asked_of_back_and_neck_alone(play: Talk) -> None:
    ada = play.someone("Ada")
    play.take("Ada: pain left knee 8")

    assert "With a fever" not in ada.buttons
    data = ada.forged("None of these", argument=4)
    ada.does(talking.tapped, talking.Tapped(decode(data)))
    assert kept(play)[-1][6] is False
    assert not any("stop sign" in line for line in play.take("Ada: a fever of the knee"))


@pytest.mark.parametrize("label", ["New or growing weakness, one leg or arm", "With a fever"])
def test_weakness_and_fever_hold_the_plan_and_tell_the_coach_before_anything_else(
    play: Talk, label: str
) -> None:
    play.take("Ada: pain low back 1")
    lines = play.take(f"Ada [{label}]")

    assert lines[1].strip() == "Stop training for today."
    assert sum("alert now to Marit:" in line for line in lines) == 2
    assert play.house.client_of(play.someone("Marit"), play.someone("Ada")).frozen_at is not None
    assert not any("Stop here for today." in line for line in lines)


def test_a_low_number_later_takes_no_weakness_back(play: Talk) -> None:
    play.take("Ada: pain low back 1")
    play.take("Ada: weaker")
    play.take("Ada: pain low back 0")
    play.take("Marit [Release the plan]")
    play.take("Marit [Yes, release]")

    lines = play.take("tick 2026-04-10 07:00")

    assert any("A  Back squat  on hold, your coach decides" in line for line in lines)


def test_two_coaches_clients_have_their_own_questions(play: Talk) -> None:
    play.take("Ada: pain left knee 2")
    ada, ben = play.someone("Ada"), play.someone("Ben")
    data = ada.data("Yes")

    ben.does(talking.tapped, talking.Tapped(decode(data)))
    ben.does(talking.heard, talking.Heard("yes"))

    assert kept(play) == [("knee", "L", 2, "during", False, False, False, False)]


def test_nothing_is_added_to_what_was_taken_back(play: Talk) -> None:
    play.take("Ada: pain left knee 2")
    play.take("Ada keeps [Yes] as yes")
    play.take("Ada edits: pain left knee 0")
    play.take("Ada: yes")

    lines = play.take("Ada taps the old yes")

    assert lines[1].strip() == "You took this back, so there is nothing to add to it."
    assert kept(play) == [("knee", "L", 0, "during", False, False, False, False)]


def test_a_number_that_is_mended_keeps_when_it_was_felt(play: Talk) -> None:
    play.take("Ada: pain left knee 2")
    play.take("Ada: before")
    play.take("Ada edits “pain left knee 2”: 3")

    assert kept(play) == [("knee", "L", 3, "before", False, False, False, False)]
