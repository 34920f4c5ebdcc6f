"""How long a rep lasts by its tempo: lowering, pause stretched, lifting, pause shortened.

Lowering is always first, also where a lift begins with the other half. Three digits leave the last pause out. Time
under tension is shown and never scored: it is no driver of training [ACSM2026]. The notation is the trade's, its
first three numbers as in [BMJMil2020].
"""

from typing import NamedTuple

FAST = "X"
"""As fast as possible."""
FAST_S = 1
"""What that counts as. [s] Common practice, no source."""


class Tempo(NamedTuple):
    """The four parts of a rep. [s]

    Attributes:
        lowering: The load goes down: the muscle lengthens.
        stretched: Pause where it is long.
        lifting: The load goes up: the muscle shortens.
        shortened: Pause where it is short.
    """

    lowering: int
    stretched: int
    lifting: int
    shortened: int = 0


def tempo_of(text: str) -> Tempo:
    """Return the parts of a tempo.

    Args:
        text: As a block keeps it: three or four digits, or X: `3110`, `30X1`, `301`.

    Raises:
        ValueError: It is no tempo.
    """
    if len(text) not in (3, 4) or any(each != FAST and each not in "0123456789" for each in text):
        raise ValueError(f"a tempo has three or four digits or {FAST}, not {text!r}")
    return Tempo(*(FAST_S if each == FAST else int(each) for each in text))


def rep_seconds(text: str) -> int:
    """Return how long one rep lasts. [s]

    Raises:
        ValueError: It is no tempo.
    """
    return sum(tempo_of(text))


def time_under_tension(text: str, reps: int) -> int:
    """Return how long a set of so many reps lasts, one side. [s]

    Raises:
        ValueError: It is no tempo.
    """
    return reps * rep_seconds(text)
