"""Short on time: what is no number of minutes, and what a shorter session leaves behind."""

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk

from bot.messages import Action
from bot.render.sessions_said import OLD_BUTTON
from bot.store.units import Unit, Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "tick 2026-04-07 07:00",
            "Ada [Short on time]",
        ),
    )


def sees(play: Talk) -> str:
    return play.someone("Ada").sees


def items(play: Talk) -> list[tuple[str, str, str | None]]:
    def look(unit: Unit) -> list[tuple[str, str, str | None]]:
        account = unit.accounts.find(1)
        assert account is not None
        states = ("sent", "started", "asking", "done", "partial")
        session = unit.sessions.of_client(account.client_id or 0, states)[0]
        return [(each.prescription.order, each.state, each.cause) for each in unit.sessions.items(session.id)]

    return play.house.reading(play.someone("Marit"), look)


@pytest.mark.parametrize("minutes", [0, 4, 241])
def test_a_tap_with_a_time_that_cannot_be_leaves_nothing_out(play: Talk, minutes: int) -> None:
    ada = play.someone("Ada")

    ada.tap_data(ada.forged("20 min", action=Action.TRIM, argument=minutes))

    assert sees(play).startswith(OLD_BUTTON)
    assert {state for _, state, _ in items(play)} == {"open"}


@pytest.mark.parametrize("words", ["I have 35 minutes", "35", "35 min.", "only 35m"])
def test_minutes_are_read_as_people_type_them(play: Talk, words: str) -> None:
    play.take(f"Ada: {words}")

    assert sees(play).startswith(
        "Left out today: C Back extension, D Calf raise. What stays takes about 34 min"
    )


def test_what_is_left_out_for_time_is_kept_as_that(play: Talk) -> None:
    play.take("Ada [30 min]")

    assert items(play) == [
        ("A", "open", None),
        ("B1", "open", None),
        ("B2", "skipped", "time"),
        ("C", "skipped", "time"),
        ("D", "skipped", "time"),
    ]


def test_what_is_longer_even_so_says_so(play: Talk) -> None:
    play.take("Ada: 10")

    assert "What stays takes about 20 min by my estimate, 5 of them to warm up." in sees(play)
    assert "That is longer than you have: end when you must." in sees(play)


def test_a_second_time_there_is_nothing_more_to_leave_out(play: Talk) -> None:
    play.take("Ada: 10")
    play.take("Ada [Short on time]")
    play.take("Ada: 10")

    assert sees(play).startswith("There is nothing more to leave out: about 20 min")


def test_a_shorter_session_raises_nothing_and_lowers_nothing(play: Talk) -> None:
    play.take("Ada [20 min]")
    for step in ("[All done as written]", "[Nothing hurts]", "[2]"):
        play.take(f"Ada {step}")

    closed = sees(play)
    again = play.take("tick 2026-04-14 07:00")

    assert "1 of 5 exercises done. Logged." in closed
    assert "next time" not in closed
    assert any("One-leg hinge  3 × 10 a side at 16 kg a hand" in line for line in again)
