from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.oversight.kept_share import KeptShare, kept_share, wilson
from core.oversight.misses import Tally
from core.policy import Policy

POLICY = Policy()


@pytest.mark.parametrize(
    ("kept", "due", "percent"), [(0, 0, None), (3, 4, None), (7, 7, None), (6, 8, 75), (0, 8, 0), (9, 12, 75)]
)
def test_a_percentage_and_its_interval_come_from_eight_due(kept: int, due: int, percent: int | None) -> None:
    # Our proposal: three of four looks like 75 % and may be 30 to 95.
    found = kept_share(Tally(kept=kept, due=due), POLICY)
    interval = None if percent is None else wilson(kept, due)

    assert found == KeptShare(kept=kept, due=due, percent=percent, interval=interval)
    assert KeptShare.model_validate_json(found.model_dump_json()) == found


def test_a_coach_may_want_fewer_or_more() -> None:
    counted = Tally(kept=4, due=6, pending=2)

    assert kept_share(counted, Policy(percent_from=6)).percent == 67
    assert kept_share(counted, Policy(percent_from=7)).percent is None


@pytest.mark.parametrize(
    ("kept", "due", "confidence"),
    [(0, 0, 0.95), (-1, 4, 0.95), (5, 4, 0.95), (2, 4, 0.0), (2, 4, 1.0)],
)
def test_what_is_no_share_is_refused(kept: int, due: int, confidence: float) -> None:
    with pytest.raises(ValueError, match=f"no share of {kept} in {due}"):
        wilson(kept, due, confidence)


COUNTS = st.integers(1, 200).flatmap(lambda due: st.tuples(st.integers(0, due), st.just(due)))


@given(COUNTS)
def test_an_interval_holds_its_share_and_stays_within_none_and_all(counts: tuple[int, int]) -> None:
    kept, due = counts
    low, high = wilson(kept, due)

    assert 0 <= low <= Decimal(kept) / due <= high <= 1
    assert (low == 0) is (kept == 0)
    assert (high == 1) is (kept == due)


@given(COUNTS)
def test_kept_and_missed_are_mirror_images(counts: tuple[int, int]) -> None:
    kept, due = counts
    one, other = wilson(kept, due), wilson(due - kept, due)

    assert float(one.low) == pytest.approx(1 - float(other.high), abs=1e-12)
    assert float(one.high) == pytest.approx(1 - float(other.low), abs=1e-12)


@given(COUNTS, st.integers(2, 9))
def test_more_sessions_with_the_same_share_say_more(counts: tuple[int, int], times: int) -> None:
    kept, due = counts
    few, many = wilson(kept, due), wilson(kept * times, due * times)

    assert many.high - many.low < few.high - few.low
