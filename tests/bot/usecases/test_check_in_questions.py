"""What a coach's clients are asked: kept, changed, refused, and never another coach's."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.render import check_in as say
from bot.store.units import Units
from bot.usecases.check_in_questions import standing
from core.checkin.check_in import CHECK_IN, Kind


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("Marit: /checkin",))


def asks(play: Talk, user_id: int = 100) -> list[tuple[str, Kind]]:
    found = play.house.reading(play.house.someone(user_id), standing)
    return [(each.text, each.kind) for each in found]


OURS = [(each.text, each.kind) for each in CHECK_IN]


def test_a_change_is_the_coachs_own_and_is_taken_back_whole(play: Talk) -> None:
    play.take("Marit [Take out 4]")

    assert asks(play) == OURS[:3]
    assert asks(play, 900) == OURS
    play.take("Marit [As it was at first]")
    assert asks(play) == OURS


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("x" * 121, say.TOO_LONG),
        ("Energy from 1 to 10?", say.NO_NUMBERS),
    ],
)
def test_a_question_that_cannot_be_asked_changes_nothing(play: Talk, text: str, note: str) -> None:
    play.take("Marit [Change 3]")
    play.take(f"Marit: {text}")

    assert asks(play) == OURS
    assert note in play.house.someone(100).sees


def test_words_of_a_question_that_is_changed_are_kept(play: Talk) -> None:
    play.take("Marit [Change 3]")
    play.take("Marit: How did you sleep?")

    assert asks(play)[2] == ("How did you sleep?", Kind.FREE)


def test_back_leaves_all_as_it_is(play: Talk) -> None:
    play.take("Marit [Change 3]")
    play.take("Marit: back")
    play.take("Marit [Change 3]")
    play.take("Marit [Back]")

    assert asks(play) == OURS
    assert play.house.someone(100).sees.startswith("Your check-in, Sunday")


def test_there_is_room_for_four(play: Talk) -> None:
    play.take("Marit: /checkin add One more?")

    assert asks(play) == OURS
    assert say.NO_SUCH in play.house.someone(100).sees


def test_a_client_is_left_out_and_asked_again(play: Talk) -> None:
    play.take("Marit: /checkin off Ada")
    off = play.house.someone(100).sees
    play.take("Marit: /checkin on ada")

    assert "Ada is not asked any more." in off
    assert "Not asked: Ada." in off
    assert "Ada is asked again." in play.house.someone(100).sees
    assert "Not asked" not in play.house.someone(100).sees


def test_another_coachs_client_is_unknown(play: Talk) -> None:
    play.take("Orla: /checkin off Ada")

    assert "Who is Ada? Yours: Ben. Nothing was changed." in play.house.someone(900).sees


@pytest.mark.parametrize(
    ("action", "argument"),
    [(Action.DROP, 9), (Action.CHANGE, 0), (Action.TYPE, 0), (Action.PICK, 15), (Action.SEEN, 0)],
)
def test_a_tap_that_is_not_offered_shows_how_things_stand(play: Talk, action: Action, argument: int) -> None:
    marit = play.house.someone(100)
    marit.tap_data(marit.forged("Take out 1", action=action, argument=argument))

    assert asks(play) == OURS
    assert say.STALE in marit.sees


def test_an_older_list_is_over(play: Talk) -> None:
    play.take("Marit keeps [Take out 1] as out")
    play.take("Marit: /checkin")
    play.take("Marit taps the old out")

    assert asks(play) == OURS
    assert play.house.someone(100).sees == "This list is from before. /checkin shows it as it is now."


def test_questions_that_no_longer_read_are_ours_again(play: Talk) -> None:
    marit = play.house.someone(100)
    with play.units.open(marit.coach_id) as unit:
        unit.coaches.change(marit.coach_id, check_in_questions=[{"text": "", "kind": "free line"}])

    assert asks(play) == OURS
