"""Modules are nouns of the subject, each says what it holds, and the top of the project stays as it is."""

import ast

from house.tree import PACKAGES, ROOT, is_ignored, modules

EMPTY_NAMES = {"base", "common", "helper", "helpers", "manager", "managers", "misc", "util", "utils"}
TOP = {
    "DEVELOPERS.md", "LICENSE", "README.md", "bot", "core", "demo_scenario", "migrations", "pyproject.toml",
    "requirements.lock", "tests",
}  # fmt: skip


def empty_names(path: str) -> list[str]:
    """The parts of a path that say nothing of the subject."""
    return [part for part in path.removesuffix(".py").split("/") if part in EMPTY_NAMES]


def strays(names: set[str]) -> list[str]:
    """What is too much, or missing, at the top; hidden and ignored names are free."""
    seen = {name for name in names if not name.startswith(".") and not is_ignored(name)}
    return sorted(seen ^ TOP)


def test_a_module_is_named_for_its_subject() -> None:
    assert [path for path in modules(*PACKAGES, "tests") if empty_names(path)] == []


def test_a_module_says_what_it_holds() -> None:
    silent = [
        path
        for path, text in modules(*PACKAGES, "demo_scenario").items()
        if not ast.get_docstring(ast.parse(text))
    ]

    assert silent == []


def test_the_top_of_the_project_stays_as_it_is() -> None:
    assert strays({path.name for path in ROOT.iterdir()}) == []


def test_an_empty_name_is_found() -> None:
    assert empty_names("bot/common/outbox_manager.py") == ["common"]
    assert empty_names("core/utils.py") == ["utils"]
    assert empty_names("core/loads/decision.py") == []


def test_a_stray_at_the_top_is_found() -> None:
    assert strays(TOP | {".gitignore", "plimsoll-demo", "notes.db"}) == []
    assert strays((TOP | {"docs"}) - {"LICENSE"}) == ["LICENSE", "docs"]
