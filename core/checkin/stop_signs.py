"""Words that mean: stop, and get help. Pure, and run before anything else.

Cautious on purpose: where a text could be a sign or a figure of speech it is a sign, unless it is a figure of speech
that gyms are full of. It only finds words; it clears nobody.
"""

import unicodedata
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import zip_longest

from rapidfuzz.distance import OSA

from core.checkin import stop_phrases as table
from core.checkin.stop_rule import Rule
from core.checkin.stop_rules import RULES
from core.checkin.urgency import Urgency
from core.value import Value

__all__ = ["StopSign", "Urgency", "scan", "sentences"]

_ORDER = (Urgency.EMERGENCY_NOW, Urgency.DISTRESS, Urgency.DOCTOR_TODAY, Urgency.DOCTOR_FIRST)
"""Most urgent first."""
_DENIED_WITHIN = 4
"""A denial reaches this many words ahead. Our proposal."""
_WHOSE_WITHIN = 8
"""Whose sign it is stands at most this many words before it. Our proposal."""
_TALK_WITHIN = 7
"""A condition, "if I get", or a topic stands at most this many words before the sign. Our proposal."""
_SLIP_FROM = 5
"""Words of this length and more may have one slip, from nine letters on two. Our proposal."""
_PART, _OVERLAP = 120, 40
"""Words of a sentence that are looked at together, and those that two parts share."""
_ENDS = frozenset(".!?;\n")
_APOSTROPHES = frozenset("'’\u2018`\u00b4")
_SAME = {
    "pane": "pain",
    "payne": "pain",
    "pian": "pain",
    "pani": "pain",
    "feint": "faint",
    "heartbeat": "heart",
    "heartbeats": "heart",
    "hart": "heart",
    "haert": "heart",
    "herat": "heart",
    "ches": "chest",
    "feinted": "fainted",
    "breth": "breath",
    "brethe": "breathe",
    "breeth": "breathe",
    "breathlessness": "breathless",
    "heads": "head",
    "ticker": "heart",
    "boob": "breast",
    "boobs": "breast",
    "hr": "pulse",
    "breastbone": "sternum",
}
"""Words as voice typing and short slips write them."""


class StopSign(Value):
    """A stop sign found in a text.

    Attributes:
        urgency: Which text it gets.
        rule: Code of the rule that found it, for the record and the tests.
    """

    urgency: Urgency
    rule: str


def scan(text: str) -> StopSign | None:
    """Return the most urgent stop sign in `text`; None when there is none. Never raises."""
    found: dict[Urgency, str] = {}
    for sentence in sentences(text):
        words = _without_idioms(sentence)
        present = frozenset(words)
        for rule in RULES:
            if rule.urgency not in found and _may_hold(rule, present) and _holds(rule, words):
                found[rule.urgency] = rule.code
    return next((StopSign(urgency=each, rule=found[each]) for each in _ORDER if each in found), None)


