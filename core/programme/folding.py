"""Names folded, so that `Pull-Ups`, `pull ups` and `pullup` are one."""

import unicodedata
from functools import lru_cache

_HISSING = ("sses", "ches", "shes", "xes")


@lru_cache(maxsize=8192)
def folded(text: str) -> str:
    """Return `text` without case, accents, dashes, spaces, apostrophes and the plural s of its words.

    Two names that fold to the same text are the same name. Letters of every script are kept.
    """
    return "".join(words_of(text))


def words_of(text: str) -> tuple[str, ...]:
    """Return the folded words of `text` in order: `Farmer's Carries` gives `farmer`, `carrie`."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(mark for mark in apart if not unicodedata.combining(mark) and mark not in "'’`")
    spaced = "".join(mark if mark.isalnum() else " " for mark in plain)
    return tuple(_singular(word) for word in spaced.split())


def _singular(word: str) -> str:
    if word.endswith(_HISSING):
        return word[:-2]
    if len(word) > 2 and word.endswith("s") and not word.endswith("ss"):
        return word[:-1]
    return word
