"""An exercise's own name in a reply about it, in full or in part: `rows 40 10 10 10`, `done bench`.

It is taken out before the reply is read. The name of another exercise stays, so that nothing is kept for the wrong one.
"""

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from rapidfuzz.distance import OSA

from core.checkin.sites import SITE_WORDS
from core.checkin.tokens import folded
from core.checkin.words import MARKS, NOT_TYPOS, NUMBERS, Mark
from core.programme.catalogue import named
from core.programme.exercises import Exercise

_BEFORE = frozenset({Mark.DONE, Mark.SKIP, Mark.FILLER, Mark.LOG, Mark.AT, Mark.BODY_FILLER, Mark.CORRECTION})
_LETTERS = re.compile(r"[^\W\d_]+")
_LED_BY_WORDS = re.compile(r"\s*((?:[^\W\d_]+[ -]+){1,4}?)[:,-]? ?(?=\d|bw)")
_SMALL = frozenset(
    ["up", "down", "in", "out", "on", "off", "over", "to", "and", "with", "without", "good", "single"]
)
"""Words of names that people use for other things: `up to 60`."""
_SHORTEST = 4
"""A shorter word is not taken for a mistyped one."""


class Unnamed(NamedTuple):
    """A text without the exercise's name.

    Attributes:
        text: The rest; the text as it was where there was no name.
        sure: False where the name was mistyped, or is that of another exercise as well.
    """

    text: str
    sure: bool = True


def without_name(text: str, exercise: Exercise | None) -> Unnamed:
    """Return a text without the name of the exercise that it is about."""
    if exercise is None:
        return Unnamed(text)
    line = folded(text)
    written = [folded(name) for name in (exercise.name, *exercise.aliases)]
    names = tuple(dict.fromkeys((*written, *(name.replace("-", " ") for name in written))))
    for name in sorted(names, key=len, reverse=True):
        rest = line.removeprefix(name)
        if rest != line and re.match(r"s?[ :,]", rest):
            return Unnamed(_tail(rest.removeprefix("s")))
    words, run = _words_of(names), _run_of(names)
    for match in run.finditer(line):
        before, after = line[: match.start()], line[match.end() :]
        if _is_own(match[0]) and (_is_led(before) or (not after.strip(" .!") and _is_closed(before))):
            other = named(match[0].removeprefix("the ").removeprefix("my "))
            is_other = other is not None and other.key != exercise.key and folded(other.name) not in names
            return Unnamed(f"{before} {_tail(after)}", sure=not is_other)
    return _mended(line, words) or Unnamed(text)


def _tail(rest: str) -> str:
    return re.sub(r"^[\s:,=]*(?:- )?\s*", "", rest)


def _stem(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


@lru_cache(maxsize=256)
def _words_of(names: Sequence[str]) -> frozenset[str]:
    return frozenset(_stem(word) for name in names for word in _LETTERS.findall(name))


@lru_cache(maxsize=256)
def _run_of(names: Sequence[str]) -> re.Pattern[str]:
    """Return the pattern of one or more words of these names beside each other."""
    words = "|".join(sorted((re.escape(word) for word in _words_of(names)), key=len, reverse=True))
    return re.compile(rf"(?<![^\W_])(?:(?:the|my) )?(?:{words})s?(?:[ -](?:{words})s?)*(?![^\W_])")


def _is_own(run: str) -> bool:
    """Return whether a word of a run means nothing else: `thrust`, but not `hip`."""
    return any(
        word not in _SMALL
        and not any(form in table for form in (word, _stem(word)) for table in (MARKS, NUMBERS, SITE_WORDS))
        for word in _LETTERS.findall(run)
    )


def _is_led(before: str) -> bool:
    """Return whether only words like "skip" and "done with" stand before a name."""
    if any(sign.isdigit() for sign in before):
        return False
    return all(MARKS.get(word) in _BEFORE for word in _LETTERS.findall(before))


def _is_closed(before: str) -> bool:
    """Return whether a name at the end follows a number or a word of ours, not one that makes it another name."""
    words = re.findall(r"[^\W_]+", before)
    return not words or words[-1].isdigit() or words[-1] in MARKS


def _mended(line: str, words: frozenset[str]) -> Unnamed | None:
    """Return the rest after a mistyped name that a line begins with."""
    led = _LED_BY_WORDS.match(line)
    if led is None:
        return None
    typed = _LETTERS.findall(led[1])
    if not _is_own(led[1]) or not all(_stem(word) in words or _is_near(word, words) for word in typed):
        return None
    return Unnamed(line[led.end() :], sure=False)


def _is_near(word: str, words: frozenset[str]) -> bool:
    if len(word) < _SHORTEST or word in NOT_TYPOS or word in MARKS:
        return False
    slips = 1 if len(word) < 7 else 2
    return any(OSA.distance(_stem(word), own, score_cutoff=slips) <= slips for own in words)
