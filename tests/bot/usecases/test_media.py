"""Everything that is no text: each kind from a client to her coach and back, what stands under it, too many of it."""

from datetime import UTC, datetime, timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import Someone, plain_text
from sqlalchemy import select

from bot.messages import Effect, Send
from bot.render.forwarding import BARE, KIND_WORDS, LONGEST_CAPTION
from bot.store.tables import forwarded, logged_set
from bot.store.units import Units
from bot.usecases import media, setting_up
from bot.usecases.forwarding import MediaSent
from core.policy import Policy

MOST = Policy().media_an_hour


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada: start",
        ),
    )


@pytest.fixture
def ada(play: Talk) -> Someone:
    return play.someone("Ada")


def sent(effects: list[Effect], chat_id: int) -> list[Send]:
    return [each for each in effects if isinstance(each, Send) and each.chat_id == chat_id]


def words(effects: list[Effect], chat_id: int) -> list[str]:
    return [plain_text(each.message) for each in sent(effects, chat_id)]


def logged(play: Talk) -> list[int]:
    with play.units.read(None) as house:
        return list(house.connection.execute(select(logged_set.c.reps)).scalars())


@pytest.mark.parametrize("kind", KIND_WORDS)
def test_each_kind_goes_to_the_coach_with_the_exercise(play: Talk, ada: Someone, kind: str) -> None:
    caption = "" if kind in BARE else "look"
    effects = ada.does(media.media_sent, MediaSent(kind, "" if kind == "contact" else "file1", caption))

    head = f"Ada sends {KIND_WORDS[kind]} during hip thrust, 4 × 8 at 90 kg."
    files = [each.message for each in sent(effects, 100) if each.message.media_kind]
    assert "\n".join(words(effects, 100)).startswith(head)
    assert caption in "\n".join(words(effects, 100))
    assert [(each.media_kind, each.file_id) for each in files] == (
        [] if kind == "contact" else [(kind, "file1")]
    )
    assert all(not each.html for each in files if each.media_kind in BARE)
    assert words(effects, 1) == ["Passed on to your coach."]
    assert sent(effects, 900) == sent(effects, 901) == []


@pytest.mark.parametrize("kind", KIND_WORDS)
def test_each_kind_in_reply_goes_to_the_client_and_her_answer_comes_back(
    play: Talk, ada: Someone, kind: str
) -> None:
    marit = play.someone("Marit")
    ada.does(media.media_sent, MediaSent("photo", "file1", "look"))
    reply_to = play.house.message_with(100, "look")

    effects = marit.does(media.media_sent, MediaSent(kind, "file2", "so"), reply_to=reply_to)

    assert words(effects, 1)[0].startswith(f"Marit sends {KIND_WORDS[kind]}.")
    assert words(effects, 100) == [f"Sent to Ada: {KIND_WORDS[kind]}"]
    answered = play.replied(ada, f"Marit sends {KIND_WORDS[kind]}", "8 8 8")
    assert "Ada writes:\n8 8 8" in words(answered, 100)
    assert logged(play) == []


def test_a_reply_to_the_bare_part_of_a_message_finds_its_way_too(play: Talk, ada: Someone) -> None:
    ada.does(media.media_sent, MediaSent("sticker", "file1"))
    play.house.delivered()
    with play.units.read(None) as house:
        rows = house.connection.execute(select(forwarded.c.message_id, forwarded.c.item_id)).all()

    effects = play.someone("Marit").does(
        media.media_sent, MediaSent("photo", "file2"), reply_to=max(row.message_id for row in rows)
    )

    assert len(rows) == 2
    assert all(row.item_id is not None for row in rows)
    assert words(effects, 1) == ["Marit sends a photo."]


def test_sets_under_a_photo_are_logged_and_the_photo_goes_on(play: Talk, ada: Someone) -> None:
    effects = ada.does(media.media_sent, MediaSent("photo", "file1", "80 8 8 7"))

    assert logged(play) == [8, 8, 7]
    assert "80 8 8 7" in words(effects, 100)[-1]


