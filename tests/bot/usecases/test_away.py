"""Away and back: what holds, what it does to the plan, and how each of it is taken back."""

from datetime import date, datetime
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk

from bot.store.units import Unit, Units
from core.oversight.misses import tally

TUESDAY = "tick 2026-04-07 07:00"


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def look(play: Talk, what: Any, coach: str = "Marit", client: str = "Ada") -> Any:
    theirs = play.house.client_of(play.someone(coach), play.someone(client)).id
    with play.units.open(play.someone(coach).coach_id) as unit:
        return what(unit, theirs)


def in_line(play: Talk) -> None:
    play.take("Marit: /settings")
    play.take("Marit: next in line")


def plan(play: Talk, until: int = 17) -> list[str]:
    def rows(unit: Unit, ada: int) -> list[str]:
        running = unit.blocks.running(ada)
        assert running is not None
        found = sorted(unit.moves.of_assignment(running.id), key=lambda each: (each.local_on, each.id))
        return [
            f"{each.local_on:%d} {each.day_key} {each.state}"
            for each in found
            if each.local_on <= date(2026, 4, until)
        ]

    return look(play, rows)


def standing(play: Talk) -> list[tuple[date, date, bool]]:
    found = look(play, lambda unit, ada: unit.aways.standing(ada, date(2026, 4, 1)))
    return [(each.from_on, each.last_on, each.training) for each in found]


def sees(play: Talk, name: str = "Ada") -> str:
    return play.someone(name).sees


def away(play: Talk, text: str) -> None:
    play.take(f"Ada: /away {text}")
    play.take("Ada: yes")


def test_by_the_calendar_sessions_of_an_absence_are_left_out_and_not_due(play: Talk) -> None:
    away(play, "9-13 April, no training")

    assert plan(play) == [
        "07 lower-a planned",
        "09 push left_out",
        "10 lower-b left_out",
        "13 pull left_out",
        "14 lower-a planned",
        "16 push planned",
        "17 lower-b planned",
    ]
    past = look(play, lambda unit, ada: unit.oversight.past(ada, date(2026, 4, 1))[ada])
    assert tally(past, date(2026, 4, 1), date(2026, 4, 30)).due == 0


def test_next_in_line_the_plan_waits_and_goes_on_after_it(play: Talk) -> None:
    in_line(play)
    play.take("Ada: /away 9-13 April, no training")
    assert "What comes next waits until after it" in sees(play)
    play.take("Ada: yes")

    assert plan(play) == ["07 lower-a planned", "14 push planned", "16 lower-b planned", "17 pull planned"]
    play.take("Ada: take it back")
    assert plan(play)[:4] == [
        "07 lower-a planned",
        "09 push planned",
        "10 lower-b planned",
        "13 pull planned",
    ]


def test_what_is_laid_out_later_follows_an_absence_that_was_said_before(play: Talk) -> None:
    away(play, "20 April to 1 May, no training")
    play.take("tick 2026-04-14 07:00")

    assert [each for each in plan(play, 30) if each[:2] in ("20", "27", "28")] == [
        "20 pull left_out",
        "27 pull left_out",
        "28 lower-a left_out",
    ]


@pytest.mark.parametrize("style", ["calendar", "in line"])
def test_a_card_that_is_out_when_an_absence_begins_is_no_miss(play: Talk, style: str) -> None:
    if style == "in line":
        in_line(play)
    play.take(TUESDAY)
    away(play, "today, no training")
    play.take("tick 2026-04-08 12:00")

    assert plan(play)[0] == "07 lower-a unsent"
    assert "You were away, so this one does not count as missed." in sees(play)
    again = [each for each in plan(play) if each.endswith("lower-a planned")]
    assert again[0][:2] == ("09" if style == "in line" else "14")


