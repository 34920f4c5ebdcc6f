"""Goals: put, changed, ended, taken back, by tap and by word; a coach's own clients only."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.render import goals as say
from bot.store.units import Units
from bot.usecases import goals


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("Ada: /goals deadlift 100 by 1 June",))


def standing(play: Talk, coach_id: int = 100, client_id: int = 1) -> list[str]:
    coach = play.house.someone(coach_id)
    client = play.house.client_of(coach, play.house.someone(client_id))
    return [each.text for each in play.house.reading(coach, lambda unit: unit.goals.standing(client.id))]


def sees(play: Talk, user_id: int = 1) -> str:
    return play.house.someone(user_id).sees


def test_a_goal_is_put_with_its_date(play: Talk) -> None:
    assert standing(play) == ["deadlift 100"]
    assert "deadlift 100, by 1 June 2026" in sees(play)
    assert standing(play, 900, 901) == []


@pytest.mark.parametrize(
    ("text", "note"),
    [("reached 1", "Noted: reached."), ("1 given up", "Noted: given up."), ("drop 1", "Noted: given up.")],
)
def test_what_became_of_it_is_typed_and_taken_back(play: Talk, text: str, note: str) -> None:
    play.take(f"Ada: /goals {text}")
    ended = (standing(play), note in sees(play))
    play.take("Ada [Undo]")

    assert ended == ([], True)
    assert standing(play) == ["deadlift 100"]


def test_a_change_is_typed_and_taken_back(play: Talk) -> None:
    play.take("Ada: /goals change 1 deadlift 110")
    after = standing(play)
    play.take("Ada [Undo]")

    assert after == ["deadlift 110"]
    assert standing(play) == ["deadlift 100"]


def test_what_was_put_last_is_taken_back_by_a_word(play: Talk) -> None:
    play.take("Ada [Add a goal]")
    play.take("Ada: swim")
    play.take("Ada: undo")

    assert standing(play) == ["deadlift 100"]


def test_there_are_three_at_most(play: Talk) -> None:
    for text in ("swim", "run", "ride"):
        play.take(f"Ada: /goals {text}")

    assert standing(play) == ["deadlift 100", "swim", "run"]
    assert say.FULL in sees(play)


def test_none_comes_back_where_there_is_no_room(play: Talk) -> None:
    play.take("Ada: /goals swim")
    play.take("Ada: /goals run")
    play.take("Ada: /goals reached 1")
    play.take("Marit: /goal Ada ride")
    play.take("Ada [Undo]")

    assert standing(play) == ["swim", "run", "ride"]
    assert say.FULL in sees(play)


@pytest.mark.parametrize("text", ["reached 7", "change 7 swim"])
def test_what_names_no_goal_changes_nothing(play: Talk, text: str) -> None:
    play.take(f"Ada: /goals {text}")

    assert standing(play) == ["deadlift 100"]
    assert say.NOT_READ in sees(play)


def test_a_date_that_cannot_be_read_is_asked_again_where_it_was_asked(play: Talk) -> None:
    play.take("Ada [1 change]")
    play.take("Ada: deadlift 110 by 6/7/2026")
    again = sees(play)
    play.take("Ada: deadlift 110 by 6 July")

    assert "I could not read the date 6/7/2026." in again
    assert say.CHANGE_HOW.split(",")[0] in again
    assert standing(play) == ["deadlift 110"]


def test_other_words_go_to_the_coach_where_nothing_is_asked(play: Talk) -> None:
    play.take("Ada: thank you")

    assert standing(play) == ["deadlift 100"]
    assert sees(play).startswith("Passed on")


def test_sets_go_to_their_exercise(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    play.take("Ada [Start]")
    play.take("Ada [Add a goal]")
    play.take("Ada: 90 8 8 8 8")
    play.take("Ada: undo")

    assert standing(play) == ["deadlift 100"]
    assert "Taken back." in sees(play)
    assert "Hip thrust" in sees(play)


def test_back_leaves_all_as_it_is(play: Talk) -> None:
    play.take("Ada [Add a goal]")
    play.take("Ada [Back]")
    play.take("Ada [1 change]")
    play.take("Ada: back")

    assert standing(play) == ["deadlift 100"]


@pytest.mark.parametrize(("action", "argument"), [(Action.DONE, 2), (Action.CHANGE, 0), (Action.SEEN, 0)])
def test_a_tap_that_is_not_offered_changes_nothing(play: Talk, action: Action, argument: int) -> None:
    ada = play.house.someone(1)
    ada.tap_data(ada.forged("1 reached", action=action, argument=argument))

    assert standing(play) == ["deadlift 100"]
    assert say.STALE in ada.sees


def test_an_older_card_is_over(play: Talk) -> None:
    play.take("Ada keeps [1 reached] as reached")
    play.take("Ada: /goals")
    play.take("Ada taps the old reached")

    assert standing(play) == ["deadlift 100"]
    assert sees(play) == "These goals are from before. /goals shows them as they are now."


@pytest.mark.parametrize("text", ["Ada: swim a mile", "ada swim a mile", "Ada swim a mile"])
def test_a_coach_puts_one_and_the_client_hears_of_it(play: Talk, text: str) -> None:
    play.take(f"Marit: /goal {text}")

    assert standing(play) == ["deadlift 100", "swim a mile"]
    assert sees(play).startswith("Marit has put a goal for you: swim a mile.")


@pytest.mark.parametrize("text", ["", "Ada", "Ada:"])
def test_a_coach_is_told_how_it_is_written(play: Talk, text: str) -> None:
    play.house.someone(100).does(goals.goal_said, goals.GoalSaid(text))

    assert sees(play, 100).startswith("Write it like /goal Ada")


def test_a_coach_is_told_of_a_date_that_cannot_be_read(play: Talk) -> None:
    play.take("Marit: /goal Ada swim by 6/7/2026")

    assert sees(play, 100).startswith("Ada: I could not read the date 6/7/2026.")


def test_nobody_else_puts_one(play: Talk) -> None:
    play.take("Orla: /goal Ada steal")
    play.take("Ada: /goal Ada cheat")
    stranger = play.house.someone(555)
    stranger.does(goals.goals_asked, goals.GoalsAsked("x"))

    assert standing(play) == ["deadlift 100"]
    assert sees(play) == "Only a coach can do that here. Nothing was changed."


def test_a_client_who_has_not_joined_hears_nothing(play: Talk) -> None:
    marit = play.house.someone(100)
    play.house.invited(marit, "Cleo", 3)
    before = len(play.house.sends)
    play.take("Marit: /goal Cleo swim")

    assert [each.chat_id for each in play.house.sends[before:]] == [100]
