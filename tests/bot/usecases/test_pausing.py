"""Ending: no withdrawal, and still nothing of her is kept, used or shown until she agrees anew."""

from typing import Any

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from sqlalchemy import select

from bot.store.tables import consent
from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(
        units,
        (
            "Marit: /contract Ada 12 sessions",
            "Marit: /refer Ada physiotherapist: left knee",
            "Marit [Only note it]",
            "Ada: /stop",
            "Ada keeps [Stop] as stop",
            "Marit: /end Ada",
            "Marit [Yes, end it]",
        ),
    )


def of_ada(play: Talk, look: Any) -> Any:
    marit = play.someone("Marit")
    ada = play.house.client_of(marit, play.someone("Ada"))
    return play.house.reading(marit, lambda unit: look(unit, ada.id))


def consents(play: Talk) -> list[tuple[bool, bool]]:
    def look(unit: Any, client_id: int) -> list[tuple[bool, bool]]:
        query = select(consent.c.withdrawn_at, consent.c.ended_at).where(consent.c.client_id == client_id)
        found = unit.connection.execute(query.order_by(consent.c.id))
        return [(row.withdrawn_at is not None, row.ended_at is not None) for row in found]

    found: list[tuple[bool, bool]] = of_ada(play, look)
    return found


def test_her_consent_is_not_withdrawn_and_yet_it_stands_no_more(play: Talk) -> None:
    assert consents(play) == [(False, True)]
    assert of_ada(play, lambda unit, client_id: unit.clients.consented(client_id)) is False
    assert of_ada(play, lambda unit, client_id: unit.clients.consent_version(client_id)) is None


def test_what_she_sends_is_not_kept_and_no_text_says_that_she_has_stopped(play: Talk) -> None:
    play.take("Ada: pain left knee 4")
    assert play.someone("Ada").sees.startswith("You do not train here now, so I kept nothing of that")
    assert of_ada(play, lambda unit, client_id: unit.body.since(client_id, play.house.now.date())) == []
    play.take("Ada taps the old stop")
    assert "consent" not in play.someone("Ada").sees


def test_nothing_of_her_is_shown_to_her_coach_and_no_contract_falls_due(play: Talk) -> None:
    for command, said in (
        ("/referrals", "Nobody is sent on."),
        ("/client Ada", "You have no clients yet."),
        ("/report Ada", "You have no clients yet."),
        ("/logfile Ada", "You have no clients yet."),
        ("/summary Ada", "You have no clients yet."),
    ):
        play.take(f"Marit: {command}")
        assert said in play.someone("Marit").sees, command
    assert of_ada(play, lambda unit, client_id: unit.contracts.standing(client_id)) is None


def test_who_comes_back_is_asked_for_her_consent_anew(play: Talk) -> None:
    play.take("Marit: /invite again Ada")
    play.take("Ada opens the link")
    play.take("Ada [Go on]")
    assert "I agree" in play.someone("Ada").buttons
    assert of_ada(play, lambda unit, client_id: unit.clients.consented(client_id)) is False
    play.take("Ada [I agree]")
    assert consents(play) == [(False, True), (False, False)]


def test_who_stops_herself_has_withdrawn_it(units: Units) -> None:
    talk = Talk(units)
    talk.take("Ada: /stop")
    talk.take("Ada [Stop]")
    assert consents(talk) == [(True, False)]
