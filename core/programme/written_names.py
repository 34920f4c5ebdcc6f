"""Names that columns, lines and sheets are written by: ours, and other words of the trade for the same.

A name is matched after folding, or not at all: what is only near is suggested, never taken.
"""

from collections.abc import Iterable, Mapping

from rapidfuzz import fuzz

from core.programme.folding import folded

NEAR = 75
"""Least likeness of a suggestion. [0..100] Our proposal: a slip or two of the fingers in a short word."""


class WrittenNames:
    """A list of names of ours, each with its other words.

    Args:
        ours: Names as they are to be written.
        also: Other words for some of them; one word never stands for two.
    """

    def __init__(self, ours: Iterable[str], also: Mapping[str, Iterable[str]]) -> None:
        self.ours = tuple(ours)
        self._by_key = {_key(name): name for name in self.ours}
        for name, words in also.items():
            for word in words:
                if self._by_key.setdefault(_key(word), name) != name:
                    raise ValueError(f"{word!r} stands for {self._by_key[_key(word)]!r} and for {name!r}")

    def named(self, written: str) -> str | None:
        """Return the name of ours that `written` stands for; None when it stands for none."""
        return self._by_key.get(_key(written))

    def near(self, written: str) -> str:
        """Return names of ours that are like `written`, likest first, with `; ` between them; at most two."""
        wanted = _key(written)
        scores: dict[str, float] = {}
        for key, name in self._by_key.items():
            scores[name] = max(scores.get(name, 0.0), fuzz.ratio(wanted, key))
        likest = sorted(scores, key=lambda name: (-scores[name], name))
        return "; ".join([name for name in likest if scores[name] >= NEAR][:2])

    @property
    def known(self) -> str:
        """Every name of ours, with commas between them."""
        return ", ".join(self.ours)


def _key(written: str) -> str:
    return folded(written.replace("#", " number ").replace("(s)", ""))
