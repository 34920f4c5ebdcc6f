"""A coach's orders: carried out by the next session that they bear on, and taken back while nothing is begun."""

from datetime import datetime
from typing import Any

import pytest
from dialogs.talks import LISBON, Talk

from bot.store.units import Unit, Units
from bot.usecases import ordering
from core.loads.order import OrderKind
from core.programme.exercises import Site

TUESDAY = datetime(2026, 4, 7, 7, tzinfo=LISBON)
THURSDAY = datetime(2026, 4, 9, 7, tzinfo=LISBON)


@pytest.fixture
def play(units: Units) -> Talk:
    return Talk(units)


def orders(play: Talk, act: Any) -> Any:
    """Do something as Marit's use-case would, about Ada."""

    marit = play.someone("Marit")
    ada = play.house.client_of(marit, play.someone("Ada"))
    return play.house.reading(marit, lambda unit: act(ada, unit))


def standing(play: Talk) -> list[tuple[str, str | None]]:
    return orders(
        play, lambda client, unit: [(kept.kind, kept.exercise) for kept in unit.orders.standing(client.id)]
    )


def given(play: Talk) -> list[tuple[str, int]]:
    """Exercise and sets of the newest card."""

    def look(client: Any, unit: Unit) -> list[tuple[str, int]]:
        session = unit.sessions.of_client(client.id, ("sent", "started", "asking"))[0]
        return [(item.exercise, item.given.sets) for item in unit.sessions.items(session.id)]

    return orders(play, look)


def test_an_order_waits_for_a_session_that_it_bears_on(play: Talk) -> None:
    orders(play, lambda client, unit: ordering.ease(client, 10, unit, play.house.now, site=Site.SHOULDER))

    play.tick(TUESDAY)
    assert standing(play) == [("ease", None)]
    play.tick(THURSDAY)

    assert standing(play) == []
    assert dict(given(play))["bench-press"] == 3


def test_it_eases_one_session_and_no_other(play: Talk) -> None:
    orders(play, lambda client, unit: ordering.ease(client, 10, unit, play.house.now))

    play.tick(TUESDAY)
    first = dict(given(play))["hip-thrust"]
    play.tick(datetime(2026, 4, 14, 7, tzinfo=LISBON))

    assert (first, dict(given(play))["hip-thrust"]) == (3, 4)


def test_what_is_taken_back_before_the_card_eases_nothing(play: Talk) -> None:
    made, _ = orders(play, lambda client, unit: ordering.ease(client, 20, unit, play.house.now))

    taken = orders(play, lambda client, unit: ordering.take_back(made, client, unit, play.house.now))
    again = orders(play, lambda client, unit: ordering.take_back(made, client, unit, play.house.now))
    play.tick(TUESDAY)

    assert (taken, again) == ([], None)
    assert dict(given(play))["hip-thrust"] == 4


def test_what_a_begun_session_was_given_is_not_taken_back(play: Talk) -> None:
    play.tick(TUESDAY)
    made, shown = orders(play, lambda client, unit: ordering.ease(client, 20, unit, play.house.now))
    play.house.show(shown, 1)
    play.someone("Ada").tap("Start")

    assert orders(play, lambda client, unit: ordering.take_back(made, client, unit, play.house.now)) is None
    assert dict(given(play))["hip-thrust"] == 3


def test_a_card_that_is_under_way_stays_and_the_next_is_eased(play: Talk) -> None:
    play.tick(TUESDAY)
    play.someone("Ada").tap("Start")

    _, shown = orders(play, lambda client, unit: ordering.ease(client, 20, unit, play.house.now))

    assert shown == []
    assert dict(given(play))["hip-thrust"] == 4
    assert standing(play) == [("ease", None)]


def test_a_pause_takes_the_exercise_out_of_a_card_that_is_not_begun(play: Talk) -> None:
    play.tick(TUESDAY)

    _, shown = orders(play, lambda client, unit: ordering.pause(client, "hip-thrust", unit, play.house.now))
    play.house.show(shown, 1)

    assert "Your coach has paused hip thrust." in play.someone("Ada").sees
    assert "A  Hip thrust  on hold, your coach decides" in play.someone("Ada").sees


def test_a_pause_stands_until_it_is_taken_up_once(play: Talk) -> None:
    made, _ = orders(play, lambda client, unit: ordering.pause(client, "hip-thrust", unit, play.house.now))
    assert standing(play) == [(OrderKind.PAUSE, "hip-thrust")]

    first = orders(play, lambda client, unit: ordering.take_up(made, client, unit, play.house.now))
    second = orders(play, lambda client, unit: ordering.take_up(made, client, unit, play.house.now))

    assert (first, second, standing(play)) == (True, False, [])


def test_a_second_order_leaves_what_the_card_has_carried_out_of_the_first(play: Talk) -> None:
    orders(play, lambda client, unit: ordering.ease(client, 20, unit, play.house.now))
    play.tick(TUESDAY)
    eased = given(play)

    second, shown = orders(
        play, lambda client, unit: ordering.ease(client, 10, unit, play.house.now, site=Site.SHOULDER)
    )
    after_second = given(play)
    orders(play, lambda client, unit: ordering.take_back(second, client, unit, play.house.now))

    assert dict(eased)["hip-thrust"] == 3
    assert (after_second, shown, given(play)) == (eased, [], eased)


def test_a_pause_leaves_what_the_card_has_carried_out_of_an_ease(play: Talk) -> None:
    orders(play, lambda client, unit: ordering.ease(client, 20, unit, play.house.now))
    play.tick(TUESDAY)
    eased = given(play)

    made, _ = orders(play, lambda client, unit: ordering.pause(client, "hip-thrust", unit, play.house.now))
    orders(play, lambda client, unit: ordering.take_up(made, client, unit, play.house.now))

    assert given(play)[1:] == eased[1:]


def test_the_first_order_can_still_be_taken_back_after_a_second(play: Talk) -> None:
    first, _ = orders(play, lambda client, unit: ordering.ease(client, 20, unit, play.house.now))
    play.tick(TUESDAY)
    orders(play, lambda client, unit: ordering.ease(client, 10, unit, play.house.now, exercise="hip-thrust"))

    orders(play, lambda client, unit: ordering.take_back(first, client, unit, play.house.now))

    assert dict(given(play))["back-extension"] == 3
    assert standing(play) == []
