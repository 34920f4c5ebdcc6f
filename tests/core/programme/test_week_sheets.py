"""One week of a block for one client as sheets: what is written reads as the same week, and every problem is told."""

from dataclasses import replace

import pytest
from examples import examples
from hypothesis import given
from hypothesis import strategies as st

from core.programme.block import Block, Day, Line
from core.programme.prescription import Dose, Load, Prescription, Span
from core.programme.problems import Code, Place
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.programme.tabs import NO_NAME
from core.programme.versions import as_changed, changed_week
from core.programme.week_sheets import WeekFile, week_in, week_sheets
from core.programme.writing import sheets_of
from tests.core.programme.block_strategies import blocks, texts

ALL = frozenset({1, 2, 3, 4})
LIGHTER = frozenset({4})


def row(order: str, exercise: str, kg: int, weeks: frozenset[int] = ALL) -> Line:
    dose = Dose(sets=3, reps=Span(low=8, high=8), load=Load.of(kg))
    return Line(weeks=weeks, prescription=Prescription(order=order, exercise=exercise, dose=dose))


HARBOUR = Block(
    name="Harbour strength",
    weeks=4,
    days=(
        Day(
            key="lower-a",
            name="Lower A",
            lines=(row("A", "back-squat", 60), row("B", "hip-thrust", 50, LIGHTER)),
            lighter_weeks=LIGHTER,
        ),
        Day(key="push", name="Push", lines=(row("A", "bench-press", 40),), lighter_weeks=LIGHTER),
    ),
)


def table(name: str, *rows: tuple[str, ...]) -> Sheet:
    cells = (
        Cell(number, column, CellKind.TEXT, text)
        for number, texts_ in enumerate(rows, 1)
        for column, text in enumerate(texts_, 1)
        if text
    )
    return Sheet(name, rows_of(cells))


HEAD = (("Name", "Harbour strength"), ("Client", "Ada"), ("Week", "2"), ("Session days", "Push"))
HEADINGS = ("Day", "Order", "Exercise", "Weeks", "Sets", "Reps", "Load")
BENCH = ("Push", "A", "Bench press", "", "3", "8", "40 kg")


def read(head: tuple[tuple[str, ...], ...] = HEAD, *rows: tuple[str, ...]) -> WeekFile:
    found = week_in((table("Block", *head), table("Sessions", HEADINGS, *(rows or (BENCH,)))))
    assert found is not None
    return found


@given(blocks(), texts(40), st.data())
@examples(80)
def test_a_week_that_is_written_reads_as_the_same_week(
    block: Block, client: str, data: st.DataObject
) -> None:
    week = data.draw(st.integers(1, block.weeks))
    has_rows = all(day.in_week(week) for day in block.days)
    found = week_in(week_sheets(block, week, client))

    assert found is not None
    assert (found.client, found.week, found.block) == (client, week, block.name)
    if has_rows:
        assert found.changed == changed_week(block, week)
        assert as_changed(block, [found.changed]).days[0].in_week(week) == block.days[0].in_week(week)
    else:
        assert {each.code for each in found.problems} & {Code.DAY_WITHOUT_ROWS, Code.NO_ROWS}


def test_only_the_rows_of_the_week_are_written_and_those_of_a_lighter_week_alone_name_it() -> None:
    lines, sessions = week_sheets(HARBOUR, 4, "Ada")
    third = week_sheets(HARBOUR, 3, "Ada")[1]

    def texts_in(sheet: Sheet) -> list[list[str]]:
        return [[cell.text for cell in each.values()] for each in sheet.rows]

    assert texts_in(lines) == [
        ["Name", "Harbour strength"],
        ["Client", "Ada"],
        ["Week", "4"],
        ["Session days", "Lower A, Push"],
        ["Deload weeks", "4"],
    ]
    assert texts_in(sessions) == [
        ["Day", "Order", "Exercise", "Weeks", "Sets", "Reps", "Load"],
        ["Lower A", "A", "Back squat", "3", "8", "60 kg"],
        ["Lower A", "B", "Hip thrust", "4", "3", "8", "50 kg"],
        ["Push", "A", "Bench press", "3", "8", "40 kg"],
    ]
    assert [each[1] for each in texts_in(third)[1:]] == ["A", "A"]
    found = week_in((lines, sessions))
    assert found is not None
    assert found.changed == changed_week(HARBOUR, 4)


