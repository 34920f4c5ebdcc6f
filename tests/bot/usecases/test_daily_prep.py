"""A daily prep, set by a coach: what is read back, who may, and what comes to whom."""

from datetime import datetime, time

import pytest
from dialogs.talks import LISBON, Talk
from setting_out import plain_text
from sqlalchemy import select, update

from bot.messages import Action, Send
from bot.store.tables import account, client, daily_prep
from bot.store.units import Units
from bot.usecases.daily_card import SendPrep, due_on, next_due, send_prep
from bot.usecases.daily_prep import PrepAsked, prep_asked
from core.errors import PrepUnread, UnknownClient

REST_DAY = datetime(2026, 4, 8, 7, tzinfo=LISBON)
TRAINING_DAY = datetime(2026, 4, 7, 7, tzinfo=LISBON)


@pytest.fixture
def play(units: Units) -> Talk:
    made = Talk(units)
    made.house.now = datetime(2026, 4, 6, 18, tzinfo=LISBON)
    return made


def asks(play: Talk, text: str, who: str = "Marit") -> str:
    person = play.someone(who)
    person.does(prep_asked, PrepAsked(text))
    return person.sees


def change(play: Talk, statement) -> None:
    with play.units.engine.begin() as connection:
        connection.execute(statement)


def rows(play: Talk) -> list[tuple[int, bool]]:
    with play.units.engine.connect() as connection:
        query = select(daily_prep.c.client_id, daily_prep.c.ended_at).order_by(daily_prep.c.id)
        return [(row.client_id, row.ended_at is None) for row in connection.execute(query)]


def to_ada(play: Talk, at: datetime) -> list[str]:
    """What Ada gets of daily preps when the clock is moved to an instant."""
    return [line.strip() for line in play.tick(at) if "Daily prep" in line]


def test_a_daily_prep_is_read_back_with_its_drills_and_its_hour(play: Talk) -> None:
    said = asks(play, "Ada: hips, low back")

    assert said.splitlines()[:3] == [
        "Ada, every day: hip, low back",
        "About 3 min:",
        "• Half-kneeling hip stretch  30 s a side",
    ]
    assert said.splitlines()[-1].endswith("at 07:00, clock of Lisbon.")


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ("Ada: foo", PrepUnread),
        ("Ada: 5 min", PrepUnread),
        ("Ben: hips", UnknownClient),
        ("Zoe", UnknownClient),
    ],
)
def test_what_cannot_be_read_and_a_client_of_another_coach_change_nothing(
    play: Talk, text: str, error: type[Exception]
) -> None:
    with pytest.raises(error):
        asks(play, text)

    assert rows(play) == []


@pytest.mark.parametrize("who", ["Ada", "Somebody"])
def test_only_a_coach_sets_one(play: Talk, who: str) -> None:
    assert asks(play, "Ada: hips", who) == "Only a coach can do that here. Nothing was changed."
    assert rows(play) == []


def test_a_new_one_takes_the_place_of_the_one_before_and_taking_it_back_brings_that_again(play: Talk) -> None:
    marit = play.someone("Marit")
    asks(play, "Ada: hips")
    asks(play, "Ada: neck")

    marit.tap("Take it back")

    assert marit.sees == "Taken back. Ada: every day hip, as before."
    assert [running for _, running in rows(play)] == [False, False, True]


def test_the_first_one_taken_back_leaves_none_and_stopping_is_taken_back_too(play: Talk) -> None:
    marit = play.someone("Marit")
    asks(play, "Ada: hips")
    marit.tap("Take it back")
    assert marit.sees == "Taken back. Ada: no daily prep, as before."

    asks(play, "Ada: hips")
    assert asks(play, "ada stop") == "Ada has no daily prep any more."
    marit.tap("Take it back")
    assert marit.sees == "Taken back. Ada: every day hip, as before."


