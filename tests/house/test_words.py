"""The project speaks of itself alone: no machine's paths, no registry's hosts, no papers that are not in it.

A ~ breaks the words here, so that this list does not find itself.
"""

import re

import pytest
from house.tree import ROOT, files_under

STRANGERS = [
    # paths of one machine
    r"(?<![\w.])/(?:wo~rk|ro~ot|ho~me|op~t)/",
    r"(?<![\w.])/tm~p/v\b",
    # hosts that packages come from
    r"\b(?:py~pi|python~hosted|deb~ian)\.org\b",
    # papers that whoever reads this does not have
    r"\b(?!README|DEVELOPERS)[\w-]+\.m~d\b",
    r"\bissue #?\d+",
]
PATTERN = re.compile("|".join(STRANGERS).replace("~", ""), re.IGNORECASE)
TEXT = {
    "",
    ".cfg",
    ".html",
    ".ini",
    ".json",
    ".lock",
    ".mako",
    ".md",
    ".py",
    ".sh",
    ".toml",
    ".txt",
    ".yaml",
    ".yml",
}


def strangers(text: str) -> list[str]:
    """What a text has of those words, with its line."""
    return [
        f"{number}: {found.group()}"
        for number, line in enumerate(text.splitlines(), 1)
        for found in PATTERN.finditer(line)
    ]


def test_a_file_speaks_of_the_project_alone() -> None:
    read = [path for path in files_under(ROOT) if path.suffix in TEXT]
    found = {path: strangers(path.read_text(encoding="utf-8")) for path in read}

    assert len(read) > 1000
    assert {path.relative_to(ROOT).as_posix(): lines for path, lines in found.items() if lines} == {}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a\ncd /wo~rk/main", ["2: /wo~rk/"]),
        ("at /ho~me/ada/x and /tm~p/v/bin", ["1: /ho~me/", "1: /tm~p/v"]),
        ("https://Py~Pi.org/simple", ["1: Py~Pi.org"]),
        ("see Almanac.m~d, section 20", ["1: Almanac.m~d"]),
        ("fixes issue #~12", ["1: issue #~12"]),
        ("paperwork/form, ../ro~ot/, this issue, README.md, DEVELOPERS.md, /tm~p/x", []),
    ],
)
def test_a_stranger_is_found(text: str, expected: list[str]) -> None:
    assert strangers(text.replace("~", "")) == [each.replace("~", "") for each in expected]
