"""Taps on the session card that its buttons do not offer, or no longer."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from setting_out import Someone, plain_text

from bot.messages import Action, decode
from bot.render.sessions_said import NO_SUCH_STEP, OLD_BUTTON, TYPE_THE_LOAD
from bot.store.units import Units
from bot.usecases import talk as talking

TUESDAY_MORNING = "2026-04-07 07:00"


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, (f"tick {TUESDAY_MORNING}",))


def person(play: Talk) -> Someone:
    return play.someone("Ada")


def forge(play: Talk, label: str, action: Action, argument: int) -> str:
    ada = person(play)
    data = ada.forged(label, action=action, argument=argument)
    ada.does(talking.tapped, talking.Tapped(decode(data)))
    return plain_text(ada.screen["session:1"]) if "session:1" in ada.screen else plain_text(ada.last)


def items(play: Talk) -> list[tuple[str, str]]:
    def look(unit):
        client = unit.accounts.find(1).client_id
        session = unit.sessions.open_one(client)
        return [(each.exercise, each.state) for each in unit.sessions.items(session.id)] if session else []

    return play.house.reading(play.someone("Marit"), look)


def item_ids(play: Talk) -> list[int]:
    def look(unit):
        session = unit.sessions.open_one(unit.accounts.find(1).client_id)
        return [each.id for each in unit.sessions.items(session.id)]

    return play.house.reading(play.someone("Marit"), look)


@pytest.mark.parametrize(
    ("action", "argument"),
    [
        (Action.DONE, 9999),
        (Action.LAST_LESS, 9999 * 4 + 1),
        (Action.LIGHTER, 9999),
        (Action.HEAVIER, 9999),
        (Action.SKIP, 9999),
        (Action.JUMP, 9999),
        (Action.SITE, 3),
    ],
)
def test_a_tap_on_what_is_not_there_shows_the_card_as_it_stands(play: Talk, action, argument):
    play.take("Ada [Start]")
    before = items(play)

    forge(play, "Skip", action, argument)

    assert plain_text(person(play).last).startswith(OLD_BUTTON)
    assert items(play) == before


def test_a_reason_that_there_is_not_leaves_nothing_out(play: Talk):
    play.take("Ada [Not today]")

    forge(play, "No time", Action.LEAVE_OUT, 9)

    assert {state for _, state in items(play)} == {"open"}


def test_reps_left_that_there_are_not_are_not_kept(play: Talk):
    for step in ("Ada [All done as written]", "Ada [Skip]", "Ada [Nothing hurts]"):
        play.take(step)

    forge(play, "3", Action.LEFT, 9)

    def look(unit):
        found = unit.sessions.of_client(unit.accounts.find(1).client_id, ("partial",))
        return [each.left_last for each in unit.sessions.items(found[0].id)]

    assert play.house.reading(play.someone("Marit"), look) == [None] * 5


def test_an_exercise_to_be_found_is_not_done_as_written(play: Talk):
    play.take("Ada [Start]")
    to_find = item_ids(play)[4]

    forge(play, "Skip", Action.DONE, to_find)

    assert plain_text(person(play).last).startswith(
        "There is no load to repeat yet. Type what you did, like 5 12 12 11."
    )
    assert items(play)[4] == ("calf-raise", "open")


def test_a_load_that_is_to_be_found_is_not_made_lighter(play: Talk):
    play.take("Ada [Start]")
    to_find = item_ids(play)[4]

    forge(play, "Skip", Action.LIGHTER, to_find)

    assert plain_text(person(play).last).startswith(TYPE_THE_LOAD)


def test_there_is_no_step_under_the_empty_bar(play: Talk):
    play.take("Ada [Start]")
    for _ in range(60):
        play.take("Ada [Change numbers]")
        play.take("Ada [Lighter]")
        if plain_text(person(play).last).startswith(NO_SUCH_STEP):
            break

    assert "Hip thrust  4 × 8 at 20 kg" in plain_text(person(play).last)


def test_an_exercise_that_is_done_is_not_done_again(play: Talk):
    play.take("Ada [Start]")
    first = item_ids(play)[0]
    play.take("Ada [Done as written]")

    forge(play, "Skip", Action.DONE, first)

    assert plain_text(person(play).last).startswith(OLD_BUTTON)


@pytest.mark.parametrize("choice", ["Leave it out", "Wed 8 April", "Main lift with Thu 9 April"])
def test_a_session_left_out_or_moved_before_a_stop_sign_is_not_taken_up_again(play: Talk, choice: str):
    play.take("Ada [Not today]")
    play.take("Ada [No time]")
    play.take(f"Ada [{choice}]")
    play.take("Ada keeps [Take it up again] as again")
    play.take("Ada: my chest feels tight and my left arm hurts")

    play.take("Ada taps the old again")

    assert items(play) == []
