"""What other programs make of our files, and we of theirs."""

from pathlib import Path

import pytest
from offices import OFFICES, opened_and_saved

from bot.files.block_file import read_block
from bot.files.template import template
from bot.files.to_csv import to_csv
from bot.files.to_xlsx import to_xlsx
from bot.render.problems import problems_text
from core.programme.block import Block
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.writing import sheets_of
from tests.bot.files.story_blocks import FOLDER

STORY = sorted(FOLDER.glob("*.xlsx"))


def read(content: bytes) -> Block | list[str]:
    result = read_block(content, "block")
    return result.block if isinstance(result, BlockFile) else told(result)


def told(problems: list[Problem]) -> list[str]:
    return problems_text(problems, limit=100).splitlines()


def of_story() -> dict[str, bytes]:
    """Each block of the story as its coach typed it, and as we write it; and the form."""
    typed = {path.name: path.read_bytes() for path in STORY}
    blocks = {name: block for name, content in typed.items() if isinstance(block := read(content), Block)}
    ours = {f"ours-{name}": to_xlsx(sheets_of(block)) for name, block in blocks.items()}
    return {**typed, **ours, "form.xlsx": template()}


@pytest.mark.parametrize("office", OFFICES)
def test_a_workbook_that_another_program_saved_anew_is_read_as_before(office: str) -> None:
    files = of_story()
    saved = opened_and_saved(office, files)

    assert {name: read(saved[name]) for name in files} == {name: read(files[name]) for name in files}
    assert all(saved[name] != files[name] for name in files)


@pytest.mark.parametrize("office", OFFICES)
def test_our_csv_opened_in_a_spreadsheet_keeps_every_range(office: str) -> None:
    """The library opens no csv: it takes the same one sheet from a workbook."""
    blocks = {
        Path(name).stem: block
        for name, content in of_story().items()
        if isinstance(block := read(content), Block)
    }
    files = {f"{name}.csv": to_csv(sheets_of(block)) for name, block in blocks.items()}
    if office == "openpyxl":
        files = {f"{name}.xlsx": on_one_sheet(block) for name, block in blocks.items()}
    saved = opened_and_saved(office, files)

    assert {Path(name).stem: read(content) for name, content in saved.items()} == blocks


def on_one_sheet(block: Block) -> bytes:
    lines, table = sheets_of(block)
    last = lines.rows[-1][1].row + 1
    moved = [
        {column: type(cell)(cell.row + last, column, cell.kind, cell.text) for column, cell in row.items()}
        for row in table.rows
    ]
    return to_xlsx([type(lines)("Sheet1", (*lines.rows, *moved))])


@pytest.mark.parametrize("office", [office for office in OFFICES if office == "libreoffice"] or ["openpyxl"])
def test_a_block_comes_back_from_the_formats_that_a_program_writes(office: str) -> None:
    """By way of ods and of csv; the library writes xlsx alone, and takes that way twice."""
    block = read((FOLDER / "harbour-strength.xlsx").read_bytes())
    assert isinstance(block, Block)
    one = {"block.xlsx": on_one_sheet(block)}
    ods = opened_and_saved(office, {"block.xlsx": to_xlsx(sheets_of(block))}, "ods")["block.xlsx"]
    again = opened_and_saved(office, {"block.ods": ods})["block.ods"]
    csv = opened_and_saved(office, one, "csv")["block.xlsx"]

    assert (read(again), read(csv)) == (block, block)
    if office == "libreoffice":
        assert read(ods) == [
            '"block" is an ods file, which I do not read. Save the block as xlsx or csv and send that file.'
        ]
