from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.equipment import Ladder
from core.loads.warmup import ramp
from core.units import Mass

BAR = Ladder(steps=tuple(Mass.of(Decimal(20) + step * Decimal("2.5")) for step in range(80)))

# Working load and reps against (load, reps) of each step; 40, 60, 75, 90 % at or under the next 2.5 kg.
# Common practice, no source.
RAMPS = [
    ("100", 5, [("40", 8), ("60", 5), ("75", 3), ("90", 1)]),
    ("100", 8, [("40", 8), ("60", 5), ("75", 3)]),
    ("140", 3, [("55", 8), ("82.5", 5), ("105", 3), ("125", 1)]),
    ("60", 5, [("22.5", 8), ("35", 5), ("45", 3), ("52.5", 1)]),
    ("30", 5, [("20", 8), ("22.5", 3), ("25", 1)]),
    ("27.5", 5, []),
    ("20", 5, []),
]


@pytest.mark.parametrize(("work", "reps", "steps"), RAMPS)
def test_a_ramp_rises_in_steps_that_the_bar_makes(work, reps, steps):
    found = ramp(Mass.of(work), reps, BAR)

    assert [(each.load, each.reps) for each in found] == [(Mass.of(load), count) for load, count in steps]


def test_there_is_no_ramp_where_nothing_can_be_loaded():
    assert ramp(Mass.of(50), 5, Ladder(steps=())) == ()


@given(st.integers(0, 300), st.integers(1, 20))
def test_a_ramp_only_rises_and_stays_under_the_work(step, reps):
    work = Mass.of(Decimal(20) + step * Decimal("0.5"))

    loads = [each.load for each in ramp(work, reps, BAR)]

    assert loads == sorted(set(loads))
    assert all(load < work and load in BAR.steps for load in loads)
