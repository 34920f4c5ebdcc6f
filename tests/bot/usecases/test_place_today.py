"""Place today: what is fitted anew at another place, what stays, and what a machine there knows."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import plain_text

from bot.messages import Action, decode
from bot.render.sessions_said import OLD_BUTTON
from bot.store.units import Unit, Units
from bot.usecases import talk
from core.checkin.training_log import Item, Session
from core.loads.decision import Inputs
from core.loads.order import OrderKind
from core.programme.catalogue import exercise
from core.programme.siblings import siblings

OPEN = ("sent", "started", "asking", "done", "partial")


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-09 07:00",))


def sees(play: Talk) -> str:
    return plain_text(play.someone("Ada").last)


def steps(play: Talk, *taken: str) -> None:
    for each in taken:
        play.take(f"Ada{each}" if each.startswith(":") else f"Ada {each}")


def newest(play: Talk) -> tuple[Session, list[Item]]:
    def look(unit: Unit) -> tuple[Session, list[Item]]:
        account = unit.accounts.find(1)
        assert account is not None
        session = unit.sessions.of_client(account.client_id or 0, OPEN)[0]
        return session, unit.sessions.items(session.id)

    found: tuple[Session, list[Item]] = play.house.reading(play.someone("Marit"), look)
    return found


def line(play: Talk, name: str) -> str:
    return next(each for each in sees(play).splitlines() if name in each)


def test_what_was_logged_stays_and_the_rest_is_fitted(play: Talk) -> None:
    steps(play, "[Start]", ": 60 6 6 6 6", ": at home", ": bodyweight")

    session, items = newest(play)
    assert session.place == "home"
    assert (items[0].exercise, items[0].state) == ("bench-press", "done")
    assert [each.exercise for each in items[1:]] != [each.prescription.exercise for each in items[1:]]


def test_every_exercise_that_is_fitted_has_a_decision_that_knows_the_place(play: Talk) -> None:
    steps(play, ": at home", ": dumbbells")
    _, items = newest(play)

    def places(unit: Unit) -> set[str]:
        kept = (unit.decisions.get(each.decision_id or 0) for each in items)
        return {Inputs.model_validate_json(each.inputs).kit.place for each in kept}

    assert play.house.reading(play.someone("Marit"), places) == {"home"}


def test_back_at_the_usual_place_all_is_as_it_was(play: Talk) -> None:
    before = newest(play)[1]
    steps(play, ": at home", ": bodyweight", ": at the gym")

    after = newest(play)[1]
    assert [(each.exercise, each.given, each.state) for each in after] == [
        (each.exercise, each.given, each.state) for each in before
    ]


def test_what_cannot_be_done_there_is_left_out_and_comes_back(play: Talk) -> None:
    client_id = newest(play)[0].client_id
    marit = play.someone("Marit")

    def no_presses(unit: Unit) -> None:
        for each in ("dumbbell-bench-press", "dumbbell-floor-press", "incline-dumbbell-press", "push-up"):
            for other in (each, *(one.key for one in siblings(exercise(each)))):
                if other != "bench-press":
                    unit.orders.add(client_id, OrderKind.PAUSE, play.house.now, exercise=other)

    play.house.reading(marit, no_presses)
    steps(play, ": at home", ": dumbbells")
    there, said = newest(play)[1][0], sees(play)
    steps(play, ": at the gym")

    assert (there.state, there.cause) == ("skipped", "kit")
    assert "Not there, so left out: A bench press" in said
    assert newest(play)[1][0].state == "open"


def logged_at(play: Talk, load: str) -> None:
    """Pushdowns, a cable's, with a load, and the end of the session."""
    steps(
        play,
        ": go to pushdown",
        f": {load} 10 10 10",
        "[End here]",
        "[No time]",
        "[Nothing hurts]",
        "[Not sure]",
    )


def test_a_machine_elsewhere_is_found_anew_and_tells_nothing_at_the_usual_place(play: Talk) -> None:
    logged_at(play, "20")
    play.take("tick 2026-04-16 07:00")
    assert line(play, "Pushdown").endswith("at 20 kg")
    assert "last time 20 kg × 10 10 10" in sees(play)
    steps(play, ": elsewhere", ": both")

    assert "A machine here is another one than yours: find its load anew." in sees(play)
    assert line(play, "Pushdown").endswith("3 × 10, find the load")
    assert "last time 20 kg × 10 10 10" not in sees(play)

    logged_at(play, "40")
    play.take("tick 2026-04-23 07:00")
    # Nine tenths of 20 kg: 14 days without this machine are a break, for another one is another exercise.
    assert line(play, "Pushdown").endswith("at 15 kg")
    assert "last time 20 kg × 10 10 10" in sees(play)
    assert "40 kg" not in sees(play)


