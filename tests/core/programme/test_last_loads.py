from collections.abc import Sequence
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from core.programme.last_load_sheet import last_loads_in
from core.programme.last_loads import (
    LastLoad,
    LastLoadsFile,
    newest_rows,
    people_like,
    person_named,
    problems_with,
)
from core.programme.prescription import Load
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of
from core.units import Mass, Unit

HEAD = ("Client", "Exercise", "Load", "Reps", "Date")
ROW = ("Ada", "Hip thrust", "90 kg", "8", "2026-03-27")
TODAY = date(2026, 4, 6)
PEOPLE = ("Ada", "Ben", "Cleo")


def sheet(
    *rows: Sequence[str], name: str = "Last loads", merges: tuple[Merge, ...] = (), **kinds: CellKind
) -> Sheet:
    """A sheet of texts; `A2=CellKind.DATE` says what a cell is."""
    cells = [
        Cell(number, column, CellKind.TEXT, text)
        for number, row in enumerate(rows, 1)
        for column, text in enumerate(row, 1)
        if text
    ]
    made = [
        Cell(one.row, one.column, kinds.get(one.address, CellKind.TEXT), one.text, one.link) for one in cells
    ]
    return Sheet(name, rows_of(made), merges)


def read(*rows: Sequence[str], head: Sequence[str] = HEAD, **kinds: CellKind) -> LastLoadsFile:
    found = last_loads_in([sheet(head, *rows, **kinds)])
    assert found is not None
    return found


def codes(file: LastLoadsFile, people: Sequence[str] = PEOPLE, today: date = TODAY) -> list[tuple[str, str]]:
    return [(one.place.cell or "", one.code) for one in problems_with(file, today, people)]


def changed(**cells: str) -> tuple[str, ...]:
    named = dict(zip(HEAD, ROW, strict=True)) | cells
    return tuple(named.values())


def loads(file: LastLoadsFile) -> list[LastLoad | None]:
    return [row.load for row in file.rows]


def test_a_row_is_read_whole() -> None:
    found = read(ROW)

    assert loads(found) == [LastLoad(exercise="hip-thrust", load=Load.of(90), reps=8, on=date(2026, 3, 27))]
    assert found.rows[0].client == "Ada"
    assert codes(found) == []


@pytest.mark.parametrize(
    "head",
    [
        ("name", "LIFT", "Weight", "Repetitions", "When"),
        ("Athlete", "movement", "Last load", "rep", "Last done"),
        ("Who", "Exercise name", "Load (kg)", "Reps done", "Date"),
    ],
)
def test_headings_are_matched_kindly(head: Sequence[str]) -> None:
    assert loads(read(ROW, head=head))[0] == loads(read(ROW))[0]


def test_columns_stand_in_any_order_and_a_title_over_them() -> None:
    order = (4, 2, 0, 3, 1)
    found = last_loads_in(
        [sheet(("What they did last",), tuple(HEAD[at] for at in order), tuple(ROW[at] for at in order))]
    )

    assert found is not None
    assert loads(found) == loads(read(ROW))


@pytest.mark.parametrize(
    ("exercise", "written", "load"),
    [
        ("Hip thrust", "62,5 kg", Load.of("62.5")),
        ("hip thrusts", "135 lb", Load.of(135, Unit.LB)),
        ("One-leg hinge", "16 kg a hand", Load.of(16)),
        ("One-leg hinge", "2 x 16 kg", Load.of(16)),
        ("Pull-up", "bw", Load.bodyweight()),
        ("Pull-up", "bw+5 kg", Load.bodyweight(Mass.of(5))),
        ("Pull-up", "bw-20 kg", Load.bodyweight(Mass.of(-20))),
        ("Pull-up", "+5 kg", Load.bodyweight(Mass.of(5))),
    ],
)
def test_loads_are_counted_as_the_exercise_is(exercise: str, written: str, load: Load) -> None:
    found = read(changed(Exercise=exercise, Load=written))

    assert codes(found) == []
    assert found.rows[0].load is not None
    assert found.rows[0].load.load == load


@pytest.mark.parametrize(
    ("head", "cells", "load"),
    [
        ((*HEAD, "Unit"), (*changed(Load="90"), "lb"), Load.of(90, Unit.LB)),
        ((*HEAD, "Unit"), (*changed(Load="90"), "Kilos"), Load.of(90)),
        (("Client", "Exercise", "Weight (lb)", "Reps", "Date"), changed(Load="90"), Load.of(90, Unit.LB)),
        (("Client", "Exercise", "Load kg", "Reps", "Date"), changed(Load="90 lb"), Load.of(90, Unit.LB)),
    ],
)
def test_a_unit_may_stand_in_its_column_or_in_the_heading(
    head: Sequence[str], cells: Sequence[str], load: Load
) -> None:
    found = read(cells, head=head)

    assert found.rows[0].load is not None
    assert found.rows[0].load.load == load


