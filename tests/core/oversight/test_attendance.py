import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from core.oversight.attendance import Attendance, attended
from tests.core.oversight.simulated import Scripted

SHARES = st.floats(0, 1)


def test_somebody_away_comes_back_after_some_weeks() -> None:
    # In each week: does she go away, and for how long; then in each session: is it missed.
    chance = Scripted(0.9, 0.0, 0.5, 0.5, 0.0, 0.0, 0.5, 0.5, 0.9, 0.0, 0.5, 0.01, 0.9, 0.0, 0.5, 0.04)

    came = attended(chance, [1, 1, 2, 2, 3, 3, 4, 4], misses=0.05, away=0.5)

    assert [one.value for one in came] == ["kept", "kept", "away", "away", "away", "away", "kept", "missed"]


@given(st.integers(0, 2**32), SHARES, SHARES, SHARES, SHARES)
def test_at_more_misses_and_more_time_away_nobody_comes_to_a_session_more(
    seed: int, misses: float, more: float, away: float, longer: float
) -> None:
    weeks = [week for week in range(1, 9) for _ in range(3)]
    few = attended(np.random.default_rng(seed), weeks, min(misses, more), min(away, longer))
    many = attended(np.random.default_rng(seed), weeks, max(misses, more), max(away, longer))

    assert all(
        there is Attendance.KEPT for there, here in zip(few, many, strict=True) if here is Attendance.KEPT
    )


@given(st.integers(0, 2**32), st.integers(1, 8))
def test_the_first_weeks_are_the_same_however_many_follow(seed: int, weeks: int) -> None:
    whole = attended(np.random.default_rng(seed), range(1, 9), 0.3, 0.2)

    assert attended(np.random.default_rng(seed), range(1, weeks + 1), 0.3, 0.2) == whole[:weeks]
