"""A holiday holds cards: no card on its days, no miss, told once ahead, and all of it taken back with it."""

from datetime import date, timedelta

import pytest
from dialogs.talks import Talk

from bot.store.units import Units
from core.oversight.misses import EXCUSED

WEEK = "/holiday Ada 13-19 April"
TOLD = "Marit has planned a holiday: 13 to 19 April. No session comes then"


@pytest.fixture
def talk(units: Units) -> Talk:
    return Talk(units)


def said(talk: Talk, *steps: str) -> str:
    return "\n".join(line for step in steps for line in talk.take(step))


def sessions(talk: Talk, coach: str = "Marit", client: str = "Ada") -> dict[date, tuple[str, str | None]]:
    owner = talk.someone(coach)
    row = talk.house.client_of(owner, talk.someone(client))
    states = ("planned", "left_out", "sent", "missed", "unsent")
    with talk.units.open(owner.coach_id) as unit:
        found = unit.sessions.of_client(row.id, states)
        return {each.local_on: (each.state, each.left_reason) for each in found}


def in_week(talk: Talk, *who: str) -> set[tuple[str, str | None]]:
    return {how for on, how in sessions(talk, *who).items() if date(2026, 4, 13) <= on <= date(2026, 4, 19)}


def test_sessions_of_a_holiday_are_left_out_and_come_back_with_undo(talk: Talk) -> None:
    before = sessions(talk)

    read_back = said(talk, f"Marit: {WEEK}")
    assert "so far 4 sessions. The plan goes on after it." in read_back
    assert in_week(talk) == {("left_out", "holiday")}
    assert in_week(talk, "Orla", "Ben") == {("planned", None)}
    assert "holiday" in EXCUSED

    assert "Cards come on these days again" in said(talk, "Marit [Undo]")
    assert sessions(talk) == before
    assert "so far 4 sessions" in said(talk, "Marit [Put it back]")
    said(talk, "Marit: /season remove 1")
    assert sessions(talk) == before


def test_a_holiday_of_everybody_is_one_of_each_client_of_that_coach(talk: Talk) -> None:
    assert "so far 4 sessions of 1 client." in said(talk, "Marit: /holiday all: 13-19 April")

    assert in_week(talk) == {("left_out", "holiday")}
    assert in_week(talk, "Orla", "Ben") == {("planned", None)}


def test_no_card_comes_and_nothing_is_missed(talk: Talk) -> None:
    said(talk, f"Marit: {WEEK}")

    told = said(talk, *(f"tick 2026-04-{day} 07:00" for day in range(13, 20)))

    assert "[All done as written]" not in told
    assert in_week(talk) == {("left_out", "holiday")}
    assert "[All done as written]" in said(talk, "tick 2026-04-20 07:00")


def test_its_client_is_told_once_ahead_of_it(talk: Talk) -> None:
    said(talk, f"Marit: {WEEK}")

    days = [said(talk, f"tick 2026-04-{day:02} 18:00") for day in range(8, 15)]

    assert [TOLD in each for each in days] == [False, False, True, False, False, False, False]


def test_who_is_told_of_a_holiday_that_is_taken_back_hears_so_once(talk: Talk) -> None:
    said(talk, f"Marit: {WEEK}", "tick 2026-04-10 18:00")

    assert "Marit has taken the holiday back: 13 to 19 April." in said(talk, "Marit [Undo]")
    assert "holiday back" not in said(talk, "Marit [Put it back]", "tick 2026-04-10 18:30")
    assert TOLD in said(talk, "tick 2026-04-11 18:00")


def test_who_was_not_told_hears_of_nothing(talk: Talk) -> None:
    said(talk, f"Marit: {WEEK}")

    assert "to Ada" not in said(talk, "Marit [Undo]", "tick 2026-04-11 18:00")


def test_a_holiday_that_begins_today_is_told_at_once_and_spares_the_card_that_is_out(talk: Talk) -> None:
    said(talk, "tick 2026-04-13 07:00")
    assert "Ada is told now." in said(talk, f"Marit: {WEEK}")

    assert TOLD in said(talk, "tick 2026-04-13 08:00")
    settled = said(talk, "tick 2026-04-14 13:00")
    assert "It was a holiday, so this one does not count as missed." in settled
    assert sessions(talk)[date(2026, 4, 13)] == ("unsent", "holiday")


def test_next_in_line_what_is_planned_comes_after_it(talk: Talk) -> None:
    said(talk, "Marit: /settings", "Marit: next in line")

    assert "waits and comes after it, in its order" in said(talk, f"Marit: {WEEK}")

    assert in_week(talk) == set()
    assert min(on for on in sessions(talk) if on > date(2026, 4, 12)) == date(2026, 4, 20)


def test_an_absence_and_a_holiday_of_the_same_days_each_hold_cards_alone(talk: Talk) -> None:
    said(talk, "Ada: /away 13-19 April, no training", "Ada [Yes, note it]", f"Marit: {WEEK}")
    assert in_week(talk) == {("left_out", "away")}

    said(talk, "Ada: /back")
    assert in_week(talk) == {("left_out", "holiday")}


def test_a_holiday_that_is_over_changes_nothing(talk: Talk) -> None:
    talk.house.now += timedelta(days=20)
    marit = talk.someone("Marit")
    client = talk.house.client_of(marit, talk.someone("Ada"))
    with talk.units.open(marit.coach_id) as unit:
        unit.seasons.add(client.id, "holiday", "", date(2026, 4, 13), date(2026, 4, 19), talk.house.now)

    assert "Cards come" not in said(talk, "Marit: /season remove 1")
    assert "No card" not in said(talk, "Marit [Put it back]")


@pytest.mark.parametrize(("holiday", "offered"), [("15 April", False), ("20 April", True)])
def test_nothing_is_moved_onto_a_day_of_a_holiday(talk: Talk, holiday: str, offered: bool) -> None:
    said(talk, f"Marit: /holiday Ada {holiday}", "tick 2026-04-14 07:00")

    asked = said(talk, "Ada [Not today]", "Ada [No time]")

    assert ("Wed 15 April" in asked) is offered