def test_a_button_from_before_a_newer_one_changes_nothing(play: Talk) -> None:
    marit = play.someone("Marit")
    asks(play, "Ada: hips")
    old = marit.data("Take it back")
    asks(play, "Ada: neck")

    marit.tap_data(old)

    assert marit.sees.startswith("Ada, every day: neck")
    newer = marit.data("Take it back")
    asks(play, "Ada stop")
    marit.tap_data(newer)
    assert marit.sees.startswith("Ada has no daily prep.")


@pytest.mark.parametrize("text", ["Ada", "Ada stop", "Ada: none"])
def test_where_none_is_set_that_is_said(play: Talk, text: str) -> None:
    assert asks(play, text).startswith("Ada has no daily prep. /prep Ada: hips, low back sets one.")


def test_what_hurts_4_or_more_is_left_out_and_the_coach_reads_it(play: Talk) -> None:
    play.take("Ada: pain right hip 4")
    play.take("Ada: pain lower back 3")

    said = asks(play, "Ada: hips, low back")

    assert "Left out while it hurts 4 or more: hip." in said
    assert "Cat and camel" in said
    assert "hip stretch" not in said


def test_where_all_of_it_hurts_nothing_goes_out_and_the_coach_reads_it(play: Talk) -> None:
    play.take("Ada: pain right knee 5")

    assert "Nothing of it is left now" in asks(play, "Ada: knee")
    assert to_ada(play, REST_DAY) == []
    # Seven days later it is history, and comes again.
    assert to_ada(play, datetime(2026, 4, 15, 7, tzinfo=LISBON)) != []


def test_on_a_rest_day_it_comes_once_without_a_sound_and_on_a_training_day_with_the_card(play: Talk) -> None:
    asks(play, "Ada: neck")

    assert to_ada(play, TRAINING_DAY) == []
    assert to_ada(play, REST_DAY) == ["Daily prep, about 1 min: neck, shoulder, upper back."]
    assert to_ada(play, REST_DAY) == []
    (sent,) = [one for one in play.house.sends if "daily-prep:" in one.key]
    assert sent.message.silent
    assert sent.chat_id == 1
    assert sent.not_after == datetime(2026, 4, 9, 0, tzinfo=LISBON)


def test_the_card_of_a_training_day_has_it_first_and_no_drill_twice(play: Talk) -> None:
    asks(play, "Ada: chin glide, ankle rock")
    play.tick(TRAINING_DAY)

    drills, told = [], play.take("Ada [Prep]")
    while here := [place for place, line in enumerate(told) if line.endswith(" to go")]:
        drills.append(told[here[0] + 1].strip().split("  ")[0])
        told = play.take("Ada: next")

    assert drills[:2] == ["Chin glide", "Ankle rock"]
    assert len(drills) == len(set(drills))


@pytest.mark.parametrize(
    "state",
    [
        {"frozen_at": REST_DAY, "frozen_for": "today"},
        {"state": "paused"},
        {"state": "stopped"},
    ],
)
def test_whoever_is_on_hold_paused_or_gone_gets_none(play: Talk, state: dict[str, object]) -> None:
    asks(play, "Ada: hips")
    change(play, update(client).where(client.c.name == "Ada").values(**state))

    assert to_ada(play, REST_DAY) == []


def test_whoever_cannot_be_reached_gets_none_and_again_when_she_can(play: Talk) -> None:
    asks(play, "Ada: hips")
    change(play, update(account).where(account.c.user_id == 1).values(reachable=False))
    assert to_ada(play, REST_DAY) == []

    change(play, update(account).where(account.c.user_id == 1).values(reachable=True))
    assert to_ada(play, datetime(2026, 4, 11, 7, tzinfo=LISBON)) != []


