"""The end of a block: what was done in numbers, kept answers, one message to the coach."""

from datetime import date

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Send
from bot.store.units import Units
from bot.usecases import block_end
from bot.usecases.week_clock import BLOCK_END


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-05-04 07:00",
            "Ada [All done as written]",
            "Ada [End here]",
            "Ada [No time]",
            "Ada [Nothing hurts]",
            "tick 2026-05-05 18:00",
        ),
    )


def test_it_says_what_was_done_and_praises_nothing(play: Talk) -> None:
    assert "Harbour strength is over. Sessions kept: 1 of 1." in play.house.someone(1).sees


def test_every_question_may_be_skipped_and_the_coach_hears_once(play: Talk) -> None:
    for label in ("Skip", "Nothing", "Skip", "Nothing"):
        play.take(f"Ada [{label}]")
    told = [
        each for each in play.house.sends if each.key.startswith("blockend:") and each.key.endswith(":told")
    ]

    assert len(told) == 1
    assert told[0].chat_id == 100
    assert "What did not work? nothing" in told[0].message.html
    assert "What worked" not in told[0].message.html


def test_typed_words_of_ours_are_read(play: Talk) -> None:
    for text in ("the days", "too hard", "something new", "nothing"):
        play.take(f"Ada: {text}")
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    (asked,) = play.house.reading(
        coach, lambda unit: unit.due_questions.since(BLOCK_END, date(2026, 5, 1))[client.id]
    )

    assert [answer for _, answer in asked.answers["said"]] == [
        "the days",
        "too hard",
        "something new",
        "nothing",
    ]


def test_without_a_chat_of_the_coach_the_answers_are_kept_all_the_same(play: Talk) -> None:
    marit = play.house.someone(100)
    with play.units.open(marit.coach_id) as unit:
        unit.accounts.unbind(100)
    for label in ("Skip", "Nothing", "Skip", "Nothing"):
        play.take(f"Ada [{label}]")

    assert play.house.someone(1).sees == "The end of your block\n\nThat is all. It is kept for your coach."
    assert not any(isinstance(each, Send) and each.key.endswith(":told") for each in play.house.sends)


def test_a_block_of_which_nothing_was_laid_out_asks_nothing(units: Units) -> None:
    play = Talk(units)
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    with play.units.open(coach.coach_id) as unit:
        (question,) = unit.due_questions.waiting(client.id, BLOCK_END)
        unit.sessions.drop_planned(client.id)
        assert block_end.ask(question, client, unit, play.house.now) == []


def test_one_who_cannot_be_reached_is_asked_nothing(units: Units) -> None:
    play = Talk(units)
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    with play.units.open(coach.coach_id) as unit:
        (question,) = unit.due_questions.waiting(client.id, BLOCK_END)
        unit.accounts.unbind(1)
        assert block_end.ask(question, client, unit, play.house.now) == []


def test_a_lift_has_come_to_what_was_lifted_before_the_lighter_week(units: Units) -> None:
    talk = Talk(units, block="Quay_forms", days="Tue,Fri")
    for on, load in (("04-07", "60"), ("04-14", "62.5"), ("04-21", "65"), ("04-28", "60")):
        for step in (f"tick 2026-{on} 07:00", "Ada [Start]", f"Ada: {load} 5 5 5", "Ada [End here]"):
            talk.take(step)

    told = talk.take("tick 2026-05-02 18:00")

    assert "Bench press: 60 kg at first, 65 kg last" in "\n".join(told)
