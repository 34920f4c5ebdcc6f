"""A session on another day by calendar: what is put back, what follows, and what no longer fits."""

from datetime import date, timedelta
from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.store.units import Unit, Units
from bot.usecases import setting_up
from core.checkin.training_log import Session
from core.oversight.misses import tally

TUESDAY = "tick 2026-04-07 07:00"


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, (TUESDAY,))


def full_body(units: Units, days: str = "Mon,Wed,Fri,Sat") -> Talk:
    made = Talk(units, block="Slipway_full_body", days=days, starts="2026-04-13")
    made.take("tick 2026-04-13 07:00")
    made.take("Ada: all done")
    made.take("tick 2026-04-15 07:00")
    return made


def looking(play: Talk, look: Any) -> Any:
    return play.house.reading(play.someone("Marit"), look)


def client_id(play: Talk) -> int:
    return int(play.house.client_of(play.someone("Marit"), play.someone("Ada")).id)


def rows(play: Talk) -> list[Session]:
    ada = client_id(play)

    def look(unit: Unit) -> list[Session]:
        running = unit.blocks.running(ada)
        assert running is not None
        return unit.moves.of_assignment(running.id)

    return sorted(looking(play, look), key=lambda each: (each.local_on, each.id))


def plan(play: Talk, week: int = 1) -> list[str]:
    """Each session of a week: date, day, state."""
    return [f"{each.local_on:%d} {each.day_key} {each.state}" for each in rows(play) if each.week_no == week]


def sees(play: Talk) -> str:
    return play.someone("Ada").sees


def not_today(play: Talk, *steps: str) -> None:
    for step in ("Ada: not today", "Ada: no time", *steps):
        play.take(step)


def test_a_moved_session_is_no_miss_and_not_due(play: Talk) -> None:
    not_today(play, "Ada: wednesday")
    ada = client_id(play)
    past = looking(play, lambda unit: unit.oversight.past(ada, date(2026, 4, 1)))

    (sessions,) = past.values()
    counted = tally(sessions, date(2026, 4, 1), date(2026, 4, 30))
    assert [each.state for each in sessions] == ["moved"]
    assert (counted.kept, counted.due, counted.pending) == (0, 0, 0)


def test_what_was_decided_for_a_moved_session_stays_as_it_is(play: Talk) -> None:
    first = rows(play)[0]
    before = looking(play, lambda unit: unit.sessions.items(first.id))
    not_today(play, "Ada: wednesday")

    assert looking(play, lambda unit: unit.sessions.items(first.id)) == before
    assert before


def test_what_has_begun_is_not_moved(play: Talk) -> None:
    play.take("Ada: 90 8 8 8 8")
    play.take("Ada [End here]")
    play.take("Ada [No time]")

    assert plan(play)[0] == "07 lower-a asking"


def test_what_the_coach_had_eased_is_eased_on_the_new_day_and_again_on_the_old_one(play: Talk) -> None:
    play.take("Marit: /client Ada")
    play.take("Marit [Ease next −10 %]")
    assert "Eased by your coach." in sees(play)
    not_today(play, "Ada: wednesday")
    ada = client_id(play)
    standing = looking(play, lambda unit: len(unit.orders.standing(ada)))
    play.take("Ada: undo")

    assert standing == 1
    assert looking(play, lambda unit: unit.orders.standing(ada)) == []
    assert "Eased by your coach." in sees(play)
    play.take("Ada: not today")
    play.take("Ada: no time")
    play.take("Ada: wed")
    play.take("tick 2026-04-08 07:00")
    assert "Eased by your coach." in sees(play)


def test_an_order_that_was_taken_back_meanwhile_does_not_come_back(play: Talk) -> None:
    play.take("Marit: /client Ada")
    play.take("Marit [Ease next −10 %]")
    not_today(play, "Ada: wednesday")
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.orders.void([each.id for each in unit.orders.standing(client_id_in(play, unit))], play.house.now)
    play.take("Ada: undo")

    ada = client_id(play)
    assert looking(play, lambda unit: unit.orders.used(ada)) == []


def client_id_in(play: Talk, unit: Unit) -> int:
    account = unit.accounts.find(play.someone("Ada").user_id)
    assert account is not None
    assert account.client_id is not None
    return account.client_id


def test_undo_is_over_when_the_new_card_is_out(units: Units) -> None:
    play = Talk(units)
    play.take(TUESDAY)
    play.take("tick 2026-04-08 00:05")
    not_today(play, "Ada: today")
    assert plan(play)[:2] == ["07 lower-a moved", "08 lower-a planned"]
    assert "Take it up again" not in play.someone("Ada").buttons
    play.take("tick 2026-04-08 07:00")
    play.take("Ada: undo")

    assert plan(play)[:2] == ["07 lower-a moved", "08 lower-a sent"]