def test_without_its_deload_line_the_week_is_as_written() -> None:
    lines, sessions = week_sheets(HARBOUR, 4, "Ada")
    found = week_in((replace(lines, rows=lines.rows[:-1]), sessions))

    assert found is not None
    assert found.changed is not None
    assert [each.dose.lighter for day in found.changed.days for each in day.rows] == [False, False, False]


def test_lines_and_table_may_stand_on_one_sheet_as_in_a_csv() -> None:
    one = table(NO_NAME, *HEAD, (), HEADINGS, BENCH)
    found = week_in((one,))

    assert found is not None
    assert found.changed is not None
    assert found.days == ("push",)


def test_a_file_that_names_no_client_is_no_week() -> None:
    assert week_in(sheets_of(HARBOUR)) is None
    assert week_in((table("Sessions", HEADINGS, BENCH),)) is None
    assert week_in(()) is None


def test_a_label_of_another_word_is_matched_and_the_places_are_kept() -> None:
    found = read((("Block name", "Tide"), ("For", "Ada"), ("week number", "2"), ("Days", "Push")))

    assert found == WeekFile(
        client="Ada",
        week=2,
        block="Tide",
        days=("push",),
        changed=found.changed,
        client_at=Place(sheet="Block", row=2, column="Client", cell="B2"),
        week_at=Place(sheet="Block", row=3, column="Week", cell="B3"),
        block_at=Place(sheet="Block", row=1, column="Name", cell="B1"),
        days_at=Place(sheet="Block", row=4, column="Session days", cell="B4"),
    )
    assert found.changed is not None


PROBLEMS = [
    ((("Name", "Tide"), ("Client", "Ada"), ("Session days", "Push")), (BENCH,), ["label_missing"]),
    ((*HEAD[:1], ("Client",), *HEAD[2:]), (BENCH,), ["cell_empty B2"]),
    ((*HEAD[:2], ("Week", "all"), HEAD[3]), (BENCH,), ["week_unreadable B3"]),
    ((*HEAD[:2], ("Week", "53"), HEAD[3]), (BENCH,), ["week_unreadable B3"]),
    ((*HEAD, ("Phases", "Base: 1-2")), (BENCH,), ["week_line_unused B5"]),
    ((*HEAD, ("Deload weeks", "3")), (BENCH,), ["week_elsewhere B5"]),
    ((*HEAD, ("Week", "3")), (BENCH,), ["label_twice A5"]),
    (HEAD[1:], (BENCH,), ["label_missing"]),
    (HEAD, ((*BENCH[:3], "2-3", *BENCH[4:]),), ["week_elsewhere D2"]),
    (HEAD, ((*BENCH[:3], "60", *BENCH[4:]),), ["weeks_outside D2"]),
    (HEAD, (BENCH, BENCH), ["order_twice B3"]),
    ((*HEAD[:3], ("Session days", "Push, Pull")), (BENCH,), ["day_without_rows B4"]),
    (
        (*HEAD[:2], ("Week", "x"), HEAD[3], ("Targets", "Bench press 60 kg x 5 by week 3")),
        (("Pull", "?", "Row row", "", "77", "8", "lots"),),
        [
            "week_unreadable B3",
            "week_line_unused B5",
            "day_without_rows B4",
            "day_unknown A2",
            "order_unreadable B2",
            "exercise_unknown C2",
            "sets_unreadable E2",
            "load_unreadable G2",
        ],
    ),
]


@pytest.mark.parametrize(("head", "rows", "told"), PROBLEMS)
def test_every_problem_is_told_at_once_with_its_place(
    head: tuple[tuple[str, ...], ...], rows: tuple[tuple[str, ...], ...], told: list[str]
) -> None:
    found = read(head, *rows)

    said = [f"{each.code} {each.place.cell or ''}".strip() for each in found.problems]
    assert sorted(said) == sorted(told)
    assert (found.changed is None) == bool(told)


def test_a_file_without_its_table_says_so() -> None:
    found = week_in((table("Block", *HEAD),))

    assert found is not None
    assert [each.code for each in found.problems] == [Code.SHEET_MISSING]
    assert found.changed is None