@pytest.mark.parametrize(
    ("awake", "comes"),
    [
        ("2026-04-08 11:00", True),
        ("2026-04-08 20:00", True),
        ("2026-04-08 20:30", False),
        ("2026-04-08 23:00", False),
    ],
)
def test_after_an_outage_it_comes_later_on_its_day_or_not_at_all(play: Talk, awake: str, comes: bool) -> None:
    asks(play, "Ada: hips")
    play.tick(TRAINING_DAY)

    assert bool(to_ada(play, datetime.fromisoformat(awake).replace(tzinfo=LISBON))) is comes
    # And the next rest day has its own.
    assert to_ada(play, datetime(2026, 4, 11, 7, tzinfo=LISBON)) != []


@pytest.mark.parametrize(
    ("hour", "due"), [("05:30", "07:00"), ("06:59", "07:00"), ("19:15", "19:15"), ("22:30", "20:00")]
)
def test_it_is_never_due_in_quiet_hours(play: Talk, hour: str, due: str) -> None:
    ada = play.house.client_of(play.someone("Marit"), play.someone("Ada"))
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.clients.change(ada.id, hour=time.fromisoformat(hour))
        changed = unit.clients.get(ada.id)

    found = due_on(REST_DAY.date(), changed).astimezone(LISBON)

    assert (found.date(), f"{found:%H:%M}") == (REST_DAY.date(), due)


def test_it_follows_the_clients_own_clock_through_the_nights_when_clocks_change(play: Talk) -> None:
    ada = play.house.client_of(play.someone("Marit"), play.someone("Ada"))
    before = datetime(2026, 10, 24, 8, tzinfo=LISBON)

    # 07:00 is 06:00 UTC in summer and 07:00 UTC from 25 October 2026 on.
    assert next_due(ada, before).isoformat() == "2026-10-25T07:00:00+00:00"
    assert due_on(before.date(), ada).isoformat() == "2026-10-24T06:00:00+00:00"


def test_a_changed_hour_counts_from_the_same_day(play: Talk) -> None:
    asks(play, "Ada: hips")
    play.tick(TRAINING_DAY)
    change(play, update(client).where(client.c.name == "Ada").values(hour=time(18, 30)))

    assert to_ada(play, REST_DAY) == []
    assert to_ada(play, datetime(2026, 4, 8, 18, 30, tzinfo=LISBON)) != []
    assert to_ada(play, datetime(2026, 4, 8, 19, tzinfo=LISBON)) == []


def test_her_settings_move_it_at_once(play: Talk) -> None:
    asks(play, "Ada: hips")
    for step in ("Ada: /settings", "Ada [Hour]", "Ada [18:00]"):
        play.take(step)

    with play.units.engine.connect() as connection:
        due_at = connection.execute(select(daily_prep.c.due_at)).scalar_one()
    assert due_at.astimezone(LISBON).hour == 18


def test_a_clock_that_was_set_back_does_not_keep_it_away_for_days(play: Talk) -> None:
    asks(play, "Ada: hips")
    change(play, update(daily_prep).values(due_at=datetime(2026, 5, 20, 7, tzinfo=LISBON)))

    assert to_ada(play, TRAINING_DAY) == []
    assert to_ada(play, REST_DAY) != []


def test_one_that_was_stopped_or_is_another_coachs_goes_nowhere(play: Talk) -> None:
    asks(play, "Ada: hips")
    marit, orla = play.someone("Marit"), play.someone("Orla")
    with play.units.open(marit.coach_id) as unit:
        ada = unit.accounts.find(1)
        kept = unit.daily_preps.running(ada.client_id)
    for coach in (orla, marit):
        if coach is marit:
            asks(play, "Ada stop")
        with play.units.open(coach.coach_id) as unit:
            assert send_prep(SendPrep(kept.id), None, unit, REST_DAY) == []


def test_leaving_ends_it(play: Talk) -> None:
    asks(play, "Ada: hips")
    ada = play.someone("Ada")
    ada.stop()
    ada.tap("Stop")

    assert [running for _, running in rows(play)] == [False]


