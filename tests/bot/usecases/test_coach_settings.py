"""A coach's settings: taps that are not offered, old cards, and somebody else's."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.render.coach_settings import NOT_READ
from bot.store.units import Units
from bot.usecases.coach_settings import STALE


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("Marit: /settings",))


def style(play: Talk, name: str = "Marit") -> tuple[str, bool]:
    coach = play.someone(name)
    found = play.house.reading(coach, lambda unit: unit.coaches.get(coach.coach_id))
    return found.missed_style, found.in_line_since is not None


def test_it_is_by_calendar_until_the_coach_says_otherwise(play: Talk) -> None:
    assert style(play) == ("calendar", False)


def test_a_choice_is_the_coachs_own(play: Talk) -> None:
    play.take("Marit [Next in line]")

    assert style(play) == ("in line", True)
    assert style(play, "Orla") == ("calendar", False)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("next in line", "in line"),
        ("Next.", "in line"),
        ("in line", "in line"),
        ("By calendar", "calendar"),
        ("calendar", "calendar"),
    ],
)
def test_a_choice_can_be_typed(play: Talk, said: str, expected: str) -> None:
    play.take(f"Marit: {said}")

    assert style(play)[0] == expected
    assert play.someone("Marit").sees.startswith("Set.")


def test_other_words_change_nothing_and_are_asked_about_while_it_is_open(play: Talk) -> None:
    play.take("Marit: whatever comes")
    asked = play.someone("Marit").sees
    play.take("Marit [By calendar]")
    play.take("Marit: whatever comes")

    assert asked.startswith(NOT_READ.replace("<code>", "").replace("</code>", ""))
    assert style(play) == ("calendar", False)
    assert play.someone("Marit").sees.startswith("Send me a block")


@pytest.mark.parametrize(("action", "argument"), [(Action.PICK, 2), (Action.TOGGLE, 0)])
def test_a_tap_that_is_not_offered_changes_nothing(play: Talk, action: Action, argument: int) -> None:
    marit = play.someone("Marit")
    marit.tap_data(marit.forged("Next in line", action=action, argument=argument))

    assert style(play) == ("calendar", False)
    assert marit.sees.startswith(STALE)


def test_an_old_card_is_over_and_an_old_button_shows_how_things_stand(play: Talk) -> None:
    play.take("Marit keeps [Next in line] as first")
    play.take("Marit [By calendar]")
    play.take("Marit taps the old first")
    stale = play.someone("Marit").sees
    play.take("Marit: /settings")
    play.take("Marit taps the old first")

    assert stale.startswith(STALE)
    assert play.someone("Marit").sees.startswith("These settings are from before.")
    assert style(play) == ("calendar", False)


def test_a_client_cannot_set_it(play: Talk) -> None:
    play.take("Marit keeps [Next in line] as next")
    play.take("Ada taps the old next")

    assert style(play) == ("calendar", False)


def days(play: Talk, name: str = "Marit") -> tuple[int, int]:
    coach = play.someone(name)
    found = play.house.reading(coach, lambda unit: unit.coaches.get(coach.coach_id))
    return found.check_in_weekday, found.plan_weekday


def test_the_days_of_the_weeks_questions_are_the_coachs_own(play: Talk) -> None:
    play.take("Marit [Check-in day]")
    play.take("Marit [Wed]")
    play.take("Marit [Plan day]")
    play.take("Marit [Back]")
    play.take("Marit [Plan day]")
    play.take("Marit [Sat]")

    assert days(play) == (2, 5)
    assert days(play, "Orla") == (6, 6)


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("check-in friday", (4, 6)),
        ("Checkin on mon.", (0, 6)),
        ("plan my week sat", (6, 5)),
        ("plan t", (6, 6)),
        ("plan someday", (6, 6)),
    ],
)
def test_a_day_can_be_typed(play: Talk, said: str, expected: tuple[int, int]) -> None:
    play.take(f"Marit: {said}")

    assert days(play) == expected


@pytest.mark.parametrize(("action", "argument"), [(Action.CHANGE, 2), (Action.MOVE, 14)])
def test_no_other_day_is_taken(play: Talk, action: Action, argument: int) -> None:
    marit = play.someone("Marit")
    marit.tap_data(marit.forged("Next in line", action=action, argument=argument))

    assert days(play) == (6, 6)
    assert marit.sees.startswith(STALE)
