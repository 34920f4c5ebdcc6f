"""Plan my week: kept, moved, put back; days that do not fit, old cards, and nobody else's sessions."""

from datetime import date, timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.render import plan_week as say
from bot.store.units import Units
from bot.usecases import plan_week
from bot.usecases.week_clock import PLAN


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "Marit: /checkin off Ada",
            "tick 2026-04-12 18:01",
        ),
    )


def week(play: Talk) -> dict[str, int]:
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))

    def look(unit: object) -> dict[str, int]:
        found = unit.sessions.of_client(client.id, ("planned",))  # type: ignore[attr-defined]
        return {
            unit.versions.day_name(each): each.local_on.day  # type: ignore[attr-defined]
            for each in found
            if date(2026, 4, 13) <= each.local_on <= date(2026, 4, 19)
        }

    found: dict[str, int] = play.house.reading(coach, look)
    return found


AS_WRITTEN = {"Pull": 13, "Lower A": 14, "Push": 16, "Lower B": 17}


def sees(play: Talk) -> str:
    return play.house.someone(1).sees


def test_unanswered_it_stays_as_it_is(play: Talk) -> None:
    assert sees(play).startswith("Your week, Mon 13 April to Sun 19 April")
    assert week(play) == AS_WRITTEN


def test_kept_it_is_answered_once(play: Talk) -> None:
    play.take("Ada keeps [Keep] as keep")
    play.take("Ada [Keep]")
    play.take("Ada taps the old keep")
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    found = play.house.reading(coach, lambda unit: unit.due_questions.on(client.id, PLAN, date(2026, 4, 12)))

    assert found.answers == {"kept": True}
    assert week(play) == AS_WRITTEN


def test_a_session_moves_with_its_card(play: Talk) -> None:
    play.take("Ada [Move Thu Push]")
    play.take("Ada [Sat 18 April]")
    play.take("tick 2026-04-16 07:00")
    lines = play.take("tick 2026-04-18 07:00")

    assert any("Push · week 2 of 4 · Sat 18 April" in line for line in lines)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("move push to sat", {"Push": 18}),
        ("Move Thu to Saturday.", {"Push": 18}),
        ("move thu push to 18", {"Push": 18}),
        ("move push to sun 19 april", {"Push": 19}),
        ("move push to fri", {}),
        ("move push to sat 25", {}),
        ("move push to soon", {}),
        ("move bench to sat", {}),
    ],
)
def test_a_move_is_typed(play: Talk, text: str, expected: dict[str, int]) -> None:
    play.take(f"Ada: {text}")

    assert week(play) == {**AS_WRITTEN, **expected}


def test_sessions_that_load_the_same_stay_two_days_apart(play: Talk) -> None:
    play.take("Ada: move lower a to thu")

    assert week(play) == AS_WRITTEN
    assert say.NOT_THAT_DAY in sees(play)


def test_the_next_one_makes_room_where_a_session_finds_no_day_alone(units: Units) -> None:
    play = Talk(units, block="Slipway full body", days="Mon,Wed,Fri", starts="2026-04-13")
    play.take("Ada: /plan")
    before = sees(play)
    play.take("tick 2026-04-12 18:01")
    play.take("Ada: /plan")
    first = next(label for label in play.house.someone(1).buttons if label.startswith("Move Wed"))
    play.take(f"Ada [{first}]")

    assert before.startswith("Your week") or "No session is planned" in before
    assert "Which day instead?" in sees(play) or say.NO_DAY in sees(play)


def test_what_moved_is_put_back_by_a_word(play: Talk) -> None:
    play.take("Ada: move push to sat")
    play.take("Ada: undo")

    assert week(play) == AS_WRITTEN


def test_what_can_no_longer_be_put_back_stays(play: Talk) -> None:
    play.take("Ada: move push to sat")
    play.house.now += timedelta(days=4)
    play.take("Ada [Undo]")

    assert week(play) == {**AS_WRITTEN, "Push": 18}
    assert say.STALE in sees(play)


def test_next_in_line_nothing_moves_by_hand(units: Units) -> None:
    play = Talk(units)
    play.take("Marit: /settings")
    play.take("Marit [Next in line]")
    play.take("Ada: /plan")
    lines = play.take("Ada: move push to sat")

    assert say.IN_LINE in play.house.someone(1).screen[list(play.house.someone(1).screen)[-2]].html or lines
    assert play.house.someone(1).sees.startswith("Passed on")