WRONG = [
    ({"Client": ""}, [("A2", "cell_empty")]),
    ({"Client": "Dora"}, [("A2", "client_unknown")]),
    ({"Client": "A" * 81}, [("A2", "text_too_long")]),
    ({"Exercise": "Hip thurst"}, [("B2", "exercise_unknown")]),
    ({"Exercise": "Plank"}, [("B2", "last_no_load")]),
    ({"Exercise": "Band pull-apart"}, [("B2", "last_no_load")]),
    ({"Load": "90"}, [("C2", "last_load_unit")]),
    ({"Load": "heavy"}, [("C2", "last_load_unreadable")]),
    ({"Load": "find"}, [("C2", "last_load_unreadable")]),
    ({"Load": "75 % of estimate"}, [("C2", "last_load_unreadable")]),
    ({"Load": "75 %"}, [("C2", "last_load_unreadable")]),
    ({"Load": "+5 kg"}, [("C2", "last_load_unreadable")]),
    ({"Load": "bw+5 kg"}, [("C2", "bw_added_to_loaded")]),
    ({"Load": "16 kg a hand"}, [("C2", "load_basis")]),
    ({"Load": "9000 kg"}, [("C2", "load_out_of_range")]),
    ({"Reps": "0"}, [("D2", "last_reps_unreadable")]),
    ({"Reps": "101"}, [("D2", "last_reps_unreadable")]),
    ({"Reps": "8-10"}, [("D2", "last_reps_unreadable")]),
    ({"Reps": "30 s"}, [("D2", "last_reps_unreadable")]),
    ({"Reps": "40 metres"}, [("D2", "last_reps_unreadable")]),
    ({"Reps": "8 or more"}, [("D2", "last_reps_unreadable")]),
    ({"Reps": "to 2 left"}, [("D2", "last_reps_unreadable")]),
    ({"Date": "3/4/2026"}, [("E2", "date_ambiguous")]),
    ({"Date": "spring"}, [("E2", "date_unreadable")]),
    ({"Date": "2026-04-08"}, [("E2", "date_ahead")]),
    ({"Date": "2024-04-05"}, [("E2", "date_old")]),
    (
        {"Client": "Dora", "Exercise": "Hip thurst", "Load": "90", "Reps": "x", "Date": "x"},
        [
            ("A2", "client_unknown"),
            ("B2", "exercise_unknown"),
            ("C2", "last_load_unit"),
            ("D2", "last_reps_unreadable"),
            ("E2", "date_unreadable"),
        ],
    ),
]


@each_row(("cells", "found"), WRONG)
def test_every_problem_of_a_row_is_named_at_once(cells: dict[str, str], found: list[tuple[str, str]]) -> None:
    assert codes(read(changed(**cells))) == found


@pytest.mark.parametrize("reps", ["1", "100", "8 reps", "8 a side"])
def test_reps_are_one_number_from_1_to_100(reps: str) -> None:
    assert codes(read(changed(Reps=reps))) == []


@pytest.mark.parametrize("on", ["2026-04-07", "2024-04-06"])
def test_dates_up_to_two_years_back_and_a_day_ahead_of_the_coachs_clock_are_taken(on: str) -> None:
    assert codes(read(changed(Date=on))) == []


def test_a_date_of_more_than_two_years_ago_is_only_asked_about() -> None:
    (warned,) = problems_with(read(changed(Date="2023-04-05")), TODAY, PEOPLE)

    assert warned.severity.value == "warning"


def test_a_unit_that_is_none_is_a_problem() -> None:
    assert codes(read((*ROW, "stone"), (*ROW[:1], "Squat", *ROW[2:], "kg kg"), head=(*HEAD, "Unit"))) == [
        ("F2", "unit_unreadable"),
        ("F3", "unit_unreadable"),
    ]


def test_formulas_are_not_run() -> None:
    found = read(changed(Reps="=4+4", Load="=80"), D2=CellKind.FORMULA, C2=CellKind.FORMULA)

    assert codes(found) == [("C2", "formula"), ("D2", "formula")]


def test_a_range_of_reps_that_became_a_date_is_no_number_of_reps() -> None:
    assert codes(read(changed(Reps="2026-10-08"), D2=CellKind.DATE)) == [("D2", "last_reps_unreadable")]


@pytest.mark.parametrize("missing", ["Load", "Reps", "Date"])
def test_a_column_that_is_missing_is_named_and_no_row_repeats_it(missing: str) -> None:
    at = HEAD.index(missing)
    found = read((*ROW[:at], *ROW[at + 1 :]), head=(*HEAD[:at], *HEAD[at + 1 :]))

    assert [(one.code, one.facts) for one in found.problems] == [("column_missing", {"column": missing})]
    assert found.rows == ()


