"""Reminders of a coach to herself: once, at her hour, put off, done; of nobody else's."""

from datetime import date, datetime
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk

from bot.messages import Person, Send
from bot.store.reminders import Reminder, next_reminder_due
from bot.store.units import Units
from bot.usecases.reminding import Remind, of_digest, remind


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def marits(play: Talk, look: Any) -> Any:
    return play.house.reading(play.someone("Marit"), look)


def waiting(play: Talk) -> list[Reminder]:
    found: list[Reminder] = marits(play, lambda unit: unit.reminders.open())
    return found


def told(play: Talk) -> list[Send]:
    return [each for each in play.house.sends if each.message.html.startswith("Reminder.")]


def test_it_comes_once_however_often_the_clock_asks(play: Talk) -> None:
    play.take("Marit: /remind friday: order bands")
    row = waiting(play)[0].id
    assert marits(play, lambda unit: next_reminder_due(unit.connection)) == datetime(
        2026, 4, 10, 8, tzinfo=LISBON
    )
    play.tick(datetime(2026, 4, 10, 7, 59, tzinfo=LISBON))
    assert told(play) == []
    play.tick(datetime(2026, 4, 10, 8, tzinfo=LISBON))
    play.tick(datetime(2026, 4, 10, 8, 1, tzinfo=LISBON))
    assert [each.chat_id for each in told(play)] == [100]
    clock = Person(0, 0, play.someone("Marit").coach_id, "clock")
    assert marits(play, lambda unit: remind(Remind(row), clock, unit, play.house.now)) == []


def test_after_an_outage_it_waits_for_the_end_of_the_night(play: Talk) -> None:
    play.take("Marit: /remind friday: order bands")
    play.tick(datetime(2026, 4, 10, 22, tzinfo=LISBON))
    assert told(play) == []
    assert waiting(play)[0].due_at == datetime(2026, 4, 11, 7, tzinfo=LISBON)
    play.tick(datetime(2026, 4, 11, 7, tzinfo=LISBON))
    assert len(told(play)) == 1


@pytest.mark.parametrize(
    ("act", "due"),
    [
        ("Marit [Tomorrow]", date(2026, 4, 11)),
        ("Marit [Next week]", date(2026, 4, 17)),
        ("Marit: tomorrow", date(2026, 4, 11)),
        ("Marit: next week", date(2026, 4, 17)),
    ],
)
def test_it_is_put_off_and_comes_again(play: Talk, act: str, due: date) -> None:
    play.take("Marit: /remind friday: order bands")
    play.tick(datetime(2026, 4, 10, 8, tzinfo=LISBON))
    play.take(act)
    assert waiting(play)[0].due_at == datetime(due.year, due.month, due.day, 8, tzinfo=LISBON)
    play.tick(waiting(play)[0].due_at)
    assert len(told(play)) == 2


def test_done_is_done(play: Talk) -> None:
    play.take("Marit: /remind Ada today: ask about the hip")
    play.tick(datetime(2026, 4, 6, 18, tzinfo=LISBON))
    assert "Ada</b>: ask about the hip" in told(play)[0].message.html
    play.take("Marit keeps [Tomorrow] as later")
    play.take("Marit [Done]")
    play.take("Marit taps the old later")
    assert waiting(play) == []


def test_a_button_from_before_puts_nothing_off(play: Talk) -> None:
    play.take("Marit: /remind today: order bands")
    play.take("Marit keeps [Undo] as undo")
    play.tick(datetime(2026, 4, 6, 18, tzinfo=LISBON))
    play.take("Marit taps the old undo")
    assert len(waiting(play)) == 1
    play.take("Marit: undo")
    assert len(waiting(play)) == 1


def test_undo_takes_it_back(play: Talk) -> None:
    play.take("Marit: /remind friday: order bands")
    play.take("Marit keeps [Undo] as undo")
    play.take("Marit: undo")
    play.take("Marit taps the old undo")
    assert waiting(play) == []


def test_one_that_waits_shows_when_it_comes(play: Talk) -> None:
    play.take("Marit: /remind friday: order bands")
    play.take("Marit keeps [Undo] as undo")
    play.tick(datetime(2026, 4, 10, 8, tzinfo=LISBON))
    play.take("Marit [Tomorrow]")
    play.take("Marit taps the old undo")
    assert "Comes again Sat 11 April." in play.someone("Marit").sees


def test_the_digest_has_what_is_due_by_its_day(play: Talk) -> None:
    play.take("Marit: /remind Ada friday: ask about the hip")
    play.take("Marit: /remind 3 weeks: order bands")
    found = marits(play, lambda unit: of_digest(unit, date(2026, 4, 12)))
    assert [(each.name, each.text) for each in found] == [("Ada", "ask about the hip")]
    assert play.house.reading(play.someone("Orla"), lambda unit: of_digest(unit, date(2027, 1, 1))) == ()


def test_a_day_is_no_name(play: Talk) -> None:
    play.take("Marit: /invite Frida")
    play.take("Marit: /remind fri: order bands")
    assert [each.client_id for each in waiting(play)] == [None]


def test_another_coach_cannot_tap_it(play: Talk) -> None:
    play.take("Marit: /remind friday: order bands")
    play.take("Marit keeps [Undo] as undo")
    play.take("Orla taps the old undo")
    play.take("Orla: /remind")
    assert len(waiting(play)) == 1
    assert "None waits." in play.someone("Orla").sees


@pytest.mark.parametrize("line", ["/remind friday", "/remind order bands", "/remind friday:"])
def test_without_a_day_or_words_nothing_is_kept(play: Talk, line: str) -> None:
    play.take(f"Marit: {line}")
    assert waiting(play) == []
    play.take("Marit: good morning")
    assert waiting(play) == []
