"""Sets a muscle as [Pelland2024] counts them: direct 1, indirect a half."""

from decimal import Decimal

from core.programme.muscles import Muscle
from core.programme.volume import sets_by_muscle
from core.sources import SOURCES, Mark
from tests.core.programme.written import one_day, row


def test_four_sets_of_bench_press_and_three_of_pushdown_are_five_for_the_triceps() -> None:
    counted = sets_by_muscle(one_day(row("bench-press", sets=4), row("pushdown", sets=3)), 1)

    assert counted[Muscle.TRICEPS] == 4 * Decimal("0.5") + 3 == 5
    assert counted[Muscle.CHEST] == 4
    assert SOURCES["Pelland2024"].mark is Mark.ABSTRACT
