"""What was done last is taken back; what was never shown has nothing that could be."""

from dialogs.talks import Talk

from bot.store.units import Units


def played(units: Units, *steps: str) -> str:
    play = Talk(units)
    return " ".join([play.take(step) for step in steps][-1])


def test_undo_on_a_day_that_was_left_out_before_its_card_came_takes_nothing_back(units: Units) -> None:
    away = "Ada: /away 7 April, no training"

    said = played(units, away, "Ada: yes", "tick 2026-04-07 08:00", "Ada: undo")

    assert "There is no session of today to take anything back from." in said


def test_undo_finds_the_session_of_today_though_later_ones_are_left_out_already(units: Units) -> None:
    done = ("tick 2026-04-07 07:00", "Ada: 90 8 8 8 8", *["Ada: skip"] * 4, "Ada: nothing hurts", "Ada: 2")

    said = played(units, *done, "Ada: /away 9-13 April, no training", "Ada: yes", "Ada: undo")

    assert "Taken back. The session is open again." in said
