"""Going to an exercise by a typed line, in words."""

from collections.abc import Sequence
from html import escape


def not_here(what: str) -> str:
    """Say that the session has no such exercise."""
    return f"There is no {escape(what)} in this session."


def which(names: Sequence[tuple[str, str]]) -> str:
    """Ask which of several is meant, by order and name."""
    return f"Which one? Type its letter: {', '.join(_named(each) for each in names)}."


def not_open(name: tuple[str, str], state: str) -> str:
    """Say that an exercise is done or left out already."""
    how = "done already" if state == "done" else "left out today"
    return f"{_named(name)} is {how}. <code>undo</code> takes back what was last."


def _named(name: tuple[str, str]) -> str:
    order, exercise = name
    return f"{escape(order)} {escape(exercise)}"
