from io import BytesIO

import pytest
from openpyxl import Workbook, load_workbook
from rows import each_row

from bot.files.block_file import read_block
from bot.files.template import example_sheets, template
from bot.files.template_words import COLUMNS, EXAMPLE_LINES, EXAMPLE_ROWS, LINES
from bot.files.to_xlsx import WIDTHS
from core.programme import block_sheet, session_sheet
from core.programme.catalogue import CATALOGUE
from core.programme.rows import BlockFile, block_from_sheets
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.programme.ways_up import WORDS


@pytest.fixture(scope="module")
def book() -> Workbook:
    return load_workbook(BytesIO(template()))


def test_the_form_is_a_block_without_a_problem() -> None:
    result = read_block(template(), "block.xlsx")

    assert isinstance(result, BlockFile), result
    assert result.warnings == ()
    assert (result.block.name, len(result.block.days)) == ("Harbour strength", 4)
    assert sum(len(day.lines) for day in result.block.days) == len(EXAMPLE_ROWS)


def test_the_form_is_the_same_bytes_every_time() -> None:
    assert template() == template()


def test_every_line_and_every_heading_has_a_note_and_a_width(book: Workbook) -> None:
    assert set(LINES) == set(block_sheet.LABELS) == {label for label, *_ in EXAMPLE_LINES}
    assert set(COLUMNS) == set(session_sheet.COLUMNS) == set(WIDTHS)
    assert [cell.comment.text.split("\n")[0] for cell in book["Sessions"][1]] == [
        note.says for note in COLUMNS.values()
    ]
    assert all(book["Block"].cell(row, 1).comment for row in range(1, len(EXAMPLE_LINES) + 1))


ROW = {"Day": "Push", "Order": "A", "Exercise": "Bench press", "Sets": "3", "Reps": "8"}
FITTING = {
    "30 s": {"Exercise": "Plank"},
    "30-45 s": {"Exercise": "Plank"},
    "40 m": {"Exercise": "Farmer carry"},
    "10 a side": {"Exercise": "Step-up"},
    "10 a side in 5s": {"Exercise": "Step-up"},
    "2+2+2": {"Sets": "4 cluster"},
    "4 cluster, 15 s": {"Reps": "2+2+2"},
    "16 kg a hand": {"Exercise": "Dumbbell bench press"},
    "bw": {"Exercise": "Push-up"},
    "bw+5 kg": {"Exercise": "Dip"},
    "bw-20 kg": {"Exercise": "Pull-up"},
    "light band": {"Exercise": "Band pull-apart"},
    "add reps, then load": {"Reps": "8-10"},
    "add reps in all, then load": {"Reps": "8-10"},
    "APRE 3": {"Sets": "", "Reps": ""},
    "APRE 6": {"Sets": "4", "Reps": ""},
    "APRE 10": {"Sets": "4", "Reps": "10"},
    "DAPRE": {"Sets": "", "Reps": "6"},
    "DAPRE, later bands": {"Sets": "", "Reps": ""},
    "by reps left": {"Reps left": "2"},
    "by the last set": {"Reps": "8 or more"},
    "1 + 2 descending": {"Exercise": "Lateral raise"},
    "2 + 2 descending, 20 %": {"Exercise": "Lateral raise"},
    "easier to harder: Knee push-up > Push-up > Dip": {"Exercise": "Push-up", "Reps": "8-12"},
}
"""What else must stand in a row for an example to fit it."""
EXAMPLES = [(heading, example) for heading, note in COLUMNS.items() for example in note.examples]


def sheet(name: str, rows: list[list[str]]) -> Sheet:
    cells = (
        Cell(row, column, CellKind.TEXT, text)
        for row, texts in enumerate(rows, 1)
        for column, text in enumerate(texts, 1)
        if text
    )
    return Sheet(name, rows_of(cells))


def found_in(lines: dict[str, str], row: dict[str, str]) -> list[str]:
    """What stops a block of one row."""
    result = block_from_sheets(
        [
            sheet("Block", [[label, text] for label, text in lines.items()]),
            sheet("Sessions", [list(row), list(row.values())]),
        ]
    )
    return [] if isinstance(result, BlockFile) else [found.code for found in result]


HEAD = {"Name": "x", "Weeks": "8", "First day of the week": "Monday", "Session days": "Push"}


@each_row(("heading", "example"), EXAMPLES)
def test_every_example_of_a_note_is_read(heading: str, example: str) -> None:
    row = {**ROW, **FITTING.get(example, {}), heading: example}

    assert found_in(HEAD, row) == []


@pytest.mark.parametrize(
    ("label", "example"), [(label, example) for label, note in LINES.items() for example in note.examples]
)
def test_every_example_of_a_line_is_read(label: str, example: str) -> None:
    assert found_in({**HEAD, label: example}, {**ROW, "Exercise": "Hip thrust"}) == []


def test_lists_can_be_chosen_from(book: Workbook) -> None:
    offered = {
        (sheet, str(each.sqref)): each.formula1
        for sheet in ("Block", "Sessions")
        for each in book[sheet].data_validations.dataValidation
        if each.type == "list"
    }
    names = book["Exercise names"]
    chosen = {cell.value for cell in names["A"][1:]}
    ways = {cell.value for cell in names["E"][1:] if cell.value}

    assert offered == {
        ("Block", "B3"): '"Monday,Tuesday,Wednesday,Thursday,Friday,Saturday,Sunday"',
        ("Block", "B5"): '"kg,lb"',
        ("Sessions", "A2:A501"): "Block!$B$4:$H$4",
        ("Sessions", "C2:C501"): f"'Exercise names'!$A$2:$A${len(CATALOGUE) + 1}",
        ("Sessions", "K2:K501"): f"'Exercise names'!$E$2:$E${len(WORDS) + 1}",
    }
    assert chosen == {exercise.name for exercise in CATALOGUE.values()}
    assert ways == set(WORDS.values())


def test_the_days_to_choose_from_are_those_of_the_block(book: Workbook) -> None:
    days = [cell.value for cell in book["Block"][4][1:8] if cell.value]

    assert set(days) == {row[0] for row in EXAMPLE_ROWS}


def test_how_to_fill_it_in_names_every_line_and_heading(book: Workbook) -> None:
    first = [row[0].value for row in book["How to fill this in"].iter_rows()]

    assert set(first) >= {*block_sheet.LABELS, *session_sheet.COLUMNS}


def test_the_example_shows_supersets_sides_phases_and_ways_up() -> None:
    block, sessions = example_sheets()
    texts = {cell.text for row in (*block.rows, *sessions.rows) for cell in row.values()}

    assert texts >= {
        "B1",
        "B2",
        "10 a side",
        "1 + 2 descending",
        "30X1",
        "add reps, then load",
        "RPE 8",
        "2:30",
    }
