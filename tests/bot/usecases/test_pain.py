"""Pain: taps that are not offered, typed words while a number is asked, and questions that are no longer the newest."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action, Send, decode
from bot.store.units import Units
from bot.usecases import talk as talking


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def scores(play: Talk) -> list[tuple[str | None, int | None]]:
    def look(unit):
        found = unit.body.since(unit.accounts.find(1).client_id, play.house.now.date())
        return [(each.site, each.score) for each in found]

    return play.house.reading(play.someone("Marit"), look)


@pytest.mark.parametrize(
    ("action", "argument"),
    [
        (Action.SITE, 31),
        (Action.SITE, 99),
        (Action.SIDE, 1),
        (Action.SCORE, 5),
        (Action.FEEL, 1),
        (Action.SKIP, 0),
    ],
)
def test_an_answer_that_is_not_offered_shows_the_question_again(play: Talk, action, argument):
    ada = play.someone("Ada")
    play.take("Ada [Something hurts]")

    data = ada.forged("Knee", action=action, argument=argument)
    ada.does(talking.tapped, talking.Tapped(decode(data)))

    assert ada.sees.startswith("Where does it hurt?")
    assert scores(play) == []


def test_a_side_that_there_is_not_shows_the_question_again(play: Talk):
    ada = play.someone("Ada")
    play.take("Ada [Something hurts]")
    play.take("Ada [Knee]")

    data = ada.forged("Left", action=Action.SIDE, argument=9)
    ada.does(talking.tapped, talking.Tapped(decode(data)))

    assert ada.sees == "Knee: which side?"


def test_a_stale_answer_shows_the_open_question_and_one_after_the_end_nothing(play: Talk):
    ada = play.someone("Ada")
    play.take("Ada [Something hurts]")
    play.take("Ada keeps [Knee] as knee")
    play.take("Ada [Hip]")
    play.take("Ada taps the old knee")
    stale = ada.sees
    play.take("Ada [Left]")
    play.take("Ada keeps [3] as three")
    play.take("Ada [2]")

    assert stale == "Hip: which side?"
    assert play.take("Ada taps the old three")[1].strip() == "Noted: left hip, 2 of 10, before the session."
    play.take("Ada [No]")
    assert play.take("Ada taps the old three") == []
    assert scores(play) == [("hip", 2)]


def test_words_while_a_number_is_asked_are_read_as_words(play: Talk):
    play.take("Ada: my left knee hurts")
    play.take("Ada: 90 8 8 8 8")
    play.take("Ada: eleven")

    assert scores(play) == [("knee", None)]


def test_a_number_answers_the_newest_question(play: Talk):
    for step in ("Ada [All done as written]", "Ada: 40 12 12 12", "Ada: my left knee hurts", "Ada: undo"):
        play.take(step)
    for step in ("Ada: 40 12 12 12", "Ada [Nothing else]", "Ada: 2"):
        play.take(step)

    assert scores(play) == [("knee", None)]
    assert "All done. Logged." in plain_text(play.someone("Ada").last)


def test_a_question_of_yesterday_does_not_take_todays_number(play: Talk):
    play.take("Ada: my left knee hurts")
    play.take("tick 2026-04-09 07:00")
    play.take("Ada: 4")

    assert ("knee", 4) not in scores(play)


def test_pain_is_still_answered_and_told_while_the_plan_is_on_hold(play: Talk):
    play.take("Ada: my chest feels tight and my left arm hurts")

    lines = play.take("Ada: pain left knee 8")

    assert any("alert now to Marit:" in line for line in lines)
    assert any("Stop here for today." in line for line in lines)
    assert any("Your plan is on hold, so I log nothing now." in line for line in lines)


def test_a_release_of_what_pain_locked_leaves_the_plan_on_hold(play: Talk):
    play.take("Ada: pain left knee 8")
    play.take("Ada: my chest feels tight and my left arm hurts")
    play.take("Marit [Release what is locked]")

    lines = play.take("Marit [Yes, release]")

    assert [line.strip() for line in lines] == [
        "card of Marit:",
        "Released. What was locked of Ada comes back lighter, from the next session on.",
        "The plan itself is still on hold.",
    ]


def test_a_release_of_the_plan_leaves_locked_what_pain_locked(play: Talk):
    play.take("Ada: pain left knee 8")
    play.take("Ada: my chest feels tight and my left arm hurts")
    play.take("Marit [Release the plan]")
    play.take("Marit [Yes, release]")

    lines = play.take("tick 2026-04-10 07:00")

    assert any("A  Back squat  on hold, your coach decides" in line for line in lines)


def test_a_low_score_that_is_typed_frees_nothing_that_was_locked(play: Talk):
    play.take("Ada: pain left knee 8")
    play.take("Ada edits: pain left knee 2")
    play.take("Ada: pain left knee 1")

    lines = play.take("tick 2026-04-10 07:00")

    assert any("A  Back squat  on hold, your coach decides" in line for line in lines)


def test_what_is_queued_is_cancelled_when_it_hurts(play: Talk):
    play.take("Ada: pain left knee 5")

    assert len(play.house.cancelled) == 1
    assert all(isinstance(each, Send) for each in play.house.sends)


def test_a_morning_without_a_session_of_today_has_nothing_to_take_back(play: Talk):
    play.take("Ada [Not today]")
    play.take("Ada [No time]")
    play.take("Ada [Leave it out]")
    play.take("tick 2026-04-08 07:00")

    lines = play.take("Ada: undo")

    assert lines[1].strip().startswith("There is no session of today to take anything back from.")


def test_soreness_without_a_place_is_asked_about(play: Talk):
    play.take("Ada: sore")

    assert scores(play) == []
