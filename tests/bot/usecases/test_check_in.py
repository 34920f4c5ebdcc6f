"""The weekly check-in: taps, words, lines of the body, a voice, old cards, and nobody else's."""

from datetime import date, timedelta
from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action, Send
from bot.store.units import Units
from bot.usecases import check_in, forwarding
from bot.usecases.week_clock import CHECK_IN


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-12 18:00",))


def asked(play: Talk, coach_id: int = 100, client_id: int = 1) -> Any:
    coach = play.house.someone(coach_id)
    client = play.house.client_of(coach, play.house.someone(client_id))
    return play.house.reading(
        coach, lambda unit: unit.due_questions.on(client.id, CHECK_IN, date(2026, 4, 12))
    )


def said(play: Talk) -> list[str]:
    return [answer for _, answer in (asked(play).answers or {}).get("said", [])]


def sees(play: Talk, user_id: int = 1) -> str:
    return play.house.someone(user_id).sees


def test_it_is_one_message_that_notifies_and_counts_as_unasked(play: Talk) -> None:
    sent = [each for each in play.house.sends if each.key.startswith("checkin:") and each.chat_id == 1]

    assert [(each.unasked, each.message.silent) for each in sent] == [(True, False)]
    assert not any(each.key.startswith("plan:") for each in play.house.sends)


def test_the_plan_after_it_makes_no_sound(play: Talk) -> None:
    for step in ("Ada [Hard]", "Ada [Skip]", "Ada [Nothing]", "Ada [Skip]"):
        play.take(step)

    (plan,) = [each for each in play.house.sends if each.key.startswith("plan:") and each.chat_id == 1]
    assert (plan.unasked, plan.message.silent) == (False, True)
    assert said(play) == ["hard", "nothing"]
    assert asked(play).answered_at is not None


def test_what_was_answered_so_far_is_kept_when_it_is_left(play: Talk) -> None:
    play.take("Ada [Easy]")
    play.take("Ada [Stress low]")

    assert said(play) == ["easy"]
    assert asked(play).answered_at is None
    assert "Stress: low" in sees(play)


def test_an_answer_is_of_one_client_only(play: Talk) -> None:
    play.take("Ada [Easy]")

    assert asked(play, 900, 901).answers is None


