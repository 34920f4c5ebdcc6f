import io
from pathlib import Path

import pytest
from rich.console import Console

from bot.cli.blocks import check_block, copy_block, read_file, write_template
from bot.files.block_file import opened_sheets, read_block
from bot.files.template import template
from bot.files.to_xlsx import to_xlsx
from core.programme.catalogue import CATALOGUE
from core.programme.exercise_writing import exercise_sheet
from core.programme.own_exercises import OwnExercisesFile, own_exercises_in, with_own
from core.programme.rows import BlockFile
from core.programme.sheets import Sheet
from core.programme.writing import sheets_of

BLOCKS = Path(__file__).parents[3] / "demo_scenario" / "blocks"


class Heard:
    """What a command prints, and where."""

    def __init__(self) -> None:
        self.out, self.wrong = io.StringIO(), io.StringIO()
        self.console = Console(file=self.out, width=200)
        self.errors = Console(file=self.wrong, width=200)


@pytest.fixture
def heard() -> Heard:
    return Heard()


def test_the_form_is_written_and_checks_without_a_problem(tmp_path: Path, heard: Heard) -> None:
    file = tmp_path / "my block.xlsx"

    assert write_template(file, heard.console, heard.errors) == 0
    assert file.read_bytes() == template()
    assert heard.out.getvalue().startswith(f"{file} is written.")
    assert check_block(file, heard.console, heard.errors) == 0
    assert heard.wrong.getvalue() == ""


REFUSED = [
    ("there.xlsx", "is there already, and is left as it is. Give another name."),
    ("block.ods", "Give the file a name that ends in .xlsx: block.ods.xlsx"),
    ("nowhere/block.xlsx", "Cannot write"),
]


@pytest.mark.parametrize(("name", "said"), REFUSED)
def test_a_form_that_cannot_be_written_says_why(tmp_path: Path, heard: Heard, name: str, said: str) -> None:
    (tmp_path / "there.xlsx").write_bytes(b"hers")

    assert write_template(tmp_path / name, heard.console, heard.errors) == 2
    assert said in heard.wrong.getvalue()
    assert (tmp_path / "there.xlsx").read_bytes() == b"hers"


def test_a_block_with_problems_is_told_each_of_them(heard: Heard) -> None:
    assert check_block(BLOCKS / "broken.xlsx", heard.console, heard.errors) == 1
    told = heard.wrong.getvalue().splitlines()
    assert '"Someday" is not a day of the week' in told[0]
    assert told[-1].endswith("to mend. Nothing is stored.")


def test_a_file_that_is_not_there_is_told(tmp_path: Path, heard: Heard) -> None:
    assert check_block(tmp_path / "no.csv", heard.console, heard.errors) == 2
    assert "Cannot read" in heard.wrong.getvalue()


def test_a_block_is_printed_with_the_sets_of_every_muscle_and_each_warning(heard: Heard) -> None:
    file = Path(__file__).parents[2] / "blocks" / "slipway-full-body.xlsx"

    assert check_block(file, heard.console, heard.errors) == 0
    printed = heard.out.getvalue()
    assert "Sets a week\nchest 9, front delts 4.5, rear delts 4.5, triceps 4.5, biceps 6" in printed
    assert "Few sets in week 1-4: lats 3, hamstrings 2. Usual is 5 or more for each." in printed
    assert heard.wrong.getvalue() == ""


@pytest.mark.parametrize("ending", [".xlsx", ".CSV", ".yaml"])
def test_a_copy_says_the_same(tmp_path: Path, heard: Heard, ending: str) -> None:
    hers, copied = BLOCKS / "harbour-strength.xlsx", tmp_path / f"copy{ending}"

    assert copy_block(hers, copied, heard.console, heard.errors) == 0
    assert heard.out.getvalue() == f"{copied} says the same as {hers}.\n"
    before, after = read_block(hers.read_bytes(), hers.name), read_block(copied.read_bytes(), copied.name)
    assert isinstance(before, BlockFile)
    assert isinstance(after, BlockFile)
    assert after.block == before.block


def test_a_copy_of_another_kind_is_refused(tmp_path: Path, heard: Heard) -> None:
    assert copy_block(BLOCKS / "harbour-strength.xlsx", tmp_path / "a.pdf", heard.console, heard.errors) == 2
    assert heard.wrong.getvalue() == "Give the copy a name that ends in .xlsx, .csv or .yaml, not a.pdf.\n"


def test_a_block_with_problems_is_not_copied(tmp_path: Path, heard: Heard) -> None:
    assert copy_block(BLOCKS / "broken.xlsx", tmp_path / "a.csv", heard.console, heard.errors) == 1
    assert not (tmp_path / "a.csv").exists()


def test_a_copy_does_not_write_over_what_is_there(tmp_path: Path, heard: Heard) -> None:
    (tmp_path / "a.csv").write_bytes(b"hers")

    assert copy_block(BLOCKS / "harbour-strength.xlsx", tmp_path / "a.csv", heard.console, heard.errors) == 2
    assert (tmp_path / "a.csv").read_bytes() == b"hers"


OWN = Path(__file__).parents[2] / "blocks" / "own-exercises.csv"


def workbook_with_own(folder: Path) -> Path:
    """A block that names exercises of its coach's own, and those beside it."""
    own = own_exercises_in(opened_own())
    assert isinstance(own, OwnExercisesFile)
    catalogue = with_own(own.exercises, CATALOGUE)
    block = read_block((OWN.parent / "quayside.csv").read_bytes(), "quayside.csv", catalogue)
    assert isinstance(block, BlockFile)
    file = folder / "both.xlsx"
    file.write_bytes(to_xlsx((*sheets_of(block.block, catalogue), exercise_sheet(own.exercises, catalogue))))
    return file


def opened_own() -> tuple[Sheet, ...]:
    sheets = opened_sheets(OWN.read_bytes(), OWN.name)
    assert isinstance(sheets, tuple)
    return sheets


def test_exercises_of_a_coachs_own_are_read_with_the_block_and_alone(tmp_path: Path, heard: Heard) -> None:
    assert check_block(workbook_with_own(tmp_path), heard.console, heard.errors) == 0
    told = heard.out.getvalue()
    assert told.startswith("Heel-raised goblet squat: squat, dumbbell, total\n")
    assert "Quayside strength\n" in told
    assert check_block(OWN, heard.console, heard.errors) == 0
    assert heard.wrong.getvalue() == ""


def test_a_copy_keeps_exercises_of_a_coachs_own_or_is_refused(tmp_path: Path, heard: Heard) -> None:
    file = workbook_with_own(tmp_path)

    assert copy_block(file, tmp_path / "copy.xlsx", heard.console, heard.errors) == 0
    assert (tmp_path / "copy.xlsx").read_bytes() == file.read_bytes()
    assert copy_block(file, tmp_path / "copy.csv", heard.console, heard.errors) == 2
    assert "is copied as .xlsx alone" in heard.wrong.getvalue()
    assert copy_block(OWN, tmp_path / "other.xlsx", heard.console, heard.errors) == 2
    assert "There is no block in own-exercises.csv." in heard.wrong.getvalue()


def test_what_reads_ours_alone_says_so_of_a_file_with_others(tmp_path: Path, heard: Heard) -> None:
    assert read_file(workbook_with_own(tmp_path), heard.errors) == 2
    assert "only block check and block copy read them" in heard.wrong.getvalue()
