"""Orders of a coach: who may give them, what is read back, and that each is taken back whole."""

from datetime import date, timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action, Person, Tap
from bot.store.units import Units
from bot.usecases import orders_held, orders_list, orders_said, pausing, raises
from core.loads.order import OrderKind
from core.programme.restrictions import Restriction


@pytest.fixture
def talk(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def said(talk: Talk, *steps: str) -> str:
    return "\n".join(line for step in steps for line in talk.take(step))


def of_ada(talk: Talk, look):
    coach = talk.someone("Marit")
    client = talk.house.client_of(coach, talk.someone("Ada"))
    return talk.house.reading(coach, lambda unit: look(unit, client))


def restrictions(talk: Talk) -> frozenset[Restriction]:
    return of_ada(talk, lambda unit, client: unit.restrictions.of(client.id))


def test_a_limit_with_an_end_is_taken_out_when_its_day_is_over(talk: Talk) -> None:
    said(talk, "Marit: Ada: no overhead until 12 April", "Marit [Hold it]")
    assert restrictions(talk) == {Restriction.OVERHEAD}

    talk.take("tick 2026-04-14 07:00")

    assert restrictions(talk) == frozenset()


def test_a_limit_that_stood_before_outlives_an_order(talk: Talk) -> None:
    said(talk, "Marit: /limits Ada: no overhead", "Marit: Ada: no overhead until 12 April", "Marit [Hold it]")
    talk.take("tick 2026-04-14 07:00")

    assert restrictions(talk) == {Restriction.OVERHEAD}


def test_limits_that_are_said_anew_have_no_end(talk: Talk) -> None:
    said(talk, "Marit: Ada: no overhead until 12 April", "Marit [Hold it]", "Marit: /limits Ada: no overhead")
    talk.take("tick 2026-04-14 07:00")

    assert restrictions(talk) == {Restriction.OVERHEAD}


def test_a_swap_is_given_on_the_next_card_and_taken_back_whole(talk: Talk) -> None:
    def placed(unit, client):
        return unit.placements.of(unit.blocks.running(client.id).id)

    before = of_ada(talk, placed)
    said(talk, "Marit: Ada: swap bench for push-up", "Marit [Hold it]")
    during = of_ada(talk, placed)
    card = said(talk, "tick 2026-04-09 07:00")
    said(talk, "Marit [Undo]")

    assert during["bench-press"].instead == "push-up"
    assert "Bench press" not in card
    assert of_ada(talk, placed) == before


def test_a_swap_for_what_cannot_stand_in_is_refused(talk: Talk) -> None:
    assert "cannot stand in" in said(talk, "Marit: Ada: swap bench for bench press")


def test_a_session_that_was_called_off_comes_again_when_it_is_taken_back(talk: Talk) -> None:
    said(talk, "Marit: Ada: rest Thursday", "Marit [Hold it]", "Marit: undo order")

    assert "Push · week 1" in said(talk, "tick 2026-04-09 07:00")


def test_a_session_that_was_called_off_stays_so_once_its_day_is_over(talk: Talk) -> None:
    said(talk, "Marit: Ada: rest Thursday", "Marit [Hold it]", "tick 2026-04-09 07:00")
    talk.take("tick 2026-04-10 07:00")

    assert "stays" in said(talk, "Marit [Undo]")


def test_what_was_paused_is_paused_again_when_taking_it_up_is_undone(talk: Talk) -> None:
    said(talk, "Marit: Ada: pause bench", "Marit [Hold it]", "Marit: Ada: let bench go on", "Marit [Hold it]")
    said(talk, "Marit [Undo]")

    kept = of_ada(talk, lambda unit, client: unit.orders.standing(client.id))
    assert [(each.kind, each.exercise) for each in kept] == [(OrderKind.PAUSE, "bench-press")]


def test_a_load_without_an_end_takes_the_place_of_the_one_before_until_it_is_undone(talk: Talk) -> None:
    said(talk, "Marit: Ada: bench 55", "Marit [Hold it]", "Marit: Ada: bench 50", "Marit [Hold it]")
    standing = of_ada(talk, lambda unit, client: unit.orders.standing(client.id))
    assert [each.facts["mass"]["value"] for each in standing] == ["50"]

    said(talk, "Marit [Undo]")

    standing = of_ada(talk, lambda unit, client: unit.orders.standing(client.id))
    assert [each.facts["mass"]["value"] for each in standing] == ["55"]


def test_an_order_that_a_session_was_begun_with_stays(talk: Talk) -> None:
    said(talk, "Marit: Ada: hip thrust 80 once", "Marit [Hold it]", "Ada [All done as written]")

    assert "begun with it" in said(talk, "Marit [Undo]")


def test_a_lighter_week_makes_its_sessions_lighter_and_no_other(talk: Talk) -> None:
    said(talk, "Marit: Ada: lighter next week", "Marit [Hold it]")

    assert "2 × 8 at 85 kg" in said(talk, "tick 2026-04-14 07:00")
    done = ("Ada [All done as written]", "Ada: 40 12 12", "Ada [Nothing hurts]", "Ada [2]")
    said(talk, *done)
    assert "4 × 8 at 90 kg" in said(talk, "tick 2026-04-21 07:00")


@pytest.mark.parametrize(
    ("line", "answer"),
    [
        ("Ada: rest", "Which day?"),
        ("Ada: rest Wednesday", "no session on those days"),
        ("Ada: let bench go on", "not paused"),
        ("Ada: calf raise up 5", "no load of that exercise"),
        ("Ada: bench 60 from 10 May until 1 May", "days are over"),
        ("Ada: bench bw+5", "not counted as bodyweight"),
        ("Ada: well done today", "cannot read that as an order"),
        ("rest Friday", "but whose?"),
        ("undo order", "no order of yours"),
        ("/order", "An order in one line"),
        ("/order Ada", "An order in one line"),
        ("/order undo", "no order of yours"),
        ("/order Ada: hello", "cannot read that"),
        ("/orders Nobody", "is not clear"),
        ("no raises for Ada until Monday", "no raises until Mon 13 April"),
        ("Ada bench 60 from next week", "bench press 60 kg from Mon 13 April"),
    ],
)
def test_a_line_that_cannot_hold_says_why(talk: Talk, line: str, answer: str) -> None:
    assert answer in said(talk, f"Marit: {line}")


def test_an_unclear_name_is_asked_about_and_then_read_back(talk: Talk) -> None:
    assert "Which exercise?" in said(talk, "Marit: Ada: pause press")
    assert "bench press paused" in said(talk, "Marit [Bench press]")


def test_a_line_with_a_name_is_an_order_whatever_else_waits_for_words(talk: Talk) -> None:
    said(talk, "Marit: /refer Ada doctor: dizzy", "Marit [Only note it]")

    assert "no session on Fri 10 April" in said(talk, "Marit: Ada: rest Friday")


def test_words_that_are_asked_for_somebody_else_are_no_order(talk: Talk) -> None:
    said(talk, "Marit: /client Ada", "Marit [Write to them]")

    assert "Marit writes:\n        Ada: rest Friday" in said(talk, "Marit: Ada: rest Friday")


def test_with_a_card_open_a_line_is_about_that_client(talk: Talk) -> None:
    said(talk, "Marit: /client Ada")

    assert "no session on Fri 10 April" in said(talk, "Marit: rest Friday")
    assert "no order stands" in said(talk, "Marit: /orders")


def test_an_old_button_shows_how_it_stands(talk: Talk) -> None:
    said(talk, "Marit: Ada: bench 55", "Marit keeps [Hold it] as first", "Marit [Change]")
    assert "write it anew" not in said(talk, "Marit taps the old first")
    said(talk, "Marit: Ada: bench 50", "Marit [Hold it]")
    assert "Holds" in said(talk, "Marit taps the old first")
    said(talk, "Marit [Undo]")
    assert "not hold any more" in said(talk, "Marit taps the old first")


def test_an_order_that_is_written_anew_is_for_the_same_client(talk: Talk) -> None:
    said(talk, "Marit: Ada: bench 55", "Marit [Change]")

    assert "cannot read" in said(talk, "Marit: dance")
    assert "bench press 50 kg" in said(talk, "Marit: Ada: bench 50")


def test_a_list_is_shown_anew_and_an_older_one_says_so(talk: Talk) -> None:
    said(talk, "Marit: Ada: bench 55", "Marit [Hold it]", "Marit: Ada: no raises", "Marit [Hold it]")
    said(talk, "Marit: /orders Ada", "Marit keeps [Take back 1] as old", "Marit [Take back 2]")
    assert "bench press 55 kg" in said(talk, "Marit taps the old old")
    said(talk, "Marit: /orders Ada")
    assert "newer list" in said(talk, "Marit taps the old old")


def test_no_order_of_one_coach_reaches_a_client_of_another(talk: Talk) -> None:
    said(talk, "Marit: Ada: bench 55", "Marit [Hold it]")
    kept = of_ada(talk, lambda unit, client: unit.orders.standing(client.id))[0]
    orla, ben = talk.someone("Orla"), talk.someone("Ben")
    client = talk.house.client_of(orla, ben)

    with talk.units.open(orla.coach_id) as unit:
        person = Person(900, 900, orla.coach_id, "coach")
        assert orders_held.taken_back(kept.id, client, person, unit, talk.house.now) is None
        assert unit.orders.get(kept.id) is None
    assert len(of_ada(talk, lambda unit, client: unit.orders.standing(client.id))) == 1


@pytest.mark.parametrize("owner", [orders_said, orders_list, raises, pausing])
def test_who_is_no_coach_taps_and_asks_for_nothing(talk: Talk, owner) -> None:
    said(talk, "Marit: Ada: bench 55")
    ada = talk.someone("Ada")
    coach = talk.someone("Marit")
    with talk.units.open(coach.coach_id) as unit:
        prompt = unit.prompts.newest_of(100, "order")
        person = Person(ada.user_id, ada.user_id, coach.coach_id, "client", client_id=prompt.client_id)
        tap = Tap(prompt.id, prompt.revision, Action.CONFIRM)
        assert owner.tapped(tap, prompt, person, unit, talk.house.now) == []
        assert owner.refreshed(prompt, person, unit, talk.house.now) == []


def test_old_buttons_of_pausing_and_raises_show_how_it_stands(talk: Talk) -> None:
    said(talk, "Marit: /pause Ada until 20 April", "Marit keeps [Undo] as undo", "Marit: /resume Ada")
    assert "settled" in said(talk, "Marit taps the old undo")
    said(talk, "Marit: /end Ada", "Marit keeps [No] as no", "Marit: /end Ada", "Marit [Yes, end it]")
    assert "settled" in said(talk, "Marit taps the old no")
    for command in ("resume", "end"):
        assert "Whom?" in said(talk, f"Marit: /{command}")


def test_a_pause_that_was_told_is_taken_back_with_a_word(talk: Talk) -> None:
    said(talk, "Marit: /pause Ada")
    talk.house.delivered()

    assert "taken your plan up again" in said(talk, "Marit [Undo]")


def test_a_paused_client_goes_on_after_her_last_day(talk: Talk) -> None:
    said(talk, "Marit: /pause Ada until 20 April")
    client = of_ada(talk, lambda _, client: client)

    assert client.state == "paused"
    assert client.paused_until == date(2026, 4, 20) + timedelta(days=1)


def test_the_digest_names_raises_that_wait(talk: Talk) -> None:
    done = ("Ada [All done as written]", "Ada [Nothing hurts]", "Ada [2]")
    said(talk, "Marit: /rules raises wait over 1%", "Marit [Set it]", done[0], "Ada: 40 12 12 12", *done[1:])
    said(talk, "tick 2026-04-14 07:00", *done, "tick 2026-04-21 07:00")

    waiting = of_ada(talk, lambda unit, client: raises.by_client(unit, talk.house.now)[client.id])

    assert next((each.exercise, str(each.before), str(each.now)) for each in waiting) == (
        "hip-thrust",
        "90 kg",
        "92.5 kg",
    )
    said(talk, "Marit: /raises", "Marit keeps [Agree 1] as agree", "Marit [Agree 1]")
    assert "Raises that wait" in said(talk, "Marit taps the old agree")
    said(talk, "Marit: /raises")
    assert "newer list" in said(talk, "Marit taps the old agree")
