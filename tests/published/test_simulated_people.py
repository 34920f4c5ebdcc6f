"""People of a rehearsal beside what is published of people: reps at a load, days that differ, reps left as said.

[Zourdos2021] 6 to 26 reps at 70 % of the maximum, trained lifters. [Grgic2020] coefficient of variation of a maximum
from day to day, median of 32 studies: 4.2 %. [Halperin2022] people say 0.95 reps left too few, 95 % interval 0.17 to
1.73. [Hackett2017] about one rep off with 0 to 5 left, more than two with 7 to 10. All read in abstract. That a range
is two standard deviations each way, and "off" is a standard deviation, is our reading.
"""

from statistics import fmean, stdev

import numpy as np
import pytest

from core.oversight.simulated_body import SimulatedBody
from core.oversight.simulated_lifter import simulated_lifter
from core.oversight.simulated_session import Card, SimulatedSession, believed_left
from core.programme.catalogue import CATALOGUE, exercise
from core.sources import SOURCES
from core.units import Unit
from tests.core.loads.lifts import dose
from tests.core.oversight.simulated import block_of, lifter

BENCH = exercise("bench-press")
PEOPLE = 2000
TIMES = 4000


def test_the_sources_are_named() -> None:
    assert {"Zourdos2021", "Grgic2020", "Halperin2022", "Hackett2017"} <= SOURCES.keys()


def test_reps_at_70_percent_spread_as_those_of_lifters_did() -> None:
    people = (simulated_lifter(np.random.default_rng(seed), Unit.KG) for seed in range(PEOPLE))
    reps = [one.reps * (1 / 0.70 - 1) for one in people]

    low, middle, high = np.percentile(reps, [2.5, 50, 97.5])
    assert low == pytest.approx(6, abs=1)
    assert middle == pytest.approx(13, abs=1)
    assert high == pytest.approx(26, abs=2)


def test_a_maximum_differs_from_day_to_day_by_four_percent() -> None:
    # Seen from outside: at 40 kg a maximum of 80 kg gives 30 reps, and each rep more stands for 1.33 kg of it.
    who, block = lifter(), block_of(("bench-press", dose(1, "8", "60")))
    strength, words = np.random.default_rng(1).spawn(2)

    def maximum() -> float:
        session = SimulatedSession(who, SimulatedBody(who, block, CATALOGUE), strength, words)
        done = session.do(Card(BENCH, dose(1, "1", "40")), 1, None, asked_left=True)
        return 40 * (1 + (1 + (done.left or 0)) / 30)

    maxima = [maximum() for _ in range(TIMES)]
    assert 100 * stdev(maxima) / fmean(maxima) == pytest.approx(4.2, abs=0.3)


@pytest.mark.parametrize(("left", "spread"), [(0, 1.0), (5, 1.0), (7, 2.0), (10, 2.0)])
def test_too_few_reps_left_are_believed_and_the_farther_from_the_limit_the_worse(
    left: int, spread: float
) -> None:
    stream = np.random.default_rng(2)
    off = [believed_left(stream, left) - left for _ in range(TIMES)]

    assert fmean(off) == pytest.approx(-0.95, abs=0.1)
    assert stdev(off) == pytest.approx(spread, abs=0.1)
