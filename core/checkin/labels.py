"""The numbers of a list, which are no reps: `1) 60x8 2) 60x7`, `set 1 8, set 2 7`, `1st 8 2nd 7`, `- 60x8` a line."""

import re

from core.checkin.words import NUMBERS

_ORDINALS = {
    word: place
    for place, word in enumerate(["first", "second", "third", "fourth", "fifth", "sixth"], start=1)
}
_WORDS = "|".join(word for word in NUMBERS if 1 <= NUMBERS[word] <= 12)
_LABELS = (
    re.compile(rf"(?<![^\W_])(?:set|s) ?#?(\d{{1,2}}|{_WORDS})(?![^\W_])[:.,]?\s?"),
    re.compile(r"(?:(?<=\s)|^)(\d{1,2})(?:\)|\.(?=\s)|\.$|:(?=\s))\s?"),
    re.compile(r"(?<![^\W_])(\d{1,2})(?:st|nd|rd|th)(?: set)?(?![^\W_])[:.]?\s?"),
    re.compile(rf"(?<![^\W_])({'|'.join(_ORDINALS)})(?: (?:set|one))?(?![^\W_])[:.,]?\s?"),
)
_LEADING = re.compile(r"^(?:first|1st) set(?![^\W_])[:.,]?\s?")
_BULLET = re.compile(r"^[ \t]*-[ \t]+", re.MULTILINE)


def without_labels(text: str) -> str:
    """Return folded text without the numbers of a list; a number is a label only where they count up from one."""
    if len(_BULLET.findall(text)) > 1:
        text = _BULLET.sub("", text)
    for label in _LABELS:
        found = [_place(match[1]) for match in label.finditer(text)]
        if len(found) > 1 and found == list(range(1, len(found) + 1)):
            text = label.sub(" ", text)
    return _LEADING.sub("", text)


def _place(written: str) -> int:
    if written.isdigit():
        return int(written)
    return _ORDINALS.get(written) or NUMBERS[written]