def test_an_old_undo_changes_nothing_once_the_new_card_is_out(play: Talk) -> None:
    not_today(play, "Ada: wednesday")
    play.take("Ada keeps [Take it up again] as again")
    play.take("tick 2026-04-08 07:00")
    play.take("Ada taps the old again")

    assert plan(play)[:2] == ["07 lower-a moved", "08 lower-a sent"]


def test_a_day_that_was_taken_meanwhile_is_offered_no_more(play: Talk) -> None:
    not_today(play)
    play.take("Ada keeps [Sat 11 April] as saturday")
    play.take("Ada: /settings")
    play.take("Ada [Days]")
    play.take("Ada: mon tue thu sat")
    play.take("Ada taps the old saturday")

    assert sees(play).startswith("That does not fit any more. This does.")
    assert "Sat 11 April" not in play.someone("Ada").buttons
    assert plan(play)[0] == "07 lower-a sent"


def test_with_another_block_nothing_can_be_moved_any_more(play: Talk) -> None:
    not_today(play)
    play.take("Ada keeps [Main lift with Thu 9 April] as lift")
    another_block(play)
    play.take("Ada taps the old lift")

    assert sees(play).startswith("No other day of this week fits.")
    play.take("Ada [No time]")
    assert "Left out: no time." in sees(play)


def another_block(play: Talk, starts: str = "2026-04-08") -> None:
    marit = play.someone("Marit")
    marit.does(setting_up.assign, setting_up.Assign(f"Ada, Harbour strength, {starts}"))
    marit.tap("Start it")


def test_another_block_cancels_what_had_moved(play: Talk) -> None:
    not_today(play, "Ada: wednesday")
    first = rows(play)[0]
    another_block(play)
    found = looking(play, lambda unit: unit.sessions.get(first.id))

    assert (found.state, found.left_reason, found.moved_to) == ("left_out", "coach", None)
    ada = client_id(play)
    past = looking(play, lambda unit: unit.oversight.past(ada, date(2026, 4, 1)))
    assert tally(past[ada], date(2026, 4, 1), date(2026, 4, 30)).due == 0


def test_both_slide_and_are_put_back(units: Units) -> None:
    play = full_body(units)
    not_today(play, "Ada [Thu 16 and Sat 18 April]")
    moved = plan(play)
    play.take("Ada [Take it up again]")

    assert moved == ["13 full-a done", "15 full-b moved", "16 full-b planned", "18 full-c planned"]
    assert plan(play) == ["13 full-a done", "15 full-b sent", "17 full-c planned"]


def test_what_made_room_and_is_gone_is_not_put_back(units: Units) -> None:
    play = full_body(units)
    not_today(play, "Ada [Thu 16 and Sat 18 April]")
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.sessions.change(rows_of(unit, client_id_in(play, unit))[-1].id, state="held")
    play.take("Ada: undo")

    assert "18 full-c held" in plan(play)


def rows_of(unit: Unit, ada: int) -> list[Session]:
    found = unit.sessions.of_client(ada, ("planned",))
    return [each for each in reversed(found) if each.week_no == 1]


def test_both_keep_their_days_through_a_change_of_hour_and_find_others_after_one_of_days(
    units: Units,
) -> None:
    play = full_body(units)
    not_today(play, "Ada [Thu 16 and Sat 18 April]")
    play.take("Ada: /settings")
    play.take("Ada [Hour]")
    play.take("Ada: 18")
    kept = plan(play)
    play.take("Ada [Days]")
    play.take("Ada: mon wed sun")

    # Sunday's own day comes in the calendar's place, and Thursday still leaves 48 hours on both sides.
    assert kept[2:] == ["16 full-b planned", "18 full-c planned"]
    assert plan(play)[2:] == ["16 full-b planned", "18 full-c planned"]


