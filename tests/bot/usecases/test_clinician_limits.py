"""Clinicians' limits: read back, in every decision from then on, and out again only at the coach's word."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk
from sqlalchemy import select

from bot.messages import Action
from bot.store.tables import clinician_limit, decision
from bot.store.units import Unit, Units
from core.loads.decision import Inputs, replay
from core.loads.limits import Limit

TUESDAY = datetime(2026, 4, 7, 7, tzinfo=LISBON)
FRIDAY = datetime(2026, 4, 10, 7, tzinfo=LISBON)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def of_ada(play: Talk, look: Any) -> Any:
    marit = play.someone("Marit")
    ada = play.house.client_of(marit, play.someone("Ada"))
    return play.house.reading(marit, lambda unit: look(ada, unit))


def kept(play: Talk) -> tuple[Limit, ...]:
    return of_ada(play, lambda ada, unit: unit.clinician_limits.kept(ada.id))


def held(play: Talk, text: str) -> None:
    play.take(f"Marit: /limit Ada: {text}")
    play.take("Marit [Let it hold]")


def card(play: Talk) -> dict[str, tuple[str, str]]:
    """State and load of each exercise on the newest card."""

    def look(ada: Any, unit: Unit) -> dict[str, tuple[str, str]]:
        session = unit.sessions.of_client(ada.id, ("sent", "started", "asking"))[0]
        return {each.exercise: (each.state, str(each.given.load)) for each in unit.sessions.items(session.id)}

    return of_ada(play, look)


def sees(play: Talk) -> str:
    return play.someone("Marit").sees


def test_nothing_holds_before_it_is_read_back_and_confirmed(play: Talk) -> None:
    play.take("Marit: /limit Ada: back squat at most 40 kg, doctor")
    assert kept(play) == ()
    play.take("Marit: no")
    assert kept(play) == ()


def test_a_limit_caps_the_next_card_and_no_other_exercise(play: Talk) -> None:
    held(play, "back squat at most 40 kg, doctor")
    play.tick(FRIDAY)
    found = card(play)
    assert found["back-squat"] == ("open", "40 kg")
    assert found["split-squat"] == ("open", "12 kg")


def test_a_card_that_is_out_is_decided_anew_at_once(play: Talk) -> None:
    play.tick(TUESDAY)
    before = card(play)
    held(play, "nothing that loads the knee, by physiotherapist")
    after = card(play)
    assert before["step-down"][0] == "open"
    assert after["step-down"][0] == "skipped"
    assert {key: after[key] for key in after if key != "step-down"} == {
        key: before[key] for key in before if key != "step-down"
    }
    assert "a limit set by your physiotherapist" in play.someone("Ada").sees


def test_what_it_rules_out_is_done_otherwise_now_and_on_the_cards_to_come_until_it_ends(play: Talk) -> None:
    play.tick(TUESDAY)
    held(play, "no hip thrust until 15 April, by physiotherapist")
    assert "Hip thrust → glute bridge: a physiotherapist's limit, until Wed 15 April" in sees(play)
    assert "On the card that is out: hip thrust → glute bridge." in sees(play)
    assert card(play)["glute-bridge"] == ("open", "bw")
    assert "Changed now" in play.someone("Ada").sees
    play.take("Ada [Not today]")
    play.take("Ada [No time]")
    play.tick(TUESDAY + timedelta(days=7))
    assert "glute-bridge" in card(play)
    play.tick(TUESDAY + timedelta(days=14))
    assert "hip-thrust" in card(play)


def test_it_is_undone_together_on_its_first_day_alone(play: Talk) -> None:
    play.tick(TUESDAY)
    before = card(play)
    held(play, "no hip thrust; no step-ups, doctor")
    play.take("Marit keeps [Undo] as undo")
    assert {"hip-thrust", "step-down"}.isdisjoint(card(play))
    play.take("Marit: undo")
    assert (kept(play), card(play)) == ((), before)
    assert "The card that is out is as before" in sees(play)
    assert play.someone("Ada").sees.startswith("As before: your coach has taken the limit back.")
    held(play, "no hip thrust, doctor")
    play.house.now += timedelta(days=1)
    play.take("Marit: undo")
    assert len(kept(play)) == 1
    play.take("Marit: take it out")
    play.take("Marit: yes, take it out")
    assert "As written again: hip thrust." in sees(play)


def test_what_was_begun_with_it_stays_when_it_is_undone(play: Talk) -> None:
    play.tick(TUESDAY)
    held(play, "no hip thrust, doctor")
    play.take("Ada [Start]")
    play.take("Ada: bw 8 8 8 8")
    play.take("Marit [Undo]")
    assert card(play)["glute-bridge"][0] == "done"
    assert "hip-thrust" not in card(play)
    assert "The card that is out" not in sees(play)


def test_a_session_that_was_begun_goes_on_past_what_is_left_out_and_ends_where_nothing_is_left(
    play: Talk,
) -> None:
    play.tick(TUESDAY)
    play.take("Ada [Start]")
    play.take("Ada: 90 8 8")
    held(play, "nothing that loads the knee, doctor")
    assert "B2  One-leg hinge" in play.someone("Ada").sees
    assert card(play)["hip-thrust"][0] == "done"
    held(play, "no training at all, doctor")
    assert "Does anything hurt?" in play.someone("Ada").sees
    assert {state for key, (state, _) in card(play).items() if key != "hip-thrust"} == {"skipped"}
    play.take("Marit [Undo]")
    assert {state for key, (state, _) in card(play).items() if key != "hip-thrust"} == {"skipped"}


def test_an_exercise_that_she_chose_herself_is_left_out_and_none_comes_in_its_place(play: Talk) -> None:
    play.tick(TUESDAY)
    play.take("Ada [Start]")
    play.take("Ada [Swap]")
    play.take("Ada: glute bridge")
    held(play, "no glute bridge, doctor")
    assert card(play)["glute-bridge"][0] == "skipped"
    assert "less" not in sees(play).split("From the next")[0].lower()


def test_what_she_may_be_given_in_its_place_is_ruled_out_by_no_other_limit(play: Talk) -> None:
    held(play, "no glute bridge, by physiotherapist")
    play.tick(TUESDAY)
    held(play, "no hip thrust, by physiotherapist")
    assert {"hip-thrust", "glute-bridge"}.isdisjoint(
        {key for key, (state, _) in card(play).items() if state == "open"}
    )


def test_a_limit_that_begins_later_is_told_now_and_leaves_the_card_that_is_out(play: Talk) -> None:
    play.tick(TUESDAY)
    before = card(play)
    held(play, "no hip thrust from 10 April, doctor")
    assert "Hip thrust → glute bridge" in sees(play)
    assert card(play) == before


def test_no_drill_of_the_prep_does_what_is_ruled_out(play: Talk) -> None:
    play.tick(TUESDAY)
    assert "Prep" in play.someone("Ada").sees
    held(play, "no training at all, doctor")
    play.take("Ada: /today")
    assert "Prep" not in play.someone("Ada").sees


def test_what_is_open_in_a_session_that_was_begun_is_limited_too(play: Talk) -> None:
    play.tick(TUESDAY)
    play.take("Ada [Start]")
    held(play, "hip thrust at most 60 kg, doctor")
    assert card(play)["hip-thrust"] == ("open", "60 kg")


def test_a_limit_over_what_is_given_changes_nothing(play: Talk) -> None:
    play.tick(TUESDAY)
    before = card(play)
    held(play, "hip thrust at most 200 kg, doctor")
    assert card(play) == before


def test_taking_it_out_is_asked_once_more_and_leaves_the_card_that_is_out(play: Talk) -> None:
    play.tick(TUESDAY)
    held(play, "hip thrust at most 60 kg, doctor")
    play.take("Marit: take it out")
    assert len(kept(play)) == 1
    play.take("Marit: yes, take it out")
    assert kept(play) == ()
    assert card(play)["hip-thrust"] == ("open", "60 kg")


def test_a_review_day_ends_nothing_and_an_end_of_its_own_does(play: Talk) -> None:
    held(play, "back squat at most 40 kg, review 8 April")
    held(play, "no split squat, until 9 April")
    play.tick(FRIDAY)
    found = card(play)
    assert found["back-squat"] == ("open", "40 kg")
    assert found["split-squat"][0] == "open"


def test_it_is_kept_with_decisions_which_replay_to_the_same_bytes(play: Talk) -> None:
    held(play, "back squat at most 40 kg, doctor, review 10 May")
    play.tick(FRIDAY)

    def stored(_: Any, unit: Unit) -> list[Any]:
        query = select(decision.c.inputs, decision.c.output).where(decision.c.exercise == "back-squat")
        return list(unit.connection.execute(query))

    rows = of_ada(play, stored)
    assert rows
    limited = [row for row in rows if Inputs.model_validate_json(row.inputs).limits]
    assert limited
    assert all(replay(row.inputs) == row.output for row in limited)


def test_another_coach_neither_sees_nor_ends_it(play: Talk) -> None:
    held(play, "back squat at most 40 kg, doctor")
    play.take("Marit keeps [Take it out] as out")
    play.take("Orla taps the old out")
    play.take("Orla: /limit Ben")
    row = kept(play)[0].row_id

    def theirs(unit: Unit) -> tuple[Any, bool]:
        ben = unit.clients.roster()[0]
        return unit.clinician_limits.kept(ben.id), unit.clinician_limits.take_out(row, ben.id, play.house.now)

    assert "None stands." in play.someone("Orla").sees
    assert play.house.reading(play.someone("Orla"), theirs) == ((), False)
    assert len(kept(play)) == 1


def test_a_client_cannot_set_one(play: Talk) -> None:
    play.take("Ada: /limit Ada: no overhead")
    assert kept(play) == ()


def test_old_buttons_show_how_it_stands(play: Talk) -> None:
    play.take("Marit: /limit Ada: back squat at most 40 kg")
    play.take("Marit keeps [Let it hold] as first")
    play.take("Marit: /limit Ada: no overhead")
    play.take("Marit taps the old first")
    assert kept(play) == ()
    assert "There is a newer list." in play.someone("Marit").sees
    play.take("Marit keeps [Let it hold] as second")
    play.take("Marit [Let it hold]")
    play.take("Marit taps the old second")
    assert len(kept(play)) == 1
    marit = play.someone("Marit")
    marit.tap_data(marit.forged("Take it out", action=Action.RELEASE))
    assert len(kept(play)) == 1
    assert "That button was from before." in marit.sees


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "A clinician's limit, word for word"),
        (" Somebody: no overhead", "Which client?"),
        (" Ada: back squat at most 40", "Write the load with kg or lb."),
        (" Ada: no overhead from 3 May until 1 May", "That ends before it begins."),
        (" Ada: no deadlift with bands", "Did you mean"),
    ],
)
def test_what_is_not_clear_is_asked(play: Talk, text: str, said: str) -> None:
    play.take(f"Marit: /limit{text}")
    assert said in play.someone("Marit").sees
    assert kept(play) == ()


def test_rows_hold_no_number_of_themselves(play: Talk) -> None:
    held(play, "back squat at most 40 kg")
    specs = of_ada(play, lambda _, unit: list(unit.connection.execute(select(clinician_limit.c.spec))))
    assert [sorted(row.spec) for row in specs] == [["by", "exercise", "kind", "mass", "since"]]
