"""Reminders of a coach to herself, as she types them."""

from datetime import date

import pytest

from core.checkin.reminder_words import ReminderRead, day_meant, reminder_read

TODAY = date(2026, 4, 6)


@pytest.mark.parametrize(
    ("text", "on", "what"),
    [
        ("3 weeks: ask about the hip", date(2026, 4, 27), "ask about the hip"),
        ("in 10 days: call", date(2026, 4, 16), "call"),
        ("friday:  order   bands", date(2026, 4, 10), "order bands"),
        ("Next week: plan", date(2026, 4, 13), "plan"),
        ("3 May: 10: reps", date(2026, 5, 3), "10: reps"),
        ("today: now", TODAY, "now"),
    ],
)
def test_the_day_stands_before_the_colon(text: str, on: date, what: str) -> None:
    assert reminder_read(text, TODAY) == ReminderRead(on=on, text=what)


@pytest.mark.parametrize("text", ["someday: call", "friday", ": call", "2 weeks or so: call"])
def test_without_a_day_nothing_is_guessed(text: str) -> None:
    assert reminder_read(text, TODAY).on is None


def test_no_words_name_no_day() -> None:
    assert day_meant("  ", TODAY) is None
