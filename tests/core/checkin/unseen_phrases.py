"""Phrases of both kinds that were written before the rules were mended for them, in rounds; our own.

Each round was measured first (`MEASURED`), and only then were the rules mended, in general and not for a phrase. What
a round says of the next one is therefore its figure then, not that all of it is right now. The first round was written
before anybody who wrote it had seen the rules. Words of another language follow the pages that
`core/checkin/stop_rules_elsewhere.py` names.
"""

from pathlib import Path
from typing import NamedTuple

FOLDER = Path(__file__).parent / "unseen"


class Round(NamedTuple):
    """One round of phrases.

    Attributes:
        signs: Those that must stop.
        quiet: Those that must not.
    """

    signs: tuple[str, ...]
    quiet: tuple[str, ...]


class Figure(NamedTuple):
    """What was measured on a round before the rules were mended for it.

    Attributes:
        missed: Signs that were missed.
        signs: Of how many.
        alarms: False alarms.
        quiet: Of how many.
    """

    missed: int
    signs: int
    alarms: int
    quiet: int


MEASURED: dict[str, Figure] = {
    "first": Figure(49, 124, 10, 130),
    "second": Figure(8, 109, 5, 121),
    "third": Figure(17, 98, 4, 106),
    "fourth": Figure(18, 95, 0, 105),
    "fifth": Figure(21, 93, 1, 102),
    "sixth": Figure(16, 88, 4, 90),
    "seventh": Figure(9, 87, 3, 87),
    "eighth": Figure(12, 89, 2, 89),
    "ninth": Figure(15, 100, 5, 102),
    "tenth": Figure(2, 60, 1, 60),
    "eleventh": Figure(30, 50, 1, 50),
    "twelfth": Figure(28, 118, 2, 53),
    "thirteenth": Figure(21, 50, 1, 52),
}
"""In the first round one question, "is it normal to feel dizzy", stood among the quiet ones; it is a sign. The ninth
and the tenth were written in one go by one hand, who mended for the ninth right after: the tenth missed 17 of 60 before
that, and 2 after it is better than strangers will find it. The
eleventh, in voices as far from the rules as could be thought of, shows how much an odd wording still hides. Of the
last two the alarms (legs not felt "haha", a light head, a numb seat) stand among the signs now: in doubt it is one. Two
of five in a new voice are missed still; what the scan misses gets the caution of `core/checkin/health_words.py`, which
knew one word or more of 49 of the thirteenth's 50 before its rules were mended, by the scan or by itself."""

KNOWN_ALARMS: frozenset[str] = frozenset(
    (
        "hit my head against the wall with this diet",
        "hit my head against a wall with this lift, stuck at 80",
        "press felt tight in the chest at the bottom, stretched it",
        "feet swollen from the heels at the wedding? no, just tired",
    )
)
"""False alarms that are left, since the same words are a sign from somebody else."""

KNOWN_MISSES: frozenset[str] = frozenset()
"""Signs that are still missed."""


def _read(name: str) -> Round:
    lines = (FOLDER / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    of = {
        kind: tuple(line[len(kind) + 2 :] for line in lines if line.startswith(f"{kind}: "))
        for kind in ("stop", "quiet")
    }
    return Round(of["stop"], of["quiet"])


ROUNDS: dict[str, Round] = {name: _read(name) for name in MEASURED}
