"""What is different between two blocks: values, which the words are made of."""

from typing import Any

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.programme.block import Block, Day, Line, Phase, Weekday
from core.programme.differences import LIGHTER, CellChange, Difference, Kind, RowChange, difference
from core.programme.prescription import Dose, Load, Prescription, Span
from tests.core.programme.block_strategies import blocks

ALL = frozenset({1, 2, 3, 4})
SQUAT = {"order": "A", "exercise": "back-squat", "kg": 60}
CURL = {"order": "B", "exercise": "curl", "kg": 10}


def row(order: str, exercise: str, kg: int = 60, reps: int = 8, weeks: frozenset[int] = ALL) -> Line:
    dose = Dose(sets=3, reps=Span(low=reps, high=reps), load=Load.of(kg))
    return Line(weeks=weeks, prescription=Prescription(order=order, exercise=exercise, dose=dose))


def day(name: str, *lines: Line, lighter: frozenset[int] = frozenset()) -> Day:
    return Day(key=name.lower(), name=name, lines=lines or (row(**SQUAT),), lighter_weeks=lighter)


def block(*days: Day, **more: Any) -> Block:
    return Block.model_validate({"name": "Harbour", "weeks": 4, "days": days, **more})


def cell(column: str, before: str, after: str) -> CellChange:
    return CellChange(column=column, before=before, after=after)


def changed(
    *cells: CellChange, weeks: frozenset[int] = ALL, order: str = "A", of: str = "back-squat"
) -> RowChange:
    return RowChange(
        day="Lower", weeks=weeks, kind=Kind.CHANGED, order=order, exercise=of, cells=tuple(cells)
    )


BEFORE = (row(**SQUAT), row(**CURL))
ROWS = [
    (
        [row(**SQUAT), row("B", "curl", 12)],
        [changed(cell("Load", "10 kg a hand", "12 kg a hand"), order="B", of="curl")],
    ),
    (
        [
            row(**SQUAT),
            row("B", "curl", 10, weeks=frozenset({1, 2})),
            row("B", "curl", 12, weeks=frozenset({3, 4})),
        ],
        [
            changed(
                cell("Load", "10 kg a hand", "12 kg a hand"), weeks=frozenset({3, 4}), order="B", of="curl"
            )
        ],
    ),
    # The same exercise at another place, and what came to its place.
    (
        [row(**SQUAT), row("B", "face-pull", 20), row("C", "curl", 10)],
        [
            changed(cell("Order", "B", "C"), order="B", of="curl"),
            RowChange(
                day="Lower",
                weeks=ALL,
                kind=Kind.ADDED,
                order="B",
                exercise="face-pull",
                cells=(
                    cell("Order", "", "B"),
                    cell("Exercise", "", "Face pull"),
                    cell("Sets", "", "3"),
                    cell("Reps", "", "8"),
                    cell("Load", "", "20 kg"),
                ),
            ),
        ],
    ),
    # Another exercise at the same place.
    (
        [row("A", "front-squat", 50), row(**CURL)],
        [changed(cell("Exercise", "Back squat", "Front squat"), cell("Load", "60 kg", "50 kg"))],
    ),
    ([row(**SQUAT), row(**CURL), row("C", "curl", 10)], None),
]


@pytest.mark.parametrize(("after", "rows"), ROWS)
def test_rows_are_compared_by_exercise_and_place(after: list[Line], rows: list[RowChange] | None) -> None:
    found = difference(block(day("Lower", *BEFORE)), block(day("Lower", *after)))

    if rows is None:
        assert [(each.kind, each.order) for each in found.rows] == [(Kind.ADDED, "C")]
    else:
        assert found == Difference(rows=tuple(rows))


def test_a_row_that_is_gone_says_what_it_asked_for() -> None:
    found = difference(block(day("Lower", *BEFORE)), block(day("Lower", row(**SQUAT))))

    assert [(each.kind, each.order, each.exercise) for each in found.rows] == [(Kind.REMOVED, "B", "curl")]
    assert found.rows[0].cells[-1] == cell("Load", "10 kg a hand", "")


def test_only_the_weeks_asked_for_are_looked_at_and_only_those_that_both_have() -> None:
    before, after = block(day("Lower", row("A", "curl", 10))), block(day("Lower", row("A", "curl", 12)))
    longer = after.model_copy(update={"weeks": 6})

    assert difference(before, after, weeks=[2]).rows[0].weeks == {2}
    assert difference(before, longer, weeks=range(3, 7)).rows[0].weeks == {3, 4}
    assert difference(before, after, weeks=range(5, 5)).is_empty
    assert difference(before, longer).plan == (cell("Weeks", "4", "6"),)


def test_days_come_go_and_change_their_names_and_order() -> None:
    before = block(day("Lower"), day("Push", row("A", "bench-press")), day("Pull", row("A", "barbell-row")))
    other = block(day("Lower"), day("Press", row("A", "bench-press")), day("Core", row("A", "dead-bug")))
    turned = block(before.days[2], before.days[0], before.days[1])
    spelt = block(Day(key="lower", name="LOWER", lines=before.days[0].lines), *before.days[1:])

    assert difference(before, other) == Difference(
        added=("Core",), gone=("Pull",), renamed=(("Push", "Press"),)
    )
    assert difference(before, turned) == Difference(order=("Pull", "Lower", "Push"))
    assert difference(before, spelt) == Difference(renamed=(("Lower", "LOWER"),))


def test_the_plan_over_the_weeks_is_compared_line_by_line() -> None:
    before = block(day("Lower"), phases=(Phase(name="Base", weeks=frozenset({1, 2})),))
    after = block(day("Lower", lighter=frozenset({4})), testing_weeks={3}, week_starts=Weekday.SUN)

    assert difference(before, after).plan == (
        cell("First day of the week", "Monday", "Sunday"),
        cell("Phases", "Base: 1-2", ""),
        cell("Deload weeks", "", "4"),
        cell("Testing weeks", "", "3"),
    )
    assert difference(before, after).rows == ()


def test_a_row_that_a_lighter_week_no_longer_makes_lighter_is_told() -> None:
    lighter = frozenset({4})
    before = block(day("Lower", row(**SQUAT), lighter=lighter))
    alone = row(**SQUAT, weeks=lighter)
    after = block(day("Lower", row(**SQUAT, weeks=ALL - lighter), alone, lighter=lighter))

    told = cell(LIGHTER, "made lighter", "as written")
    assert difference(before, after) == Difference(rows=(changed(told, weeks=lighter),))


@given(blocks())
@examples(60)
def test_nothing_is_different_from_itself(found: Block) -> None:
    assert difference(found, found).is_empty


@given(blocks(), blocks(), st.data())
@examples(60)
def test_what_is_different_is_told_without_fail(one: Block, other: Block, data: st.DataObject) -> None:
    week = data.draw(st.integers(1, one.weeks))
    found = difference(one, other, weeks=[week])

    assert found.is_empty or not difference(other, one).is_empty
    assert all(each.weeks == {week} for each in found.rows)
