"""Ramps: the everyday one is common practice, no source; the one to a tested maximum is [NSCA]'s, read in copies."""

from decimal import Decimal

import pytest

from core.loads.attempts import FALL, MOST_SINGLES, RISE, SETS, SINGLE_REST, next_single, way_to_single
from core.loads.equipment import Ladder, default_kit, ladder_for
from core.loads.warmup import STEPS, ramp, ramp_for
from core.programme.catalogue import exercise
from core.programme.exercises import Region
from core.sources import SOURCES, Mark
from core.units import Mass, Unit

GYM = default_kit("bar", Unit.KG)
BAR = ladder_for(exercise("bench-press"), GYM)
FINE = Ladder(steps=tuple(Mass.of(Decimal(step) / 10) for step in range(200, 3000)))


@pytest.mark.parametrize(
    ("work", "nearest", "ours"),
    [  # 40, 60, 75 and 90 %: to the nearest 2.5 kg, as it is often printed, and at or under, as we give it
        ("100", "40 60 75 90", "40 60 75 90"),
        ("140", "55 85 105 125", "55 82.5 105 125"),
        ("60", "25 35 45 55", "22.5 35 45 52.5"),
    ],
)
def test_a_ramp_to_a_working_load(work: str, nearest: str, ours: str) -> None:
    found = [step.load.value for step in ramp(Mass.of(work), 5, BAR)]

    assert found == [Decimal(each) for each in ours.split()]
    for load, printed, (share, _) in zip(found, nearest.split(), STEPS, strict=True):
        assert load <= Decimal(work) * share
        assert 0 <= Decimal(printed) - load <= Decimal("2.5")


def test_a_light_load_starts_from_the_empty_bar_and_leaves_out_what_comes_out_the_same() -> None:
    # To the nearest 2.5 kg it is 20, 22.5 and 27.5; 40 and 60 % are both the empty bar.
    assert [str(step.load) for step in ramp(Mass.of(30), 5, BAR)] == ["20 kg", "22.5 kg", "25 kg"]


@pytest.mark.parametrize(("reps", "last"), [(5, "90"), (7, "90"), (8, "75"), (12, "75")])
def test_there_is_no_step_of_ninety_percent_before_eight_reps_or_more(reps: int, last: str) -> None:
    # Our proposal after a practising coach's review.
    assert ramp(Mass.of(100), reps, BAR)[-1].load == Mass.of(last)


@pytest.mark.parametrize(("work", "count"), [("20", 0), ("25", 0), ("29", 0), ("30", 3)])
def test_light_work_under_one_and_a_half_bars_has_no_ramp(work: str, count: int) -> None:
    assert len(ramp(Mass.of(work), 5, BAR)) == count


def test_an_accessory_after_its_pattern_was_warmed_has_one_set() -> None:
    assert [(str(step.load), step.reps) for step in ramp(Mass.of(60), 10, BAR, warmed=True)] == [("35 kg", 5)]


@pytest.mark.parametrize(
    ("work", "low"),
    [("140", [True, False, False, False]), ("80", [True, True, False, False]), ("60", [True] * 4)],
)
def test_a_deadlift_ramp_says_where_no_disc_is_of_full_size(work: str, low: list[bool]) -> None:
    # 55 kg is 15 + 2.5 a side: it goes on blocks. Common practice, no source.
    found = ramp_for(exercise("deadlift"), Mass.of(work), 3, GYM)

    assert [step.low_bar for step in found.sets] == low


REGION = [  # region, percent up, pounds up, percent down, pounds down: read in copies; kilograms from memory
    (Region.UPPER, ("5", "10"), (10, 20), ("2.5", "5"), (5, 10), (4, 9), (2, 4)),
    (Region.LOWER, ("10", "20"), (30, 40), ("5", "10"), (15, 20), (14, 18), (7, 9)),
]


@pytest.mark.parametrize(("region", "up", "lb_up", "down", "lb_down", "kg_up", "kg_down"), REGION)
def test_how_far_a_test_goes_up_and_down(region, up, lb_up, down, lb_down, kg_up, kg_down) -> None:
    assert SOURCES["NSCA"].mark is Mark.SECONDARY
    rise, fall = RISE[region], FALL[region]

    assert (rise.least * 100, rise.most * 100) == tuple(map(Decimal, up))
    assert (fall.least * 100, fall.most * 100) == tuple(map(Decimal, down))
    assert (rise.pounds, fall.pounds) == (lb_up, lb_down)
    assert (rise.kilograms, fall.kilograms) == (kg_up, kg_down)


def test_reps_and_rests_of_a_test() -> None:
    assert SETS == (((5, 10), (60, 60)), ((3, 5), (120, 120)), ((2, 3), (120, 240)))
    assert (SINGLE_REST, MOST_SINGLES) == ((120, 240), 5)


@pytest.mark.parametrize(
    ("region", "ladder", "loads"),
    [  # 100 kg expected; 100 / 1.1 and / 1.2, again and again
        (Region.UPPER, FINE, "75.1 82.6 90.9 100"),
        (Region.LOWER, FINE, "57.8 69.4 83.3 100"),
        (Region.UPPER, BAR, "75 82.5 90 100"),
        (Region.LOWER, BAR, "57.5 67.5 82.5 100"),
    ],
)
def test_the_way_to_a_single_of_a_hundred(region: Region, ladder: Ladder, loads: str) -> None:
    found = way_to_single(Mass.of(100), region, ladder)

    assert [step.load for step in found] == [Mass.of(each) for each in loads.split()]
    assert [step.reps for step in found] == [(5, 10), (3, 5), (2, 3), (1, 1)]


@pytest.mark.parametrize(
    ("region", "lifted", "failed", "following"),
    [
        (Region.UPPER, "100", "", "110"),
        (Region.UPPER, "100", "110", "105"),  # 2.5 % under 110 is 107.25
        (Region.UPPER, "", "100", "97.5"),
        (Region.UPPER, "100 105", "110", None),
        (Region.UPPER, "100", "110 105", None),
        (Region.LOWER, "100", "", "120"),
        (Region.LOWER, "100", "120", "112.5"),  # 5 % under 120 is 114
        (Region.LOWER, "", "100", "95"),
    ],
)
def test_the_single_after_these(region: Region, lifted: str, failed: str, following: str | None) -> None:
    up, down = (tuple(Mass.of(each) for each in said.split()) for said in (lifted, failed))

    assert next_single(up, down, region, BAR) == (None if following is None else Mass.of(following))
