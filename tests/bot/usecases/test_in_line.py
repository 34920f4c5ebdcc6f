"""Next in line: whatever keeps a session from being done, it comes again, and no debt comes with the choice itself."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import LISBON, Talk
from sqlalchemy import update

from bot.messages import Person
from bot.store.outages import spare
from bot.store.tables import outbox
from bot.store.units import Unit, Units
from bot.usecases import setting_up
from bot.usecases.in_line import ends_on
from bot.usecases.layout import carry_on, lay_out
from bot.usecases.undelivered import NeverShown, never_shown
from core.checkin.training_log import Session

TUESDAY = "tick 2026-04-07 07:00"


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "Marit: /settings",
            "Marit: next in line",
        ),
    )


def look(play: Talk, what: Any) -> Any:
    ada = play.house.client_of(play.someone("Marit"), play.someone("Ada")).id
    with play.units.open(play.someone("Marit").coach_id) as unit:
        return what(unit, ada)


def rows(unit: Unit, ada: int) -> list[Session]:
    running = unit.blocks.running(ada)
    assert running is not None
    return sorted(unit.moves.of_assignment(running.id), key=lambda each: (each.local_on, each.id))


def plan(play: Talk, until: int = 30) -> list[str]:
    """Each session up to a day of April: date, day, state."""
    return [
        f"{each.local_on:%d} {each.day_key} {each.state}"
        for each in look(play, rows)
        if each.local_on <= date(2026, 4, until)
    ]


def sees(play: Talk) -> str:
    return play.someone("Ada").sees


def test_a_plan_of_which_nothing_is_missed_is_the_calendars(play: Talk) -> None:
    before = plan(play)
    play.take("Marit: /settings")
    play.take("Marit: by calendar")

    assert before == plan(play)
    assert before[:5] == [
        "07 lower-a planned",
        "09 push planned",
        "10 lower-b planned",
        "13 pull planned",
        "14 lower-a planned",
    ]


def test_no_debt_comes_with_the_choice(units: Units) -> None:
    play = Talk(units)
    play.take(TUESDAY)
    play.take("tick 2026-04-08 12:00")
    play.take("Marit: /settings")
    play.take("Marit: next in line")
    play.take("tick 2026-04-09 07:00")

    assert plan(play, 10) == ["07 lower-a missed", "09 push sent", "10 lower-b planned"]


def test_what_was_missed_before_comes_back_with_no_second_choice_of_it(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Marit: /settings")
    play.take("Marit: by calendar")
    play.take("tick 2026-04-08 12:00")
    play.take("Marit: /settings")
    play.take("Marit: next in line")
    play.take("Marit: /settings")
    play.take("Marit: next in line")
    play.take("tick 2026-04-09 07:00")

    assert plan(play, 10) == ["07 lower-a missed", "09 push sent", "10 lower-b planned"]


def test_an_outage_is_no_miss_and_its_session_comes_next(play: Talk) -> None:
    play.take(TUESDAY)
    with play.units.open(None) as unit:
        spare(unit.connection, play.house.now + timedelta(minutes=1))
    play.take("tick 2026-04-08 12:00")

    assert plan(play, 10) == ["07 lower-a unsent", "09 lower-a planned", "10 push planned"]


def test_a_card_that_never_arrived_comes_next(play: Talk) -> None:
    play.take(TUESDAY)
    first = look(play, lambda unit, ada: rows(unit, ada)[0].id)
    with play.units.open(play.someone("Marit").coach_id) as unit:
        never_shown(NeverShown(first), Person(0, 0), unit, play.house.now)

    assert plan(play, 10) == ["07 lower-a unsent", "09 lower-a planned", "10 push planned"]


def test_a_card_that_may_not_have_arrived_comes_next(play: Talk) -> None:
    play.take(TUESDAY)
    with play.units.open(None) as unit:
        unit.connection.execute(update(outbox).where(outbox.c.key.like("%:card:%")).values(state="dead"))
    play.take("tick 2026-04-08 12:00")

    assert plan(play, 10) == ["07 lower-a unsent", "09 lower-a planned", "10 push planned"]


def test_what_fell_into_a_stop_sign_comes_when_the_plan_is_released(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Ada: my chest feels tight and my left arm hurts")
    play.take("tick 2026-04-09 07:00")
    held = plan(play, 13)
    look(play, lambda unit, ada: unit.clients.change(ada, frozen_at=None, frozen_for=None))
    play.take("tick 2026-04-10 07:00")

    assert held == ["07 lower-a held", "09 lower-a held", "10 lower-a planned", "13 push planned"]
    assert plan(play, 13)[2:] == ["10 lower-a sent", "13 push planned"]


def test_what_fell_into_a_pause_comes_after_it(play: Talk) -> None:
    look(play, lambda unit, ada: unit.clients.change(ada, state="paused"))
    play.take(TUESDAY)
    play.take("tick 2026-04-09 07:00")
    look(play, lambda unit, ada: unit.clients.change(ada, state="active"))
    look(play, lambda unit, ada: lay_out(ada, unit, play.house.now))

    assert plan(play, 13) == ["07 lower-a unsent", "09 push unsent", "10 lower-a planned", "13 push planned"]


def test_ill_comes_not_tomorrow_and_is_taken_back_like_the_rest(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Ada: all done")
    play.take("tick 2026-04-09 07:00")
    play.take("Ada: not today")
    play.take("Ada: sick")
    ill = plan(play, 14)
    play.take("Ada: undo")

    assert ill[-2:] == ["13 push planned", "14 lower-b planned"]
    assert plan(play, 13)[-3:] == ["09 push sent", "10 lower-b planned", "13 pull planned"]


def test_pain_goes_its_own_way_and_moves_nothing(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Ada: not today")
    play.take("Ada: pain")

    assert plan(play, 9) == ["07 lower-a left_out", "09 push planned"]


def test_a_change_of_hour_and_days_loses_and_doubles_nothing(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Ada: not today")
    play.take("Ada: no time")
    play.take("Ada: next")
    play.take("Ada: /settings")
    play.take("Ada [Hour]")
    play.take("Ada: 18")
    hours = look(
        play, lambda unit, ada: {each.due_at.astimezone(LISBON).hour for each in rows(unit, ada)[1:]}
    )
    play.take("Ada [Days]")
    play.take("Ada: tue wed sat sun")

    assert hours == {18}
    assert plan(play, 18) == [
        "07 lower-a moved",
        "08 lower-a planned",
        "11 push planned",
        "12 lower-b planned",
        "14 pull planned",
        "15 lower-a planned",
        "18 push planned",
    ]


def test_sessions_go_on_past_the_calendars_end_of_the_block(play: Talk) -> None:
    calendars = date(2026, 5, 4)
    before = look(play, lambda unit, ada: ends_on(unit.clients.get(ada), unit, date(2026, 4, 6)))
    play.take(TUESDAY)
    play.take("Ada: not today")
    play.take("Ada: no time")
    play.take("Ada: next")
    after = look(play, lambda unit, ada: ends_on(unit.clients.get(ada), unit, date(2026, 4, 7)))
    play.house.now = datetime(2026, 5, 3, 12, tzinfo=LISBON)
    look(play, lambda unit, ada: lay_out(ada, unit, play.house.now))

    assert (before, after) == (calendars, date(2026, 5, 5))


def test_by_calendar_the_end_is_the_calendars(units: Units) -> None:
    play = Talk(units)

    assert look(play, lambda unit, ada: ends_on(unit.clients.get(ada), unit, date(2026, 4, 6))) is None


def test_a_block_of_which_nothing_waits_has_no_end_to_come(play: Talk) -> None:
    def all_done(unit: Unit, ada: int) -> date | None:
        for each in rows(unit, ada):
            unit.sessions.change(each.id, state="done")
        running = unit.blocks.running(ada)
        assert running is not None
        for week in (1, 2, 3, 4):
            for key in ("lower-a", "push", "lower-b", "pull"):
                unit.sessions.lay(ada, running.id, week, key, date(2026, 4, 7), play.house.now)
        for each in rows(unit, ada):
            unit.sessions.change(each.id, state="done")
        return ends_on(unit.clients.get(ada), unit, date(2026, 4, 6))

    assert look(play, all_done) is None


def test_too_few_training_days_lose_nothing_that_was_done_or_said(play: Talk) -> None:
    play.take(TUESDAY)
    look(play, lambda unit, ada: unit.clients.change(ada, days=[1]))
    look(play, lambda unit, ada: carry_on(ada, unit, play.house.now))
    play.take("Ada: not today")
    play.take("Ada: no time")

    assert "Left out: no time." in sees(play)
    assert look(play, lambda unit, ada: ends_on(unit.clients.get(ada), unit, date(2026, 4, 6))) is None


def test_a_new_block_begins_anew(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("Ada: not today")
    play.take("Ada: no time")
    play.take("Ada: next")
    marit = play.someone("Marit")
    marit.does(setting_up.assign, setting_up.Assign("Ada, Harbour strength, 2026-04-14"))
    marit.tap("Start it")

    assert plan(play, 16) == ["14 lower-a planned", "16 push planned"]


def test_a_session_that_was_slid_takes_its_turn_when_the_style_changes(units: Units) -> None:
    play = Talk(units)
    play.take(TUESDAY)
    play.take("Ada: not today")
    play.take("Ada: no time")
    play.take("Ada: saturday")
    play.take("Marit: /settings")
    play.take("Marit: next in line")
    play.take("tick 2026-04-08 07:00")

    assert plan(play, 13) == [
        "07 lower-a moved",
        "09 lower-a planned",
        "10 push planned",
        "13 lower-b planned",
    ]


def test_the_coach_sees_the_week_that_the_client_is_in(play: Talk) -> None:
    for day in (7, 9, 10, 13):
        play.take(f"tick 2026-04-{day:02} 07:00")
        play.take("Ada: not today")
        play.take("Ada: no time")
        play.take("Ada: next")
    play.take("tick 2026-04-14 07:00")
    play.take("Marit: /roster")

    assert "week 1 of 4" in play.someone("Marit").sees


def test_turns_given_twice_change_nothing(play: Talk) -> None:
    play.take(TUESDAY)
    play.take("tick 2026-04-08 12:00")
    once = look(play, rows)
    look(play, lambda unit, ada: [lay_out(ada, unit, play.house.now), carry_on(ada, unit, play.house.now)])

    assert look(play, rows) == once
    assert [each.attempt for each in once if each.day_key == "lower-a" and each.week_no == 1] == [1, 2]