def test_columns_that_are_not_read_are_named_and_stop_nothing() -> None:
    found = read((*ROW, "fine", "again"), head=(*HEAD, "Mood", "weight"))

    assert [(one.code, one.severity.value) for one in found.problems] == [
        ("last_column_unread", "warning"),
        ("column_twice", "error"),
    ]


def test_a_sheet_without_rows_says_so_and_a_header_printed_again_is_no_row() -> None:
    assert [one.code for one in read(HEAD).problems] == ["last_no_rows"]
    assert len(read(ROW, HEAD, changed(Client="Ben")).rows) == 2


def test_a_client_merged_over_several_rows_is_in_each_and_other_merged_cells_are_a_problem() -> None:
    rows = (HEAD, ROW, ("", "Squat", *ROW[2:]), changed(Client="Ben"))
    merges = (Merge(1, 1, 1, 2), Merge(2, 3, 1, 1), Merge(3, 4, 3, 3))
    found = last_loads_in([sheet(*rows, merges=merges)])

    assert found is not None
    assert [row.client for row in found.rows] == ["Ada", "Ada", "Ben"]
    assert [(one.code, one.place.cell) for one in found.problems] == [("merged", "C3")]


def test_every_sheet_with_the_headings_is_read_and_another_is_named() -> None:
    others = [
        sheet(HEAD, ROW, name="Monday group"),
        sheet(HEAD, changed(Client="Ben"), name="Others"),
        sheet(("Rent", "May"), name="Money"),
        sheet(("Exercise", "Pattern"), name="Exercise names"),
        sheet(name="Empty"),
    ]
    found = last_loads_in(others)

    assert found is not None
    assert [row.client for row in found.rows] == ["Ada", "Ben"]
    assert [(one.code, one.place.sheet) for one in found.problems] == [("last_sheet_unread", "Money")]


@pytest.mark.parametrize(
    "head",
    [
        ("Day", "Order", "Exercise", "Sets", "Reps", "Load"),
        ("Day", "Order", "Name", "Exercise", "Sets", "Reps", "Load"),
        ("Name", "Harbour strength"),
        ("Client", "Exercise"),
    ],
)
def test_a_blocks_table_and_other_sheets_are_no_last_loads(head: Sequence[str]) -> None:
    assert last_loads_in([sheet(head, ROW)]) is None


def test_of_several_dates_the_latest_counts_and_one_date_twice_is_a_problem() -> None:
    found = read(
        changed(Date="2026-03-01"),
        changed(Client="ADA", Date="2026-03-20", Load="95 kg"),
        changed(Client="Ben", Date="2026-03-01"),
        changed(Date="2026-03-20", Load="80 kg"),
    )

    assert codes(found) == [("B2", "last_row_older"), ("B5", "last_row_twice")]
    assert [one.facts for one in problems_with(found, TODAY, PEOPLE)] == [
        {"newer_row": "5"},
        {"first_row": "3"},
    ]
    assert [row.client for row in newest_rows(found)] == ["ADA", "Ben", "Ada"]


def test_rows_that_were_not_understood_are_not_set_against_others() -> None:
    found = read(changed(Client=""), changed(Client=""), changed(Date="x"), changed(Exercise="x"))

    assert {code for _, code in codes(found)} == {"cell_empty", "date_unreadable", "exercise_unknown"}
    assert newest_rows(found) == ()


def test_names_are_matched_by_letters_alone_and_never_guessed() -> None:
    people = ("Ada Lund", "Åsa", "Ben", "ben")

    assert person_named("ada-lund", people) == "Ada Lund"
    assert person_named("asa", people) == "Åsa"
    assert person_named("Ada", people) is None
    # Two people of one name: nobody can say which of them is meant.
    assert person_named("Ben", people) is None
    assert people_like("Ada", people)[:1] == ("Ada Lund",)
    assert people_like("zzz", people) == ()


def test_the_likeliest_names_are_told() -> None:
    (unknown,) = problems_with(read(changed(Client="Adda")), TODAY, PEOPLE)

    assert unknown.facts == {"written": "Adda", "suggestions": "Ada"}


CELLS = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["Ada", "Hip thrust", "90 kg", "bw", "75 %", "8", "8-10", "3/4/2026", "2026-03-27", "=1"]
    ),
)


@given(st.lists(st.tuples(CELLS, CELLS, CELLS, CELLS, CELLS), max_size=5))
def test_whatever_stands_in_the_cells_every_row_is_read_or_named(rows: list[tuple[str, ...]]) -> None:
    found = read(*[tuple(" ".join(cell.split()) for cell in row) for row in rows])
    problems = problems_with(found, TODAY, PEOPLE)

    named = {one.place.row for one in problems if one.severity.value == "error"}
    assert [row for row in found.rows if row.load is None and row.places["Client"].row not in named] == []
