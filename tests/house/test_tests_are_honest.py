"""No test is skipped, is expected to fail, or sleeps: what is checked is checked every time, and soon."""

import ast

import pytest
from house.tree import modules

EXCUSES = {"importorskip", "skip", "skipif", "xfail"}


def dishonesties(source: str) -> list[str]:
    """Where a test excuses itself, or waits on the clock; `sleep(0)` only lets others go first."""
    found = {
        (node.lineno, node.attr if isinstance(node, ast.Attribute) else "sleep")
        for node in ast.walk(ast.parse(source))
        if _is_excuse(node) or _is_sleep(node)
    }
    return [f"{line}: {what}" for line, what in sorted(found)]


def _is_excuse(node: ast.AST) -> bool:
    return (
        isinstance(node, ast.Attribute)
        and node.attr in EXCUSES
        and ast.unparse(node.value) in {"pytest", "pytest.mark", "unittest"}
    )


def _is_sleep(node: ast.AST) -> bool:
    if not isinstance(node, ast.Call):
        return False
    waits = ast.unparse(node.func).rpartition(".")[2] == "sleep"
    return waits and [ast.unparse(each) for each in node.args] != ["0"]


def test_a_test_is_always_run_and_never_sleeps() -> None:
    found = {path: dishonesties(text) for path, text in modules("tests").items()}

    assert {path: lines for path, lines in found.items() if lines} == {}


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("@pytest.mark.skip\ndef test_a(): pass", ["1: skip"]),
        ("@pytest.mark.skipif(True, reason='x')\ndef test_a(): pass", ["1: skipif"]),
        ("@pytest.mark.xfail\ndef test_a(): pass", ["1: xfail"]),
        ("def test_a():\n    pytest.skip('later')", ["2: skip"]),
        ("yaml = pytest.importorskip('yaml')", ["1: importorskip"]),
        ("import time\ntime.sleep(1)", ["2: sleep"]),
        ("from time import sleep\nsleep(0.1)", ["2: sleep"]),
        ("await asyncio.sleep(pause)", ["1: sleep"]),
        ("await asyncio.sleep(0)", []),
        ("reader.skip(3)", []),
    ],
)
def test_an_excuse_is_found(source: str, expected: list[str]) -> None:
    assert dishonesties(source) == expected