def test_what_finds_no_day_after_a_change_of_days_is_said_and_is_no_miss(units: Units) -> None:
    play = full_body(units, days="Mon,Wed,Fri")
    not_today(play, "Ada: leave out")
    play.take("tick 2026-04-17 07:00")
    not_today(play, "Ada: saturday")
    play.take("Ada: /settings")
    play.take("Ada [Days]")
    # The week's third day is Saturday now, and then Sunday; Monday's session shares its lifts.
    with play.units.open(play.someone("Marit").coach_id) as unit:
        running = unit.blocks.running(client_id_in(play, unit))
        assert running is not None
        unit.sessions.lay(
            client_id_in(play, unit), running.id, 1, "extra", date(2026, 4, 18), play.house.now + timedelta(1)
        )
        extra = next(each for each in unit.moves.of_assignment(running.id) if each.day_key == "extra")
        unit.sessions.change(extra.id, state="sent")
    play.take("Ada: mon wed fri")

    assert "No day is left this week for: Full C." in sees(play)
    assert "18 full-c unsent" in plan(play)


def test_a_lift_follows_the_session_that_takes_it_in_to_another_day_and_back(units: Units) -> None:
    play = full_body(units)
    not_today(play, "Ada: main lift")
    play.take("tick 2026-04-17 07:00")
    assert "With front squat from Full B" in sees(play)
    not_today(play, "Ada: saturday")
    play.take("Ada: /week")
    assert "Sat  Full C with front squat: comes at 07:00" in sees(play)
    play.take("Ada: undo")

    assert "With front squat from Full B" in sees(play)
    play.take("Ada: /week")
    assert "Fri  Full C with front squat: card is out" in sees(play)


def test_the_lift_comes_on_the_new_day(units: Units) -> None:
    play = full_body(units)
    not_today(play, "Ada: main lift")
    play.take("tick 2026-04-17 07:00")
    not_today(play, "Ada: saturday")
    play.take("tick 2026-04-18 07:00")

    assert "Moved from Fri 17 April." in sees(play)
    assert "A+  Front squat  4 × 6 at 45 kg" in sees(play)


def test_a_lift_whose_session_loses_its_day_is_left_out(units: Units) -> None:
    play = full_body(units)
    not_today(play, "Ada: main lift")
    play.take("tick 2026-04-16 09:00")
    play.take("Ada: /settings")
    play.take("Ada [Days]")
    play.take("Ada: mon tue wed")

    assert "No day is left this week for: Full C." in sees(play)
    assert plan(play) == ["13 full-a done", "15 full-b left_out"]


def test_a_lift_is_not_raised_in_the_session_that_takes_it_in_nor_by_it(units: Units) -> None:
    play = full_body(units)
    ada = client_id(play)
    not_today(play, "Ada: main lift")
    play.take("tick 2026-04-17 07:00")
    into = next(each for each in rows(play) if each.state == "sent")
    moments = looking(
        play,
        lambda unit: [unit.decisions.get(each.decision_id).inputs for each in unit.sessions.items(into.id)],
    )
    assert all('"merged":true' in each for each in moments)
    play.take("Ada: all done")
    play.take("tick 2026-04-22 07:00")

    inputs = looking(play, lambda unit: unit.decisions.latest(ada, "front-squat").inputs)
    assert '"merged":true' in inputs.partition('"history"')[2].partition('"kit"')[0]
    assert '"merged":false' in inputs.partition('"moment"')[2]


@pytest.mark.parametrize("state", ["paused", "stopped"])
def test_nothing_is_offered_after_a_miss_while_no_cards_go_out(play: Talk, state: str) -> None:
    play.take("tick 2026-04-08 12:00")
    with play.units.open(play.someone("Marit").coach_id) as unit:
        unit.clients.change(client_id_in(play, unit), state=state, paused_until=date(2026, 5, 1))
    play.take("Ada [No time]")

    assert sees(play).startswith("Noted: no time. Nothing is carried over")


def test_a_day_offered_after_a_miss_that_is_over_is_taken_no_more(play: Talk) -> None:
    play.take("tick 2026-04-08 12:00")
    play.take("Ada [No time]")
    play.take("Ada keeps [Sat 11 April] as saturday")
    play.take("tick 2026-04-12 09:00")
    play.take("Ada taps the old saturday")

    assert sees(play) == "Lower A\nNo other day of this week fits."
    assert plan(play)[0] == "07 lower-a missed"


def test_what_was_offered_after_a_miss_is_shown_again_and_over_with_another_block(play: Talk) -> None:
    play.take("tick 2026-04-08 12:00")
    play.take("Ada keeps [No time] as time")
    play.take("Ada [No time]")
    play.take("Ada taps the old time")
    again = sees(play)
    ada = play.someone("Ada")
    ada.tap_data(ada.forged("Today", action=Action.PICK, argument=2))
    another_block(play, "2026-04-09")
    play.take("Ada taps the old time")

    assert "can still be done this week" in again
    assert sees(play).startswith("Noted: no time. Nothing is carried over")
