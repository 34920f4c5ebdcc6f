from collections.abc import Mapping, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme.block import Block, Weekday
from core.programme.problems import FACTS, Problem, Severity
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.session_sheet import COLUMNS
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of

HEAD = {"Name": "Slipway", "Weeks": "4", "First day of the week": "Monday", "Session days": "Push, Pull"}
PUSH = ("Push", "A", "Bench press", "", "3", "8", "60 kg")
PULL = ("Pull", "A", "Barbell row", "", "3", "8", "50 kg")
Found = list[tuple[str, str | None]]


def sheet(name: str, rows: Sequence[Sequence[str]], merges: tuple[Merge, ...] = ()) -> Sheet:
    cells = (
        Cell(row, column, CellKind.TEXT, text)
        for row, texts in enumerate(rows, start=1)
        for column, text in enumerate(texts, start=1)
        if text
    )
    return Sheet(name, rows_of(cells), merges)


def block_sheet(head: Mapping[str, str] = HEAD, *more: Sequence[str]) -> Sheet:
    return sheet("Block", [*head.items(), *more])


def sessions(*rows: Sequence[str], columns: Sequence[str] = COLUMNS, merges: tuple[Merge, ...] = ()) -> Sheet:
    return sheet("Sessions", [columns, *rows], merges)


def problems(*sheets: Sheet) -> Found:
    result = block_from_sheets(sheets)
    found = result.warnings if isinstance(result, BlockFile) else result
    assert all(one.facts.keys() == FACTS[one.code] for one in found)
    return [(one.code, one.place.cell) for one in found if not one.code.startswith("muscles")]


def block(*sheets: Sheet) -> Block:
    result = block_from_sheets(sheets)
    assert isinstance(result, BlockFile)
    return result.block


def changed(**labels: str) -> dict[str, str]:
    names = {"name": "Name", "weeks": "Weeks", "first": "First day of the week", "days": "Session days"}
    return {**HEAD, **{names.get(label, label): text for label, text in labels.items()}}


def test_a_block_is_read() -> None:
    read = block(block_sheet(), sessions(PUSH, PULL))

    assert (read.name, read.weeks, read.week_starts) == ("Slipway", 4, Weekday.MON)
    assert [(day.key, day.name) for day in read.days] == [("push", "Push"), ("pull", "Pull")]
    assert read.days[0].lines[0].weeks == frozenset({1, 2, 3, 4})
    assert read.days[0].lines[0].prescription.exercise == "bench-press"


def test_sheets_labels_and_headings_are_matched_in_any_case_and_order() -> None:
    head = {label.upper(): text for label, text in reversed(HEAD.items())}
    columns = ["REPS", "sets", "exercise", "order", "day", "Reps Left"]
    rows = [("8", "3", "bench press", "a", "PUSH", "2"), ("8", "3", "Barbell rows", "a", "pull")]
    shouted = sheet("SESSIONS", [columns, *rows])

    read = block(sheet("block", list(head.items())), shouted)

    assert [day.lines[0].prescription.order for day in read.days] == ["A", "A"]
    assert read.days[0].lines[0].prescription.dose.left == 2


def test_a_title_over_the_header_is_passed_over_with_what_is_merged_in_it() -> None:
    titled = sheet("Sessions", [("Slipway, autumn",), COLUMNS, PUSH, PULL], (Merge(1, 1, 1, 7),))

    assert problems(block_sheet(), titled) == []


def test_the_same_place_in_other_weeks_is_no_problem() -> None:
    first, then = ("Push", "A", "Bench press", "1-2", "3", "8"), ("Push", "A", "Bench press", "3-4", "3", "6")
    read = block(block_sheet(), sessions(first, then, PULL))

    assert [line.weeks for line in read.days[0].lines] == [frozenset({1, 2}), frozenset({3, 4})]


HEADS = [
    ("no weeks", changed(weeks="some"), [("length_unreadable", "B2")]),
    ("too many weeks", changed(weeks="53"), [("length_unreadable", "B2")]),
    ("no weekday", changed(first="T"), [("weekday_unreadable", "B3")]),
    ("a short weekday", changed(first="Tue."), []),
    ("no unit", changed(Unit="stone"), [("unit_unreadable", "B5")]),
    ("an empty unit", changed(Unit=""), []),
    ("a unit", changed(Unit="LBS"), []),
    ("an empty name", changed(name=""), [("cell_empty", "B1")]),
    ("a long name", changed(name="x" * 81), [("text_too_long", "B1")]),
    ("a day twice", changed(days="Push, Pull, push"), [("day_twice", "B4")]),
    ("a day without a name", changed(days="Push, , Pull"), [("day_unreadable", "B4")]),
    ("a long day", changed(days="Push, Pull, " + "x" * 41), [("text_too_long", "B4")]),
    ("an unknown label", changed(Coach="Maren"), [("label_unknown", "A5")]),
]