def test_a_session_that_is_planned_into_an_absence_all_the_same_does_not_come(play: Talk) -> None:
    away(play, "7-8 April, no training")

    def planned(unit: Unit, ada: int) -> None:
        found = next(each for each in unit.sessions.of_client(ada, ("left_out",)))
        unit.sessions.change(found.id, state="planned", left_reason=None, due_at=play.house.now)

    look(play, planned)
    now = datetime(2026, 4, 7, 7, tzinfo=LISBON)
    from dialogs.due_work import _sessions  # noqa: PLC0415

    with play.units.read(None) as unit:
        found = [each for each in _sessions(unit, now) if each[0] == play.someone("Marit").coach_id]
    for coach_id, usecase, command in found:
        with play.units.open(coach_id) as unit:
            assert usecase(command, None, unit, now) == []
    assert plan(play)[0] == "07 lower-a unsent"


def test_training_there_is_fitted_to_what_there_is_and_machines_are_another_place_s(play: Talk) -> None:
    away(play, "7-9 April, bodyweight")
    place = "away 7 april 2026"

    kit = look(play, lambda unit, ada: unit.kits.at(ada, place))
    assert kit is not None
    assert not kit.plates
    places = look(play, lambda unit, ada: [each.place for each in unit.sessions.of_client(ada, ("planned",))])
    assert places[-3:] == [None, place, place]
    play.take(TUESDAY)
    assert "Today where you are while away." in sees(play)
    assert "kg" not in sees(play).split("[")[0].replace("Prep", "")


def test_a_place_of_hers_can_be_named(play: Talk) -> None:
    look(
        play,
        lambda unit, ada: unit.kits.keep(
            ada, unit.kits.usual(ada).model_copy(update={"place": "parents", "plates": (), "bar": None})
        ),
    )
    play.take("Ada: /away 7-9 April")
    play.take("Ada: yes")
    play.take("Ada: parents")
    assert "Training there: as at parents." in sees(play)
    play.take("Ada: yes")

    assert look(play, lambda unit, ada: unit.aways.on(ada, date(2026, 4, 8)).place) == "parents"
    play.take("Ada: /away 10-12 April")
    play.take("Ada [Train there]")
    play.take("Ada [As at: parents]")
    assert "Training there: as at parents." in sees(play)


@pytest.mark.parametrize(
    ("label", "last"), [("Until Sunday", 12), ("A week", 12), ("Two weeks", 19)], ids=str
)
def test_the_dates_have_buttons(play: Talk, label: str, last: int) -> None:
    play.take("Ada: /away")
    play.take(f"Ada [{label}]")
    play.take("Ada [Train there]")
    play.take("Ada [No training]")
    play.take("Ada [Yes, note it]")

    assert standing(play) == [(date(2026, 4, 6), date(2026, 4, last), False)]


def test_kit_has_buttons_and_can_be_changed_by_words(play: Talk) -> None:
    play.take("Ada: /away 7-9 April")
    play.take("Ada [Train there]")
    play.take("Ada [Dumbbells]")
    assert "Training there: dumbbells." in sees(play)
    play.take("Ada: no training")
    assert "No training." in sees(play)


def test_a_new_absence_takes_the_place_of_what_it_overlaps(play: Talk) -> None:
    away(play, "7-12 April, no training")
    away(play, "10-14 April, no training")
    away(play, "20-21 April, no training")

    assert standing(play) == [
        (date(2026, 4, 7), date(2026, 4, 9), False),
        (date(2026, 4, 10), date(2026, 4, 14), False),
        (date(2026, 4, 20), date(2026, 4, 21), False),
    ]


def test_what_was_taken_back_or_ended_is_not_taken_back_again(play: Talk) -> None:
    away(play, "6-12 April, no training")
    play.take("Ada keeps [Take it back] as undo")
    play.take("Ada: /back")
    assert standing(play) == []
    play.take("Ada taps the old undo")
    assert sees(play).startswith("That was from before.")


def test_back_before_it_begins_takes_it_back(play: Talk) -> None:
    away(play, "9-12 April, no training")
    play.take("Ada: /back")

    assert standing(play) == []
    assert sees(play) == "Good to have you back. Next: Lower A, Tue 7 April, 07:00."
    assert "09 push planned" in plan(play)


