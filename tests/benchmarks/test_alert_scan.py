"""What a closed session and a look at what is due cost among 10,000 clients, beside the same with two, in one run."""

import time
from collections.abc import Callable
from datetime import datetime

import pytest
from dialogs.talks import LISBON, Talk
from many_clients import multiply
from sqlalchemy import func, select

from bot.store.alerts import alerts_due_anywhere, next_alert_due
from bot.store.tables import alert, client, session
from bot.store.units import Units
from bot.usecases import alerting

pytestmark = pytest.mark.benchmark

CLIENTS = 10_000
MOST_TIMES = 2
"""How many times as much each may cost among all of them as with two. The index is deeper, and nothing else."""
SAID = ("90 8 8 8 8", "10 10 10", "16 10 10 10", "skip", "skip", "nothing hurts", "2")


def best(act: Callable[[], object], times: int = 20, tries: int = 7) -> float:
    """The least of some tries. [ms] On the time of the processor, so that what else runs counts for nothing."""
    found = []
    for _ in range(tries):
        begun = time.process_time()
        for _ in range(times):
            act()
        found.append((time.process_time() - begun) / times * 1000)
    return min(found)


def test_the_scan_follows_what_changed(units: Units, capsys: pytest.CaptureFixture[str]) -> None:
    play = Talk(units)
    ada, marit = play.someone("Ada"), play.someone("Marit")
    play.tick(datetime(2026, 4, 7, 7, tzinfo=LISBON))
    ada.tap("Start")
    for said in SAID:
        play.typed(ada, said)
    client_id = play.house.client_of(marit, ada).id
    with units.open(marit.coach_id) as unit:
        [closed] = unit.sessions.of_client(client_id, ("partial",))

    def scan() -> None:
        with units.open(marit.coach_id) as unit:
            alerting.of_session(closed.id, unit, play.house.now)

    def due() -> None:
        with units.read(None) as house:
            alerts_due_anywhere(house.connection, play.house.now, 50)
            next_alert_due(house.connection)

    alone = best(scan), best(due)
    multiply(units.engine, client_id, CLIENTS)
    many = best(scan), best(due)

    with units.read(None) as house:
        counts = [
            house.connection.execute(select(func.count(each.c.id))).scalar_one()
            for each in (client, session, alert)
        ]
    names = ("a closed session", "what is due")
    lines = [
        f"{counts[0]} clients, {counts[1]} sessions, {counts[2]} matters, one core, best of 7 [ms]:",
        *(
            f"  {name:18} {few:8.2f} with two, {all_:8.2f} among all, {all_ / few:.1f} times"
            for name, few, all_ in zip(names, alone, many, strict=True)
        ),
        f"  at most {MOST_TIMES} times",
    ]
    with capsys.disabled():
        print("", *lines, sep="\n")  # noqa: T201
    assert counts[0] > CLIENTS
    assert counts[2] > CLIENTS
    assert all(all_ < MOST_TIMES * few for few, all_ in zip(alone, many, strict=True))
