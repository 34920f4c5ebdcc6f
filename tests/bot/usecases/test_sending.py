from datetime import UTC, date, datetime

import pytest
from dialogs.talks import Talk

from bot.store.units import Units
from bot.usecases.sending import SendSession, late_until, send_session
from core.policy import Policy

TUESDAY = date(2026, 4, 7)

# A session of Tuesday in Lisbon (an hour ahead of UTC in April) that could not go out at its hour.
LATE = [
    ("2026-04-07T02:00", "2026-04-07T06:00"),  # in the night: at its end, 07:00 on her clock
    ("2026-04-07T06:00", "2026-04-07T06:00"),  # a decent hour: now
    ("2026-04-07T19:00", "2026-04-07T19:00"),  # 20:00 on her clock is the latest
    ("2026-04-07T19:01", None),  # later than that: not any more
    ("2026-04-07T23:30", None),  # tomorrow already on her clock
    ("2026-04-08T09:00", None),  # never yesterday's
]


@pytest.mark.parametrize(("now", "sent"), LATE)
def test_a_late_session_goes_out_on_its_own_day_at_a_decent_hour_or_not_at_all(now, sent):
    found = late_until(TUESDAY, datetime.fromisoformat(now).replace(tzinfo=UTC), "Europe/Lisbon", Policy())

    assert found == (datetime.fromisoformat(sent).replace(tzinfo=UTC) if sent else None)


def states(play: Talk) -> list[tuple[str, str]]:
    def look(unit):
        found = unit.sessions.of_client(
            unit.accounts.find(1).client_id, ("planned", "sent", "unsent", "held", "missed")
        )
        return [(each.local_on.isoformat(), each.state) for each in reversed(found)][:2]

    return play.house.reading(play.someone("Marit"), look)


def test_a_card_is_sent_once(units: Units):
    play = Talk(units)
    play.take("tick 2026-04-07 07:00")
    coach = play.someone("Marit")
    session_id = play.house.reading(
        coach, lambda unit: unit.sessions.open_one(unit.accounts.find(1).client_id).id
    )

    assert coach.does(send_session, SendSession(session_id)) == []


def test_a_frozen_plan_gets_no_card(units: Units):
    play = Talk(units)
    play.take("Ada: my chest feels tight and my left arm hurts")

    assert play.take("tick 2026-04-07 07:00") == []
    assert states(play)[0] == ("2026-04-07", "held")


def test_what_was_due_in_the_night_goes_out_in_the_morning(units: Units):
    play = Talk(units)

    def early(unit):
        planned = unit.sessions.next_planned(unit.accounts.find(1).client_id)
        unit.sessions.change(planned.id, due_at=datetime(2026, 4, 7, 2, tzinfo=UTC))

    play.house.reading(play.someone("Marit"), early)

    assert play.take("tick 2026-04-07 05:00") == []
    assert play.take("tick 2026-04-07 07:00")[1].strip() == "Lower A · week 1 of 4 · Tue 7 April"


def test_a_client_without_an_account_gets_no_card(units: Units):
    play = Talk(units)

    def gone(unit):
        client = unit.clients.get(unit.accounts.find(1).client_id)
        unit.clients.change(client.id, state="paused")

    play.house.reading(play.someone("Marit"), gone)

    assert play.take("tick 2026-04-07 07:00") == []
    assert states(play)[0] == ("2026-04-07", "unsent")
