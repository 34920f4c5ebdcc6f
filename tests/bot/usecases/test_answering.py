"""A coach's words reach the client they are for, or nobody; and it is said back."""

from datetime import UTC, date, datetime

import pytest
from dialogs.talks import Talk
from setting_out import Someone, plain_text
from sqlalchemy import select

from bot.messages import EditCard, Effect, Send
from bot.store.tables import forwarded
from bot.store.units import Units
from bot.usecases import forwarding, media, talk


@pytest.fixture
def play(units: Units) -> Talk:
    play = Talk(units)
    play.typed(play.someone("Ada"), "see you on thursday")
    return play


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def to(effects: list[Effect], chat_id: int) -> list[str]:
    shown = [each for each in effects if isinstance(each, Send | EditCard) and each.chat_id == chat_id]
    return [plain_text(each.message) for each in shown]


def test_a_reply_goes_to_whom_the_message_is_from_and_counts_as_the_answer(
    play: Talk, marit: Someone
) -> None:
    effects = play.replied(marit, "see you on thursday", "Looking forward & ready")

    assert to(effects, 1) == ["Marit writes:\nLooking forward & ready"]
    assert to(effects, 100) == ["Sent to Ada: “Looking forward & ready”"]
    with play.units.read(None) as house:
        answered = house.connection.execute(select(forwarded.c.answered_at)).scalar_one()
    assert answered == play.house.now


def test_a_reply_to_what_was_said_back_goes_there_too(play: Talk, marit: Someone) -> None:
    play.replied(marit, "see you on thursday", "Good.")

    assert to(play.replied(marit, "Sent to Ada", "And bring your shoes."), 1) == [
        "Marit writes:\nAnd bring your shoes."
    ]


def test_a_voice_in_reply_goes_to_the_client(play: Talk, marit: Someone) -> None:
    reply_to = play.house.message_with(100, "see you on thursday")

    effects = marit.does(
        media.media_sent, forwarding.MediaSent("voice", "file9", "listen"), reply_to=reply_to
    )

    sent = next(each for each in effects if isinstance(each, Send) and each.chat_id == 1)
    assert (sent.message.media_kind, sent.message.file_id) == ("voice", "file9")
    assert plain_text(sent.message) == "Marit sends a voice message.\nlisten"
    assert to(effects, 100) == ["Sent to Ada: a voice message"]


def test_a_picture_for_nobody_is_asked_about_or_refused(play: Talk, marit: Someone) -> None:
    picture = forwarding.MediaSent("photo", "file9", "")
    alone = marit.does(media.media_sent, picture)
    reply_to = play.house.message_with(100, "Ada has joined") + 400_000

    asked = marit.does(media.media_sent, picture, reply_to=reply_to)
    marit.tap("Ada")

    assert to(alone, 100)[0].startswith("For whom is that? Nothing is sent.")
    assert to(asked, 100) == ["This: whom is it for? Nothing is sent yet."]
    assert play.someone("Ada").last.file_id == "file9"


def test_an_edit_of_a_reply_is_not_sent_again(play: Talk, marit: Someone) -> None:
    reply_to = play.house.message_with(100, "see you on thursday")

    effects = marit.does(talk.heard, talk.Heard("Goood", edited=True), reply_to=reply_to)

    assert to(effects, 1) == []
    assert to(effects, 100) == ["What was sent stays as it was; an edit is not passed on. Send it anew."]


@pytest.mark.parametrize(
    ("act", "said"),
    [
        ("leaves", "Ada has left, so nothing was sent."),
        ("blocks", "Ada has blocked me, so nothing was sent. Please write to them another way."),
    ],
)
def test_who_cannot_be_reached_gets_nothing_and_the_coach_hears_it(
    play: Talk, marit: Someone, act: str, said: str
) -> None:
    ada = play.someone("Ada")
    if act == "leaves":
        ada.stop()
        ada.tap("Stop")
    else:
        play.blocked(ada, "blocks")

    effects = play.replied(marit, "see you on thursday", "Good.")

    assert (to(effects, 1), to(effects, 100)) == ([], [said])


def test_at_night_it_goes_at_once_and_makes_no_sound(play: Talk, marit: Someone) -> None:
    play.house.now = datetime(2026, 4, 7, 2, 30, tzinfo=UTC)

    effects = play.replied(marit, "see you on thursday", "Rest well.")

    sent = next(each for each in effects if isinstance(each, Send) and each.chat_id == 1)
    assert (sent.message.silent, sent.due_at) == (True, None)
    assert to(effects, 100) == ["Sent to Ada: “Rest well.” It is night there, so it makes no sound."]


def test_a_long_message_is_said_back_in_short(play: Talk, marit: Someone) -> None:
    effects = play.replied(marit, "see you on thursday", "row " * 100)

    assert to(effects, 100)[0].endswith("…”")
    assert len(to(effects, 100)[0]) < 230


def test_pain_in_a_reply_to_the_coach_is_kept_and_told(play: Talk, marit: Someone) -> None:
    play.replied(marit, "see you on thursday", "How is the knee?")

    effects = play.replied(play.someone("Ada"), "How is the knee?", "pain left knee 5")

    ada = play.house.client_of(marit, play.someone("Ada"))
    kept = play.house.reading(marit, lambda unit: unit.body.since(ada.id, date(2026, 4, 1)))
    assert [(each.site, each.score) for each in kept] == [("knee", 5)]
    assert to(effects, 100) == ["Ada writes:\npain left knee 5"]


def test_a_stop_sign_in_a_reply_to_the_coach_comes_first(play: Talk, marit: Someone) -> None:
    play.replied(marit, "see you on thursday", "How are you?")

    effects = play.replied(play.someone("Ada"), "How are you?", "chest pain and my left arm is numb")

    assert to(effects, 1)[0].startswith("Stop now. This may be an emergency.")
    assert play.house.client_of(marit, play.someone("Ada")).frozen_at is not None


def test_what_was_asked_is_over_once_it_is_answered(play: Talk, marit: Someone) -> None:
    play.commanded(marit, "client", "Ada")
    marit.tap("Write to them")
    later = marit.data("Not now")
    marit.tap_data(later)
    assert marit.sees == "All right, nothing was sent."

    marit.tap_data(marit.forged("Write to them", revision=7))
    assert "That button was from before" in marit.sees
    marit.tap("Write to them")
    marit.tap_data(marit.forged("Not now", revision=9))
    assert marit.sees.startswith("What you send me next goes to Ada")
    ask = marit.data("Not now")
    play.typed(marit, "Well rowed.")
    marit.tap_data(ask)

    assert marit.sees == "This is settled. To write to somebody, reply to a message of theirs."
    assert play.someone("Ada").sees == "Marit writes:\nWell rowed."


def test_an_old_question_for_whom_is_asked_anew(play: Talk, marit: Someone) -> None:
    play.replied(marit, "Ada is on Harbour strength", "hm")
    marit.tap_data(marit.forged("Nobody", revision=7))

    assert marit.sees == "“hm”: whom is it for? Nothing is sent yet."
