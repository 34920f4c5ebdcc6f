"""A block goes out as xlsx, csv or yaml, and comes in again the same."""

import zipfile
from collections.abc import Callable, Sequence
from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from bot.files.block_file import read_block
from bot.files.from_csv import sheets_in_csv
from bot.files.from_xlsx import sheets_in_xlsx
from bot.files.to_csv import to_csv
from bot.files.to_xlsx import to_xlsx
from bot.files.to_yaml import to_yaml
from core.programme.block import Block
from core.programme.block_sheet import LABELS
from core.programme.rows import BlockFile
from core.programme.session_sheet import COLUMNS
from core.programme.sheets import Cell, CellKind, Sheet, rows_of
from core.programme.tabs import tabs_in
from core.programme.writing import sheets_of
from tests.bot.files.story_blocks import FOLDER
from tests.core.programme.block_strategies import blocks

Writer = Callable[[Sequence[Sheet]], bytes]


def with_semicolons(sheets: Sequence[Sheet]) -> bytes:
    return to_csv(sheets, ";")


FORMATS: dict[str, Writer] = {"xlsx": to_xlsx, "csv": to_csv, "csv with ;": with_semicolons, "yaml": to_yaml}
STORY = sorted(path.name for path in FOLDER.glob("*.xlsx") if path.stem != "broken")


def read(content: bytes) -> Block:
    result = read_block(content, "block")
    assert isinstance(result, BlockFile), result
    return result.block


@pytest.mark.parametrize("name", STORY)
def test_one_block_in_three_formats_is_one_value(name: str) -> None:
    block = read((FOLDER / name).read_bytes())

    assert {form: read(write(sheets_of(block))) == block for form, write in FORMATS.items()} == dict.fromkeys(
        FORMATS, True
    )


@pytest.mark.parametrize("form", FORMATS)
@given(blocks())
def test_a_block_that_goes_out_comes_in_again_the_same(form: str, block: Block) -> None:
    assert read(FORMATS[form](sheets_of(block))) == block


# Sheets as they are, whatever stands in their cells.

_TEXTS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=12)
_LIKE_CELLS = st.from_regex(r"['=+@-]?[0-9#][0-9:./ -]{0,8}", fullmatch=True)
_LINES = (_TEXTS | _LIKE_CELLS | st.just("8-Oct")).map(lambda text: " ".join(text.split()))
_VALUES = _LINES.filter(lambda text: text.isprintable() and text != "")


@st.composite
def sheets(draw: st.DrawFn) -> tuple[Sheet, Sheet]:
    labels = [(label, draw(_VALUES)) for label in LABELS]
    rows = draw(
        st.lists(st.lists(_VALUES | st.just(""), min_size=len(COLUMNS), max_size=len(COLUMNS)), max_size=4)
    )
    return _sheet("Block", labels), _sheet("Sessions", [COLUMNS, *rows])


def _sheet(name: str, rows: Sequence[Sequence[str]]) -> Sheet:
    cells = (
        Cell(row, column, CellKind.NUMBER if text.isdecimal() else CellKind.TEXT, text)
        for row, texts in enumerate(rows, 1)
        for column, text in enumerate(texts, 1)
        if text
    )
    return Sheet(name, rows_of(cells))


def texts(found: Sequence[Sheet]) -> list[list[dict[int, str]]]:
    """The texts of the two sheets that are read, row by row."""
    tabs = tabs_in(found)
    return [
        [{column: cell.text for column, cell in row.items()} for row in sheet.rows]
        for sheet in (tabs.block, tabs.sessions)
        if sheet is not None
    ]


@given(sheets())
def test_every_text_survives_a_workbook(written: tuple[Sheet, Sheet]) -> None:
    found = sheets_in_xlsx(to_xlsx(written), "block.xlsx")

    assert isinstance(found, tuple)
    assert texts(found) == texts(written)


@given(sheets(), st.sampled_from([",", ";", "\t"]))
def test_every_text_survives_a_csv(written: tuple[Sheet, Sheet], separator: str) -> None:
    found = sheets_in_csv(to_csv(written, separator))

    assert isinstance(found, tuple)
    assert texts(found) == texts(written)


# What a spreadsheet does with it.

HOSTILE = ['=HYPERLINK("http://x.example")', "+1", "-1", "@SUM(A1)", "#N/A", "8-10", "2:30"]


@pytest.mark.parametrize("text", HOSTILE)
def test_a_coachs_text_is_never_run_and_never_becomes_a_date(text: str) -> None:
    row = ("Push", "A", "Push-up", "", "3", "8", *[""] * (len(COLUMNS) - 7), text)
    written = _sheet("Block", [("Name", text)]), _sheet("Sessions", [COLUMNS, row])
    cell = load_workbook(BytesIO(to_xlsx(written)))["Block"]["B1"]
    in_csv = to_csv(written).decode("utf-8-sig").splitlines()[0]

    assert (cell.data_type, cell.value, cell.number_format, cell.quotePrefix) == ("s", text, "@", True)
    assert in_csv in (f"Name,'{text}", f'Name,"\'{text}"'.replace('("', '(""').replace('")', '"")'))


