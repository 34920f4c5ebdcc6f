"""The morning after: when it is asked, of what, and what becomes of it."""

from datetime import date

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.store.due_questions import DueQuestion
from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def questions(play: Talk) -> list[DueQuestion]:
    def look(unit):
        return unit.due_questions.of_client(unit.accounts.find(1).client_id, "morning", date(2026, 4, 1))

    return play.house.reading(play.someone("Marit"), look)


def asked(lines: list[str]) -> list[str]:
    return [line.strip().split(",")[0] for line in lines if "how is it this morning" in line]


def test_soreness_of_a_muscle_and_no_pain_ask_nothing(play: Talk) -> None:
    for step in ("Ada: sore quads 7", "Ada: pain left knee 0"):
        play.take(step)

    assert questions(play) == []


def test_a_joint_that_is_sore_or_tight_is_pain_and_is_asked_about(play: Talk) -> None:
    play.take("Ada: tight low back 4")
    play.take("Ada: neither")

    assert asked(play.take("tick 2026-04-08 07:00")) == ["Low back"]


def test_one_morning_is_planned_once_and_asked_once(play: Talk) -> None:
    for step in ("Ada: pain left knee 4", "Ada: pain left knee 5", "Ada: pain right hip 2"):
        play.take(step)

    assert [each.local_on for each in questions(play)] == [date(2026, 4, 8)]
    assert asked(play.take("tick 2026-04-08 07:00")) == ["Left knee"]
    assert asked(play.take("tick 2026-04-08 07:05")) == []


def test_it_waits_for_the_end_of_quiet_hours_and_is_asked_on_its_day_alone(play: Talk) -> None:
    play.take("Ada: pain left knee 4")

    assert asked(play.take("tick 2026-04-08 06:30")) == []
    assert asked(play.take("tick 2026-04-09 07:00")) == []


def test_what_is_said_after_midnight_is_asked_about_the_same_morning(play: Talk) -> None:
    play.take("tick 2026-04-08 00:40")
    play.take("Ada: pain left knee 4")

    assert asked(play.take("tick 2026-04-08 07:00")) == ["Left knee"]


def test_what_was_taken_back_is_not_asked_about(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    play.take("Ada edits: pain left knee 0")

    assert asked(play.take("tick 2026-04-08 07:00")) == []


def test_what_she_says_of_the_morning_herself_is_not_asked(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    play.take("tick 2026-04-08 06:00")
    play.take("Ada: pain left knee 2")
    play.take("Ada [Felt at another time]")
    play.take("Ada [Next morning]")

    assert asked(play.take("tick 2026-04-08 07:00")) == []


def test_nobody_is_asked_while_the_plan_is_on_hold(play: Talk) -> None:
    play.take("Ada: pain low back 4")
    play.take("Ada: weaker")

    assert asked(play.take("tick 2026-04-08 07:00")) == []


def test_a_place_that_stays_as_it_was_is_asked_about_twice_a_week(play: Talk) -> None:
    mornings = []
    for day in range(7, 13):
        play.take(f"tick 2026-04-{day:02} 12:00")
        play.take("Ada: pain left wrist 2")
        mornings += asked(play.take(f"tick 2026-04-{day + 1:02} 07:00"))

    assert mornings == ["Left wrist", "Left wrist"]


def test_an_answer_says_which_report_it_answers_and_when_it_was_felt(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    play.take("tick 2026-04-08 07:00")
    play.take("Ada: 3")

    def look(unit):
        first, then = unit.body.since(unit.accounts.find(1).client_id, date(2026, 4, 7))
        return then.answers_to == first.id, then.when_felt, then.exercise, then.session_id, then.local_on

    assert play.house.reading(play.someone("Marit"), look) == (
        True,
        "next morning",
        None,
        None,
        date(2026, 4, 8),
    )
    assert questions(play)[0].answered_at is not None


def test_a_number_in_a_session_that_was_begun_today_answers_no_morning(play: Talk) -> None:
    play.take("tick 2026-04-08 20:00")
    play.take("Ada: pain left wrist 4")
    play.take("tick 2026-04-09 07:00")
    play.take("Ada [Start]")
    play.take("Ada: 8")

    def look(unit):
        return [each.score for each in unit.body.since(unit.accounts.find(1).client_id, date(2026, 4, 7))]

    assert play.house.reading(play.someone("Marit"), look) == [4]


def test_another_coachs_client_is_asked_nothing(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    play.take("tick 2026-04-08 07:00")

    def look(unit):
        return unit.due_questions.of_client(unit.accounts.find(901).client_id, "morning", date(2026, 4, 1))

    assert play.house.reading(play.someone("Orla"), look) == []