def sentences(text: str) -> Iterator[list[str]]:
    """Return the folded words of each sentence: lower case, without accents and endings; a comma is one of its own."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    letters: list[str] = []
    for mark, after in zip_longest(plain, plain[1:], fillvalue=" "):
        if mark == "." and after.isdecimal() and letters and letters[-1].isdecimal():
            letters.append(mark)
        elif mark in _ENDS:
            letters.append(" \n ")
        elif mark == ",":
            letters.append(" , ")
        elif mark.isalnum():
            letters.append(mark)
        elif (
            mark not in _APOSTROPHES
            and not unicodedata.combining(mark)
            and unicodedata.category(mark) != "Cf"
        ):
            letters.append(" ")
    for line in "".join(letters).split("\n"):
        split = table.contracted(line.split())
        words = [_known(_SAME.get(word, word)) for word in split if word not in table.FILLERS]
        # Long ones are looked at in parts that overlap, so that the time stays linear in the text.
        for start in range(0, len(words), _PART - _OVERLAP):
            yield words[start : start + _PART]


def _vocabulary() -> frozenset[str]:
    groups = [group for rule in RULES for group in (*rule.groups, rule.unless)]
    listed = (*groups, table.NEGATORS, table.NOT_DENYING, table.OTHERS, table.SELF, table.PAST, table.IDIOMS)
    return frozenset(word for group in listed for phrase in group for word in phrase)


_VOCABULARY = _vocabulary()
_KEYS = tuple(sorted(word for word in table.SLIPPING.split()))


@lru_cache(maxsize=4096)
def _known(word: str) -> str:
    """Return the stem of a word; of a mistyped key word, of the one that was meant."""
    stem = table.stem(word)
    if stem in _VOCABULARY or stem in table.NOT_SLIPS or not _SLIP_FROM <= len(word) <= 20:
        return stem
    slips = 1 if len(word) < 9 else 2
    near = (
        (OSA.distance(word, key, score_cutoff=slips), key)
        for key in _KEYS
        if abs(len(key) - len(word)) <= slips
    )
    best = min(near, default=(slips + 1, word))
    return table.stem(best[1]) if best[0] <= slips else stem


def _without_idioms(words: Sequence[str]) -> list[str]:
    """Return words without figures of speech; a mark in their place keeps the rest apart."""
    left: list[str] = []
    at = 0
    while at < len(words):
        length = _phrase_at(words, at, table.IDIOMS)
        pair = None if length else table.AS_ONE.get((words[at], words[at + 1] if at + 1 < len(words) else ""))
        left.append("_" if length else pair or words[at])
        at += length or (2 if pair else 1)
    return left


@lru_cache(maxsize=512)
def _by_first(group: frozenset[tuple[str, ...]]) -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in group:
        found.setdefault(phrase[0], []).append(phrase)
    return {word: tuple(sorted(phrases, key=len, reverse=True)) for word, phrases in found.items()}


def _phrase_at(words: Sequence[str], at: int, group: frozenset[tuple[str, ...]]) -> int:
    """Return how many words of the longest phrase of `group` stand at a place; 0 for none."""
    for phrase in _by_first(group).get(words[at], ()):
        if tuple(words[at : at + len(phrase)]) == phrase:
            return len(phrase)
    return 0


def _may_hold(rule: Rule, present: frozenset[str]) -> bool:
    return all(not present.isdisjoint(_by_first(group)) for group in rule.groups)


def _places(words: Sequence[str], group: frozenset[tuple[str, ...]]) -> list[tuple[int, int]]:
    """Return start and end of each phrase of a group."""
    lengths = ((at, _phrase_at(words, at, group)) for at in range(len(words)))
    return [(at, at + length) for at, length in lengths if length]


def _holds(rule: Rule, words: Sequence[str]) -> bool:
    if rule.unless and _places(words, rule.unless):
        return False
    places = [_places(words, group) for group in rule.groups]
    if not all(places):
        return False
    for first in places[0]:
        others = [_nearest(first, group, rule.near) for group in places[1:]]
        if all(others) and _counts(rule, words, [first, *(other for other in others if other)]):
            return True
    return False


def _nearest(first: tuple[int, int], group: Sequence[tuple[int, int]], near: int) -> tuple[int, int] | None:
    """Return the nearest other phrase that does not overlap the first; None when none is near."""
    apart = [other for other in group if other[0] >= first[1] or other[1] <= first[0]]
    closest = min(apart, key=lambda other: abs(other[0] - first[0]), default=None)
    return closest if closest and abs(closest[0] - first[0]) <= near else None


def _counts(rule: Rule, words: Sequence[str], matched: Sequence[tuple[int, int]]) -> bool:
    """Return whether a match is the writer's own, now, and not denied."""
    start = min(place[0] for place in matched)
    if _is_anothers(words, start):
        return rule.urgency is Urgency.EMERGENCY_NOW and bool(_places(words, table.HELP_THEM))
    is_past = bool(_places(words, table.PAST)) and not _places(words, table.PRESENT)
    if is_past or _is_only_talk(words, matched[0][0]):
        return False
    return not (rule.deniable and any(_is_denied(words, place[0]) for place in matched))


def _is_only_talk(words: Sequence[str], start: int) -> bool:
    """Return whether it is only talked about: "you wrote stop if I get chest pain", "a course on strokes"."""
    before = words[max(start - _TALK_WITHIN, 0) : start]
    return _leads_up(before, table.TOPIC) or (
        _leads_up(before, table.WHEN_EVER) and bool(_places(words, table.ADVICE))
    )


def _leads_up(before: Sequence[str], group: frozenset[tuple[str, ...]]) -> bool:
    """Return whether a phrase stands before a sign and the writer does not stand between them."""
    return any(not _places(before[end:], table.SELF) for _, end in _places(before, group))


def _is_denied(words: Sequence[str], start: int) -> bool:
    """Return whether a denial comes shortly before; over a comma only in a list that ends with "or"."""
    if start and _phrase_at(words, start - 1, table.NEARLY):
        return True
    if _places(words[start:], table.AFTER_ALL):
        return False
    lists = "or" in words[start:] or "nor" in words[start:] or "or" in words[:start]
    reach = 0
    at = start - 1
    while at >= 0 and reach <= (12 if lists else _DENIED_WITHIN):
        if words[at] == "," and not lists:
            return False
        if words[at] in ("but", "and", "because", "just", "so", "its") and not (lists and words[at] == "and"):
            return False
        if _phrase_at(words, at, table.NEGATORS) and not _denies_nothing(words, at):
            return True
        at -= 1
        reach += words[at + 1] != ","
    return False


def _denies_nothing(words: Sequence[str], at: int) -> bool:
    if words[at] == "never" and _places(words, table.LIKE_THIS):
        return True
    return any(_phrase_at(words, place, table.NOT_DENYING) for place in (at, max(at - 1, 0)))


def _is_anothers(words: Sequence[str], start: int) -> bool:
    """Return whether the sign is somebody else's: the nearest person named before it is another."""
    for at in range(start, max(start - _WHOSE_WITHIN, -1), -1):
        # "like someone sitting on my chest" is not about someone.
        length = _phrase_at(words, at, table.OTHERS)
        if length and words[max(at - 1, 0)] != "like" and not _tells(words, at + length):
            return True
        is_owner = (
            words[at] in ("my", "our") and at + 1 < len(words) and _phrase_at(words, at + 1, table.OTHERS)
        )
        if _phrase_at(words, at, table.SELF) and not is_owner and at < start + 1:
            return False
    return False


def _tells(words: Sequence[str], at: int) -> bool:
    """Return whether somebody says something there: "they said it was a seizure" is about the writer."""
    return at < len(words) and words[at] in table.SAYING
