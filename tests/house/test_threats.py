"""The table of threats in DEVELOPERS.md is true: every test that it names is there, and every threat has one."""

import re

from house.tree import ROOT
from rows import each_row

DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
TEST = re.compile(r"`(tests/[\w/]+\.py)::(\w+)`")


def rows_of(text: str) -> list[list[str]]:
    """The cells of each row of the table of threats."""
    section = text.partition("\n## Threats\n")[2].partition("\n## ")[0]
    rows = [line.strip("|").split("|") for line in section.splitlines() if line.startswith("| ")]
    return [[cell.strip() for cell in row] for row in rows[1:]]


def missing(text: str) -> list[str]:
    """The named tests that are not there."""
    found = []
    for path, name in TEST.findall(text):
        file = ROOT / path
        source = file.read_text(encoding="utf-8") if file.is_file() else ""
        if not re.search(rf"^(async )?def {name}\(", source, re.MULTILINE):
            found.append(f"{path}::{name}")
    return found


def test_every_test_that_holds_a_threat_is_there() -> None:
    assert missing(DEVELOPERS) == []


@each_row("row", rows_of(DEVELOPERS))
def test_every_threat_has_what_holds_it_and_a_test(row: list[str]) -> None:
    threat, held_by, tests = row
    assert threat
    assert held_by
    assert TEST.findall(tests)


def test_a_test_that_is_not_there_is_found() -> None:
    here = "`tests/house/test_threats.py::test_a_test_that_is_not_there_is_found`"
    gone = "`tests/house/test_threats.py::test_of_nothing`"
    table = f"| threat | held by | test |\n|---|---|---|\n| a | b | {here}, {gone} |\n"
    text = f"x\n## Threats\n\n{table}\n## Next\n| z | | |\n"

    assert missing(text) == ["tests/house/test_threats.py::test_of_nothing"]
    assert rows_of(text) == [["a", "b", f"{here}, {gone}"]]
