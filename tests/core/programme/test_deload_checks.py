import pytest

from core.policy import Policy
from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.deload_checks import eased_weeks, long_without_deload
from core.programme.prescription import Load, PercentOf
from tests.core.programme.written import EVERY, day, one_day, row

KG = Load.of
SHARE = PercentOf.ESTIMATE
WEEKS = (
    # What weeks ask for: (load, sets, reps) of the back squat; then the weeks that are lighter.
    ([(100, 4, 8), (100, 4, 8)], set()),
    ([(100, 4, 8), (95, 4, 8), (105, 4, 8)], {2}),
    ([(100, 4, 8), (96, 4, 8)], set()),
    ([(100, 4, 8), (95, 5, 8)], set()),
    ([(100, 4, 5), (90, 4, 8)], set()),
    ([(100, 6, 8), (100, 4, 8)], {2}),
    ([(100, 6, 8), (100, 5, 8)], set()),
    ([(100, 6, 8), (105, 3, 5)], set()),
    ([(100, 4, 8), (90, 3, 8), (90, 3, 8), (100, 4, 8)], {2, 3}),
)


@pytest.mark.parametrize(("weeks", "eased"), WEEKS)
def test_a_week_is_lighter_by_its_load_or_by_its_sets(
    weeks: list[tuple[int, int, int]], eased: set[int]
) -> None:
    rows = [
        row("back-squat", week, load=KG(load), sets=sets, reps=reps)
        for week, (load, sets, reps) in enumerate(weeks, 1)
    ]

    assert eased_weeks(one_day(*rows, weeks=len(weeks)), CATALOGUE) == eased


def two_weeks(first: Load | None, second: Load | None, exercise: str = "back-squat") -> Block:
    return one_day(row(exercise, 1, load=first), row(exercise, 2, load=second))


@pytest.mark.parametrize(
    ("first", "second", "eased"),
    [
        (Load.share(80, SHARE), Load.share(70, SHARE), True),
        (Load.share(80, SHARE), Load.share(79, SHARE), False),
        (Load.share(80, SHARE), Load.share(70, PercentOf.MAX), False),
        (KG(100), Load.share(50, SHARE), False),
        (Load.find(), Load.find(), False),
        (None, None, False),
        (KG("100", "lb"), KG(40), True),
    ],
)
def test_loads_are_compared_where_they_are_of_one_kind(
    first: Load | None, second: Load | None, eased: bool
) -> None:
    assert (2 in eased_weeks(two_weeks(first, second), CATALOGUE)) is eased


def test_a_lighter_accessory_makes_no_lighter_week() -> None:
    assert eased_weeks(two_weeks(KG(20), KG(10), "goblet-squat"), CATALOGUE) == set()


def test_a_main_lift_that_is_open_at_its_end_is_compared_by_its_load() -> None:
    weeks = [
        row("back-squat", week, load=KG(load), reps=None, to_left=True) for week, load in ((1, 100), (2, 90))
    ]

    assert eased_weeks(one_day(*weeks), CATALOGUE) == {2}


def test_weeks_labelled_as_deloads_are_lighter_whatever_is_written() -> None:
    written = one_day(row("back-squat", load=KG(100)), weeks=4, lighter=[1, 3])

    assert eased_weeks(written, CATALOGUE) == {1, 3}


# The default of eight weeks is our proposal: [Rogerson2024] has one every 5.6 +/- 2.3 weeks.
@pytest.mark.parametrize(
    ("weeks", "lighter", "told"),
    [
        (8, (), []),
        (9, (), [{"weeks": "1-9", "count": "9", "most": "8"}]),
        (12, (5,), []),
        (18, (9,), [{"weeks": "10-18", "count": "9", "most": "8"}]),
        (
            20,
            (10,),
            [{"weeks": "1-9", "count": "9", "most": "8"}, {"weeks": "11-20", "count": "10", "most": "8"}],
        ),
    ],
)
def test_a_long_stretch_without_a_lighter_week_is_told(
    weeks: int, lighter: tuple[int, ...], told: list[dict[str, str]]
) -> None:
    written = one_day(row("back-squat", *EVERY), weeks=weeks, lighter=lighter)

    assert [one.facts for one in long_without_deload(written, CATALOGUE, Policy())] == told


def test_a_coach_sets_how_long() -> None:
    written = one_day(row("back-squat"), weeks=5)

    assert list(long_without_deload(written, CATALOGUE, Policy(deload_after=4)))
    assert not list(long_without_deload(written, CATALOGUE, Policy(deload_after=5)))


def test_a_day_without_rows_says_nothing() -> None:
    assert eased_weeks(Block(name="Empty", weeks=3, days=(day("All"),)), CATALOGUE) == set()
