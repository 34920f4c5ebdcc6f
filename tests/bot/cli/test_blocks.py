import io
from pathlib import Path

import pytest
from rich.console import Console

from bot.cli.blocks import check_block, write_template
from bot.files.template import template

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