def test_words_under_a_photo_reach_the_coach_once(play: Talk, ada: Someone) -> None:
    effects = ada.does(media.media_sent, MediaSent("photo", "file1", "80 8 8 7, was it deep enough"))

    assert len(words(effects, 100)) == 1


def test_pain_under_a_video_is_kept_and_told_also_while_the_plan_is_on_hold(play: Talk, ada: Someone) -> None:
    play.take("Ada: I have chest pain")

    effects = ada.does(media.media_sent, MediaSent("video", "file1", "pain left knee 5"))

    assert any("left knee" in text for text in words(effects, 1))
    assert any("sends a video" in text for text in words(effects, 100))
    assert logged(play) == []


def test_a_stop_sign_under_a_photo_comes_first_and_the_photo_waits_for_no_morning(
    play: Talk, ada: Someone
) -> None:
    play.house.now = datetime(2026, 4, 7, 22, 30, tzinfo=UTC)

    effects = ada.does(media.media_sent, MediaSent("photo", "file1", "chest pain and my arm is numb"))

    assert words(effects, 1)[0].startswith("Stop now. This may be an emergency.")
    assert [each.due_at for each in sent(effects, 100)] == [None]


def test_a_long_caption_is_kept_whole(play: Talk, ada: Someone) -> None:
    long = "a & b " * 160

    effects = ada.does(media.media_sent, MediaSent("photo", "file1", long))

    assert len(long) > LONGEST_CAPTION
    assert "".join(words(effects, 100)[1:]) == long


def test_a_long_text_is_kept_whole(play: Talk, ada: Someone) -> None:
    long = "<b>&" * 1000

    effects = play.typed(ada, f"hello {long}")

    assert "".join(text.partition(":\n")[2] for text in words(effects, 100)) == f"hello {long}"


def test_an_album_stays_together_and_is_confirmed_once(play: Talk, ada: Someone) -> None:
    effects = play.take("Ada sends an album of 3 photos: my shoes")

    text = "\n".join(effects)
    assert text.count("the same album") == 2
    assert text.count("Passed on to your coach.") == 1


def test_a_burst_of_photos_is_answered_once_and_each_goes_on_in_order(play: Talk, ada: Someone) -> None:
    effects: list[Effect] = []
    for number in range(5):
        play.house.now += timedelta(seconds=20)
        effects += ada.does(media.media_sent, MediaSent("photo", f"file{number}"))
    asked = ada.does(media.media_sent, MediaSent("photo", "asks", "deep enough?"))
    play.house.now += timedelta(seconds=61)
    later = ada.does(media.media_sent, MediaSent("photo", "later"))

    assert [each.message.file_id for each in sent(effects, 100)] == [f"file{number}" for number in range(5)]
    assert words(effects, 1) == words(asked, 1) == words(later, 1) == ["Passed on to your coach."]


def test_what_a_coach_sends_to_nobody_in_a_minute_is_asked_about_once(play: Talk) -> None:
    marit = play.someone("Marit")
    asked = [marit.does(media.media_sent, MediaSent("photo", f"file{number}")) for number in range(3)]
    play.house.now += timedelta(minutes=1)
    later = marit.does(media.media_sent, MediaSent("photo", "file9"))

    assert len({each.key for effects in asked for each in sent(effects, 100)}) == 1
    assert {each.key for each in sent(later, 100)}.isdisjoint(each.key for each in sent(asked[0], 100))


