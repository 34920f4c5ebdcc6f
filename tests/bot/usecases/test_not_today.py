"""Not today, typed and tapped: what is read as a reason or a day, and what is none of it."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action
from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada: not today",
        ),
    )


def sees(play: Talk) -> str:
    return play.someone("Ada").sees


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("no time", "No time. What shall become of it?"),
        ("Busy", "No time. What shall become of it?"),
        ("away.", "Away. What shall become of it?"),
        ("ill", "Left out: ill."),
        ("sick", "Left out: ill."),
        ("leave out", "Left out: no time."),
        ("leave it out", "Left out: no time."),
        ("wednesday", "Moved to Wed 8 April, 07:00."),
        ("tomorrow", "Moved to Wed 8 April, 07:00."),
        ("on sat", "Moved to Sat 11 April, 07:00."),
        ("move it to saturday", "Moved to Sat 11 April, 07:00."),
        ("sat 11 april", "Moved to Sat 11 April, 07:00."),
        ("main lift", "Hip thrust comes with Push, Thu 9 April."),
        ("lift with push", "Hip thrust comes with Push, Thu 9 April."),
        ("thursday", "Hip thrust comes with Push, Thu 9 April."),
        ("sat 12", "That day does not fit"),
        ("friday", "That day does not fit"),
        ("today", "That day does not fit"),
        ("next", "That day does not fit"),
    ],
)
def test_words_of_the_buttons_can_be_typed(play: Talk, said: str, says: str) -> None:
    play.take(f"Ada: {said}")

    assert any(says in plain_text(each) for each in play.someone("Ada").screen.values())


def test_pain_typed_for_a_reason_asks_where(play: Talk) -> None:
    play.take("Ada: pain")

    assert sees(play).startswith("Where does it hurt?")


@pytest.mark.parametrize("said", ["sunny today is it not", "mon amour", "see you", "sat on a bench, tired"])
def test_other_words_go_to_the_coach(play: Talk, said: str) -> None:
    play.take(f"Ada: {said}")

    assert sees(play) == "Passed on to your coach."


def test_numbers_are_sets_whatever_is_asked(play: Talk) -> None:
    play.take("Ada: no time")
    play.take("Ada: 90 8 8 8 8")

    assert sees(play).startswith("Noted: Hip thrust 90 kg × 8 8 8 8.")


def test_a_day_is_no_way_out_of_a_session_in_which_something_is_logged(play: Talk) -> None:
    play.take("Ada: 90 8 8 8 8")
    play.take("Ada: not today")
    play.take("Ada: saturday")

    assert sees(play) == "Passed on to your coach."


def test_where_no_other_day_fits_it_says_so(play: Talk) -> None:
    play.take("Ada [No time]")
    play.take("tick 2026-04-07 09:00")
    marit = play.someone("Marit")
    client = play.house.client_of(marit, play.someone("Ada"))
    with play.units.open(marit.coach_id) as unit:
        unit.clients.change(client.id, hour=None)
    play.take("Ada: saturday")

    assert sees(play).startswith("No other day of this week fits.")


@pytest.mark.parametrize(
    ("action", "argument"), [(Action.MOVE, 9), (Action.LEAVE_OUT, 9), (Action.DROP, 9), (Action.DROP, 0)]
)
def test_a_tap_that_is_not_offered_changes_nothing(play: Talk, action: Action, argument: int) -> None:
    play.take("Ada [No time]")
    ada = play.someone("Ada")
    ada.tap_data(ada.forged("Back", action=action, argument=argument))

    assert "No time. What shall become of it?" in sees(play)


def test_a_day_that_was_never_asked_about_is_not_taken(play: Talk) -> None:
    ada = play.someone("Ada")
    ada.tap_data(ada.forged("Back", action=Action.MOVE, argument=0))

    assert "Not today. What is in the way?" in sees(play)


def test_what_is_logged_meanwhile_is_not_dropped(play: Talk) -> None:
    play.take("Ada: 90 8 8 8 8")
    ada = play.someone("Ada")
    ada.tap_data(ada.forged("Skip", action=Action.DROP, argument=1))

    assert "B1  Step-down" in sees(play)


def test_a_reason_that_counts_for_nothing_is_not_told_twice(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    play.take("Ada: not today")
    play.take("Ada: ill")
    play.take("tick 2026-04-14 07:00")
    play.take("Ada: not today")
    lines = play.take("Ada: leave out")

    assert not any("two weeks running" in line for line in lines)


def test_a_day_that_was_missed_last_week_is_told_when_it_is_left_out(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    play.take("tick 2026-04-08 12:00")
    play.take("tick 2026-04-14 07:00")
    play.take("Ada: not today")
    play.take("Ada: no time")
    offered = sees(play)
    lines = play.take("Ada: leave out")

    assert "It was not done last week either (Tue 7 April)." in offered
    assert any(
        "Ada leaves out Lower A two weeks running: Tue 7 April and Tue 14 April" in line for line in lines
    )
