import pytest
from hypothesis import given

from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.checks import block_warnings
from core.programme.problems import WARNINGS
from tests.core.programme.block_strategies import blocks
from tests.core.programme.written import one_day, row


def told(written: Block, code: str) -> list[dict[str, str]]:
    return [found.facts for found in block_warnings(written) if found.code == code]


def test_uneven_weeks_are_told_once_for_the_same_figures() -> None:
    written = one_day(
        row("bench-press", 1, 2, 3),
        row("barbell-row", 2),
        row("back-squat", 1, 2, 3),
        row("deadlift", 1, 2, 3),
        weeks=3,
    )

    assert told(written, "push_to_pull") == [{"push": "3", "pull": "0", "weeks": "1, 3"}]
    assert told(written, "knee_to_hip") == []
    assert told(one_day(row("back-squat")), "knee_to_hip") == [{"knee": "3", "hip": "0", "weeks": "1-2"}]


def test_a_week_of_tests_need_not_be_even() -> None:
    written = one_day(row("bench-press", 2), row("barbell-row", 1), row("push-up", 1), tests=[2])

    assert told(written, "push_to_pull") == []


def test_a_week_that_asks_nothing_of_a_day_is_told() -> None:
    written = one_day(row("plank", 2, reps=None, seconds={"low": 30, "high": 30}), weeks=4)

    assert told(written, "day_empty_in_week") == [{"day": "All", "weeks": "1, 3-4"}]


def test_what_somebody_may_come_to_harm_by_stands_first() -> None:
    written = one_day(row("bench-press", left=0), row("back-squat", or_more=True), weeks=10)
    found = [one.code for one in block_warnings(written)]

    assert found[:2] == ["limit_under_bar", "open_under_bar"]
    assert {"long_without_deload", "push_to_pull", "knee_to_hip", "muscles_low", "muscles_untrained"} <= set(
        found
    )


@pytest.mark.parametrize("weeks", [1, 6])
def test_a_sound_block_gives_no_warning(weeks: int) -> None:
    keys = (
        "bench-press",
        "overhead-press",
        "barbell-row",
        "pull-up",
        "back-squat",
        "split-squat",
        "deadlift",
        "hip-thrust",
    )
    rows = [row(key, sets=5, left=2, order=letter) for letter, key in zip("ABCDEFGH", keys, strict=True)]

    assert block_warnings(one_day(*rows, weeks=weeks)) == ()


@given(blocks())
def test_every_block_gets_warnings_and_nothing_else(written: Block) -> None:
    assert {one.code for one in block_warnings(written, CATALOGUE)} <= WARNINGS