@pytest.mark.parametrize(("head", "expected"), [row[1:] for row in HEADS], ids=[row[0] for row in HEADS])
def test_what_is_wrong_in_the_sheet_block_is_named(head: dict[str, str], expected: Found) -> None:
    assert problems(block_sheet(head), sessions(PUSH, PULL)) == expected


def test_more_days_than_a_week_has_are_a_problem() -> None:
    head = changed(days="A1, B1, C1, D1, E1, F1, G1, H1")

    assert problems(block_sheet(head), sessions(PUSH, PULL)) == [("too_many_days", "B4")]


def test_missing_labels_are_each_named() -> None:
    found = block_from_sheets([block_sheet({"Name": "Slipway"}), sessions(PUSH, PULL)])

    assert isinstance(found, list)
    assert [one.facts["label"] for one in found] == ["Weeks", "First day of the week", "Session days"]


def test_a_label_twice_and_values_where_nothing_is_read_are_problems() -> None:
    head = block_sheet(HEAD, ("Name", "Harbour"), ("Unit", "kg", "always"), ("", "stray"))

    assert problems(head, sessions(PUSH, PULL)) == [
        ("label_twice", "A5"),
        ("value_beside", "C6"),
        ("value_beside", "B7"),
    ]


def test_missing_sheets_are_named_with_those_that_are_there() -> None:
    found = block_from_sheets([sheet("Plan", [("x",)])])

    assert isinstance(found, list)
    assert [(one.code, one.facts.get("sheet"), one.facts.get("found")) for one in found] == [
        ("sheet_missing", "Block", "Plan"),
        ("sheet_missing", "Sessions", "Plan"),
        ("sheet_not_read", None, None),
    ]


STRAYS = [("column_unnamed", cell) for cell in ("C2", "E2", "F2", "G2")]
HEADERS = [
    ("unknown", (*COLUMNS, "Mood"), [("column_unknown", "O1")]),
    ("twice", (*COLUMNS, "reps"), [("column_twice", "O1")]),
    ("missing", COLUMNS[:5], [("column_missing", None), *STRAYS[2:]]),
    (
        "none",
        ("Monday", "Tuesday"),
        [("column_missing", None)] * 5 + [("column_unknown", "A1"), ("column_unknown", "B1"), *STRAYS],
    ),
]


@pytest.mark.parametrize(
    ("columns", "expected"), [row[1:] for row in HEADERS], ids=[row[0] for row in HEADERS]
)
def test_what_is_wrong_in_the_header_is_named(columns: tuple[str, ...], expected: Found) -> None:
    assert problems(block_sheet(), sessions(PUSH, PULL, columns=columns)) == expected


def test_sessions_without_rows_are_a_problem() -> None:
    assert problems(block_sheet(), sessions()) == [("no_rows", None)]
    assert problems(block_sheet(), sheet("Sessions", [])) == [("no_rows", None)]


ROWS = [
    ("a day that is none of the block's", ("Legs", "A", "Dip", "", "3", "8"), [("day_unknown", "A4")]),
    ("no day", ("", "B", "Dip", "", "3", "8"), [("cell_empty", "A4")]),
    ("nothing but a day", ("Push",), [("cell_empty", cell) for cell in ("B4", "C4", "E4", "F4")]),
    ("an unknown exercise", ("Push", "B", "Dipp it", "", "3", "8"), [("exercise_unknown", "C4")]),
    (
        "an unknown equal",
        ("Push", "B", "Dip", "", "3", "8", *[""] * 5, "Push-up; ; Pish"),
        [("exercise_unknown", "L4")],
    ),
    ("weeks outside", ("Push", "B", "Dip", "4-6", "3", "8"), [("weeks_outside", "D4")]),
    ("week nought", ("Push", "B", "Dip", "0", "3", "8"), [("weeks_outside", "D4")]),
    ("the same place", ("Push", "A", "Dip", "2", "3", "8"), [("order_twice", "B4")]),
    ("reps for a timed one", ("Push", "B", "Plank", "", "3", "30"), [("timed_given_reps", "F4")]),
    ("time for a counted one", ("Push", "B", "Dip", "", "3", "30 s"), [("counted_given_time", "F4")]),
    ("bodyweight on a loaded one", ("Push", "B", "Curl", "", "3", "8", "bw"), [("bw_on_loaded", "G4")]),
    (
        "two slips at once",
        ("Push", "B", "Dip", "", "x", "y"),
        [("sets_unreadable", "E4"), ("reps_unreadable", "F4")],
    ),
]


@pytest.mark.parametrize(("row", "expected"), [row[1:] for row in ROWS], ids=[row[0] for row in ROWS])
def test_what_is_wrong_in_a_row_is_named_at_its_cell(row: tuple[str, ...], expected: Found) -> None:
    assert problems(block_sheet(), sessions(PUSH, PULL, row)) == expected


