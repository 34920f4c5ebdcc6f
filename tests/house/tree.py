"""What the house's checks look at: the files of the project, read as text."""

from collections.abc import Iterator
from fnmatch import fnmatch
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGES = ("bot", "core", "migrations")


@cache
def ignored_names() -> tuple[str, ...]:
    """What may lie about in the top folder without belonging to the project."""
    lines = (ROOT / ".gitignore").read_text(encoding="utf-8").splitlines()
    return tuple(line.strip("/") for line in lines if line and not line.startswith("#"))


def is_ignored(name: str) -> bool:
    """True for a name that .gitignore has."""
    return any(fnmatch(name, pattern) for pattern in ignored_names())


def files_under(top: Path) -> Iterator[Path]:
    """Every file of the project under a folder, in order."""
    for path in sorted(top.iterdir()):
        if path.name == ".git" or is_ignored(path.name):
            continue
        if path.is_dir():
            yield from files_under(path)
        else:
            yield path


@cache
def modules(*tops: str) -> dict[str, str]:
    """The text of every module under these folders, by its path in the project."""
    return {
        path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8")
        for top in tops
        for path in files_under(ROOT / top)
        if path.suffix == ".py"
    }