def test_back_has_the_sessions_come_whose_hour_is_still_to_come(play: Talk) -> None:
    away(play, "7-14 April, no training")
    play.house.now = datetime(2026, 4, 9, 12, tzinfo=LISBON)
    play.take("Ada: I'm back")

    assert plan(play)[:4] == [
        "07 lower-a left_out",
        "09 push left_out",
        "10 lower-b planned",
        "13 pull planned",
    ]
    assert standing(play) == [(date(2026, 4, 7), date(2026, 4, 8), False)]


def test_back_ends_a_pause_that_she_has_chosen(play: Talk) -> None:
    for on in ("07", "09", "10", "13", "14"):
        play.take(f"tick 2026-04-{on} 07:00")
    play.take("tick 2026-04-14 12:00")
    play.take("Ada [Pause a week]")
    play.take("Ada: /back")

    assert look(play, lambda unit, ada: unit.clients.get(ada).state) == "active"
    assert sees(play).startswith("Good to have you back.")


def test_dates_that_are_over_by_the_time_she_agrees_are_asked_anew(play: Talk) -> None:
    play.take("Ada: /away 7-8 April, no training")
    play.house.now = datetime(2026, 4, 10, 12, tzinfo=LISBON)
    play.take("Ada: yes")

    assert sees(play).startswith("Those days are over.")
    assert standing(play) == []


def test_dates_that_are_not_read_are_asked_for(play: Talk) -> None:
    play.take("Ada: /away")
    play.take("Ada: until then")

    assert sees(play).startswith("I could not read the dates.")


def test_an_offer_is_left_by_other_words_and_old_buttons_show_how_it_stands(play: Talk) -> None:
    play.take("Ada: I'm away next week")
    play.take("Ada keeps [No] as no")
    play.take("Ada: thanks")
    play.take("Ada [Note that I am away]")
    play.take("Ada taps the old no")
    assert sees(play).startswith("Away from Mon 13 April to Sun 19 April. Do you train there?")
    play.take("Ada: never mind")
    play.take("Ada taps the old no")

    assert sees(play).startswith("That was from before.")
    assert standing(play) == []


def test_a_coach_and_a_stranger_are_answered_as_always(play: Talk) -> None:
    for command in ("/away", "/back"):
        play.take(f"Marit: {command}")
        assert "clear nobody" in sees(play, "Marit")
        play.take(f"Somebody: {command}")
    assert standing(play) == []


def test_another_coach_knows_nothing_of_it_and_two_at_once_never_mix(play: Talk) -> None:
    play.take("Ada: /away 9-13 April")
    play.take("Ben: /away 10-11 April")
    play.take("Ada: no training")
    play.take("Ben: dumbbells")
    play.take("Ada: yes")
    play.take("Ben: yes")

    assert standing(play) == [(date(2026, 4, 9), date(2026, 4, 13), False)]
    ben = look(play, lambda unit, ben: unit.aways.standing(ben, date(2026, 4, 1)), "Orla", "Ben")
    assert [(each.from_on, each.training) for each in ben] == [(date(2026, 4, 10), True)]
    ada = look(play, lambda unit, ada: unit.aways.standing(ada, date(2026, 4, 1))[0])
    with pytest.raises(LookupError):
        look(play, lambda unit, _: unit.aways.get(ada.id), "Orla", "Ben")


def test_what_a_break_makes_lighter_stands_on_the_first_card(play: Talk) -> None:
    play.take(TUESDAY)
    for step in ("Ada [All done as written]", "Ada: skip", "Ada [Nothing hurts]", "Ada [2]"):
        play.take(step)
    away(play, "8-27 April, no training")
    play.take("tick 2026-04-28 07:00")

    assert sees(play).startswith(
        "21 days without training. What you lifted before comes back in 3 sessions: the first at about 90 % of the "
        "load, with about 50 % of the sets. Muscles and tendons need that time.\n\nLower A · week 4 of 4"
    )
