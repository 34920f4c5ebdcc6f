"""Being ill: what is kept, what comes and does not come of it, and that none of it is a miss."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from dialogs.due_work import due_work
from dialogs.talks import LISBON, Talk

from bot.messages import Send
from bot.store.units import Unit, Units
from bot.usecases import absence
from core.oversight.misses import tally

TUESDAY = "tick 2026-04-07 07:00"
CLASSES = ["Head cold, no fever", "Fever, chest, stomach or aches", "Hospital, operation, concussion"]


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def look(play: Talk, what: Any, coach: str = "Marit", client: str = "Ada") -> Any:
    theirs = play.house.client_of(play.someone(coach), play.someone(client)).id
    with play.units.open(play.someone(coach).coach_id) as unit:
        return what(unit, theirs)


def ills(play: Talk) -> list[tuple[str, date, date | None]]:
    found = look(play, lambda unit, ada: unit.illnesses.bearing(ada, date(2026, 1, 1)))
    return [(each.kind, each.since, each.free_on) for each in found]


def plan(play: Talk) -> list[str]:
    def rows(unit: Unit, ada: int) -> list[str]:
        running = unit.blocks.running(ada)
        assert running is not None
        found = sorted(unit.moves.of_assignment(running.id), key=lambda each: (each.local_on, each.id))
        return [
            f"{each.local_on:%d} {each.state}" + (f" {each.left_reason}" if each.left_reason else "")
            for each in found
            if each.local_on < date(2026, 4, 15)
        ]

    return look(play, rows)


def sees(play: Talk, name: str = "Ada") -> str:
    return play.someone(name).sees


def test_somebody_ill_has_no_card_and_none_of_it_is_due(play: Talk) -> None:
    play.take("Ada: I have a fever")
    for on in ("07", "09", "10", "13"):
        play.take(f"tick 2026-04-{on} 07:00")

    assert plan(play) == [
        "07 left_out ill",
        "09 left_out ill",
        "10 left_out ill",
        "13 left_out ill",
        "14 planned",
    ]
    past = look(play, lambda unit, ada: unit.oversight.past(ada, date(2026, 4, 1))[ada])
    assert tally(past, date(2026, 4, 1), date(2026, 4, 30)).due == 0


def test_next_in_line_what_was_due_comes_after_it(play: Talk) -> None:
    play.take("Marit: /settings")
    play.take("Marit: next in line")
    play.take("Ada: I have a fever")
    play.take(TUESDAY)
    play.take("Ada [Free of it since yesterday]")
    play.take("tick 2026-04-09 07:00")

    assert sees(play).startswith("Lower A · week 1 of 4 · Thu 9 April")


def test_the_tick_asks_once_however_often_it_runs(play: Talk) -> None:
    play.take("Ada: flu")
    play.take(TUESDAY)
    now = datetime(2026, 4, 7, 7, tzinfo=LISBON)

    hers = look(play, lambda unit, ada: unit.due_questions.of_client(ada, absence.ASKED, date(2026, 4, 1)))
    assert [(each.local_on, each.sent_at is not None) for each in hers] == [(date(2026, 4, 7), True)]
    assert not [each for each in due_work(play.units, now) if each[1].__name__ == "ask"]


def test_a_question_on_an_ill_morning_is_one_that_nobody_asked_for(play: Talk) -> None:
    play.take("Ada: flu")
    play.take(TUESDAY)

    asked = [each for each in play.house.sends if isinstance(each, Send) and each.unasked]
    assert [each.message.silent for each in asked][-1] is False
    assert "How are you today?" in asked[-1].message.html


def test_what_is_known_by_the_morning_is_not_asked(play: Talk) -> None:
    play.take("Ada: flu")
    play.take("Ada: better since yesterday")
    play.take(TUESDAY)

    assert plan(play)[0] == "07 left_out ill"
    assert "How are you" not in sees(play)


def test_free_of_it_for_long_enough_today_s_card_comes_after_all(play: Talk) -> None:
    play.take("Ada: flu")
    look(
        play,
        lambda unit, _: unit.connection.exec_driver_sql("UPDATE illness SET since = '2026-04-01'"),
    )
    play.take(TUESDAY)

    play.take("Ada [Free of it for longer]")
    assert "so training goes on today" in sees(play)
    play.take("tick 2026-04-07 07:10")

    assert sees(play).startswith("Lower A · week 1 of 4 · Tue 7 April")
    assert "Late today" not in sees(play)


@pytest.mark.parametrize("label", CLASSES)
def test_a_session_that_was_begun_keeps_what_was_done(play: Talk, label: str) -> None:
    play.take(TUESDAY)
    play.take("Ada [Start]")
    play.take("Ada: 90 8 8 8 8")
    play.take("Ada: /ill")
    play.take(f"Ada [{label}]")
    if label == CLASSES[0]:
        play.take("Ada [Leave today out]")

    def done(unit: Unit, ada: int) -> tuple[str, list[str]]:
        session = unit.sessions.of_client(ada, ("started", "asking", "held"))[0]
        return session.state, [each.state for each in unit.sessions.items(session.id)][:2]

    expected = "held" if label == CLASSES[2] else "asking"
    assert look(play, done)[0] == expected
    assert look(play, done)[1][0] == "done"


def test_a_cold_before_the_hour_makes_today_s_card_easy_or_leaves_it_out(play: Talk) -> None:
    play.house.now = datetime(2026, 4, 7, 5, tzinfo=LISBON)
    play.take("Ada: I have a cold")
    play.take("Ada: easy day")
    assert "Your card comes at its hour, made easy." in sees(play)
    play.take(TUESDAY)
    assert "Hip thrust  2 × 8 at 70 kg" in sees(play)

    play.house.now = datetime(2026, 4, 9, 5, tzinfo=LISBON)
    play.take("Ada: I have a cold")
    play.take("Ada: leave it out")
    play.take("tick 2026-04-09 07:00")

    assert plan(play)[1] == "09 left_out ill"


def test_an_easy_day_changes_what_is_still_to_do_in_a_session_that_was_begun(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Ada [Start]")
    play.take("Ada: /ill")
    play.take("Ada: cold")
    play.take("Ada [Easy day]")

    assert "2 × 8 at 70 kg" in sees(play)


def test_a_cold_is_over_by_itself_or_when_it_is_said(play: Talk) -> None:
    play.take("Ada: a cold")
    assert ills(play) == [("head cold", date(2026, 4, 6), date(2026, 4, 13))]

    play.take("Ada [It is gone]")

    assert ills(play) == [("head cold", date(2026, 4, 6), date(2026, 4, 6))]
    assert sees(play) == "Good. Your plan goes on as before."


def test_ill_again_while_it_lasts_is_the_same_illness(play: Talk) -> None:
    play.take("Ada: fever")
    play.take("tick 2026-04-07 06:00")
    play.take("Ada: I have a fever")

    assert ills(play) == [("fever or ill all over", date(2026, 4, 6), None)]
    assert "ill since Mon 6 April" in sees(play)


def test_a_miss_for_illness_asks_what_it_was_and_how_it_is_now(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("tick 2026-04-08 12:00")
    play.take("Ada [Ill]")
    play.take("Ada [Fever, chest, stomach or aches]")
    assert sees(play).startswith("Noted: ill since Tue 7 April.\n\nHow are you today?")
    play.take("Ada [Free of it since today]")

    assert ills(play) == [("fever or ill all over", date(2026, 4, 7), date(2026, 4, 8))]
    assert "goes on from Fri 10 April" in sees(play)


def test_free_of_it_is_never_before_it_began(play: Talk) -> None:
    play.take("Ada: fever")
    play.take("Ada: better since 1 January")

    assert ills(play)[0][2] == date(2026, 4, 6)


@pytest.mark.parametrize("words", ["not ill", "never mind"])
def test_not_ill_notes_nothing(play: Talk, words: str) -> None:
    play.take("Ada: /ill")
    play.take(f"Ada: {words}")

    assert ills(play) == []
    assert sees(play) == "Good. Nothing was noted."


def test_an_old_button_shows_how_things_stand(play: Talk) -> None:
    play.take("Ada: /ill")
    play.take("Ada keeps [Head cold, no fever] as cold")
    play.take("Ada: fever")
    play.take("Ada taps the old cold")
    assert sees(play).startswith("Noted: ill since Mon 6 April. No training now.")

    play.take("Ada [I am free of it]")
    play.take("Ada taps the old cold")
    assert sees(play).startswith("How are you today?")
    play.take("Ada: still ill")
    play.take("Ada taps the old cold")
    assert sees(play).startswith("That was from before.")


def test_a_stop_sign_after_the_command_comes_first(play: Talk) -> None:
    play.take("Ada: /ill crushing chest pain")

    assert ills(play) == []
    assert "This may be an emergency" in sees(play)


def test_a_coach_and_a_stranger_are_answered_as_always(play: Talk) -> None:
    play.take("Marit: /ill")
    assert "clear nobody" in sees(play, "Marit")
    play.take("Somebody: /ill fever")
    assert ills(play) == []


def test_another_coach_knows_nothing_of_it(play: Talk) -> None:
    play.take("Ada: fever")
    kept = look(play, lambda unit, ada: unit.illnesses.newest(ada))

    def ben(unit: Unit, client: int) -> tuple[list[Any], Any]:
        return unit.illnesses.bearing(client, date(2026, 1, 1)), unit.illnesses.bearing(
            kept.client_id, date(2026, 1, 1)
        )

    assert look(play, ben, "Orla", "Ben") == ([], [])
    with pytest.raises(LookupError):
        look(play, lambda unit, _: unit.illnesses.get(kept.id), "Orla", "Ben")
    assert not any("is ill since" in str(each.html) for each in play.someone("Orla").screen.values())
    assert any("is ill since" in str(each.html) for each in play.someone("Marit").screen.values())


def test_illness_is_asked_about_apart_for_each_client(play: Talk) -> None:
    play.take("Ada: /ill")
    play.take("Ben: /ill")
    play.take("Ada: fever")
    play.take("Ben: cold")

    assert ills(play)[0][0] == "fever or ill all over"
    ben = look(play, lambda unit, ben: unit.illnesses.newest(ben), "Orla", "Ben")
    assert ben.kind == "head cold"


def test_a_release_lets_the_first_session_be_the_lighter_one(play: Talk) -> None:
    play.take("Ada: /ill")
    play.take("Ada [Chest trouble that stays]")
    assert look(play, lambda unit, ada: unit.clients.get(ada).frozen_for) == "illness"
    play.take("Marit [Release the plan]")
    play.take("Marit [Yes, release]")
    play.take(TUESDAY)

    assert "Hip thrust  2 × 8 at 70 kg" in sees(play)
    kept = look(play, lambda unit, ada: unit.illnesses.newest(ada))
    assert kept.released_on == date(2026, 4, 6)
    assert timedelta(0) == kept.released_on - kept.since
