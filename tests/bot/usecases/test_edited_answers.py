"""What is edited where an edit corrects nothing: it is said, told once, and answers nothing else."""

import pytest
from dialogs.talks import Talk
from setting_out import Someone, plain_text
from sqlalchemy import select

from bot.messages import Send
from bot.store.tables import due_question, forwarded, other_training, outbox
from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


@pytest.fixture
def ada(play: Talk) -> Someone:
    return play.someone("Ada")


def rows(play: Talk, *columns: object) -> list[tuple[object, ...]]:
    with play.units.read(None) as house:
        return [tuple(row) for row in house.connection.execute(select(*columns))]


def told_marit(play: Talk) -> list[str]:
    return [plain_text(each.message) for each in play.house.sends if each.chat_id == 100]


def test_edited_pain_that_becomes_plain_words_goes_to_the_coach_once(play: Talk, ada: Someone) -> None:
    play.take("Ada: pain left knee 5")
    play.house.sends.clear()

    effects = play.edited(ada, "my knee is fine, I meant the bike")

    to_coach = [each for each in effects if isinstance(each, Send) and each.chat_id == 100]
    assert [plain_text(each.message).splitlines()[-1] for each in to_coach] == [
        "my knee is fine, I meant the bike"
    ]
    assert len(rows(play, forwarded.c.id)) == 1


def test_an_edit_of_other_training_says_how_it_is_changed_and_keeps_nothing_twice(
    play: Talk, ada: Someone
) -> None:
    play.take("Ada: ran 30 min")

    play.edited(ada, "ran 40 min")

    assert ada.sees == (
        "What I keep as other training does not change with your edit. "
        "Use the buttons under it, or take it back there and type it anew."
    )
    assert rows(play, other_training.c.minutes) == [(30,)]


def test_pain_that_an_edit_of_other_training_tells_of_is_kept(play: Talk, ada: Someone) -> None:
    play.take("Ada: ran 30 min")

    lines = play.told(play.edited(ada, "ran 30 min, pain left knee 5"))

    assert any("left knee, 5 of 10" in line for line in lines)
    assert rows(play, other_training.c.minutes) == [(30,)]


def test_an_edited_answer_of_the_check_in_goes_to_the_coach_and_answers_nothing_else(
    play: Talk, ada: Someone
) -> None:
    play.take("tick 2026-04-12 18:00")
    play.take("Ada: hard")

    play.edited(ada, "easy")

    assert ada.sees == "Your new words have gone to your coach. The answer that I kept stays as it was."
    [(answers,)] = [each for each in rows(play, due_question.c.answers) if each[0]]
    assert answers == {"said": [["How was your training week?", "hard"]]}
    assert [each.splitlines()[-1] for each in told_marit(play)][-1] == "easy"


def test_an_edited_line_of_the_check_in_is_no_second_answer(play: Talk, ada: Someone) -> None:
    play.take("tick 2026-04-12 18:00")
    for said in ("hard", "sleep good, stress low", "work is a lot"):
        play.take(f"Ada: {said}")

    play.edited(ada, "work is too much")

    [(answers,)] = [each for each in rows(play, due_question.c.answers) if each[0]]
    assert [answer for _, answer in answers["said"]] == ["hard", "sleep good, stress low", "work is a lot"]


def test_an_edit_keeps_the_reminder_of_the_rest_that_goes_on(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    for step in ("Ada [Start]", "Ada: skip", "Ada: 10 10 10", "Ada: rest 180"):
        play.take(step)

    play.take("Ada edits “skip”: 90 8 8 8 8")

    assert rows_of_reminders(play) == ["queued"]


def test_a_lower_score_by_an_edit_keeps_the_reminder_and_a_higher_one_takes_it_back(play: Talk) -> None:
    play.take("tick 2026-04-07 07:00")
    for step in ("Ada [Start]", "Ada: pain left knee 3", "Ada: rest 180", "Ada edits “pain left knee 3”: 2"):
        play.take(step)
    kept = rows_of_reminders(play)

    play.take("Ada edits “pain left knee 3”: 5")

    assert (kept, rows_of_reminders(play)) == (["queued"], ["cancelled"])


def rows_of_reminders(play: Talk) -> list[str]:
    with play.units.read(None) as house:
        query = select(outbox.c.state).where(outbox.c.key.contains(":rest:"))
        return list(house.connection.scalars(query))
