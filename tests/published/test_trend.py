"""The line of Theil and Sen: the example of [Sen1968], scipy beside it, and the real data of [Linnerud].

Then the noise of a tested maximum, [Grgic2020], and the smallest change that is more than noise, [Weir2005].
"""

from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.testing import assert_allclose
from rows import each_row

from core.loads.theil_sen import theil_sen
from core.loads.trend import NOISE, is_news, smallest_change
from core.sources import SOURCES, Mark
from core.units import Mass

SEN_X = [1.0, 2, 3, 4, 10, 12, 18]
SEN_Y = [9.0, 15, 19, 20, 45, 55, 78]


def test_the_example_of_sen() -> None:
    # Slope 4, limits 26/7 and 35/8 at 93 %. Secondary: as scipy and R's deming check themselves by it.
    line = theil_sen(SEN_X, SEN_Y, 0.93)

    assert SOURCES["Sen1968"].mark is Mark.SECONDARY
    assert SOURCES["Theil1950"].mark is Mark.MEMORY
    assert line.slope == 4
    assert_allclose([line.low, line.high], [26 / 7, 35 / 8])
    assert line.intercept == 20 - 4 * 4


SERIES = [  # x, y, slope, low, high, intercept: our own, digits computed with scipy
    ([0, 3, 7, 10, 14, 17, 21], [100, 101, 102, 90, 104, 105, 106.5], 0.300, 0.250, 0.375, 99.0),
    ([0, 1, 2, 3, 4], [100, 102, 101, 104, 105], 1.125, -1.0, 3.0, 99.75),
]


@pytest.mark.parametrize(("x", "y", "slope", "low", "high", "intercept"), SERIES)
def test_estimates_of_a_lift_in_the_printed_digits(
    x: list[float], y: list[float], slope: float, low: float, high: float, intercept: float
) -> None:
    line = theil_sen(x, y)

    assert [line.slope, line.low, line.high, line.intercept] == pytest.approx([slope, low, high, intercept])


def test_an_odd_point_leaves_the_line_alone_and_moves_the_line_of_least_squares() -> None:
    days, y = SERIES[0][:2]
    straight = [each if each != 90 else 103.0 for each in y]

    assert theil_sen(days, y).slope == theil_sen(days, straight).slope == pytest.approx(0.300)
    assert np.polyfit(days, y, 1)[0] == pytest.approx(0.312, abs=5e-4)
    assert np.polyfit(days, straight, 1)[0] == pytest.approx(0.301, abs=5e-4)


TIED = [  # x and y with equals among them, and steps of a plate
    ([0, 0, 7, 7, 14, 14, 21, 21], [100, 100, 102.5, 100, 102.5, 105, 105, 105]),
    ([0, 2, 2, 2, 9, 9, 30], [80, 80, 82.5, 85, 80, 82.5, 90]),
    ([0, 7, 14, 21, 28, 35], [60, 60, 60, 60, 60, 60]),
    ([0, 7, 14, 21, 28, 35, 42, 49], [60, 60, 62.5, 62.5, 65, 65, 67.5, 67.5]),
    ([1, 2], [3, 5]),
    ([5, 1, 4, 2, 3], [9, 1, 16, 4, 25]),
    (SEN_X, SEN_Y),
]


@each_row(("x", "y"), TIED)
@each_row("confidence", [0.8, 0.9, 0.95, 0.99])
def test_ties_and_every_confidence_as_scipy_has_them(
    x: list[float], y: list[float], confidence: float
) -> None:
    from scipy.stats import theilslopes

    theirs = theilslopes(y, x, confidence)
    line = theil_sen(x, y, confidence)

    ours = [line.slope, line.intercept, line.low, line.high]
    assert ours == pytest.approx([theirs.slope, theirs.intercept, theirs.low_slope, theirs.high_slope])


@given(
    st.dictionaries(st.integers(0, 180), st.integers(100, 900), min_size=2, max_size=30),
    st.sampled_from([0.9, 0.95]),
)
def test_every_series_as_scipy_has_it(points: dict[int, int], confidence: float) -> None:
    from scipy.stats import theilslopes

    x, y = list(points), [each / 4 for each in points.values()]
    theirs = theilslopes(y, x, confidence)
    line = theil_sen(x, y, confidence)

    ours = [line.slope, line.intercept, line.low, line.high]
    assert ours == pytest.approx(
        [theirs.slope, theirs.intercept, theirs.low_slope, theirs.high_slope], abs=1e-12
    )


REAL = [("Chins", 9.45, 5.286), ("Situps", 145.55, 62.567), ("Jumps", 70.3, 51.277)]


@pytest.mark.parametrize(("place", "row"), list(enumerate(REAL)))
def test_the_real_data_are_those_that_we_think(place: int, row: tuple[str, float, float]) -> None:
    from sklearn.datasets import load_linnerud

    data = load_linnerud()
    column = data.data[:, place]

    assert SOURCES["Linnerud"].mark is Mark.SECONDARY
    assert data.feature_names[place] == row[0]
    assert [column.mean(), column.std(ddof=1)] == pytest.approx(row[1:], abs=5e-4)


@pytest.mark.parametrize(("one", "other"), [(0, 1), (0, 2), (1, 2), (1, 0), (2, 0), (2, 1)])
def test_real_exercises_of_real_men_as_scipy_has_them(one: int, other: int) -> None:
    from scipy.stats import theilslopes
    from sklearn.datasets import load_linnerud

    # Twenty men, with many equals in both columns: how the one exercise goes with the other.
    x, y = load_linnerud().data[:, one], load_linnerud().data[:, other]
    theirs, line = theilslopes(y, x), theil_sen(x.tolist(), y.tolist())

    ours = [line.slope, line.intercept, line.low, line.high]
    assert ours == pytest.approx([theirs.slope, theirs.intercept, theirs.low_slope, theirs.high_slope])


def test_one_typing_mistake_in_real_data_moves_least_squares_ten_times_as_far() -> None:
    from sklearn.datasets import load_linnerud

    data = load_linnerud().data
    chins, situps = data[:, 0], data[:, 1].copy()
    sure = [theil_sen(chins.tolist(), situps.tolist()).slope, np.polyfit(chins, situps, 1)[0]]
    situps[np.argmax(chins)] *= 10

    after = [theil_sen(chins.tolist(), situps.tolist()).slope, np.polyfit(chins, situps, 1)[0]]
    robust, squares = np.abs(np.array(after) - sure)
    assert 10 * robust < squares


@pytest.mark.parametrize(
    ("noise", "percent"),
    [(NOISE, "11.6"), (Decimal("0.5"), "1.4"), (Decimal("12.1"), "33.5"), (Decimal(1), "2.8")],
)
def test_the_smallest_single_change_that_is_news(noise: Decimal, percent: str) -> None:
    # Median 4.2 %, range 0.5 to 12.1 %, of 32 studies; the changes are computed: 1.96 x root of 2 x noise.
    assert SOURCES["Grgic2020"].mark is Mark.ABSTRACT
    assert SOURCES["Weir2005"].mark is Mark.ABSTRACT
    assert smallest_change(noise).quantize(Decimal("0.1")) == Decimal(percent)
    assert float(smallest_change(noise)) == pytest.approx(1.96 * 2**0.5 * float(noise), rel=1e-4)


@pytest.mark.parametrize(
    ("after", "news"), [("111.5", False), ("111.7", True), ("88.5", False), ("88.3", True), ("100", False)]
)
def test_a_single_estimate_is_news_from_about_an_eighth(after: str, news: bool) -> None:
    assert is_news(Mass.of(100), Mass.of(after)) is news
