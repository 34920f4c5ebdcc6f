from datetime import timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from rows import each_row

from core.loads.dated_estimates import DatedEstimate, believed
from core.loads.one_rep_max import Formula
from core.loads.trend import Direction, NoTrend, Trend, is_news, smallest_change, trend
from core.policy import Policy
from core.units import Mass, Unit
from tests.core.loads.worked import MONDAY, changed, estimates

POLICY = Policy()
RISING = "100 101 101 102.5 103 104 106"


def found(points: list[DatedEstimate], policy: Policy = POLICY) -> Trend:
    line = trend(points, policy)
    assert isinstance(line, Trend)
    return line


def test_a_trend_has_its_slope_a_week_and_its_level_on_the_last_day() -> None:
    line = found(estimates("100 101 102 103 104 105"))

    assert (line.first, line.last, line.points) == (MONDAY, MONDAY + timedelta(days=35), 6)
    assert (line.unit, line.direction) == (Unit.KG, Direction.RISING)
    assert [line.slope, line.low, line.high, line.level] == pytest.approx([1, 1, 1, 105])
    assert Trend.model_validate_json(line.model_dump_json()) == line


@pytest.mark.parametrize(
    ("masses", "direction"),
    [
        (RISING, Direction.RISING),
        (" ".join(RISING.split()[::-1]), Direction.FALLING),
        ("100 104 99 103 101 100 102", Direction.UNSURE),
        ("100 100 100 100 100 100", Direction.UNSURE),
        ("100 101 102 70 104 105 106", Direction.RISING),
    ],
)
def test_a_direction_is_said_only_where_the_whole_interval_says_it(masses: str, direction: Direction) -> None:
    assert found(estimates(masses)).direction is direction


@pytest.mark.parametrize(
    ("masses", "every", "why"),
    [
        ("", 7, NoTrend.FEW),
        ("100 101 102 103 104", 30, NoTrend.FEW),  # five points cannot show one
        ("100 101 102 103 104 105", 4, NoTrend.SHORT),
        ("100 101 102 103 104 105", 0, NoTrend.SHORT),
        ("100 101 102 103 104 105 106 107", 2, NoTrend.SHORT),
    ],
)
def test_too_few_estimates_or_too_few_days_show_nothing(masses: str, every: int, why: NoTrend) -> None:
    assert trend(estimates(masses, every=every), POLICY) is why


def test_six_estimates_over_three_weeks_are_enough() -> None:
    points = estimates("100 101 102 103 104 105", every=4)
    last = changed(points, -1, on=MONDAY + timedelta(days=21))

    assert found(last).points == 6
    assert trend(last, Policy(trend_points=7)) is NoTrend.FEW
    assert trend(last, Policy(trend_days=22)) is NoTrend.SHORT


@each_row(
    "facts",
    [
        {"total": Decimal("12.5")},
        {"total": Decimal(13)},
        {"deload": True},
        {"comeback": True},
        {"held_back": True},
        {"kit": "home"},
    ],
)
@each_row("place", [0, 3, 5])
def test_what_shows_no_strength_is_left_out(facts: dict[str, object], place: int) -> None:
    points = estimates(RISING)
    other = changed(points, place, mass=Mass.of(40), **facts)

    assert found(other) == found([*points[:place], *points[place + 1 :]])


def test_twelve_reps_in_all_are_still_believed() -> None:
    assert believed(estimates("100", total=Decimal(12)))


def test_the_kit_of_the_newest_is_looked_at() -> None:
    points = changed(estimates(RISING), -1, kit="home")

    assert trend(points, POLICY) is NoTrend.FEW


@pytest.mark.parametrize("mass", ["0", "-20"])
def test_a_share_of_nothing_means_nothing(mass: str) -> None:
    with pytest.raises(ValidationError, match="more than nothing"):
        estimates(mass)


def test_two_formulas_are_two_histories() -> None:
    points = changed(estimates(RISING), 2, formula=Formula.BRZYCKI)

    with pytest.raises(ValueError, match="one formula"):
        trend(points, POLICY)


def test_a_flagged_estimate_of_another_formula_is_left_out_before() -> None:
    points = changed(estimates(RISING), 2, formula=Formula.BRZYCKI, total=Decimal(14))

    assert found(points).points == 6


def test_units_meet_in_the_unit_of_the_newest() -> None:
    kilos = estimates("100 101 102 103 104 105")
    mixed = changed(kilos, -1, mass=Mass.of(105).to(Unit.LB))
    line = found(mixed)

    assert line.unit is Unit.LB
    assert [line.slope, line.level] == pytest.approx([1 / 0.45359237, 105 / 0.45359237])


@given(st.lists(st.integers(160, 400), min_size=6, max_size=20), st.randoms(use_true_random=False))
def test_the_order_of_estimates_does_not_matter(halves: list[int], random: object) -> None:
    points = estimates(" ".join(str(Decimal(each) / 2) for each in halves))
    mixed = random.sample(points, len(points))  # type: ignore[attr-defined]

    assert trend(mixed, POLICY) == trend(points, POLICY)


@given(st.lists(st.integers(80, 200), min_size=6, max_size=20), st.integers(2, 5))
def test_loads_so_many_times_as_heavy_have_a_trend_so_many_times_as_steep(
    masses: list[int], times: int
) -> None:
    once = found(estimates(" ".join(str(each) for each in masses)))
    more = found(estimates(" ".join(str(each * times) for each in masses)))

    assert more.slope == pytest.approx(once.slope * times, abs=1e-9)
    assert more.direction is once.direction


@given(st.integers(7, 20), st.integers(1, 4), st.integers(0, 19), st.integers(-60, 60))
def test_one_odd_estimate_leaves_a_steady_rise_alone(count: int, step: int, place: int, odd: int) -> None:
    masses = [100 + step * each for each in range(count)]
    masses[place % count] += odd

    assert found(estimates(" ".join(str(each) for each in masses))).slope == pytest.approx(step)


def test_a_change_is_news_by_its_share_in_both_directions_and_any_unit() -> None:
    assert is_news(Mass.of(100), Mass.of(88))
    assert not is_news(Mass.of(88), Mass.of(96))
    assert is_news(Mass.of(100), Mass.of(250, "lb"))
    assert not is_news(Mass.of(100), Mass.of(220, "lb"))


def test_a_change_of_the_smallest_size_is_news() -> None:
    noise = Decimal("4.2")
    share = smallest_change(noise) / 100

    assert is_news(Mass.of(1), Mass.of(1 + share), noise)
    assert not is_news(Mass.of(1), Mass.of(1 + share - Decimal("1e-9")), noise)
    assert is_news(Mass.of(1), Mass.of(1), Decimal(0))
