"""The prep of a day goes into a file of any kind and comes back."""

from pathlib import Path

import pytest

from bot.files.block_file import read_block
from bot.files.to_csv import to_csv
from bot.files.to_xlsx import to_xlsx
from bot.files.to_yaml import to_yaml
from core.programme.block import Block
from core.programme.problems import Problem
from core.programme.rows import BlockFile
from core.programme.writing import sheets_of

FILE = Path(__file__).parents[2] / "blocks" / "harbour-strength.xlsx"
PREPS = (("ankle-rock", "cat-camel"), (), None, ("open-book",))


def block() -> Block:
    found = read_block(FILE.read_bytes(), FILE.name)
    assert isinstance(found, BlockFile)
    days = [day.model_copy(update={"prep": prep}) for day, prep in zip(found.block.days, PREPS, strict=True)]
    return found.block.model_copy(update={"days": tuple(days)})


@pytest.mark.parametrize(("written", "name"), [(to_xlsx, "a.xlsx"), (to_csv, "a.csv"), (to_yaml, "a.yaml")])
def test_out_and_in_again_is_the_same_block(written, name: str) -> None:
    found = read_block(written(sheets_of(block())), name)

    assert isinstance(found, BlockFile)
    assert found.block == block()


def yaml_with(prep: str) -> BlockFile | list[Problem]:
    text = to_yaml(sheets_of(block())).decode()
    line = next(line for line in text.splitlines() if line.strip().startswith("Prep:"))
    return read_block(text.replace(line, f"  Prep: {prep}").encode(), "a.yaml")


@pytest.mark.parametrize(
    "prep",
    [
        "{Lower A: [Ankle rock, Cat and camel], Push: none, Pull: Open book}",
        "{Lower A: 'Ankle rock, Cat and camel', Push: [none], Pull: [Open book]}",
        "['Lower A: Ankle rock, Cat and camel', 'Push: none', 'Pull: Open book']",
    ],
)
def test_in_yaml_it_may_be_a_map_from_day_to_drills(prep: str) -> None:
    found = yaml_with(prep)

    assert isinstance(found, BlockFile)
    assert found.block == block()


@pytest.mark.parametrize(
    "prep", ["{Lower A: {Ankle rock: 8}}", "{[Lower A]: Ankle rock}", "{Push: [[Ankle rock]]}"]
)
def test_what_is_neither_is_a_problem_of_its_line(prep: str) -> None:
    found = yaml_with(prep)

    assert isinstance(found, list)
    assert {one.code for one in found} == {"yaml_shape"}
