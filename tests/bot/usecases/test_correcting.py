"""A coach corrects a client's set: kept anew by her hand, decided anew, and told."""

from datetime import datetime
from typing import Any

import pytest
from dialogs.moments import acted_out
from dialogs.talks import LISBON, Talk
from setting_out import Someone
from sqlalchemy import select

from bot.store.tables import decision, logged_set
from bot.store.units import Units


def corrects(play: Talk) -> None:
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    ada = play.someone("Ada")
    ada.tap("All done as written")
    ada.tap("Skip")
    ada.tap("Nothing hurts")
    ada.tap("2")
    play.commanded(play.someone("Marit"), "client", "Ada")
    play.someone("Marit").tap("Correct a set")


@pytest.fixture
def play(units: Units) -> Talk:
    return acted_out(units, corrects)


@pytest.fixture
def marit(play: Talk) -> Someone:
    return play.someone("Marit")


def column(play: Talk, query: Any) -> list[Any]:
    with play.units.read(None) as house:
        return list(house.connection.execute(query).scalars())


def test_what_stood_is_kept_as_voided_by_the_coach(play: Talk, marit: Someone) -> None:
    marit.tap("A Hip thrust")
    play.typed(marit, "85 8 8 8")

    assert (
        column(play, select(logged_set.c.voided_by).where(logged_set.c.voided_by.is_not(None)))
        == ["coach"] * 4
    )
    assert "correction" in column(play, select(decision.c.made_for))


def test_an_exercise_that_was_left_out_can_be_logged_for_her(play: Talk, marit: Someone) -> None:
    marit.tap("D Calf raise")
    play.typed(marit, "40 12 12 12, 1 left")

    def look(unit: Any) -> Any:
        ada = unit.clients.roster()[0]
        session = unit.sessions.of_client(ada.id, ("done", "partial"))[0]
        return session.state, [(each.state, each.left_last) for each in unit.sessions.items(session.id)][-1]

    assert play.house.reading(marit, look) == ("done", ("done", 1))
    assert marit.sees.startswith("Corrected for Ada, Tue 7 April: Calf raise 40 kg × 12 12 12.")


@pytest.mark.parametrize("text", ["12 12 12", "pain left knee 4", "hello", "skip"])
def test_what_is_in_doubt_changes_nothing(play: Talk, marit: Someone, text: str) -> None:
    marit.tap("D Calf raise")
    before = column(play, select(logged_set.c.id))

    play.typed(marit, text)

    assert column(play, select(logged_set.c.id)) == before
    assert "nothing is changed" in marit.sees


def test_she_can_choose_another_exercise_or_leave_it(play: Talk, marit: Someone) -> None:
    marit.tap("A Hip thrust")
    marit.tap("Back")
    assert "which exercise?" in marit.sees
    marit.tap_data(marit.forged("Leave it", revision=0))
    assert "which exercise?" in marit.sees
    marit.tap("Leave it")

    assert marit.sees == "All right, nothing was changed."


def test_of_one_who_has_left_nothing_is_corrected(play: Talk, marit: Someone) -> None:
    marit.tap("A Hip thrust")
    ada = play.someone("Ada")
    ada.stop()
    ada.tap("Stop")
    before = column(play, select(logged_set.c.id))

    play.typed(marit, "85 8 8 8")

    assert column(play, select(logged_set.c.id)) == before
