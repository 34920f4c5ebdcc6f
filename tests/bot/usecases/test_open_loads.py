"""What pain takes back of a card that is out."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.store.units import Units
from core.loads.decision import Inputs, Kind
from core.programme.prescription import Load


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def raised(play: Talk, exercise: str, load: str, kind: Kind = Kind.RAISE) -> None:
    """Have the card that is out ask for more of an exercise than the rules would now."""

    def change(unit):
        client = unit.accounts.find(1).client_id
        session = unit.sessions.open_one(client)
        item = next(each for each in unit.sessions.items(session.id) if each.exercise == exercise)
        before = unit.decisions.get(item.decision_id)
        decision = before.value.model_copy(update={"kind": kind, "load": Load.of(load)})
        row = unit.decisions.keep(
            client, item.id, "card", Inputs.model_validate_json(before.inputs), decision, play.house.now
        )
        given = item.given.model_copy(update={"load": Load.of(load)})
        unit.sessions.change_item(item.id, decision_id=row, given=given)

    play.house.reading(play.someone("Marit"), change)


def load_of(play: Talk, exercise: str) -> str:
    def look(unit):
        session = unit.sessions.open_one(unit.accounts.find(1).client_id)
        item = next(each for each in unit.sessions.items(session.id) if each.exercise == exercise)
        return f"{item.given.load} {item.state}"

    return play.house.reading(play.someone("Marit"), look)


@pytest.mark.parametrize("score", [1, 3])
def test_a_raise_that_is_on_the_card_is_taken_back_where_it_hurts(play: Talk, score: int) -> None:
    raised(play, "hip-thrust", "95")

    lines = play.take(f"Ada: pain left hip {score}")

    assert load_of(play, "hip-thrust") == "90 kg open"
    assert any("Not heavier today where it hurts." in line for line in lines)


def test_a_raise_stays_where_nothing_hurts_and_where_it_hurts_elsewhere(play: Talk) -> None:
    raised(play, "hip-thrust", "95")

    play.take("Ada: pain left hip 0")
    play.take("Ada: pain left wrist 3")

    assert load_of(play, "hip-thrust") == "95 kg open"


def test_what_was_no_raise_is_left_to_what_is_said_of_it(play: Talk) -> None:
    raised(play, "hip-thrust", "95", Kind.HOLD)

    play.take("Ada: pain left hip 3")

    assert load_of(play, "hip-thrust") == "95 kg open"


def test_the_exercise_that_it_hurts_in_is_left_to_what_is_said_of_it(play: Talk) -> None:
    raised(play, "hip-thrust", "95")
    play.take("Ada [Start]")

    play.take("Ada: pain left hip 4")

    assert load_of(play, "hip-thrust") == "95 kg open"


def test_what_she_has_made_lighter_herself_is_made_no_heavier(play: Talk) -> None:
    raised(play, "hip-thrust", "60")

    play.take("Ada: pain left hip 2")

    assert load_of(play, "hip-thrust") == "60 kg open"


def test_a_morning_before_the_session_eases_all_that_the_place_loads(play: Talk) -> None:
    play.take("Ada: pain left hip 4")
    play.take("tick 2026-04-08 07:00")
    raised(play, "hip-thrust", "95", Kind.HOLD)

    play.take("Ada [6]")

    assert load_of(play, "hip-thrust") == "70 kg open"


@pytest.mark.parametrize("begun", [(), ("Ada [Start]",)])
def test_what_is_raised_on_a_card_that_is_out_is_taken_back_in_a_pregnancy(
    play: Talk, begun: tuple[str, ...]
) -> None:
    raised(play, "hip-thrust", "95")
    for step in begun:
        play.take(step)

    lines = play.take("Ada: I'm pregnant")

    assert load_of(play, "hip-thrust") == "90 kg open"
    assert any("nothing here goes up, and more is left in each set" in line for line in lines)
    assert any("The card that is out was changed at once." in line for line in lines)
    again = play.take("Ada: I'm pregnant")
    assert not any("nothing here goes up" in line for line in again)


def test_without_a_card_that_is_out_nothing_is_shown_of_it(units: Units) -> None:
    lines = Talk(units).take("Ada: I'm pregnant")

    assert not any("The card that is out" in line or "nothing here goes up" in line for line in lines)
