"""The form of a coach's own exercises, and her files with them, as xlsx and as csv."""

from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook

from bot.files.exercise_form import exercise_form
from bot.files.exercise_form_words import COLUMNS, EXAMPLE
from bot.files.sent_file import read_sent
from bot.files.template import template
from bot.files.to_xlsx import to_xlsx
from core.programme import exercise_sheet as heading
from core.programme.catalogue import CATALOGUE, named
from core.programme.exercise_writing import exercise_sheet
from core.programme.exercises import Exercise
from core.programme.own_exercises import OwnExercisesFile, with_own
from core.programme.rows import BlockFile
from core.programme.writing import sheets_of

BLOCKS = Path(__file__).parents[2] / "blocks"


def sent(content: bytes, name: str, catalogue: Mapping[str, Exercise] = CATALOGUE) -> OwnExercisesFile:
    found = read_sent(content, name, catalogue)
    assert isinstance(found, OwnExercisesFile), found
    return found


@pytest.fixture(scope="module")
def own() -> tuple[Exercise, ...]:
    return sent((BLOCKS / "own-exercises.csv").read_bytes(), "own.csv").exercises


def saved(book: Workbook) -> bytes:
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def test_the_empty_form_says_that_nothing_is_in_it_yet() -> None:
    found = read_sent(exercise_form(CATALOGUE), "form.xlsx", CATALOGUE)

    assert isinstance(found, list)
    assert [one.code for one in found] == ["own_no_rows"]


def test_the_form_is_the_same_bytes_every_time() -> None:
    assert exercise_form(CATALOGUE) == exercise_form(CATALOGUE)


def test_the_example_is_plainly_one_and_can_be_read_once_it_is_not() -> None:
    book = load_workbook(BytesIO(exercise_form(CATALOGUE)))
    tab = book[heading.SHEET]
    assert tab["A2"].value == EXAMPLE[heading.NAME] == "Example: Heel-raised goblet squat"
    tab["A2"].value = "Heel-raised goblet squat"

    (squat,) = sent(saved(book), "form.xlsx").exercises

    assert squat.equals == ("goblet-squat", "leg-press")


def test_every_heading_has_a_note_and_every_list_holds_what_is_read() -> None:
    book = load_workbook(BytesIO(exercise_form(CATALOGUE)))
    tab = book[heading.SHEET]

    assert [cell.value for cell in tab[1]] == list(heading.COLUMNS) == list(COLUMNS)
    assert all(cell.comment is not None for cell in tab[1])
    lists = {
        str(rule.sqref).split(":")[0][:-1]: rule.formula1 for rule in tab.data_validations.dataValidation
    }
    assert set(lists) == {"C", "D", "E", "F", "G", "H", "I", "J", "K", "L", "M", "N"}
    places = {
        formula: book["Exercise names"][formula.partition("!")[2].replace("$", "")]
        for formula in lists.values()
        if "!" in formula
    }
    assert {
        formula: all(cell.value for (cell,) in cells) for formula, cells in places.items()
    } == dict.fromkeys(places, True)


def test_hers_stand_in_the_form_and_come_back_as_they_are(own: tuple[Exercise, ...]) -> None:
    catalogue = with_own(own, CATALOGUE)

    again = sent(exercise_form(catalogue), "form.xlsx", catalogue)

    assert again.exercises == own
    assert again.changed == tuple(one.key for one in own)


def test_what_she_took_out_is_in_no_form(own: tuple[Exercise, ...]) -> None:
    out = own[0].model_copy(update={"retired": True})
    catalogue = with_own([out], CATALOGUE)

    for content in (exercise_form(catalogue), template(catalogue)):
        book = load_workbook(BytesIO(content))
        assert out.name not in {cell.value for tab in book for row in tab.iter_rows() for cell in row}


def test_hers_can_be_chosen_in_the_form_of_a_block(own: tuple[Exercise, ...]) -> None:
    book = load_workbook(BytesIO(template(with_own(own, CATALOGUE))))

    names = {row[0].value for row in book["Exercise names"].iter_rows()}
    assert {one.name for one in own} <= names


def test_a_workbook_may_hold_a_block_and_the_exercises_that_it_names(own: tuple[Exercise, ...]) -> None:
    catalogue = with_own(own, CATALOGUE)
    block = read_sent((BLOCKS / "quayside.csv").read_bytes(), "quayside.csv", catalogue)
    assert isinstance(block, BlockFile)
    book = to_xlsx((*sheets_of(block.block, catalogue), exercise_sheet(own, catalogue)))

    found = sent(book, "both.xlsx")

    assert (found.exercises, found.block) == (own, block)


def test_a_block_that_names_hers_is_written_and_read_again_as_the_same(own: tuple[Exercise, ...]) -> None:
    catalogue = with_own(own, CATALOGUE)
    block = read_sent((BLOCKS / "quayside.csv").read_bytes(), "quayside.csv", catalogue)
    assert isinstance(block, BlockFile)
    assert named("wedge squat", catalogue) == own[0]

    assert read_sent(to_xlsx(sheets_of(block.block, catalogue)), "quayside.xlsx", catalogue) == block
    assert isinstance(read_sent((BLOCKS / "quayside.csv").read_bytes(), "quayside.csv", CATALOGUE), list)


@pytest.mark.parametrize("separator", [";", ",", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
def test_a_csv_of_any_kind_says_the_same(own: tuple[Exercise, ...], separator: str, encoding: str) -> None:
    rows = [
        ("Exercise", "Pattern", "Load counted", "Lifted with", "Cue"),
        ("Kniebeuge à Kai", "squat", "total", "dumbbell", "Größer."),
    ]
    text = "\r\n".join(separator.join(row) for row in rows)

    (one,) = sent(text.encode(encoding), "own.csv").exercises

    assert (one.key, one.name, one.cue) == ("own-kniebeuge-a-kai", "Kniebeuge à Kai", "Größer.")
