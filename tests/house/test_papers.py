"""README.md and DEVELOPERS.md are true: what they name is there, and nothing is left out."""

import re
import tomllib
from collections.abc import Iterable

from house.tree import ROOT
from packaging.requirements import Requirement
from rows import each_row
from typer.main import get_command

from bot.settings import PREFIX, Settings

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
CI = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
FOLDERS = ("bot", "core", "demo_scenario", "migrations", "tests", ".ci")


def unlike(documented: Iterable[str], real: Iterable[str]) -> list[str]:
    """What is documented and not real, or real and not documented."""
    return sorted(set(documented) ^ set(real))


def setting_rows(text: str) -> dict[str, str]:
    """The rows of the table of settings, by name."""
    return {name: row for row, name in re.findall(rf"^(\| `({PREFIX}\w+)` .*)$", text, re.MULTILINE)}


def settings_named(text: str) -> set[str]:
    """Every setting that a text names, in its table or elsewhere."""
    return set(re.findall(rf"\b{PREFIX}[A-Z_]+\b", text))


def paths_named(text: str) -> list[str]:
    """Every path of the project that a text names in backticks; `a/{b,c}.py` names two."""
    quoted = re.findall(r"`([\w./{},-]+)`", text)
    return [path for each in quoted for path in _unfolded(each) if path.partition("/")[0] in FOLDERS]


def _unfolded(path: str) -> list[str]:
    folded = re.fullmatch(r"(.*)\{(.+)\}(.*)", path)
    if folded is None:
        return [path]
    head, names, tail = folded.groups()
    return [f"{head}{name}{tail}" for name in names.split(",")]


def commands_named(text: str) -> set[str]:
    """Every command of ours that a text names: `plimsoll coach add` is "coach add"."""
    spoken = re.findall(r"(?:^|[`/])plimsoll((?: [a-z]+(?:-[a-z]+)*\b(?![/_.]))+)", text, re.MULTILINE)
    return {each.strip() for each in spoken}


def commands_there_are() -> set[str]:
    """Every command that the program has."""
    from bot.cli import app  # noqa: PLC0415  (builds the whole program)

    return set(_leaves(get_command(app), ""))


def _leaves(command: object, name: str) -> Iterable[str]:
    below = getattr(command, "commands", {})
    if not below:
        yield name.strip()
    for word, each in below.items():
        yield from _leaves(each, f"{name} {word}")


def own_commands(text: str) -> list[str]:
    """The lines of a text that begin on a machine with nothing but Python."""
    return [line for line in text.splitlines() if line.startswith("python3 -m venv ")]


def test_the_readme_has_two_commands_of_one_line_each() -> None:
    first, second = own_commands(README)

    assert first.endswith(" && .venv/bin/plimsoll demo")
    assert second.endswith(" && .venv/bin/pytest")


def test_the_checks_run_the_readmes_own_commands() -> None:
    assert "grep '^python3 -m venv .*/pytest$' README.md" in CI
    assert "grep '^python3 -m venv .*/plimsoll demo$' README.md" in CI


def test_the_readme_documents_every_setting() -> None:
    real = {PREFIX + name.upper() for name in Settings.model_fields}

    assert unlike(setting_rows(README), real) == []
    assert settings_named(README + DEVELOPERS) - real == set()


@each_row("name", Settings.model_fields)
def test_the_readme_gives_the_default_of_a_setting(name: str) -> None:
    default = Settings.model_fields[name].default
    shown = "none" if default is None else f"`{str(default).rstrip('/')}`"

    assert f"| {shown} |" in setting_rows(README)[PREFIX + name.upper()]


def test_the_papers_name_commands_that_are_there_and_the_readme_all_of_them() -> None:
    real = commands_there_are()

    assert unlike(commands_named(README), real) == []
    assert commands_named(DEVELOPERS) - real == set()


@each_row("path", sorted({*paths_named(README), *paths_named(DEVELOPERS)}))
def test_a_path_in_the_papers_is_there(path: str) -> None:
    assert (ROOT / path).exists()


def test_developers_says_what_each_dependency_is_for() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"].values()
    asked = [*project["dependencies"], *(each for extra in extras for each in extra)]

    assert (
        unlike(
            re.findall(r"^\| `([\w-]+)` \| ", DEVELOPERS, re.MULTILINE),
            {Requirement(each).name for each in asked},
        )
        == []
    )


def test_an_untrue_paper_is_found() -> None:
    text = (
        "| `PLIMSOLL_TOKEN` | none | x |\nSet `PLIMSOLL_COLOUR` too.\n`bot/{cli,nowhere}`, `core/units.py`, `a/b`\n"
        "`plimsoll coach add NAME`, `plimsoll fly`, `plimsoll fly-by`\n.venv/bin/plimsoll demo\n"
    )

    assert setting_rows(text) == {"PLIMSOLL_TOKEN": "| `PLIMSOLL_TOKEN` | none | x |"}
    assert settings_named(text) == {"PLIMSOLL_TOKEN", "PLIMSOLL_COLOUR"}
    assert paths_named(text) == ["bot/cli", "bot/nowhere", "core/units.py"]
    assert commands_named(text) == {"coach add", "fly", "fly-by", "demo"}
    assert unlike(["a", "b"], ["b", "c"]) == ["a", "c"]
    assert own_commands("x\n  python3 -m venv a\npython3 -m venv b && c\n") == ["python3 -m venv b && c"]