@pytest.mark.parametrize("word", ["done", "Daily prep done."])
def test_its_buttons_have_words_too(play: Talk, word: str) -> None:
    asks(play, "Ada: neck")
    play.tick(REST_DAY)
    ada = play.someone("Ada")

    ada.type("step by step")
    assert ada.sees.startswith("Daily prep, about 1 min. Easy, and without pain")
    ada.type("back")
    assert ada.buttons == ["Step by step", "Done"]
    ada.type(word)
    assert ada.sees == "Daily prep done: neck, shoulder, upper back."


def test_done_is_the_sessions_word_while_one_is_open(play: Talk) -> None:
    asks(play, "Ada: neck")
    play.tick(REST_DAY)
    ada = play.someone("Ada")
    with play.units.open(play.someone("Marit").coach_id) as unit:
        planned = unit.sessions.next_planned(unit.accounts.find(1).client_id)
        unit.sessions.change(planned.id, local_on=REST_DAY.date(), due_at=REST_DAY)
    play.tick(datetime(2026, 4, 8, 8, tzinfo=LISBON))

    ada.type("done")
    assert "Daily prep done" not in ada.sees
    ada.type("daily prep")
    assert ada.sees.startswith("Daily prep, about 1 min.")


def test_what_has_come_to_hurt_since_it_was_sent_is_not_shown_any_more(play: Talk) -> None:
    asks(play, "Ada: neck, ankle rock")
    play.tick(REST_DAY)
    ada = play.someone("Ada")
    play.take("Ada: pain neck 5")

    ada.tap("Step by step")
    assert "Chin glide" not in ada.sees
    assert "Ankle rock" in ada.sees
    play.take("Ada: pain left ankle 6")
    ada.type("step by step")
    assert ada.sees == "Nothing of the daily prep today: all of it moves what hurts."


def test_an_old_button_shows_it_as_it_stands(play: Talk) -> None:
    asks(play, "Ada: neck")
    play.tick(REST_DAY)
    ada = play.someone("Ada")
    old = ada.data("Done")
    ada.tap("Step by step")

    ada.tap_data(old)
    assert ada.sees.startswith("Daily prep, about 1 min. Easy")
    ada.tap_data(ada.forged("Done", action=Action.PICK))
    assert ada.sees.startswith("Daily prep, about 1 min. Easy")
    ada.tap("Done")
    ada.tap_data(old)
    assert ada.sees == "Daily prep done: neck, shoulder, upper back."


def test_yesterdays_words_are_not_todays(play: Talk) -> None:
    asks(play, "Ada: neck")
    play.tick(REST_DAY)
    play.house.now = datetime(2026, 4, 9, 6, tzinfo=LISBON)

    play.someone("Ada").type("done")

    assert "Daily prep done" not in play.someone("Ada").sees


def test_the_coach_reads_how_often_it_was_tapped_as_done_and_what_hurts(play: Talk) -> None:
    asks(play, "Ada: neck")
    play.tick(REST_DAY)
    play.take("Ada [Done]")

    assert "Tapped as done: 1 of 1 in the last 7 days." in asks(play, "Ada")
    play.take("Ada: pain neck 5")
    told = play.take("Marit: /client Ada")
    assert "Daily prep: neck (neck left out while it hurts)." in [line.strip() for line in told]


def test_a_client_taps_nothing_of_her_coachs_question(play: Talk) -> None:
    asks(play, "Ada: hips")
    data = play.someone("Marit").data("Take it back")

    play.someone("Ada").tap_data(data)
    play.someone("Orla").tap_data(data)

    assert [running for _, running in rows(play)] == [True]
    assert plain_text(play.someone("Marit").last).startswith("Ada, every day: hip")


def test_nobody_is_asked_twice_on_a_day_by_a_clock_that_went_back(play: Talk) -> None:
    asks(play, "Ada: neck")
    play.tick(REST_DAY)
    change(play, update(daily_prep).values(due_at=REST_DAY))

    assert to_ada(play, datetime(2026, 4, 8, 7, 5, tzinfo=LISBON)) == []
    assert len([one for one in play.house.sends if isinstance(one, Send) and "daily-prep:" in one.key]) == 1
