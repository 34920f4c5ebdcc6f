"""core has no clock, no chance, no files, no environment and no socket: values in, values out.

It imports the quiet part of the standard library, pydantic, numpy, rapidfuzz and itself, and calls nothing that
reaches outside.
"""

import ast

from house.tree import modules
from rows import each_row

QUIET = {
    "bisect", "collections", "collections.abc", "dataclasses", "datetime", "decimal", "enum", "fractions",
    "functools", "hashlib", "heapq", "itertools", "json", "math", "numbers", "operator", "re", "statistics",
    "string", "types", "typing", "unicodedata", "zoneinfo",
}  # fmt: skip
LIBRARIES = {"core", "numpy", "pydantic", "rapidfuzz"}
LOUD_BUILTINS = {"__import__", "breakpoint", "compile", "eval", "exec", "input", "open", "print"}
CLOCKS = {"now", "today", "utcnow"}
LOUD_NUMPY = {
    "fromfile", "genfromtxt", "load", "loadtxt", "memmap", "random", "save", "savetxt", "savez",
}  # fmt: skip


def noises(source: str) -> list[str]:
    """What in a module of core reaches outside, with its line."""
    found = {each for node in ast.walk(ast.parse(source)) for each in _noises_of(node)}
    return [f"{line}: {what}" for line, what in sorted(found)]


def _noises_of(node: ast.AST) -> list[tuple[int, str]]:
    match node:
        case ast.Import():
            return [(node.lineno, alias.name) for alias in node.names if not _is_quiet(alias.name)]
        case ast.ImportFrom():
            module = "." * node.level + (node.module or "")
            loud = [] if _is_quiet(module) else [module]
            loud += [alias.name for alias in node.names if module == "numpy" and alias.name in LOUD_NUMPY]
            return [(node.lineno, each) for each in loud]
        case ast.Name(id=name) if name in LOUD_BUILTINS:
            return [(node.lineno, name)]
        case ast.Attribute(value=ast.Name(id="np" | "numpy"), attr=name) if name in LOUD_NUMPY:
            return [(node.lineno, name)]
        # `asked.today` is a value that was handed in; `today()` asks the clock, and so does whoever hands it on.
        case (
            ast.Call(func=ast.Attribute(attr=name))
            | ast.Attribute(value=ast.Name(id="date" | "datetime"), attr=name)
        ) if name in CLOCKS:
            return [(node.lineno, name)]
        case _:
            return []


def _is_quiet(module: str) -> bool:
    if module.startswith("numpy.random"):
        return False
    return module in QUIET or module.partition(".")[0] in LIBRARIES


def test_core_reaches_nothing_outside() -> None:
    found = {path: noises(text) for path, text in modules("core").items()}

    assert {path: lines for path, lines in found.items() if lines} == {}


@each_row(
    ("source", "expected"),
    [
        ("import os", ["1: os"]),
        ("import time", ["1: time"]),
        ("import random as dice", ["1: random"]),
        ("from secrets import token_hex", ["1: secrets"]),
        ("import json, socket", ["1: socket"]),
        ("from collections import abc, Counter", []),
        ("import xml.etree.ElementTree", ["1: xml.etree.ElementTree"]),
        ("from pathlib import Path", ["1: pathlib"]),
        ("import pydantic_settings", ["1: pydantic_settings"]),
        ("from pydantic.fields import FieldInfo", []),
        ("from bot.clock import Clock", ["1: bot.clock"]),
        ("from . import units", ["1: ."]),
        ("from .units import Mass", ["1: .units"]),
        ("import numpy.random", ["1: numpy.random"]),
        ("from numpy import random", ["1: random"]),
        ("import numpy as np\nnp.random.default_rng()", ["2: random"]),
        ("import numpy as np\nnp.load('x.npy')", ["2: load"]),
        ("import numpy as np\nnp.median([1])", []),
        ("x = 1\nwith open('x') as f:\n    pass", ["2: open"]),
        ("print('x')", ["1: print"]),
        ("show = print", ["1: print"]),
        ("input()", ["1: input"]),
        ("eval('1')", ["1: eval"]),
        ("exec('1')", ["1: exec"]),
        ("__import__('os')", ["1: __import__"]),
        ("from datetime import datetime, UTC\ndatetime.now(UTC)", ["2: now"]),
        ("from datetime import date\ntoday = date.today", ["2: today"]),
        ("import datetime\ndatetime.datetime.utcnow()", ["2: utcnow"]),
        ("from datetime import time\nnoon = time(12)", []),
        ("from datetime import date as d\nd.today()", ["2: today"]),
        ("def load(now): return now", []),
        ("def age(asked): return asked.today - asked.born", []),
    ],
)
def test_what_reaches_outside_is_found(source: str, expected: list[str]) -> None:
    assert noises(source) == expected
