import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.loads.theil_sen import theil_sen

POINTS = st.dictionaries(st.integers(0, 200), st.integers(40, 400), min_size=3, max_size=25)


@pytest.mark.parametrize(
    ("x", "y", "confidence"),
    [
        ([1.0], [1.0], 0.95),
        ([], [], 0.95),
        ([2.0, 2.0], [1.0, 5.0], 0.95),
        ([1.0, 2.0], [1.0], 0.95),
        ([1.0, 2.0], [1.0, 2.0], 0.5),
        ([1.0, 2.0], [1.0, 2.0], 1.0),
    ],
)
def test_what_makes_no_line_is_refused(x: list[float], y: list[float], confidence: float) -> None:
    with pytest.raises(ValueError, match="a line needs"):
        theil_sen(x, y, confidence)


def test_where_everything_is_tied_the_interval_is_the_slope() -> None:
    line = theil_sen([0, 0, 0, 1], [2, 2, 2, 2])

    assert (line.slope, line.low, line.high) == (0, 0, 0)


@given(POINTS, st.randoms(use_true_random=False))
def test_the_order_of_points_does_not_matter(points: dict[int, int], random: object) -> None:
    pairs = list(points.items())
    mixed = random.sample(pairs, len(pairs))  # type: ignore[attr-defined]

    assert theil_sen(*zip(*mixed, strict=True)) == theil_sen(*zip(*pairs, strict=True))


@given(POINTS, st.integers(2, 40), st.integers(-500, 500))
def test_scale_and_height_change_the_line_as_they_change_the_points(
    points: dict[int, int], times: int, more: int
) -> None:
    x, y = list(points), list(points.values())
    line, other = theil_sen(x, y), theil_sen(x, [each * times + more for each in y])

    expected = [line.slope * times, line.low * times, line.high * times]
    assert [other.slope, other.low, other.high] == pytest.approx(expected, abs=1e-9)
    assert other.intercept == pytest.approx(line.intercept * times + more, abs=1e-6)


@given(POINTS)
def test_the_slope_lies_in_its_interval_and_a_surer_one_is_wider(points: dict[int, int]) -> None:
    x, y = list(points), list(points.values())
    line, surer = theil_sen(x, y, 0.8), theil_sen(x, y, 0.99)

    assert surer.low <= line.low <= line.slope <= line.high <= surer.high


@given(
    st.integers(7, 30), st.integers(-20, 20), st.integers(100, 300), st.integers(0, 29), st.integers(-90, 900)
)
def test_one_odd_point_leaves_a_straight_line_alone(
    count: int, slope: int, start: int, place: int, odd: int
) -> None:
    x = list(range(count))
    y = [start + slope * each for each in x]
    y[place % count] += odd

    assert theil_sen(x, y).slope == slope
