"""The reminder when a rest is over: when it is due, and what takes it back."""

from datetime import datetime, timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text
from sqlalchemy import select

from bot.messages import Action, decode
from bot.render.sessions_said import OLD_BUTTON
from bot.store.outbox import message_of
from bot.store.tables import outbox
from bot.store.units import Units
from bot.usecases import talk


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada [Start]",
        ),
    )


def reminders(play: Talk, state: str = "queued", chat_id: int = 1) -> list[tuple[datetime, str]]:
    """When each reminder of a state is due, and what it says."""
    with play.units.read(None) as house:
        rows = house.connection.execute(
            select(outbox.c.due_at, outbox.c.body)
            .where(outbox.c.key.contains(":rest:"), outbox.c.state == state, outbox.c.chat_id == chat_id)
            .order_by(outbox.c.id)
        ).all()
    return [(row.due_at, plain_text(message_of(row.body))) for row in rows]


def test_it_comes_when_the_rest_that_is_written_is_over(play: Talk) -> None:
    play.take("Ada [Rest reminder]")

    [(due, text)] = reminders(play)
    assert due == play.house.now + timedelta(seconds=180)
    assert text == "Rest is over, 3:00 min. Next: A Hip thrust."


def test_it_has_a_sound_is_asked_for_and_comes_late_by_five_minutes_at_most(play: Talk) -> None:
    play.take("Ada: rest 90")

    with play.units.read(None) as house:
        row = house.connection.execute(select(outbox).where(outbox.c.key.contains(":rest:"))).one()
    assert (row.unasked, message_of(row.body).silent) == (False, False)
    assert row.not_after == row.due_at + timedelta(minutes=5)


@pytest.mark.parametrize(
    ("typed", "seconds"),
    [
        ("rest 90", 90),
        ("rest 90s", 90),
        ("Rest 2 min.", 120),
        ("rest 2:30", 150),
        ("rest 3", 180),
        ("remind me in 45 seconds", 45),
        ("rest", 180),
        ("Remind me", 180),
    ],
)
def test_how_long_can_be_typed(play: Talk, typed: str, seconds: int) -> None:
    play.take(f"Ada: {typed}")

    assert [due - play.house.now for due, _ in reminders(play)] == [timedelta(seconds=seconds)]


@pytest.mark.parametrize("typed", ["rest 5 s", "rest 21 min", "rest 1201"])
def test_what_is_no_rest_is_not_marked(play: Talk, typed: str) -> None:
    play.take(f"Ada: {typed}")

    assert reminders(play) == []
    assert "I can mark a rest of 10 s to 20:00 min." in plain_text(play.someone("Ada").last)


@pytest.mark.parametrize(
    "then",
    [
        "[Done as written]",
        ": 90 8 8 8 8",
        "[Skip]",
        ": pain left knee 2",
        ": pain left knee 8",
        ": my chest feels tight and my left arm hurts",
        ": no reminder",
    ],
)
def test_it_is_taken_back(play: Talk, then: str) -> None:
    play.take("Ada [Rest reminder]")
    play.take(f"Ada{then}" if then.startswith(":") else f"Ada {then}")

    assert reminders(play) == []
    assert len(reminders(play, "cancelled")) == 1


def test_the_end_of_the_session_takes_it_back(play: Talk) -> None:
    play.take("Ada [Done as written]")
    play.take("Ada [Rest reminder]")
    play.take("Ada [End here]")
    play.take("Ada [No time]")

    assert reminders(play) == []


def test_a_session_that_is_settled_takes_it_back(play: Talk) -> None:
    play.take("Ada [Done as written]")
    play.take("Ada: rest 1200")
    play.take("tick 2026-04-09 07:00")

    assert reminders(play) == []


def test_a_new_one_takes_the_place_of_the_one_before(play: Talk) -> None:
    play.take("Ada: rest 90")
    play.take("Ada: rest 120")

    assert [due - play.house.now for due, _ in reminders(play)] == [timedelta(seconds=120)]


def test_once_is_once(play: Talk) -> None:
    play.take("Ada [Rest reminder]")
    play.take("Ada [Done as written]")

    assert reminders(play) == []
    assert "Rest reminder" in play.someone("Ada").buttons


def test_every_rest_is_after_each_exercise_with_the_rest_of_its_round(play: Talk) -> None:
    play.take("Ada: remind me every time")
    play.take("Ada [Done as written]")
    after_first = reminders(play)
    play.take("Ada [Done as written]")
    now = play.house.now

    assert [text for _, text in after_first] == ["Rest is over, 3:00 min. Next: B1 Step-down."]
    assert reminders(play) == [
        (now + timedelta(seconds=90), "Rest is over, 1:30 min. Next: B2 One-leg hinge.")
    ]


def test_after_the_last_exercise_there_is_no_rest(play: Talk) -> None:
    play.take("Ada: remind me every time")
    for label in (
        "[Done as written]",
        "[Done as written]",
        "[Done as written]",
        "[Done as written]",
        ": 20 12 12 12",
    ):
        play.take(f"Ada{label}" if label.startswith(":") else f"Ada {label}")

    assert reminders(play) == []
    assert "Does anything hurt?" in plain_text(play.someone("Ada").last)


def test_it_is_each_client_s_own(play: Talk) -> None:
    play.take("Ben [Start]")
    play.take("Ben: rest 90")
    play.take("Ada: rest 120")
    play.take("Ada [Done as written]")

    assert reminders(play) == []
    assert len(reminders(play, chat_id=901)) == 1


def test_before_the_session_begins_a_length_is_enough_and_none_is_asked_for(play: Talk) -> None:
    play.take("tick 2026-04-09 07:00")
    play.take("Ada: remind me")
    asked = plain_text(play.someone("Ada").last)
    play.take("Ada: rest 90")

    assert "How long? Type it, like rest 90" in asked
    assert [text for _, text in reminders(play)] == ["Rest is over, 1:30 min."]


def test_a_forged_button_changes_nothing(play: Talk) -> None:
    ada = play.someone("Ada")
    ada.does(talk.tapped, talk.Tapped(decode(ada.forged("Skip", action=Action.REST, argument=7))))

    assert plain_text(ada.last).startswith(OLD_BUTTON)
    assert reminders(play) == []


def test_when_all_is_done_words_about_rest_go_to_the_coach(play: Talk) -> None:
    for _ in range(5):
        play.take("Ada [Skip]") if "Skip" in play.someone("Ada").buttons else None
    play.take("Ada: rest 90")

    assert reminders(play) == []
