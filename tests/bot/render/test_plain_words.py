"""Every text in bot/render, also those that no story says: plain to read, no praise, no scolding, no symbol alone."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from reading import FEWEST, grade, sentences, word_count

RENDER = Path(__file__).parents[3] / "bot" / "render"
HARDEST = 8
"""Flesch-Kincaid grade: lower secondary."""

PRAISE = (
    "well done|good job|good work|great|awesome|nice work|congratulations|bravo|proud|keep it up|excellent|perfect|"
    "amazing|fantastic|impressive|you rock|way to go|hooray|yay"
)
SCOLDING = (
    "you failed|failure|lazy|excuse|excuses|shame|ashamed|you should have|disappointed|disappointing|again and again|"
    "try harder|no pain no gain|push through|guilty|slacking|streak|streaks"
)
COLOURS = "traffic light|green light|red flag|in the green|in the red|readiness score"
SYMBOLS = re.compile(r"[\u2600-\u27bf\u2b00-\u2bff\U0001f300-\U0001faff]")


def spoken(path: Path) -> Iterator[tuple[int, str]]:
    """Every text of a module by line, docstrings left out; "it" stands for what is filled in."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    alone = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    parts = {
        id(part)
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr)
        for part in ast.walk(node)
        if part is not node
    }
    for node in ast.walk(tree):
        if id(node) in alone or id(node) in parts:
            continue
        if isinstance(node, ast.JoinedStr):
            said = [str(each.value) if isinstance(each, ast.Constant) else "it" for each in node.values]
            yield node.lineno, "".join(said)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.lineno, node.value


@cache
def texts() -> list[tuple[str, str]]:
    return [
        (f"{path.name}:{line}", text) for path in sorted(RENDER.glob("*.py")) for line, text in spoken(path)
    ]


def test_the_texts_of_every_module_are_looked_at() -> None:
    assert len(texts()) > 2000
    assert sum(word_count(text) >= FEWEST for _, text in texts()) > 400


def test_no_text_is_harder_than_lower_secondary() -> None:
    hard = {
        where: (round(grade(text), 1), sentences(text))
        for where, text in texts()
        if word_count(text) >= FEWEST and grade(text) > HARDEST
    }

    assert hard == {}


@pytest.mark.parametrize("barred", [PRAISE, SCOLDING, COLOURS])
def test_no_text_praises_scolds_or_speaks_in_colours(barred: str) -> None:
    found = re.compile(rf"\b(?:{barred})\b", re.IGNORECASE)

    assert [(where, text) for where, text in texts() if found.search(text)] == []


def test_no_text_says_anything_with_a_symbol() -> None:
    assert [(where, text) for where, text in texts() if SYMBOLS.search(text)] == []


def test_what_is_hard_to_read_is_found() -> None:
    hard = "The administration of individualised periodisation necessitates comprehensive consideration of recovery."
    easy = "Take a rest of two minutes. Then lift the bar again, with the same load as before, five times."

    assert grade(hard) > HARDEST > grade(easy)
    assert sentences("92.5 8 8 8\n<b>Rest</b> for two minutes.\n<code>/log 92.5</code>") == [
        "Rest for two minutes."
    ]