def test_an_album_of_the_coach_goes_where_its_first_went(play: Talk, ada: Someone) -> None:
    marit = play.someone("Marit")
    ada.does(media.media_sent, MediaSent("photo", "file1", "look"))
    reply_to = play.house.message_with(100, "look")
    marit.does(media.media_sent, MediaSent("photo", "file2", album="77"), reply_to=reply_to)

    same = marit.does(media.media_sent, MediaSent("photo", "file3", album="77"))
    other = marit.does(media.media_sent, MediaSent("photo", "file4", album="7"))
    foreign = play.someone("Orla").does(media.media_sent, MediaSent("photo", "file5", album="77"))

    assert words(same, 1) == ["Marit sends a photo."]
    assert sent(other, 1) == sent(foreign, 1) == []


def test_too_many_in_an_hour_are_said_once_and_words_still_go_on(play: Talk, ada: Someone) -> None:
    play.house.now = datetime(2026, 4, 7, 10, 5, tzinfo=UTC)
    for number in range(MOST):
        assert sent(ada.does(media.media_sent, MediaSent("photo", f"file{number}")), 100)

    first = ada.does(media.media_sent, MediaSent("photo", "more", "and this"))
    again = ada.does(media.media_sent, MediaSent("photo", "more"))

    assert words(first, 100) == ["Ada writes:\nand this"]
    assert "until 12:00 does not reach your coach" in words(first, 1)[0]
    assert {each.key for each in sent(first, 1)} == {each.key for each in sent(again, 1)}
    assert sent(ada.does(media.media_sent, MediaSent("photo", "x", "I have chest pain")), 100)
    play.house.now += timedelta(hours=1)
    assert "Passed on to your coach." in words(ada.does(media.media_sent, MediaSent("photo", "later")), 1)


def test_a_file_of_a_coach_goes_to_the_client_she_answers_and_else_is_read(play: Talk, ada: Someone) -> None:
    marit = play.someone("Marit")
    ada.does(media.media_sent, MediaSent("photo", "file1", "look"))
    file = setting_up.FileSent("file2", "stretches.pdf", 100, "for tonight")

    aimed = marit.does(media.document_sent, file, reply_to=play.house.message_with(100, "look"))
    alone = marit.does(media.document_sent, file)

    assert words(aimed, 1) == ["Marit sends a file.\nfor tonight"]
    assert "is a PDF, which I do not read" in words(alone, 100)[0]


def test_a_file_is_for_whom_the_coach_writes_to(play: Talk) -> None:
    marit = play.someone("Marit")
    for step in ("Marit: /client Ada", "Marit [Write to them]"):
        play.take(step)

    effects = marit.does(media.document_sent, setting_up.FileSent("file2", "week.xlsx", 100))

    assert words(effects, 1) == ["Marit sends a file."]


def test_a_clients_file_goes_on_with_its_name(play: Talk, ada: Someone) -> None:
    effects = ada.does(media.document_sent, setting_up.FileSent("f", "squat <1>.mov", 300_000_000))

    assert words(effects, 100)[0].startswith("Ada sends a file (squat <1>.mov) during hip thrust")


def test_new_words_under_a_photo_correct_what_the_old_ones_did(play: Talk, ada: Someone) -> None:
    ada.does(media.media_sent, MediaSent("photo", "file1", "80 8 8 7"), message_id=77)

    ada.does(media.caption_edited, media.CaptionEdited("80 8 8 8"), message_id=77)

    with play.units.read(None) as house:
        standing = select(logged_set.c.reps).where(logged_set.c.voided_at.is_(None))
        assert list(house.connection.execute(standing).scalars()) == [8, 8, 8]


def test_who_changes_a_file_is_told_what_that_does(play: Talk, ada: Someone) -> None:
    gone = ada.does(media.caption_edited, media.CaptionEdited(""))
    coach = play.someone("Marit").does(media.caption_edited, media.CaptionEdited("so"))
    stranger = play.house.someone(555).does(media.caption_edited, media.CaptionEdited(""))

    assert words(gone, 1) == ["A picture or file that you change stays as it was. Please send it anew."]
    assert len(words(coach, 100)) == 1
    assert stranger == []
