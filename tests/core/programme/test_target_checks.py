import pytest

from core.policy import Policy
from core.programme.block import Block, Line, Target
from core.programme.catalogue import CATALOGUE
from core.programme.prescription import Load
from core.programme.target_checks import far_targets
from core.units import Mass
from tests.core.programme.written import block, day, row

KG, BW = Load.of, Load.bodyweight


def planned(*rows: Line, load: Load, reps: int = 5, week: int = 6, lighter: tuple[int, ...] = ()) -> Block:
    exercise = rows[0].prescription.exercise
    target = Target(exercise=exercise, load=load, reps=reps, week=week)
    return block(day("All", *rows, lighter=lighter), weeks=8, targets=(target,))


def told(written: Block) -> list[dict[str, str]]:
    return [one.facts for one in far_targets(written, CATALOGUE, Policy())]


# By hand: 100 kg x 8 with 2 left are 100 * 40 / 35 = 114.29 for 5 [Epley1985]. Five rises of 5 kg would be 139.29, and
# no more than 20 % in four weeks lets 134.29 by: 114.29 * 1.2 = 137.14 by week 5, then 119.29 * 1.2 = 143.14.
@pytest.mark.parametrize(
    ("target", "week", "reached"),
    [
        (114, 1, None),
        (115, 1, "114 kg x 5"),
        (119, 2, None),
        (120, 2, "119 kg x 5"),
        (139, 6, None),
        (140, 6, "139 kg x 5"),
    ],
)
def test_a_target_over_what_the_fastest_rise_gives_is_told(
    target: int, week: int, reached: str | None
) -> None:
    found = told(planned(row("back-squat", load=KG(100), left=2), load=KG(target), week=week))
    # Each later week says the same load again, from which fewer rises are left: the first counts.
    assert [one["reached"] for one in found] == ([] if reached is None else [reached])


def test_a_target_is_told_as_it_was_written() -> None:
    (found,) = told(planned(row("hip-thrust", load=KG(60), left=2), load=KG(200)))

    assert found["target"] == "Hip thrust 200 kg x 5 by week 6"


# Upper body: 5 % and 2.5 kg. 40 kg x 5 with none left by week 2 is 42.
@pytest.mark.parametrize(("target", "far"), [("42", False), ("42.5", True)])
def test_the_smaller_of_percentage_and_mass_is_a_rise(target: str, far: bool) -> None:
    assert (
        bool(told(planned(row("bench-press", load=KG(40), reps=5, left=0), load=KG(target), week=2))) is far
    )


def test_four_weeks_rise_by_no_more_than_a_newcomer_may() -> None:
    # 20 kg by 10 % a week: 22, 24.2, 26.62, but 20 * 1.2 = 24 within four weeks of the first.
    written = planned(row("goblet-squat", load=KG(20), reps=5, left=0), load=KG("24.5"), week=4)

    assert [one["reached"] for one in told(written)] == ["24 kg x 5"]


def test_nothing_rises_in_a_lighter_week() -> None:
    asked = row("back-squat", load=KG(100), reps=5, left=0)

    assert told(planned(asked, load=KG(110), week=3)) == []
    assert [one["reached"] for one in told(planned(asked, load=KG(110), week=3, lighter=(2,)))] == [
        "105 kg x 5"
    ]


def test_a_load_that_is_written_later_counts_too() -> None:
    rows = (row("back-squat", 1, load=KG(60), reps=5), row("back-squat", 5, load=KG(100), reps=5))

    assert told(planned(*rows, load=KG(105))) == []


@pytest.mark.parametrize(
    "asked",
    [
        row("back-squat", load=Load.find()),
        row("back-squat"),
        row("back-squat", load=KG(20), reps=14, left=2),
        row("back-squat", load=KG(20), reps=None, to_left=True, left=2),
        row("back-squat", 7, load=KG(20)),
    ],
)
def test_where_nothing_can_be_reckoned_nothing_is_said(asked: Line) -> None:
    assert told(planned(asked, load=KG(300))) == []


def test_the_most_left_of_a_range_counts() -> None:
    written = planned(row("back-squat", load=KG(100), reps=5, left=0, left_high=5), load=KG(114), week=1)

    assert told(written) == []
    assert told(planned(row("back-squat", load=KG(100), reps=5, left=0), load=KG(114), week=1))


# What hangs rises by the cap in kilograms alone, 2.5 a week for the upper body; reps are not counted over.
@pytest.mark.parametrize(
    ("load", "reps", "target", "far"),
    [
        (BW(), 5, BW(Mass.of("12.5")), False),
        (BW(), 5, BW(Mass.of(13)), True),
        (BW(Mass.of(-10)), 5, BW(), False),
        (BW(Mass.of(-20)), 5, BW(Mass.of(5)), True),
        (BW(), 2, BW(Mass.of(20)), False),
        (BW(), 5, BW(), False),
    ],
)
def test_added_mass_has_its_own_rises(load: Load, reps: int, target: Load, far: bool) -> None:
    assert bool(told(planned(row("pull-up", load=load, reps=reps, left=2), load=target))) is far
