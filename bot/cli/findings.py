"""What a look at the program and its surroundings found."""

from dataclasses import dataclass
from datetime import timedelta
from enum import Enum


class State(Enum):
    """How something is."""

    GOOD = "good"
    TOLD = "told"
    """Nothing is wrong, and somebody should know."""
    WRONG = "wrong"


@dataclass(frozen=True, slots=True)
class Finding:
    """One line for the operator: no names and no words of anybody, no token.

    Attributes:
        name: What was looked at.
        state: How it is.
        said: What is wrong and what to do; for what is good, what more there is to say.
    """

    name: str
    state: State
    said: str = ""


def good(name: str, said: str = "") -> Finding:
    """Return that something is good."""
    return Finding(name, State.GOOD, said)


def told(name: str, said: str) -> Finding:
    """Return what somebody should know."""
    return Finding(name, State.TOLD, said)


def wrong(name: str, said: str) -> Finding:
    """Return what somebody must mend."""
    return Finding(name, State.WRONG, said)


def span(length: timedelta) -> str:
    """Return a length of time in one unit: "40 s", "5 min", "3 h", "4 days"."""
    seconds = max(0, int(length.total_seconds()))
    for size, limit, unit in ((1, 120, "s"), (60, 7200, "min"), (3600, 172_800, "h")):
        if seconds < limit:
            return f"{seconds // size} {unit}"
    return f"{seconds // 86_400} days"