def test_a_place_that_is_hers_knows_its_machine_the_next_time(play: Talk) -> None:
    client_id = newest(play)[0].client_id

    def a_club(unit: Unit) -> None:
        gym = unit.kits.at(client_id, "gym")
        assert gym is not None
        unit.kits.keep(client_id, gym.model_copy(update={"place": "club"}))

    play.house.reading(play.someone("Marit"), a_club)
    steps(play, ": at the club")
    logged_at(play, "35")
    play.take("tick 2026-04-16 07:00")
    at_gym = line(play, "Pushdown")
    steps(play, "[Club]")

    assert at_gym.endswith("3 × 10, find the load")
    assert line(play, "Pushdown").endswith("at 35 kg")
    assert "last time 35 kg × 10 10 10" in sees(play)


def test_what_pain_has_stopped_does_not_come_back_with_a_place(play: Talk) -> None:
    steps(play, "[Start]", ": pain left shoulder 5 sharp", ": at home", ": dumbbells")

    stopped = [each for each in newest(play)[1] if each.cause == "pain"]
    before = [each.id for each in stopped]
    steps(play, ": at the gym")

    assert [each.id for each in newest(play)[1] if each.cause == "pain"] == before


def test_what_she_left_out_herself_stays_left_out(play: Talk) -> None:
    steps(play, "[Start]", "[Skip]", ": at home", ": both")

    assert newest(play)[1][0].state == "skipped"


def test_her_own_swap_gives_way_to_what_fits_the_place(play: Talk) -> None:
    steps(play, "[Start]", "[Swap]", "[Machine chest press]", ": at home", ": dumbbells", ": why")

    assert "as you chose" not in sees(play)


def test_elsewhere_is_asked_anew_and_kept_nowhere(play: Talk) -> None:
    steps(play, ": elsewhere", ": dumbbells", ": elsewhere")

    client_id = newest(play)[0].client_id

    def places(unit: Unit) -> list[str]:
        return [each.place for each in unit.kits.elsewhere(client_id)]

    assert "What is there to lift elsewhere? For today only." in sees(play)
    assert play.house.reading(play.someone("Marit"), places) == []


def test_a_new_place_counts_as_alone_and_without_safety_arms(play: Talk) -> None:
    steps(play, ": at home", ": bar and plates")

    client_id = newest(play)[0].client_id

    def kit(unit: Unit) -> tuple[bool, bool]:
        found = unit.kits.at(client_id, "home")
        assert found is not None
        return found.usually_alone, found.safety_arms

    assert play.house.reading(play.someone("Marit"), kit) == (True, False)


@pytest.mark.parametrize(("action", "argument"), [(Action.PLACE, 99), (Action.PICK, 1), (Action.PICK, 9)])
def test_a_place_that_was_not_offered_changes_nothing(play: Talk, action: Action, argument: int) -> None:
    ada = play.someone("Ada")
    before = newest(play)
    ada.does(talk.tapped, talk.Tapped(decode(ada.forged("Start", action=action, argument=argument))))

    assert sees(play).startswith(OLD_BUTTON)
    assert newest(play)[1] == before[1]


def test_a_kind_that_there_is_not_is_not_taken(play: Talk) -> None:
    steps(play, ": at home")
    ada = play.someone("Ada")
    ada.does(talk.tapped, talk.Tapped(decode(ada.forged("Dumbbells", action=Action.PICK, argument=5))))

    assert sees(play).startswith(OLD_BUTTON)


def test_the_place_is_not_changed_when_all_is_done(play: Talk) -> None:
    steps(play, "[All done as written]", "[Skip]", ": at home")

    assert newest(play)[0].place == "gym"
    assert "Ada writes:" in plain_text(play.someone("Marit").last)


def test_one_clients_place_is_not_another_s(play: Talk) -> None:
    play.take("Ada: at home")
    play.take("Ada: dumbbells")

    assert "Today at home." in sees(play)
    assert "Today" not in plain_text(play.someone("Ben").last)