def test_leading_zeros_and_foreign_digits_are_no_numbers() -> None:
    row = ("Push", "A", "Push-up", "", "3", "٨", "", "", "", "0110")
    book = load_workbook(BytesIO(to_xlsx([_sheet("Sessions", [COLUMNS, row])])))["Sessions"]

    assert (book["E2"].value, book["F2"].value, book["J2"].value) == (3, "٨", "0110")


def test_a_workbook_is_laid_out_for_reading() -> None:
    block = read((FOLDER / "harbour-strength.xlsx").read_bytes())
    book = load_workbook(BytesIO(to_xlsx(sheets_of(block))))
    sessions = book["Sessions"]
    reps = next(cell for cell in sessions[1] if cell.value == "Reps")

    assert book.sheetnames == ["Block", "Sessions"]
    assert sessions.freeze_panes == "A2"
    assert all(cell.font.bold for cell in sessions[1])
    assert sessions.column_dimensions[reps.column_letter].number_format == "@"
    assert sessions.column_dimensions["C"].width > len("Dumbbell overhead press")


def test_a_long_cue_is_broken_into_lines() -> None:
    row = ["Push", "A", "Push-up", "", "3", "8", *[""] * (len(COLUMNS) - 6)]
    row[COLUMNS.index("Cue")] = "As if the deck came up to meet you. " * 4
    book = load_workbook(BytesIO(to_xlsx([_sheet("Sessions", [COLUMNS, row])])))["Sessions"]

    assert (book.row_dimensions[1].height, book.row_dimensions[2].height) == (None, 75)


def test_a_title_over_the_table_stays_where_it_was() -> None:
    titled = _sheet("Sessions", [("Autumn",), COLUMNS, ("Push", "A", "Push-up", "", "3", "8")])
    book = load_workbook(BytesIO(to_xlsx([titled])))["Sessions"]

    assert (book["A1"].value, book["A1"].font.bold, book.freeze_panes) == ("Autumn", True, "A3")


def test_the_address_behind_a_text_goes_with_it() -> None:
    cells = [
        *_sheet("Sessions", [COLUMNS]).rows[0].values(),
        Cell(2, 1, CellKind.TEXT, "x", "https://clips.example/a"),
    ]
    found = sheets_in_xlsx(to_xlsx([Sheet("Sessions", rows_of(cells))]), "block.xlsx")

    assert isinstance(found, tuple)
    assert found[0].rows[1][1].link == "https://clips.example/a"


def test_nothing_in_a_workbook_says_when_it_was_made() -> None:
    block = read((FOLDER / "harbour-strength.xlsx").read_bytes())
    with zipfile.ZipFile(BytesIO(to_xlsx(sheets_of(block)))) as archive:
        times = {part.date_time for part in archive.infolist()}
        about = archive.read("docProps/core.xml").decode()

    assert times == {(1980, 1, 1, 0, 0, 0)}
    assert about.count(">2000-01-01T00:00:00Z<") == about.count("<dcterms:") == 2


def test_yaml_is_written_as_a_person_would() -> None:
    row = ("Push", "A", "Push-up", "", "3", "8-10", "", "2", "1:30", "0110")
    written = _sheet("Block", [("Name", "Größe"), ("Weeks", "4")]), _sheet("Sessions", [COLUMNS, row])

    assert to_yaml(written).decode() == (
        "block:\n  Name: Größe\n  Weeks: 4\n"
        "sessions:\n  - Day: Push\n    Rows:\n      - Order: A\n        Exercise: Push-up\n        Sets: 3\n"
        "        Reps: 8-10\n        Reps left: 2\n        Rest: '1:30'\n        Tempo: '0110'\n"
    )


def test_a_number_with_more_digits_than_a_file_keeps_stays_text() -> None:
    cells = [Cell(1, 1, CellKind.NUMBER, "12345678901234567890"), Cell(1, 2, CellKind.NUMBER, "62.5")]
    book = load_workbook(BytesIO(to_xlsx([Sheet("Sessions", rows_of(cells))])))["Sessions"]

    assert (book["A1"].value, book["B1"].value) == ("12345678901234567890", 62.5)


def test_a_sheet_alone_goes_out_alone() -> None:
    lines = _sheet("Block", [("Name", "Größe"), ("Unit",)])

    assert to_yaml([lines]).decode() == "block:\n  Name: Größe\n  Unit: null\n"
    assert to_yaml([_sheet("Sessions", [COLUMNS])]).decode() == "sessions: []\n"
    assert to_csv([lines]).decode("utf-8-sig") == "Name,Größe\r\nUnit\r\n"
