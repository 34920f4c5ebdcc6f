"""How long a coach waits: a client's card with half a year behind it, a report, a digest of two hundred.

By the time of the processor, on one core, so that what else runs counts for nothing.
"""

import time
from collections.abc import Callable
from datetime import UTC, date, datetime

import pytest
from benchmarks.half_year import half_year

from bot.messages import Arrival, Person
from bot.render.charts import ROWS
from bot.store.units import Units
from bot.usecases import client_file, report
from bot.usecases.digest import SendDigest, prepared

pytestmark = pytest.mark.benchmark

CARD_S, DIGEST_S, REPORT_S = 0.150, 2.0, 3.0
CLIENTS, WEEKS = 200, 7
"""Of the digest, which looks back six weeks."""


def best_of(tries: int, act: Callable[[], object]) -> float:
    """The shortest of some tries. [s]"""
    taken = []
    for _ in range(tries):
        begun = time.process_time()
        act()
        taken.append(time.process_time() - begun)
    return min(taken)


def floor() -> float:
    """What the same core takes to add up a million numbers, for comparison. [s]"""
    return best_of(5, lambda: sum(range(1_000_000)))


def test_a_clients_card_comes_at_once(units: Units, capsys: pytest.CaptureFixture[str]) -> None:
    set_up = half_year(units, 1)
    client, coach = set_up.clients[0], set_up.coach
    person = Person(100, 100, coach.coach_id, "coach", arrival=Arrival(1, 100, 100))

    def card() -> None:
        with units.open(coach.coach_id) as unit:
            client_file.shown(client, person, unit, set_up.house.now)

    def made() -> report.ReportAsked:
        return report.prepared(units, 100, report.ReportAsked(client.name), set_up.house.now)

    took, whole = best_of(5, card), best_of(2, made)
    with capsys.disabled():
        print(  # noqa: T201
            f"\n/client with 26 weeks: {took * 1000:.0f} ms, at most {CARD_S * 1000:.0f}; "
            f"/report with its files: {whole:.2f} s; a million sums: {floor() * 1000:.0f} ms"
        )
    assert made().made is not None
    assert took < CARD_S
    assert whole < REPORT_S


def test_a_digest_of_two_hundred_is_ready_soon(units: Units, capsys: pytest.CaptureFixture[str]) -> None:
    set_up = half_year(units, CLIENTS, WEEKS)
    coach_id, on = set_up.coach.coach_id, date(2026, 9, 27)
    assert coach_id is not None

    def made() -> SendDigest:
        return prepared(units, coach_id, on, datetime(2026, 9, 27, 17, tzinfo=UTC))

    took = best_of(3, made)
    drawn = len(made().pictures)

    with capsys.disabled():
        print(  # noqa: T201
            f"\na digest of {CLIENTS} with {drawn} pictures: {took:.2f} s, at most {DIGEST_S}; "
            f"a million sums: {floor() * 1000:.0f} ms"
        )
    assert drawn == CLIENTS / ROWS
    assert took < DIGEST_S
