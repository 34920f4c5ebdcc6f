"""Hard sets of a week that was done, as [Pelland2024] counts them; what is hard is common practice, no source."""

from decimal import Decimal

import pytest

from core.loads.hard_sets import week_of_sets
from core.loads.work_done import WorkDone
from core.programme.catalogue import exercise
from core.programme.muscles import Muscle
from core.programme.volume import sets_by_muscle
from core.sources import SOURCES, Mark
from tests.core.loads.lifts import day, done, dose
from tests.core.programme.written import one_day, row


def week(**sets: int) -> list[WorkDone]:
    return [
        WorkDone(
            exercise=exercise(key.replace("_", "-")),
            exposure=done(place, dose(count, "8", "40"), " ".join(["8"] * count)),
        )
        for place, (key, count) in enumerate(sets.items())
    ]


@pytest.mark.parametrize(
    ("muscle", "sets"),
    [
        (Muscle.TRICEPS, "5"),  # 4 x 0.5 + 3: the fractional count; the total count has 7, the direct one 3
        (Muscle.CHEST, "4"),
        (Muscle.FRONT_DELTS, "2"),
    ],
)
def test_four_sets_of_bench_press_and_three_of_pushdown(muscle: Muscle, sets: str) -> None:
    found = week_of_sets(week(bench_press=4, pushdown=3), day(6))

    assert SOURCES["Pelland2024"].mark is Mark.ABSTRACT
    assert found.by_muscle[muscle] == Decimal(sets)
    assert found.total == 7


@pytest.mark.parametrize(
    "keys",
    [
        ("bench-press", "pushdown"),
        ("back-squat", "leg-curl", "calf-raise"),
        ("deadlift", "pull-up", "curl", "lateral-raise"),
        ("split-squat", "one-arm-row", "kettlebell-press"),
    ],
)
def test_a_week_done_as_written_counts_as_it_is_written(keys: tuple[str, ...]) -> None:
    written = sets_by_muscle(one_day(*(row(key, sets=3) for key in keys)), 1)

    assert week_of_sets(week(**{key.replace("-", "_"): 3 for key in keys}), day(6)).by_muscle == written


@pytest.mark.parametrize(
    ("sets", "push_pull", "even"),
    [
        ({"bench_press": 10, "barbell_row": 15}, (10, 15), True),
        ({"bench_press": 9, "barbell_row": 15}, (9, 15), False),
        ({"overhead_press": 6, "dip": 9, "pull_up": 10}, (15, 10), True),
        ({"bench_press": 16, "pulldown": 10}, (16, 10), False),
    ],
)
def test_pushes_to_pulls_from_two_thirds_to_one_and_a_half(
    sets: dict[str, int], push_pull: tuple[int, int], even: bool
) -> None:
    found = week_of_sets(week(**sets), day(6)).push_pull

    assert found == push_pull
    assert found.even is even
