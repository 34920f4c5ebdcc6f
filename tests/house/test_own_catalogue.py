"""A coach's own exercises are found wherever ours are: no use-case and no door looks into our catalogue alone.

A function of core or render may take our catalogue where none is given; whoever knows the coach gives hers.
"""

import ast
from collections.abc import Iterator

from house.tree import modules

CATALOGUE = "catalogue"
TOPS = ("bot", "core")
KNOWING = ("bot/usecases/", "bot/schedule/", "bot/inbound/")
"""Where the coach is known."""


def takers() -> dict[tuple[str, str], int]:
    """Functions and values that take a catalogue or else ours, by module and name; at which place."""
    found: dict[tuple[str, str], int] = {}
    for path, source in modules(*TOPS).items():
        for node in ast.parse(source).body:
            if isinstance(node, ast.FunctionDef):
                names = [each.arg for each in node.args.args]
                optional = names[len(names) - len(node.args.defaults) :]
                optional += [each.arg for each in node.args.kwonlyargs]
            elif isinstance(node, ast.ClassDef):
                fields = [each for each in node.body if isinstance(each, ast.AnnAssign)]
                names = [each.target.id for each in fields if isinstance(each.target, ast.Name)]
                optional = [
                    each.target.id for each in fields if each.value and isinstance(each.target, ast.Name)
                ]
            else:
                continue
            if CATALOGUE in optional:
                place = names.index(CATALOGUE) if CATALOGUE in names else len(names)
                found[path.removesuffix(".py").replace("/", "."), node.name] = place
    return found


def forgotten(path: str, source: str, known: dict[tuple[str, str], int]) -> Iterator[str]:
    """Calls in a module that leave a catalogue out."""
    tree = ast.parse(source)
    called: dict[str, tuple[str, str]] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            called |= {each.asname or each.name: (node.module, each.name) for each in node.names}
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        match node.func:
            case ast.Name(id=name):
                meant = called.get(name, ("", ""))
            case ast.Attribute(value=ast.Name(id=name), attr=attribute) if name in called:
                meant = (".".join(called[name]), attribute)
            case _:
                continue
        given = len(node.args) > known.get(meant, -1) or any(
            each.arg in (CATALOGUE, None) for each in node.keywords
        )
        if meant in known and not given:
            yield f"{path}:{node.lineno} {'.'.join(meant)}"


def test_there_are_functions_that_take_a_catalogue() -> None:
    assert {
        ("core.programme.catalogue", "named"),
        ("core.loads.kit_fit", "nobody_can"),
        ("bot.render.session_views", "SessionView"),
    } <= takers().keys()


def test_whoever_knows_the_coach_gives_her_catalogue() -> None:
    known = takers()

    assert [
        line
        for path, source in modules(*TOPS).items()
        if path.startswith(KNOWING)
        for line in forgotten(path, source, known)
    ] == []


def test_whoever_knows_the_coach_never_names_ours() -> None:
    assert [
        path for path, source in modules() if path.startswith(KNOWING) and "import CATALOGUE" in source
    ] == []


def test_a_call_that_leaves_it_out_is_found() -> None:
    source = (
        "from core.programme.catalogue import named\nfrom core.loads import kit_fit as fit\n"
        "named('x')\nnamed('x', own)\nfit.nobody_can(block, kits)\nfit.nobody_can(block, kits, catalogue=own)\n"
    )

    assert list(forgotten("a.py", source, takers())) == [
        "a.py:3 core.programme.catalogue.named",
        "a.py:5 core.loads.kit_fit.nobody_can",
    ]
