from datetime import UTC, datetime, timedelta

from sqlalchemy import insert

from bot.store.tables import alert, client, coach, inbox, outbox
from bot.store.units import Units
from bot.store.workload import Workload, workload_of

AT = datetime(2026, 4, 6, 7, tzinfo=UTC)


def test_an_empty_store_waits_for_nothing(units: Units) -> None:
    with units.read(None) as unit:
        assert workload_of(unit.connection) == Workload()


def test_what_waits_is_counted_over_all_coaches(units: Units) -> None:
    came = {"kind": "message", "received_at": AT}
    goes = {"chat_id": 801, "op": "send", "rank": 1, "due_at": AT, "created_at": AT}
    told = {"grown": 1, "at": AT}
    states = (
        ("talk", "queued"),
        ("talk", "queued"),
        ("bulk", "doubtful"),
        ("talk", "sent"),
        ("bulk", "cancelled"),
    )
    with units.open(None) as unit:
        for coach_id in (1, 2):
            unit.connection.execute(insert(coach).values(id=coach_id, name="Orla", zone="UTC", created_at=AT))
            her = {"id": coach_id, "coach_id": coach_id, "name": "Ada", "state": "active", "created_at": AT}
            unit.connection.execute(insert(client).values(her))
        for update_id, state in enumerate(("done", "new", "new", "failed", "quarantined")):
            row = came | {
                "update_id": update_id,
                "state": state,
                "received_at": AT + timedelta(minutes=update_id),
            }
            unit.connection.execute(insert(inbox).values(row))
        for number, (lane, state) in enumerate(states):
            row = goes | {"key": str(number), "lane": lane, "state": state, "coach_id": 1 + number % 2}
            unit.connection.execute(insert(outbox).values(row))
        for number, (level, told_at) in enumerate(((3, AT), (3, AT), (2, AT), (2, None))):
            row = told | {
                "key": str(number),
                "coach_id": 1 + number % 2,
                "client_id": 1 + number % 2,
                "level": level,
                "told_at": told_at,
            }
            unit.connection.execute(insert(alert).values(row))

    with units.read(None) as unit:
        assert workload_of(unit.connection) == Workload(
            AT + timedelta(minutes=1), 2, {("talk", "queued"): 2, ("bulk", "doubtful"): 1}, {3: 2, 2: 1}
        )
