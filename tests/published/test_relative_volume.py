"""Sets x reps x share of the maximum, of what was done: [CSCCa2019]."""

from decimal import Decimal

import pytest

from core.loads.relative_volume import relative_volume, relative_volume_done
from core.sources import SOURCES, Mark
from core.units import Mass
from tests.core.loads.lifts import done, dose

DONE = [
    ("10 10 10", "50", "15.0"),  # given in the source: 3 x 10 at 50 %
    ("8 8 8", "60", "14.4"),  # the rest is computed
    ("6 6 6 6", "80", "19.2"),
    ("5 5 5 5 5", "85", "21.25"),
    ("8 8 8 8", "75", "24.0"),
    ("10 10 10 10 10", "70", "35.0"),
]


@pytest.mark.parametrize(("counts", "load", "volume"), DONE)
def test_sets_that_were_done_at_a_maximum_of_a_hundred(counts: str, load: str, volume: str) -> None:
    reps = [int(each) for each in counts.split()]
    exposure = done(0, dose(len(reps), "8", load), counts)

    assert SOURCES["CSCCa2019"].mark is Mark.SECONDARY
    assert relative_volume_done(exposure.sets, Mass.of(100)) == Decimal(volume)
    assert relative_volume(len(reps), reps[0], Decimal(load) / 100) == Decimal(volume)
