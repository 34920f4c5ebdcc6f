from decimal import Decimal

import pytest
from rows import each_row

from core.programme.block import Block, Day, Line
from core.programme.lighter_weeks import calmed, deloaded
from core.programme.prescription import Dose, Load, PercentOf, Prescription, Rpe, Span
from core.programme.set_styles import SetStyle, StyleKind
from core.programme.volume import sets_by_pattern
from core.units import Mass

EIGHT = Span(low=8, high=8)
DOWN = SetStyle(kind=StyleKind.DESCENDING, steps=2)
UP = SetStyle(kind=StyleKind.ASCENDING)


def dose(**fields: object) -> Dose:
    return Dose.model_validate({"sets": 4, "reps": EIGHT, **fields})


DELOADED = [
    (dose(), dose(sets=2)),
    (dose(sets=1), dose(sets=1)),
    (dose(load=Load.of(100), left=2), dose(sets=2, load=Load.of(95), left=4)),
    (dose(load=Load.bodyweight(Mass.of(10))), dose(sets=2, load=Load.bodyweight(Mass.of("9.5")))),
    (dose(load=Load.bodyweight(Mass.of(-19))), dose(sets=2, load=Load.bodyweight(Mass.of(-20)))),
    (dose(load=Load.bodyweight()), dose(sets=2, load=Load.bodyweight())),
    (dose(load=Load.find()), dose(sets=2, load=Load.find())),
    (dose(load=Load.banded("light")), dose(sets=2, load=Load.banded("light"))),
    (dose(load=Load.share(80, PercentOf.MAX)), dose(sets=2, load=Load.share(76, PercentOf.MAX))),
    (dose(load=Load.up(Mass.of(5))), dose(sets=2)),
    (dose(left=1, left_high=2), dose(sets=2, left=3, left_high=4)),
    (dose(left=3, left_high=4), dose(sets=2, left=5)),
    (dose(left=2, rpe=Rpe(low=Decimal(8), high=Decimal(8))), dose(sets=2, left=4)),
    (dose(or_more=True), dose(sets=2)),
    (dose(style=DOWN), dose(sets=2)),
    (dose(style=UP, lighter=True), dose(sets=2, style=UP)),
]


@each_row(("written", "expected"), DELOADED)
def test_a_lighter_week_takes_sets_load_and_effort_down(written: Dose, expected: Dose) -> None:
    assert deloaded(written) == expected


def test_what_goes_to_the_limit_is_taken_out() -> None:
    assert calmed(dose(or_more=True, style=DOWN)) == dose()
    assert calmed(dose(style=UP)) == dose(style=UP)


def line(order: str, *weeks: int) -> Line:
    return Line(
        weeks=frozenset(weeks), prescription=Prescription(order=order, exercise="bench-press", dose=dose())
    )


def test_a_row_that_is_not_written_for_lighter_weeks_alone_is_lighter_in_them() -> None:
    day = Day(
        key="push",
        name="Push",
        lines=(line("A", 1, 2, 3, 4), line("B", 4), line("C", 2, 4)),
        lighter_weeks=frozenset({2, 4}),
    )
    block = Block(name="Slipway", weeks=4, days=(day,))

    assert [asked.dose.lighter for asked in day.in_week(3)] == [False]
    assert [asked.dose.lighter for asked in day.in_week(4)] == [True, False, False]
    assert block.lighter_weeks == frozenset({2, 4})
    assert sum(sets_by_pattern(block, 4).values()) == 2 + 4 + 4


def test_a_block_without_days_has_no_lighter_week() -> None:
    assert Block(name="Slipway", weeks=4, days=()).lighter_weeks == frozenset()


def test_every_day_has_the_same_lighter_weeks() -> None:
    days = tuple(
        Day(key=key, name=key, lines=(), lighter_weeks=frozenset(weeks))
        for key, weeks in (("a", {1}), ("b", ()))
    )

    with pytest.raises(ValueError, match="same lighter weeks"):
        Block(name="Slipway", weeks=4, days=days)
