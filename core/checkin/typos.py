"""Mistyped words of ours. What is mended is always asked about, never taken as said."""

from collections.abc import Sequence

from rapidfuzz.distance import OSA

from core.checkin.sites import SITE_WORDS
from core.checkin.tokens import Token, known
from core.checkin.words import MARKS, NOT_TYPOS, NUMBERS, Mark

MOST_MENDED = 3
"""A line with more strange words is a sentence, not a slip. Our proposal."""
LONGEST_WORD = 24
"""No word of ours is longer."""
_MENDABLE = frozenset(
    {Mark.DONE, Mark.SKIP, Mark.UNDO, Mark.PAIN, Mark.SORE, Mark.BODYWEIGHT, Mark.LEFT, Mark.RIGHT, Mark.KG}
)
_KNOWN = tuple(
    sorted(
        {word for word, mark in MARKS.items() if mark in _MENDABLE and " " not in word and len(word) >= 4}
        | {word for word in (*SITE_WORDS, *NUMBERS) if " " not in word and len(word) >= 4}
    )
)


def mended(tokens: Sequence[Token]) -> tuple[Token, ...] | None:
    """Return the tokens with every strange word mended; None when one is like no word of ours, or all are known."""
    strange = [token for token in tokens if token.mark is Mark.WORD]
    if not strange or len(strange) > MOST_MENDED:
        return None
    found: list[Token] = []
    for token in tokens:
        if token.mark is not Mark.WORD:
            found.append(token)
            continue
        word = nearest(token.text)
        mending = known(word) if word else None
        if mending is None:
            return None
        found.append(mending)
    return tuple(found)


def nearest(word: str) -> str | None:
    """Return the word of ours that is one slip away, or two where it is long; None when there is none.

    A slip is a letter too many, too few, wrong, or two swapped. The thresholds are our proposal.
    """
    if not 3 <= len(word) <= LONGEST_WORD or word in NOT_TYPOS or not word.isalpha():
        return None
    slips = 1 if len(word) < 7 else 2
    best: tuple[int, str] | None = None
    for ours in _KNOWN:
        if abs(len(ours) - len(word)) > slips:
            continue
        far = OSA.distance(word, ours, score_cutoff=slips)
        if far <= slips and (best is None or far < best[0]):
            best = (far, ours)
    return best[1] if best else None
