"""A coach's own exercises from a sheet of hers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.programme import exercise_sheet as heading
from core.programme.catalogue import CATALOGUE, named, suggestions
from core.programme.exercise_reading import OWN, is_own
from core.programme.exercises import (
    Basis,
    Implement,
    Pattern,
    Site,
)
from core.programme.muscles import Muscle
from core.programme.own_exercises import (
    LONGEST_KEY,
    MOST_OWN,
    OwnExercisesFile,
    own_exercises_in,
    with_own,
)
from core.programme.problems import Problem, Severity
from core.programme.sheets import Cell, CellKind, Merge, Sheet, rows_of
from core.programme.siblings import sharing
from tests.core.programme.own_rows import PRESS, SQUAT, beside_ours, kept, read, sheet, wrong


def test_equals_may_stand_in_the_same_sheet_below_and_never_name_themselves() -> None:
    squat, press = kept({**SQUAT, heading.EQUALS: "Tall-kneeling press; Wedge squat"}, PRESS)

    assert squat.equals == (press.key,)


def test_one_taken_out_comes_back_under_its_key_only_where_it_is_counted_as_it_was() -> None:
    (squat,) = kept(SQUAT)
    out = with_own([squat.model_copy(update={"retired": True})], CATALOGUE)

    (same,) = kept(SQUAT, catalogue=out)
    (other,) = kept({**SQUAT, heading.TIMED: "yes"}, catalogue=out)

    assert same.key == squat.key
    assert not same.retired
    assert other.key == f"{squat.key}-2"
    found = read(SQUAT, catalogue=out)
    assert isinstance(found, OwnExercisesFile)
    assert found.changed == ()


def test_one_taken_out_has_no_name_and_stays_under_its_key() -> None:
    (squat,) = kept(SQUAT)
    out = with_own([squat.model_copy(update={"retired": True})], CATALOGUE)

    assert named("Wedge squat", out) is None
    assert squat.key not in {one.key for one in suggestions("Wedge squat", catalogue=out)}
    assert squat.key not in {one.key for one in sharing(Pattern.SQUAT, out)}
    assert squat.key in out


def test_keys_are_short_and_never_ours_and_never_twice() -> None:
    same = "Long lever sideways kneeling press "
    rows = [{**PRESS, heading.NAME: f"{same}{mark}".strip()} for mark in ("", "é")]
    wide = {**PRESS, heading.NAME: "ﬃ" * 39 + "a"}
    wider = {**PRESS, heading.NAME: "ﬃ" * 39 + "b"}

    keys = [one.key for one in kept(*rows, wide, wider)]

    assert all(key.startswith(OWN) and len(key) <= LONGEST_KEY + 4 for key in keys)
    assert len(set(keys)) == 4
    assert keys[3] == f"{keys[2]}-2"
    assert not any(map(is_own, CATALOGUE.values()))


def test_too_many_are_told_and_none_is_read() -> None:
    rows = [{**PRESS, heading.NAME: f"Quay press {number}"} for number in range(MOST_OWN)]
    before = beside_ours(*rows)

    assert wrong(SQUAT, catalogue=before) == [("own_too_many", "A2")]
    assert len(kept(*rows, catalogue=before)) == MOST_OWN


def test_an_example_row_is_not_read() -> None:
    assert kept({**SQUAT, heading.NAME: "Example: Heel-raised squat"}, PRESS)[0].name == "Tall-kneeling press"
    assert wrong({**SQUAT, heading.NAME: "Example: Heel-raised squat"}) == [("own_no_rows", "")]


def test_the_header_once_more_is_not_read() -> None:
    again = {column: column for column in heading.COLUMNS}

    assert len(kept(SQUAT, again, PRESS)) == 2


def test_a_header_that_lacks_a_needed_column_reads_nothing() -> None:
    columns = (heading.NAME, heading.PATTERN, heading.COUNTED, "Helpfulness", "Name", heading.CUE)
    table = sheet({**SQUAT, "Helpfulness": "great"}, columns=columns)
    stray = rows_of([*(cell for row in table.rows for cell in row.values()), Cell(2, 9, CellKind.TEXT, "hm")])

    found = own_exercises_in([Sheet(table.name, stray)], CATALOGUE)

    assert isinstance(found, list)
    assert [(one.code, one.place.cell) for one in found] == [
        ("column_missing", None),
        ("column_unknown", "D1"),
        ("column_twice", "E1"),
        ("column_unnamed", "I2"),
    ]


def test_merged_cells_are_a_problem_and_hidden_rows_a_warning() -> None:
    merged = sheet(SQUAT, PRESS, merges=(Merge(1, 1, 1, 2), Merge(2, 3, 3, 3)), hidden=(3,))

    found = own_exercises_in([merged], CATALOGUE)

    assert isinstance(found, list)
    assert [(one.code, one.place.cell, one.severity) for one in found] == [
        ("rows_hidden", None, Severity.WARNING),
        ("merged", "C2", Severity.ERROR),
    ]


def test_an_empty_sheet_of_hers_says_so() -> None:
    found = own_exercises_in([Sheet("my exercises", ())], CATALOGUE)

    assert isinstance(found, list)
    assert [one.code for one in found] == ["own_no_rows"]


@pytest.mark.parametrize("name", ["", "Sheet1", "Own exercises"])
def test_a_table_is_known_by_its_headings_or_by_its_name(name: str) -> None:
    found = own_exercises_in([sheet(SQUAT, name=name)], CATALOGUE)

    assert isinstance(found, OwnExercisesFile)


def test_a_block_alone_is_another_kind_of_file() -> None:
    columns = ("Day", "Order", "Exercise", "Pattern", "Sets", "Reps", "Cue")

    assert own_exercises_in([sheet({"Day": "A"}, name="Sessions", columns=columns)], CATALOGUE) is None
    assert own_exercises_in([], CATALOGUE) is None


def test_another_sheet_without_a_block_is_named() -> None:
    notes = Sheet("Notes", rows_of([Cell(1, 1, CellKind.TEXT, "hello")]))

    found = own_exercises_in([sheet(SQUAT), notes, Sheet("Empty", ())], CATALOGUE)

    assert isinstance(found, OwnExercisesFile)
    assert [(one.code, one.facts) for one in found.warnings] == [("own_sheet_unread", {"name": "Notes"})]


def block(exercise: str) -> tuple[Sheet, Sheet]:
    lines = [
        ("Name", "Quayside"),
        ("Weeks", "2"),
        ("First day of the week", "Monday"),
        ("Session days", "Lower"),
    ]
    cells = [
        Cell(row, column, CellKind.TEXT, text)
        for row, line in enumerate(lines, 1)
        for column, text in enumerate(line, 1)
    ]
    row = {"Day": "Lower", "Order": "A", "Exercise": exercise, "Sets": "3", "Reps": "8", "Load": "20 kg"}
    return Sheet("Block", rows_of(cells)), sheet(row, name="Sessions", columns=tuple(row))


def test_a_block_beside_it_may_name_them() -> None:
    found = own_exercises_in([*block("Wedge squat"), sheet(SQUAT)], CATALOGUE)

    assert isinstance(found, OwnExercisesFile)
    assert found.block is not None
    assert found.block.block.days[0].lines[0].prescription.exercise == found.exercises[0].key


def test_a_block_is_not_blamed_for_a_row_of_exercises_that_is_wrong_itself() -> None:
    found = own_exercises_in([*block("Wedge squat"), sheet({**SQUAT, heading.PATTERN: "skwat"})], CATALOGUE)

    assert isinstance(found, list)
    assert [one.code for one in found] == ["own_word_unknown"]


def test_a_block_that_is_wrong_keeps_the_exercises_out_too() -> None:
    found = own_exercises_in([*block("Wedgy squad"), sheet(SQUAT)], CATALOGUE)

    assert isinstance(found, list)
    assert [(one.code, one.facts["suggestions"]) for one in found] == [
        ("exercise_unknown", "Heel-raised goblet squat")
    ]


texts = st.one_of(
    st.text(max_size=50),
    st.sampled_from(
        [
            *("12", "A, B", "push", "kilos", "stack", "maybe", "51 kg", "x" * 201, "clips"),
            *(name for name in (*heading.COLUMNS, *Pattern, *Basis, *Implement, *Site, *Muscle)),
            *("Back squat", "Example: x", "yes", "no", "2.5 kg", "https://clips.example/x", "Quay press"),
        ]
    ),
)
cells = st.builds(
    Cell,
    row=st.integers(1, 6),
    column=st.integers(1, 18),
    kind=st.sampled_from(CellKind).filter(lambda kind: kind is not CellKind.DATE),
    text=texts.map(lambda text: " ".join(text.split())).filter(bool),
)


@given(st.lists(cells, max_size=40), st.sampled_from([heading.SHEET, "", "Sessions"]), st.booleans())
def test_whatever_stands_in_a_sheet_is_read_or_told(found: list[Cell], name: str, headed: bool) -> None:
    head = (
        [Cell(1, column, CellKind.TEXT, text) for column, text in enumerate(heading.COLUMNS, 1)]
        if headed
        else []
    )
    below = [cell for cell in found if cell.row > 1 or not headed]

    result = own_exercises_in([Sheet(name, rows_of([*below, *head]))], CATALOGUE)

    match result:
        case None:
            assert name != heading.SHEET
        case OwnExercisesFile():
            assert result.exercises
        case _:
            assert all(isinstance(one, Problem) for one in result)
            assert any(one.severity is Severity.ERROR for one in result)