def test_another_word_is_no_answer(play: Talk) -> None:
    play.take("Ada: keep going coach")

    assert sees(play).startswith("Passed on")


def test_a_typed_move_is_not_taken_without_a_plan(units: Units) -> None:
    play = Talk(units)
    play.take("Ada: move push to sat")

    assert sees(play).startswith("Passed on")


@pytest.mark.parametrize(("action", "argument"), [(Action.MOVE, 1), (Action.PICK, 0), (Action.UNDO, 0)])
def test_a_tap_that_is_not_offered_moves_nothing(play: Talk, action: Action, argument: int) -> None:
    ada = play.house.someone(1)
    ada.tap_data(ada.forged("Keep", action=action, argument=argument))

    assert week(play) == AS_WRITTEN
    assert say.STALE in ada.sees


def test_another_clients_session_does_not_move(play: Talk) -> None:
    ada, orla = play.house.someone(1), play.house.someone(900)
    ben = play.house.client_of(orla, play.house.someone(901))
    theirs = play.house.reading(orla, lambda unit: unit.sessions.of_client(ben.id, ("planned",))[0])
    ada.tap_data(ada.forged("Keep", action=Action.MOVE, argument=theirs.id))

    assert say.STALE in ada.sees
    assert theirs == play.house.reading(orla, lambda unit: unit.sessions.get(theirs.id))


def test_a_date_that_was_taken_meanwhile_is_not_given_twice(play: Talk) -> None:
    play.take("Ada [Move Thu Push]")
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    with play.units.open(coach.coach_id) as unit:
        found = unit.sessions.of_client(client.id, ("planned",))
        lower = next(each for each in found if each.local_on == date(2026, 4, 17))
        unit.sessions.change(lower.id, local_on=date(2026, 4, 18))
    play.take("Ada [Sat 18 April]")

    assert week(play) == {**AS_WRITTEN, "Lower B": 18}
    assert say.NOT_THAT_DAY in sees(play)


def test_a_session_whose_card_is_out_does_not_move(play: Talk) -> None:
    play.take("Ada [Move Thu Push]")
    play.take("Ada keeps [Sat 18 April] as sat")
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    with play.units.open(coach.coach_id) as unit:
        found = unit.sessions.of_client(client.id, ("planned",))
        unit.sessions.change(next(each.id for each in found if each.local_on.day == 16), state="unsent")
    play.take("Ada taps the old sat")

    assert say.STALE in sees(play)


def test_an_older_card_is_over(play: Talk) -> None:
    play.take("Ada keeps [Keep] as keep")
    play.take("Ada: /plan")
    play.take("Ada taps the old keep")
    replaced = sees(play)
    play.take("Ada keeps [Keep] as late")
    play.house.now += timedelta(days=9)
    play.take("Ada taps the old late")

    assert replaced == sees(play) == "This plan is from before. /plan shows the coming week."


def test_on_hold_there_is_no_week_to_plan(play: Talk) -> None:
    play.take("Ada: chest pain and short of breath")
    play.take("Ada: /plan")

    assert sees(play).startswith("Your plan is on hold")


def test_with_nothing_planned_it_says_so(units: Units) -> None:
    play = Talk(units, starts="2026-05-01")
    play.take("Ada: /plan")

    assert sees(play) == "Tue 7 April to Mon 13 April\n\nNo session is planned that could move."


def test_a_coach_has_no_week_of_her_own(play: Talk) -> None:
    play.house.someone(900).does(plan_week.plan_asked, plan_week.PlanAsked())

    assert "Your week" not in play.house.someone(900).sees


def test_two_sessions_of_one_name_are_asked_about(play: Talk) -> None:
    coach = play.house.someone(100)
    client = play.house.client_of(coach, play.house.someone(1))
    with play.units.open(coach.coach_id) as unit:
        found = unit.sessions.of_client(client.id, ("planned",))
        later = next(each for each in found if each.local_on > date(2026, 4, 19) and each.week_no == 3)
        assert unit.versions.day_name(later) == "Push" or later
        push = next(
            each for each in found if unit.versions.day_name(each) == "Push" and each.local_on.day > 19
        )
        unit.sessions.change(push.id, local_on=date(2026, 4, 19))
    play.take("Ada: move push to sat")

    assert say.SEVERAL in sees(play)
