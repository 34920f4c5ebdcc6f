"""The table of every number that a rule uses, written from the docstrings that stand beside them.

After a number has changed, this writes the table of DEVELOPERS.md anew:
`PYTHONPATH=.:tests .venv/bin/python -m house.numbers`.
"""

import ast
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from house.tree import ROOT, modules

POLICY = "core/policy.py"
BEGIN, END = "| number | value | unit | what it is | where it comes from | changed by |", "\n\n"
PAPER = ROOT / "DEVELOPERS.md"
MARKS = re.compile(r"(?i:our proposal|our reading|common practice|from memory)|\[[A-Z][A-Za-z]+\d{0,4}\]")
UNIT = re.compile(r"\s*\[([^\]]+)\]\.?")


class Number(NamedTuple):
    """A number with what stands beside it."""

    name: str
    value: str
    unit: str
    what: str
    source: str
    where: str


def numbers() -> list[Number]:
    """Every number with a source or a mark: a coach's settings first, then what the code fixes."""
    sources = modules("core")
    policy = [*_in(POLICY, sources[POLICY])]
    fixed = [one for path, source in sorted(sources.items()) if path != POLICY for one in _in(path, source)]
    return policy + fixed


def _in(path: str, source: str) -> Iterator[Number]:
    tree = ast.parse(source)
    bodies = [
        tree.body,
        *(node.body for node in tree.body if isinstance(node, ast.ClassDef) and path == POLICY),
    ]
    for body in bodies:
        for each, after in pairwise(body):
            if isinstance(each, ast.Assign) and isinstance(each.targets[0], ast.Name):
                name, value = each.targets[0].id, each.value
            elif isinstance(each, ast.AnnAssign) and isinstance(each.target, ast.Name) and each.value:
                name, value = each.target.id, each.value
            else:
                continue
            if not (isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant)):
                continue
            found = _number(name, value, " ".join(str(after.value.value).split()), path)
            if found is not None:
                yield found


def _number(name: str, value: ast.expr, words: str, path: str) -> Number | None:
    shown = _shown(value)
    counts = path == POLICY or re.search(r"\d", shown)
    if (
        not counts
        or MARKS.search(words) is None
        or (isinstance(value, ast.Dict) and "Code." in ast.unparse(value))
    ):
        return None
    unit = next(
        (found[1] for found in UNIT.finditer(words) if not re.match(r"[A-Z][A-Za-z]+\d*$", found[1])), ""
    )
    plain = words.replace(f" [{unit}]", "") if unit else words
    what, _, source = plain.partition(". ")
    if not source:
        what, source = plain, plain
    where = f"`Policy.{name}`" if path == POLICY else f"`{path}`"
    return Number(name.lstrip("_"), shown, unit, what.rstrip("."), source.strip(), where)


def _shown(value: ast.expr) -> str:
    if isinstance(value, ast.Call):
        default = next((each.value for each in value.keywords if each.arg == "default"), None)
        if default is not None:
            return _shown(default)
    text = ast.unparse(value)
    text = re.sub(r"(?:Decimal|Mass\.of)\('?([\d.]+)'?\)", r"\1", text)
    text = re.sub(r"timedelta\((\w+)=(\d+)\)", r"\2 \1", text)
    text = re.sub(r"time\((\d+)\)", r"\1:00", text)
    return re.sub(r"\b(?:Unit|Region|ReasonCode)\.(\w+)", lambda found: found[1].lower(), text).replace(
        "'", ""
    )


def table() -> str:
    """The table as it stands in the paper."""
    rows = [
        f"| {one.name} | {one.value} | {one.unit} | {one.what} | {one.source} | {one.where} |"
        for one in numbers()
    ]
    return "\n".join([BEGIN, "|---|---|---|---|---|---|", *rows])


def written(paper: str) -> str:
    """The table in a paper; empty where there is none."""
    start = paper.find(BEGIN)
    return "" if start < 0 else paper[start:].partition(END)[0].rstrip("\n")


if __name__ == "__main__":
    text = PAPER.read_text(encoding="utf-8")
    Path(PAPER).write_text(text.replace(written(text) or BEGIN, table()), encoding="utf-8")
