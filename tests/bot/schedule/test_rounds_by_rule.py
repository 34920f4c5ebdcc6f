"""The grace of a miss, and the outages that spare one, are those that each coach has set for herself."""

from datetime import timedelta

import pytest
from dialogs.moments import played_to
from dialogs.talks import Talk
from sqlalchemy import select

from bot.schedule import rounds
from bot.store.outages import spare
from bot.store.tables import session
from bot.store.units import Units


@pytest.fixture
def play(units: Units) -> Talk:
    return played_to(units, ("tick 2026-04-07 07:00",))


def test_a_grace_that_is_set_for_one_client_moves_the_end_of_hers(play: Talk) -> None:
    marit, ada = play.someone("Marit"), play.someone("Ada")
    client_id = play.house.client_of(marit, ada).id

    def ends(unit) -> list:
        return [end for each, end in rounds._graces(unit) if each.client_id == client_id]

    before = play.house.reading(marit, ends)
    with play.units.open(marit.coach_id) as unit:
        unit.rules.set("miss_grace", 24, 100, play.house.now, client_id=client_id)

    assert len(before) == 1
    assert play.house.reading(marit, ends) == [before[0] + timedelta(hours=12)]


def test_an_outage_spares_the_clients_of_coaches_for_whom_it_was_long(play: Talk) -> None:
    marit, orla = play.someone("Marit"), play.someone("Orla")
    with play.units.open(marit.coach_id) as unit:
        unit.rules.set("outage_spares", 3, 100, play.house.now)
    with play.units.open(None) as house:
        short, long = (rounds._spared(house, timedelta(hours=each)) for each in (2, 4))
        until = play.house.now + timedelta(minutes=1)
        spare(house.connection, until, short)
        kept = house.connection.execute(select(session.c.coach_id).where(session.c.left_reason == "system"))
        assert {row.coach_id for row in kept} <= {orla.coach_id}
        spare(house.connection, until, long)
        kept = house.connection.execute(select(session.c.coach_id).where(session.c.left_reason == "system"))
        assert marit.coach_id in {row.coach_id for row in kept}

    assert (short, long) == ([orla.coach_id], sorted([marit.coach_id, orla.coach_id]))
