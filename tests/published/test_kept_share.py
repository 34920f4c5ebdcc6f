"""Intervals of sessions kept: [Wilson1927], the table of [Newcombe1998], and statsmodels beside them."""

from decimal import Decimal

import pytest
from rows import each_row

from core.oversight.kept_share import wilson
from core.sources import SOURCES, Mark

# [Newcombe1998] table I, method 3: score method without correction, 95 %. Secondary: as public projects copy it.
NEWCOMBE = [
    (81, 263, "0.2553", "0.3662"),
    (15, 148, "0.0624", "0.1605"),
    (0, 20, "0.0000", "0.1611"),
    (1, 29, "0.0061", "0.1718"),
]
# Our own shares of sessions, computed with statsmodels.
OURS = [
    (9, 12, "0.4677", "0.9111"),
    (3, 4, "0.3006", "0.9544"),
    (0, 3, "0.0000", "0.5615"),
    (8, 8, "0.6756", "1.0000"),
]


@pytest.mark.parametrize(("kept", "due", "low", "high"), NEWCOMBE + OURS)
def test_shares_in_the_printed_digits(kept: int, due: int, low: str, high: str) -> None:
    found = wilson(kept, due)

    assert SOURCES["Wilson1927"].mark is Mark.SECONDARY
    assert SOURCES["Newcombe1998"].mark is Mark.ABSTRACT
    assert [one.quantize(Decimal("0.0001")) for one in found] == [Decimal(low), Decimal(high)]


@each_row("due", [1, 2, 3, 4, 8, 12, 16, 26, 52, 208])
@each_row("confidence", [0.8, 0.95, 0.99])
def test_every_share_as_statsmodels_has_it(due: int, confidence: float) -> None:
    from statsmodels.stats.proportion import proportion_confint

    for kept in range(due + 1):
        theirs = proportion_confint(kept, due, alpha=1 - confidence, method="wilson")

        assert [float(each) for each in wilson(kept, due, confidence)] == pytest.approx(theirs, abs=1e-12)
