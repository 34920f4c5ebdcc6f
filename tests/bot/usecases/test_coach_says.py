"""What a coach says beside single messages: cues from answers, videos, phrases, hours, notes and her own absence."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk

from bot.store.units import Units
from bot.usecases import block_voice, coach_away, media, office_hours, phrases, video_asked
from bot.usecases.digest_of_talk import texts_of_talk
from bot.usecases.forwarding import MediaSent
from core.loads.order import CoachOrder, OrderKind
from core.units import Mass

MORNING = datetime(2026, 4, 7, 7, tzinfo=LISBON)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def says(play: Talk, step: str) -> str:
    play.take(step)
    return play.someone(step.split(maxsplit=1)[0].strip(":")).sees


def filmed(play: Talk) -> None:
    play.tick(MORNING)
    play.take("Ada: start")
    play.take("Ada sends a video")


def test_an_answer_that_is_too_long_for_a_cue_asks_for_a_shorter_line(play: Talk) -> None:
    filmed(play)
    long = "push " * 50
    said = says(play, f"Marit replies to “Ada sends a video”: {long}")
    assert said.startswith("Sent to Ada")
    said = says(play, "Marit [Keep as Ada's cue for hip thrust]")
    assert said.startswith("That has 249 characters, and up to 200 fit on a card.")
    assert "249 characters" in says(play, f"Marit: {long}")

    says(play, "Marit: Push the floor away.")

    marit = play.someone("Marit")
    kept = play.house.reading(marit, lambda unit: unit.cues.standing())
    assert [each.text for each in kept] == ["Push the floor away."]
    assert kept[0].about.client_id is not None


def test_it_need_not_be_kept(play: Talk) -> None:
    filmed(play)
    says(play, f"Marit replies to “Ada sends a video”: {'push ' * 50}")
    says(play, "Marit [Keep as Ada's cue for hip thrust]")

    assert says(play, "Marit [Not now]") == "Sent to Ada. No cue was kept."


def test_an_answer_to_words_or_with_a_voice_alone_offers_no_cue(play: Talk) -> None:
    play.take("Ada: hello there")
    play.take("Marit replies to “hello there”: hello")
    assert play.someone("Marit").buttons == []
    filmed(play)
    play.take("Marit replies to “Ada sends a video” with a voice")
    assert play.someone("Marit").buttons == []


def test_a_video_that_was_taken_back_is_on_no_card(play: Talk) -> None:
    says(play, "Marit: /video Ada hip thrust")
    assert "not asked for a video: hip thrust" in says(play, "Marit [Undo]")
    play.tick(MORNING)

    assert "asks for a video" not in play.someone("Ada").sees


def test_a_photo_is_not_the_video_that_was_asked_for_and_another_exercise_neither(play: Talk) -> None:
    says(play, "Marit: /video Ada calf raise set 2")
    filmed(play)
    play.take("Ada sends a photo")
    marit = play.someone("Marit")
    assert "You asked for" not in marit.sees

    line = play.house.reading(marit, lambda unit: texts_of_talk(unit, date(2026, 4, 12)))
    assert "Ada: calf raise, set 2, asked Mon 6 April" in line[0]


@pytest.mark.parametrize("text", ["Ada hip thrust set 0", "Ada hip thrust set 40", "Ada flying"])
def test_a_video_of_what_there_is_not_is_not_asked_for(play: Talk, text: str) -> None:
    assert "Nothing was asked." in says(play, f"Marit: /video {text}")


def test_a_video_of_what_no_session_has_waits_for_one(play: Talk) -> None:
    assert "No session with it is planned now." in says(play, "Marit: /video Ada goblet squat")


def test_old_buttons_of_a_video_say_how_it_stands(play: Talk) -> None:
    marit = play.someone("Marit")
    says(play, "Marit: /video Ada")
    pick = marit.data("Hip thrust")
    says(play, "Marit [Hip thrust]")
    marit.tap_data(marit.forged("Undo", revision=0))
    assert "I ask Ada for a video" in marit.sees
    undo = marit.data("Undo")
    filmed(play)
    marit.tap_data(undo)
    assert marit.sees == "A video of Ada: hip thrust. It has come."
    marit.tap_data(pick)
    assert marit.sees == "A video of Ada: hip thrust. It has come."


def test_a_phrase_is_replaced_and_shown(play: Talk) -> None:
    says(play, "Marit: /phrase knee: one")
    assert "In place of: one" in says(play, "Marit: /phrase Knee: two")
    assert says(play, "Marit: /phrase knee") == "knee:\ntwo"
    assert says(play, "Marit: /phrase hip").startswith("You have no phrase “hip”.")
    assert "Nothing was saved." in says(play, "Marit: /phrase remove: words")


def test_office_hours_with_another_clock_name_the_place(play: Talk) -> None:
    says(play, "Marit: /office 9-18 mon wed fri")
    marit, ada = play.someone("Marit"), play.someone("Ada")
    client = play.house.client_of(marit, ada)
    play.house.reading(marit, lambda unit: unit.clients.change(client.id, zone="Europe/Helsinki"))
    play.house.now = datetime(2026, 4, 7, 12, tzinfo=LISBON)
    play.take("Ada: hello there")

    hers = [each.message.html for each in play.house.sends if each.chat_id == 1]
    told = [each for each in hers if "usually answers" in each]
    line = (
        "Marit usually answers Mon, Wed and Fri, 09:00 to 18:00, by the clock in Lisbon. "
        "If something hurts, say so here: I act at once. In an emergency call your local emergency number."
    )
    assert told == [line]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("9-18", "You usually answer every day, 09:00 to 18:00."),
        ("8:30 to 12:00 tue", "You usually answer Tue, 08:30 to 12:00."),
        ("18-9 mon", "From when to when"),
        ("9-18 someday", "From when to when"),
        ("25-26 mon", "From when to when"),
    ],
)
def test_office_hours_are_read(play: Talk, text: str, said: str) -> None:
    assert says(play, f"Marit: /office {text}").startswith(said)


def test_a_stop_sign_comes_first_and_brings_no_hours(play: Talk) -> None:
    says(play, "Marit: /office 9-10 mon")
    before = len(play.house.sends)
    play.take("Ada: I have chest pain")

    assert not any("usually answers" in each.message.html for each in play.house.sends[before:])


def test_a_note_can_be_taken_away_replaced_and_is_asked_for_again(play: Talk) -> None:
    says(play, "Marit: /note Harbour strength week 1: one")
    says(play, "Marit: /note Harbour strength week 1")
    marit = play.someone("Marit")
    assert "Now it says: one" in marit.sees
    says(play, "Marit: two")
    assert says(play, "Marit [Undo]").endswith("The one before stands again. Who has it already keeps it.")
    says(play, "Marit: /note Harbour strength week 1")
    says(play, "Marit: take it away")
    assert marit.sees.startswith("Taken back")
    says(play, "Marit: /note Harbour strength week 1")
    marit.does(media.media_sent, MediaSent("sticker", "f"))
    assert "Nothing was kept." in marit.sees
    assert "characters; up to 1000" in says(play, f"Marit: {'a' * 1001}")
    assert says(play, "Marit: not now") == "All right, nothing was changed."
    play.tick(MORNING)
    assert "Marit:" not in play.someone("Ada").sees


def test_a_voice_in_reply_to_a_client_is_no_note(play: Talk) -> None:
    play.take("Ada: hello there")
    says(play, "Marit: /note Harbour strength week 1")
    play.take("Marit replies to “hello there” with a voice")

    assert [each.message.media_kind for each in play.house.sends if each.chat_id == 1][-1] == "voice"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("9 May", "You are away on Sat 9 May. Nobody covers."),
        ("3-10 May covered by Jo Ash", "You are away from Sun 3 May to Sun 10 May. Jo Ash covers."),
        ("3 May to 3 December", "215 days"),
        ("3-10 May somewhere", "From when to when"),
        ("over", "You are not away."),
    ],
)
def test_an_absence_is_read(play: Talk, text: str, said: str) -> None:
    assert says(play, f"Marit: /absent {text}").startswith(said)


def test_an_absence_that_is_to_come_is_taken_back_by_its_end_and_old_buttons_say_so(play: Talk) -> None:
    says(play, "Marit: /absent 3-10 May")
    marit = play.someone("Marit")
    undo = marit.data("Undo")
    assert says(play, "Marit: /absent over").startswith("Taken back.")
    marit.tap_data(undo)
    assert "no longer stands" in marit.sees


def test_who_writes_while_she_is_away_is_told_once_and_no_load_rises(play: Talk) -> None:
    says(play, "Marit: /absent 6-20 April, cover Jo")
    for _ in range(2):
        play.take("Ada: hello there")
    told = [each for each in play.house.sends if "Jo covers" in each.message.html and each.chat_id == 1]
    assert len(told) == 1
    assert told[0].message.silent
    marit = play.someone("Marit")

    def held(unit: Any) -> tuple[CoachOrder, ...]:
        return coach_away.orders_with_absence((), date(2026, 4, 20), unit)

    [order] = play.house.reading(marit, held)
    assert (order.kind, order.from_on, order.until) == (OrderKind.HOLD, date(2026, 4, 6), date(2026, 4, 20))
    after = play.house.reading(
        marit, lambda unit: coach_away.orders_with_absence((), date(2026, 4, 21), unit)
    )
    own = CoachOrder(row_id=1, kind=OrderKind.LOAD, exercise="hip-thrust", mass=Mass.of(95, "kg"))
    hers = play.house.reading(
        marit, lambda unit: coach_away.orders_with_absence((own,), date(2026, 4, 10), unit)
    )
    assert (after, hers) == ((), (own,))
    [line] = play.house.reading(marit, lambda unit: texts_of_talk(unit, date(2026, 4, 12)))
    assert line == "You are away from Mon 6 April to Mon 20 April. Jo covers. No load rises in that time."


def next_of(play: Talk) -> str:
    lines = says(play, "Marit: /client Ada").splitlines()
    return next(line for line in lines if line.startswith("A Hip thrust"))


def test_a_raise_that_was_earned_waits_until_she_is_back(play: Talk) -> None:
    for day in (7, 14):
        play.tick(MORNING.replace(day=day))
        for step in ("Ada: start", "Ada: 90 10 10 10 10", "Ada: 4 left"):
            play.take(step)
    play.tick(MORNING.replace(day=20))
    earned = next_of(play)
    says(play, "Marit: /absent 20-25 April")
    held = next_of(play)
    says(play, "Marit: /absent over")

    assert "90 kg" not in earned.partition(".")[0], earned
    assert held.endswith("at 90 kg. You want nothing heavier: 90 kg again. Until Sat 25 April."), held
    assert next_of(play) == earned


COMMANDS = (
    (video_asked.video_said, video_asked.VideoSaid("Ben hip thrust")),
    (phrases.phrase_said, phrases.PhraseSaid("knee: mine")),
    (office_hours.office_said, office_hours.OfficeSaid("9-18")),
    (block_voice.note_said, block_voice.NoteSaid("Harbour strength week 1: mine")),
    (coach_away.absent_said, coach_away.AbsentSaid("3-10 May")),
)


@pytest.mark.parametrize(("usecase", "command"), COMMANDS)
def test_only_a_coach_says_it(play: Talk, usecase: Any, command: object) -> None:
    play.house.now += timedelta(minutes=1)
    ada = play.someone("Ada")
    ada.does(usecase, command)

    assert ada.sees == "Only a coach can do that here. Nothing was changed."
