"""Modules of at most 300 lines, tests of at most 400, functions of bot and core of at most 40.

What is longer stands here with its size, which may only shrink; a table of data stands here with its reason.
"""

import ast
from collections.abc import Iterator

import pytest
from house.tree import modules

MODULE_LINES = 300
TEST_LINES = 400
FUNCTION_LINES = 40

DATA = {
    "core/sources.py": "every published source that is cited: a table",
    "core/programme/problem_codes.py": "every code of a problem with the facts that it carries: a table",
    "bot/store/tables.py": "the schema in one place: columns, no logic",
    "migrations/versions/0001_first_schema.py": "the schema once more, as the first migration makes it",
}
LONG_MODULES: dict[str, int] = {}
LONG_FUNCTIONS: dict[str, int] = {}


def too_long(sizes: dict[str, int], limit: int, excepted: dict[str, int]) -> list[str]:
    """What is longer than it may be, and every exception that is no longer needed."""
    grown = [
        f"{name} has {size} lines, of {excepted.get(name, limit)}"
        for name, size in sizes.items()
        if size > excepted.get(name, limit)
    ]
    needless = [f"{name} needs no exception" for name in excepted if sizes.get(name, 0) <= limit]
    shrunk = [
        f"{name} has {sizes[name]} lines: write that into its exception, in place of {size}"
        for name, size in excepted.items()
        if limit < sizes.get(name, 0) < size
    ]
    return grown + needless + shrunk


def function_lines(path: str, source: str) -> dict[str, int]:
    """The lines of each function, its docstring left out, by `path:Class.name`."""
    return {f"{path}:{name}": lines for name, lines in _functions(ast.parse(source), "")}


def _functions(node: ast.AST, within: str) -> Iterator[tuple[str, int]]:
    for child in ast.iter_child_nodes(node):
        name = within
        if isinstance(child, ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            name = f"{within}.{child.name}".lstrip(".")
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef):
            yield name, _lines(child)
        yield from _functions(child, name)


def _lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    whole = (function.end_lineno or 0) - function.lineno + 1
    if ast.get_docstring(function) is None:
        return whole
    docstring = function.body[0]
    return whole - ((docstring.end_lineno or 0) - docstring.lineno + 1)


def test_modules_are_short() -> None:
    sizes = {path: len(text.splitlines()) for path, text in modules("bot", "core", "migrations").items()}

    assert (
        too_long({path: size for path, size in sizes.items() if path not in DATA}, MODULE_LINES, LONG_MODULES)
        == []
    )


def test_modules_of_data_are_there_and_need_their_exception() -> None:
    sizes = {path: len(text.splitlines()) for path, text in modules("bot", "core", "migrations").items()}

    assert [path for path in DATA if sizes.get(path, 0) <= MODULE_LINES] == []


def test_tests_are_short() -> None:
    sizes = {path: len(text.splitlines()) for path, text in modules("tests").items()}

    assert too_long(sizes, TEST_LINES, {}) == []


def test_functions_are_short() -> None:
    sizes = {
        name: lines
        for path, text in modules("bot", "core").items()
        for name, lines in function_lines(path, text).items()
    }

    assert too_long(sizes, FUNCTION_LINES, LONG_FUNCTIONS) == []


@pytest.mark.parametrize(
    ("size", "excepted", "expected"),
    [
        (10, {}, []),
        (11, {}, ["a has 11 lines, of 10"]),
        (12, {"a": 12}, []),
        (13, {"a": 12}, ["a has 13 lines, of 12"]),
        (11, {"a": 12}, ["a has 11 lines: write that into its exception, in place of 12"]),
        (10, {"a": 12}, ["a needs no exception"]),
        (10, {"gone": 12}, ["gone needs no exception"]),
    ],
)
def test_what_is_too_long_is_found(size: int, excepted: dict[str, int], expected: list[str]) -> None:
    assert too_long({"a": size}, 10, excepted) == expected


def test_lines_of_functions_are_counted_without_their_docstring() -> None:
    source = (
        "class A:\n    async def b(self):\n        '''Two\n\n        lines.'''\n        def c():\n            pass\n"
        "        return c\ndef d(): pass\n"
    )

    assert function_lines("m.py", source) == {"m.py:A.b": 4, "m.py:A.b.c": 2, "m.py:d": 1}
