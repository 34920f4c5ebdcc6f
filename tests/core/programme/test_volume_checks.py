from decimal import Decimal

from core.policy import Policy
from core.programme.block import Block
from core.programme.catalogue import CATALOGUE
from core.programme.volume_checks import LARGE, out_of_band, range_text, untrained, usual_weeks
from tests.core.programme.written import one_day, row

POLICY = Policy()


def told(written: Block, policy: Policy = POLICY) -> list[tuple[str, dict[str, str]]]:
    return [(one.code, one.facts) for one in out_of_band(written, CATALOGUE, policy)]


def test_usual_weeks_are_neither_lighter_nor_for_tests() -> None:
    written = one_day(row("back-squat"), weeks=5, lighter=[2], tests=[5])

    assert usual_weeks(written, CATALOGUE) == (1, 3, 4)
    assert usual_weeks(one_day(row("back-squat"), weeks=2, lighter=[1, 2]), CATALOGUE) == (1, 2)


# The band of 5 to 20 is our proposal: under 5 is the lowest band of [Schoenfeld2017], about 10 that of [ACSM2026].
def test_few_sets_of_large_muscles_are_told_with_their_weeks() -> None:
    written = one_day(row("dip", 1, 2, sets=4), row("dip", 3, sets=5), row("curl", sets=1), weeks=3)

    assert told(written) == [("muscles_low", {"muscles": "chest 4", "weeks": "1-2", "least": "5"})]


def test_muscles_that_lack_sets_in_the_same_weeks_are_told_together() -> None:
    written = one_day(
        row("leg-curl", 1, sets=4),
        row("leg-curl", 2, sets=2),
        row("leg-extension", 1, sets=3),
        row("leg-extension", 2, sets=3),
        row("dip", 1, sets=5),
        row("calf-raise", 2, sets=5),
    )

    assert told(written) == [
        ("muscles_low", {"muscles": "chest 0", "weeks": "2", "least": "5"}),
        ("muscles_low", {"muscles": "quads 3, hamstrings 2-4", "weeks": "1-2", "least": "5"}),
    ]


def test_many_sets_are_told_of_any_muscle() -> None:
    written = one_day(row("curl", 1, sets=20), row("curl", 2, sets=20), row("hammer-curl", 2, sets=1))

    assert told(written) == [("muscles_high", {"muscles": "biceps 21", "weeks": "2", "most": "20"})]
    assert told(written, Policy(muscle_sets_most=21)) == []


def test_lighter_weeks_may_have_few() -> None:
    assert told(one_day(row("dip", sets=6), weeks=3, lighter=[3])) == []


def test_large_muscles_without_any_set_are_told_once() -> None:
    written = one_day(row("back-squat", sets=6), row("deadlift", sets=6), weeks=6)
    found = list(untrained(written, CATALOGUE))

    assert [one.facts for one in found] == [{"muscles": "chest, lats"}]


def test_a_block_for_all_large_muscles_leaves_none_out() -> None:
    rows = [row(key) for key in ("bench-press", "pull-up", "barbell-row", "back-squat", "deadlift")]

    assert list(untrained(one_day(*rows), CATALOGUE)) == []
    assert len(LARGE) == 6


def test_a_range_is_one_number_where_it_can_be() -> None:
    assert range_text([Decimal("4.5"), Decimal("4.50")]) == "4.5"
    assert range_text([Decimal(6), Decimal("4.5")]) == "4.5-6"
