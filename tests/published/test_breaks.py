"""Breaks and lighter weeks: [CSCCa2019], [Rogerson2024]; the table of loads is our proposal."""

from decimal import Decimal

import pytest

from core.loads.comeback import MOST_VOLUME, ROWS, Comeback, relative_volume
from core.programme.lighter_weeks import deload_sets
from core.sources import SOURCES
from core.units import Mass


@pytest.mark.parametrize(
    ("sets", "reps", "share", "volume"),
    [
        (3, 10, "0.50", "15.0"),  # given in the source
        (3, 8, "0.60", "14.4"),
        (4, 6, "0.80", "19.2"),
        (5, 5, "0.85", "21.25"),
        (4, 8, "0.75", "24.0"),
        (5, 10, "0.70", "35.0"),  # too much for the weeks back
    ],
)
def test_relative_volume(sets: int, reps: int, share: str, volume: str) -> None:
    assert SOURCES["CSCCa2019"].year == 2019
    assert relative_volume(sets, reps, Decimal(share)) == Decimal(volume)
    assert (relative_volume(sets, reps, Decimal(share)) > MOST_VOLUME) is (volume == "35.0")


@pytest.mark.parametrize(("planned", "by_session"), [(16, [8, 11, 12, 14]), (20, [10, 14, 16, 18])])
def test_sets_by_session_back_after_four_weeks_rounded_down(planned: int, by_session: list[int]) -> None:
    # The cut of 50, 30, 20, 10 % is for volume, never for the load on the bar. Timed work has no other ceiling.
    sets = [Comeback(30, ROWS[2], step, Mass.of(100)).sets(planned, 0, 2) for step in range(4)]
    assert sets == by_session


@pytest.mark.parametrize(
    ("row", "loads"), [(0, ["100"]), (1, ["90", "95", "100"]), (2, ["80", "87", "95", "100"]), (3, ["80"])]
)
def test_loads_by_session_back(row: int, loads: list[str]) -> None:
    assert [Decimal(each) / 100 for each in loads] == list(ROWS[row].loads)


@pytest.mark.parametrize(
    ("planned", "lighter"), [(1, 1), (2, 1), (3, 2), (4, 2), (5, 3), (6, 3), (8, 4), (10, 6)]
)
def test_sets_of_a_lighter_week_are_about_half(planned: int, lighter: int) -> None:
    # Volume down, load a little down, by the survey; the factor of 0.55 is our proposal.
    assert deload_sets(planned) == lighter
