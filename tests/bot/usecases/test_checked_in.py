"""Check-ins as the digest tells them: each once, answered or lapsed, and never another coach's."""

from datetime import UTC, date, datetime, timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.store.units import Units
from bot.usecases.checked_in import check_ins_told, last_said
from core.oversight.facts import CheckedIn

ASKED_AT = datetime(2026, 4, 12, 17, 0, tzinfo=UTC)


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-12 18:00",))


def told(play: Talk, due_at: datetime, coach_id: int = 100) -> list[CheckedIn]:
    found = play.house.reading(play.house.someone(coach_id), lambda unit: check_ins_told(unit, due_at))
    return list(found.values())


def test_one_that_was_just_asked_is_not_told_yet(play: Talk) -> None:
    assert told(play, ASKED_AT) == []


def test_one_that_lapsed_is_told_once_as_unanswered(play: Talk) -> None:
    week = ASKED_AT + timedelta(days=7)

    assert told(play, week) == [CheckedIn(on=date(2026, 4, 12))]
    assert told(play, week + timedelta(days=7)) == []


def test_what_was_answered_after_a_digest_is_told_in_the_next_and_in_no_other(play: Talk) -> None:
    for label in ("Hard", "Skip", "Nothing", "Skip"):
        play.take(f"Ada [{label}]")
    said = CheckedIn(
        on=date(2026, 4, 12),
        said=(("How was your training week?", "hard"), ("Is anything worrying you?", "nothing")),
    )

    assert told(play, ASKED_AT) == []
    assert told(play, ASKED_AT + timedelta(days=7)) == [said]
    assert told(play, ASKED_AT + timedelta(days=14)) == []
    assert told(play, ASKED_AT + timedelta(days=7), 900) == [CheckedIn(on=date(2026, 4, 12))]


def test_what_was_answered_in_part_is_told_too(play: Talk) -> None:
    play.take("Ada [Hard]")

    (found,) = told(play, ASKED_AT + timedelta(days=7))
    assert found.said == (("How was your training week?", "hard"),)


def test_a_clients_card_shows_the_last_two(play: Talk) -> None:
    for day in ("12", "19", "26"):
        play.take(f"tick 2026-04-{day} 18:00")
        play.take("Ada: hard")
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    found = play.house.reading(coach, lambda unit: last_said(client.id, date(2026, 4, 27), unit))

    assert [(each.said, each.on.day) for each in found] == [("hard", 26), ("hard", 19)]