def test_a_day_that_no_row_names_is_a_problem() -> None:
    assert problems(block_sheet(), sessions(PUSH)) == [("day_without_rows", "B4")]


def test_the_first_row_that_took_a_place_is_named_with_the_weeks() -> None:
    again = ("Push", "A", "Dip", "2-3", "3", "8")
    found = block_from_sheets([block_sheet(), sessions(PUSH, PULL, again, again)])

    assert isinstance(found, list)
    assert [(one.facts["first_row"], one.facts["weeks"], one.facts["day"]) for one in found] == [
        ("2", "2-3", "Push")
    ] * 2


def test_rows_are_checked_even_where_the_sheet_block_cannot_be_read() -> None:
    rows = [
        ("Push", "A", "Dip", "7", "x", "8"),
        ("Push", "A", "Dip", "7", "3", "8"),
        ("Push", "B", "Dip", "", "3", "8"),
    ]

    assert problems(sessions(*rows)) == [
        ("sheet_missing", None),
        ("sets_unreadable", "E2"),
        ("order_twice", "B3"),
    ]


def test_sides_are_counted_where_the_exercise_or_the_coach_says_so() -> None:
    rows = [
        ("Push", "A", "Split squat", "", "3", "8"),
        ("Push", "B", "Dip", "", "3", "8"),
        ("Push", "C", "Dip", "", "3", "8 a side"),
        PULL,
    ]
    read = block(block_sheet(), sessions(*rows))

    assert [line.prescription.dose.each_side for line in read.days[0].lines] == [True, False, True]


def test_merged_days_are_filled_and_other_merged_cells_are_a_problem() -> None:
    rows = [PUSH, ("", "B", "Dip", "", "3", "8"), PULL]
    filled = sessions(*rows, merges=(Merge(2, 3, 1, 1),))
    empty = sessions(PUSH, ("", "B", "Dip", "", "3", "8"), PULL, merges=(Merge(3, 3, 1, 1),))
    other = sessions(PUSH, PULL, merges=(Merge(2, 3, 5, 5), Merge(2, 2, 20, 21)))

    assert len(block(block_sheet(), filled).days[0].lines) == 2
    assert problems(block_sheet(), empty) == [("cell_empty", "A3")]
    assert problems(block_sheet(), other) == [("merged", "E2"), ("merged", "T2")]


def test_suggestions_stand_in_the_facts() -> None:
    found = block_from_sheets(
        [block_sheet(), sessions(PUSH, PULL, ("Push", "B", "Hip thurst", "", "3", "8"))]
    )

    assert isinstance(found, list)
    assert found[0].facts == {"written": "Hip thurst", "suggestions": "Hip thrust"}


def test_warnings_stand_beside_the_block_that_was_read() -> None:
    result = block_from_sheets([block_sheet(), sessions(PUSH, (*PULL[:4], "9", "8"))])

    assert isinstance(result, BlockFile)
    assert ("push_to_pull", Severity.WARNING) in [(one.code, one.severity) for one in result.warnings]
    assert isinstance(result.warnings[0], Problem)


SCRAPS = st.sampled_from(
    [
        "Push",
        "A",
        "Dip",
        "1-2",
        "3",
        "8",
        "30 s",
        "40 m",
        "to 2 left",
        "2+2+2",
        "1 + 2 descending",
        "4 cluster",
        "75 % of max",
        "light band",
        "RPE 8",
        "add reps, then load",
        "easier to harder: Dip > Push-up",
        "Phases",
        "Base: 1-2",
        "Targets",
        "Dip bw+5 kg x 5 by week 2",
        "bw",
        "80",
        "2",
        "Block",
        "Name",
        "Weeks",
        "",
        "ä",
        "-1",
        "=1",
        ";",
    ]
)
CELLS = st.lists(
    st.builds(
        Cell, st.integers(1, 6), st.integers(1, 14), st.sampled_from(CellKind), SCRAPS | st.text(min_size=1)
    )
)


@given(CELLS, st.lists(SCRAPS, max_size=14), st.sampled_from([COLUMNS, COLUMNS[::-1], COLUMNS[:6], ("Day",)]))
def test_any_cells_give_a_block_or_problems_with_their_facts(
    scraps: list[Cell], row: list[str], columns: tuple[str, ...]
) -> None:
    dated = [
        one if one.kind is not CellKind.DATE else Cell(one.row, one.column, one.kind, "2026-03-01")
        for one in scraps
    ]
    tabs = [Sheet("Block", rows_of(dated)), sessions(row, columns=columns), block_sheet()]

    for chosen in (tabs[:2], tabs[1:], [Sheet("Sessions", rows_of(dated)), block_sheet()]):
        found = problems(*chosen)

        assert all(code in FACTS for code, _ in found)