def test_pain_at_any_question_goes_its_own_way_and_it_is_taken_up_again(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    play.take("Ada [No]")
    play.take("Ada: /checkin")

    assert sees(play).startswith("Your check-in · 1 of 4")
    play.take("Ada: hard")
    assert said(play) == ["hard"]


def test_a_stop_sign_comes_before_everything_and_the_plan_does_not_come(play: Talk) -> None:
    lines = play.take("Ada: chest pain and short of breath")

    assert any("112" in line or "emergency" in line for line in lines)
    for step in ("Ada [Hard]", "Ada [Skip]", "Ada [Nothing]", "Ada [Skip]"):
        play.take(step)
    assert not any(each.key.startswith("plan:") for each in play.house.sends)


def test_where_it_hurts_is_asked_when_a_worry_does_not_say(play: Talk) -> None:
    play.take("Ada [Easy]")
    play.take("Ada [Skip]")
    lines = play.take("Ada: something hurts since friday")

    assert any("Where does it hurt?" in line for line in lines)
    assert said(play) == ["easy", "something hurts since friday"]


def test_a_worry_with_two_readings_of_the_body_is_asked_about(play: Talk) -> None:
    play.take("Ada [Easy]")
    play.take("Ada [Skip]")
    lines = play.take("Ada: pain left kneee 4")

    assert any("kneee" in line for line in lines)
    assert said(play) == ["easy", "pain left kneee 4"]


def test_soreness_in_a_line_is_kept_too(play: Talk) -> None:
    play.take("Ada [Easy]")
    play.take("Ada [Skip]")
    play.take("Ada: sore quads 6")

    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    kept = play.house.reading(coach, lambda unit: unit.body.since(client.id, date(2026, 4, 1), "soreness"))
    assert [(each.site, each.score) for each in kept] == [("thigh front", 6)] or len(kept) == 1


def test_sets_go_to_the_exercise_while_a_session_is_open(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-10 07:00")
    play.take("Ada [Start]")
    play.house.now += timedelta(minutes=1)
    play.take("Marit: /settings")
    play.take("Marit: check-in fri")
    play.take("tick 2026-04-10 18:00")
    play.take("Ada [Easy]")
    play.take("Ada: 70 6 6 6 6")

    assert "Noted: Back squat 70 kg × 6 6 6 6." in sees(play)
    assert sees(play).find("check-in") == -1


def test_a_check_in_does_not_take_words_from_a_session_that_is_open(units: Units) -> None:
    play = Talk(units)
    play.take("Marit: /settings")
    play.take("Marit: check-in fri")
    play.take("tick 2026-04-10 07:00")
    play.take("Ada [Start]")
    play.take("tick 2026-04-10 18:00")
    lines = play.take("Ada: hard today")

    assert any("Ada writes:" in line for line in lines)


def test_a_voice_message_is_the_answer_and_goes_to_the_coach_with_the_question(play: Talk) -> None:
    play.take("Ada [Easy]")
    play.take("Ada [Skip]")
    lines = play.take("Ada sends a voice")

    assert "        Check-in: Is anything worrying you?" in lines
    assert said(play) == ["easy", "(a voice message)"]


@pytest.mark.parametrize("step", ["Ada sends a photo", "Ada sends a voice: pain left knee 4"])
def test_a_photo_or_a_voice_with_words_under_it_is_no_answer(play: Talk, step: str) -> None:
    play.take("Ada [Easy]")
    play.take(step)

    assert said(play) == ["easy"]


def test_a_voice_message_belongs_to_the_exercise_in_a_session(units: Units) -> None:
    play = Talk(units)
    play.take("tick 2026-04-10 07:00")
    play.take("Marit: /settings")
    play.take("Marit: check-in fri")
    play.take("tick 2026-04-10 18:00")
    play.take("Ada [Easy]")
    play.take("Ada [Start]")
    lines = play.take("Ada sends a voice")

    assert any("during back squat" in line for line in lines)


def test_a_voice_message_on_the_day_after_the_next_is_no_answer(play: Talk) -> None:
    play.take("Ada [Easy]")
    play.house.now += timedelta(days=2)
    play.take("Ada sends a voice")
    lines = play.take("Ada: nothing")

    assert said(play) == ["easy"]
    assert any("Ada writes:" in line or "Passed on" in line for line in lines)


def test_a_tap_that_is_not_offered_shows_the_question_again(play: Talk) -> None:
    ada = play.house.someone(1)
    ada.tap_data(ada.forged("Easy", action=Action.PICK, argument=99))
    ada.tap_data(ada.forged("Easy", action=Action.UNDO))

    assert said(play) == []
    assert ada.sees.startswith("Your check-in · 1 of 4")


def test_an_old_button_shows_where_it_stands_and_an_answered_card_stays(play: Talk) -> None:
    play.take("Ada keeps [Easy] as easy")
    for step in ("Ada [Hard]", "Ada [Skip]", "Ada [Nothing]"):
        play.take(step)
    play.take("Ada taps the old easy")
    shown = sees(play)
    play.take("Ada [Skip]")
    after = play.take("Ada taps the old easy")

    assert shown.startswith("Your check-in · 4 of 4")
    assert after == []
    assert said(play) == ["hard", "nothing"]


def test_it_is_over_two_days_later(play: Talk) -> None:
    play.house.now += timedelta(days=2)
    play.take("Ada [Easy]")

    assert sees(play) == "Your check-in\n\nThis one is over. Nothing is missing."
    assert said(play) == []


def test_a_stranger_and_a_coach_get_their_own(play: Talk) -> None:
    stranger = play.house.someone(555)
    stranger.does(check_in.check_in, check_in.CheckIn())
    play.take("Orla: /checkin")

    assert "check-in" not in stranger.sees
    assert sees(play, 900).startswith("Your check-in, Sunday")


def test_nobody_is_asked_when_a_coach_has_no_questions(units: Units) -> None:
    play = Talk(units)
    for _ in range(4):
        play.take("Marit: /checkin out 1")
    play.take("tick 2026-04-12 18:00")
    play.take("tick 2026-04-12 18:01")

    assert not any(each.key.startswith("checkin:") and each.chat_id == 1 for each in play.house.sends)
    (plan,) = [each for each in play.house.sends if each.key.startswith("plan:") and each.chat_id == 1]
    assert (plan.unasked, plan.message.silent) == (True, False)


def test_nobody_is_asked_about_a_week_in_which_the_plan_was_on_hold(units: Units) -> None:
    play = Talk(units)
    play.take("Ada: /ill")
    play.take("Ada [Hospital, operation, concussion]")
    for on in ("07", "09", "10"):
        play.take(f"tick 2026-04-{on} 07:00")
    play.take("Marit [Release the plan]")
    play.take("Marit [Yes, release]")
    play.take("tick 2026-04-12 18:00")
    play.take("tick 2026-04-12 18:01")

    assert not any(each.key.startswith("checkin:") and each.chat_id == 1 for each in play.house.sends)
    (plan,) = [each for each in play.house.sends if each.key.startswith("plan:") and each.chat_id == 1]
    assert (plan.unasked, plan.message.silent) == (True, False)


def test_it_does_not_take_the_words_that_another_question_waits_for(units: Units) -> None:
    play = Talk(units)
    play.take("Ada: /settings")
    play.take("Ada [Hour]")
    play.take("tick 2026-04-12 18:00")
    play.take("Ada: 6:30")

    assert "06:30" in sees(play)


def test_a_line_goes_nowhere_else_when_the_coach_has_no_chat(play: Talk) -> None:
    marit = play.house.someone(100)
    with play.units.open(marit.coach_id) as unit:
        unit.accounts.unbind(100)
    play.take("Ada [Easy]")
    play.take("Ada [Skip]")
    effects = play.house.someone(1).does(forwarding_free, "I worry")

    assert not any(isinstance(each, Send) and each.chat_id == 100 for each in effects)


def forwarding_free(command: object, person: Any, unit: Any, now: Any) -> Any:
    client = unit.clients.get(person.client_id)
    return check_in.typed(str(command), client, person, unit, now) or []


def test_media_of_somebody_who_has_no_question_open_goes_its_usual_way(units: Units) -> None:
    play = Talk(units)
    lines = play.take("Ada sends a voice")

    assert any("Ada sends a voice message." in line for line in lines)
    assert forwarding.MediaSent("voice", "f").caption == ""
