"""Every mistake a person can mend has words, and the words speak only of facts that it carries."""

import ast
import importlib
import pkgutil
import re
from collections.abc import Iterator, Mapping
from string import Formatter

import pytest
from house.tree import modules
from rows import each_row

import bot
import core
from bot.render.errors import WORDING
from core.errors import DomainError


def mistakes() -> set[type[Exception]]:
    """Every kind of mistake in the project."""
    for package in (bot, core):
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            importlib.import_module(found.name)
    return set(below(DomainError))


def below(kind: type[Exception]) -> Iterator[type[Exception]]:
    """Every kind below a kind, however deep."""
    for each in kind.__subclasses__():
        yield each
        yield from below(each)


def facts_of(docstring: str | None) -> set[str]:
    """The facts that a kind of mistake carries, as its docstring names them in backticks."""
    return set(re.findall(r"`(\w+)`", docstring or ""))


def fields_of(wording: str) -> set[str]:
    """The facts that the words speak of."""
    return {re.split(r"[.\[]", name)[0] for _, name, _, _ in Formatter().parse(wording) if name}


def ill_raised(source: str, facts: Mapping[str, set[str]]) -> list[str]:
    """Where a mistake is made with other facts than its docstring names."""
    return [
        f"{node.lineno}: {name} with {sorted(given)}, not {sorted(facts[name])}"
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.Call)
        and (name := _called(node.func)) in facts
        and (given := {word.arg or "**" for word in node.keywords}) != facts[name]
    ]


def _called(function: ast.expr) -> str:
    match function:
        case ast.Name(id=name) | ast.Attribute(attr=name):
            return name
        case _:
            return ""


def test_every_mistake_has_words_and_every_wording_its_mistake() -> None:
    assert mistakes() == set(WORDING)


@each_row("mistake", WORDING)
def test_the_words_speak_of_facts_that_the_mistake_carries(mistake: type[DomainError]) -> None:
    assert fields_of(WORDING[mistake]) - facts_of(mistake.__doc__) == set()


def test_a_mistake_is_raised_with_the_facts_it_names() -> None:
    facts = {mistake.__name__: facts_of(mistake.__doc__) for mistake in WORDING}
    found = {path: ill_raised(text, facts) for path, text in modules("bot", "core").items()}

    assert {path: lines for path, lines in found.items() if lines} == {}


def test_facts_and_fields_are_read() -> None:
    assert facts_of("A start is outside: `written`, `first`.") == {"written", "first"}
    assert facts_of(None) == set()
    assert fields_of("{name} has {sets[0]} of {load.kg:g}; {{not this}}") == {"name", "sets", "load"}


def test_a_kind_below_a_kind_is_found() -> None:
    # Not kinds of DomainError: those would stand among the project's own.
    rough = type("Rough", (Exception,), {})
    finer = type("Finer", (rough,), {})

    assert list(below(rough)) == [finer]


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("raise NameTaken(name='Ada')", []),
        ("raise errors.NameTaken(name=name) from None", []),
        ("x = 1\nraise NameTaken(who='Ada')", ["2: NameTaken with ['who'], not ['name']"]),
        ("raise NameTaken()", ["1: NameTaken with [], not ['name']"]),
        ("raise NameTaken(**facts)", ["1: NameTaken with ['**'], not ['name']"]),
        ("table[0](name='Ada')", []),
    ],
)
def test_a_mistake_with_other_facts_is_found(source: str, expected: list[str]) -> None:
    assert ill_raised(source, {"NameTaken": {"name"}}) == expected
