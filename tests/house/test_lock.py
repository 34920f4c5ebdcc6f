"""requirements.lock fits pyproject.toml: every dependency is pinned, with hashes, to a version that was asked for."""

import re
import tomllib

import pytest
from house.tree import ROOT
from packaging.requirements import InvalidRequirement, Requirement

LOCK = (ROOT / "requirements.lock").read_text(encoding="utf-8")


def wanted() -> list[str]:
    """Everything that pyproject.toml asks for: to run, to test, to build."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    extras = project["project"]["optional-dependencies"].values()
    return [
        *project["project"]["dependencies"],
        *(each for extra in extras for each in extra),
        *project["build-system"]["requires"],
    ]


def entries(lock: str) -> list[str]:
    """The entries of a lock file, a line each, hashes included."""
    joined = lock.replace("\\\n", " ").splitlines()
    return [line.strip() for line in joined if line.strip() and not line.startswith("#")]


def pins(lock: str) -> list[Requirement]:
    """The pinned distributions."""
    return [Requirement(entry.partition(" --hash=")[0]) for entry in entries(lock)]


def misfits(asked: list[str], lock: str) -> list[str]:
    """What is asked for and not in the lock, or in it with another version."""
    found: dict[str, list[str]] = {}
    for pin in pins(lock):
        found.setdefault(_canonical(pin.name), []).append(str(pin.specifier).removeprefix("=="))
    return [
        f"{text}: the lock has {', '.join(found.get(_canonical(one.name), ['nothing']))}"
        for text, one in ((text, Requirement(text)) for text in asked)
        if not found.get(_canonical(one.name))
        or not all(one.specifier.contains(each) for each in found[_canonical(one.name)])
    ]


def flaws(lock: str) -> list[str]:
    """Entries that are more or less than a pinned version with its hashes."""
    return [entry.partition(" --hash=")[0] for entry in entries(lock) if not _is_sound(entry)]


def _is_sound(entry: str) -> bool:
    name, *hashes = re.split(r"\s+--hash=", entry)
    try:
        pin = Requirement(name)
    except InvalidRequirement:
        return False
    exact = re.fullmatch(r"==[\w.+!]+", str(pin.specifier)) is not None
    return exact and pin.url is None and bool(hashes) and all(map(_is_hash, hashes))


def _is_hash(text: str) -> bool:
    return re.fullmatch(r"sha256:[0-9a-f]{64}", text) is not None


def _canonical(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def test_the_lock_has_what_the_project_asks_for() -> None:
    assert misfits(wanted(), LOCK) == []


def test_the_lock_is_versions_and_hashes_alone() -> None:
    assert flaws(LOCK) == []


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        ("rapid.fuzz>=3.13", []),
        ("Rapid_Fuzz>=3.13,<4", []),
        ("rapid-fuzz>=3.15", ["rapid-fuzz>=3.15: the lock has 3.14.6"]),
        ("numpy>=2", []),
        ("numpy>=2.5", ["numpy>=2.5: the lock has 2.4.6, 2.5.5"]),
        ("psycopg[binary]>=3.2", ["psycopg[binary]>=3.2: the lock has nothing"]),
    ],
)
def test_a_lock_that_does_not_fit_is_found(asked: str, expected: list[str]) -> None:
    lock = (
        "# made by hand\nrapid-fuzz==3.14.6 \\\n    --hash=sha256:00\n"
        "numpy==2.4.6 ; python_full_version < '3.12' \\\n    --hash=sha256:00\n"
        "numpy==2.5.5 ; python_full_version >= '3.12'\n"
    )

    assert misfits([asked], lock) == expected


@pytest.mark.parametrize(
    ("entry", "is_sound"),
    [
        (f"rich==15.0.0 \\\n    --hash=sha256:{'0' * 64} \\\n    --hash=sha256:{'1' * 64}", True),
        (f"colorama==0.4.6 ; sys_platform == 'win32' \\\n    --hash=sha256:{'0' * 64}", True),
        ("rich==15.0.0", False),
        ("rich==15.0.0 --hash=md5:00", False),
        (f"rich>=15 --hash=sha256:{'0' * 64}", False),
        (f"rich==15.* --hash=sha256:{'0' * 64}", False),
        (f"rich @ file:///somewhere/rich.whl --hash=sha256:{'0' * 64}", False),
        ("--find-links /somewhere", False),
        ("--index-url https://somewhere/simple", False),
        ("-e .", False),
    ],
)
def test_an_entry_that_is_no_pin_is_found(entry: str, is_sound: bool) -> None:
    assert (flaws(entry) == []) == is_sound
