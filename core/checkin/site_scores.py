"""A site without the word "pain": `knee 3` beside sets is a report, `knee` alone is asked about."""

import re
from collections.abc import Sequence

from core.checkin.body_words import is_range, score_of
from core.checkin.tokens import Token, first_number
from core.checkin.words import Mark

_SAID = frozenset({Mark.PAIN, Mark.SORE, Mark.PAINLESS, Mark.NOT})
_BETWEEN = frozenset({Mark.LEFT, Mark.RIGHT, Mark.BOTH, Mark.BODY_FILLER, Mark.FILLER, Mark.AT, Mark.SPLIT})
_NOT_REPS = frozenset(
    {Mark.NUMBER, Mark.CLOCK, Mark.TIMES, Mark.KG, Mark.LB, Mark.SECOND, Mark.MINUTE, Mark.REPS}
)
_AWAY = frozenset({"at", "in", "to", "by", "on", "for", "with"})
"""After "back" these make it a way home: `back at 7`."""


def as_said(tokens: Sequence[Token], kind: Mark = Mark.PAIN) -> list[Token]:
    """Return tokens with "pain", or "sore", after the first site where no such word was said; else none."""
    first = _first_site(tokens)
    if first is None or any(token.mark in _SAID for token in tokens):
        return []
    after = tokens[first + 1].text if first + 1 < len(tokens) else ""
    if tokens[first].text == "back" and after in _AWAY:
        return []
    return [*tokens[: first + 1], Token(kind, kind.value), *tokens[first + 1 :]]


def is_scored(tokens: Sequence[Token], name: str) -> bool:
    """Return whether a line names one site with one score right after it, and the site is no part of the name.

    Args:
        tokens: A whole line.
        name: Of the exercise, folded: `hip 8` may be a short "hip thrust 8".
    """
    first = _first_site(tokens)
    if first is None or sum(token.mark is Mark.SITE for token in tokens) > 1:
        return False
    if in_name(tokens, name):
        return False
    at = first + 1
    while at < len(tokens) and tokens[at].mark in _BETWEEN:
        at += 1
    if at == len(tokens) or tokens[at].mark is not Mark.NUMBER:
        return False
    if is_range(tokens, at):
        at += 2
    marks = [token.mark for token in tokens[at + 1 : at + 3]]
    is_share = marks == [Mark.SLASH, Mark.NUMBER] and first_number(tokens[at + 2]) == 10
    goes_on = marks[:1] and (marks[0] in _NOT_REPS or (marks[0] is Mark.SLASH and not is_share))
    return score_of(first_number(tokens[at])) is not None and "," not in tokens[at].text and not goes_on


def _first_site(tokens: Sequence[Token]) -> int | None:
    return next((place for place, token in enumerate(tokens) if token.mark is Mark.SITE), None)


def in_name(tokens: Sequence[Token], name: str) -> bool:
    """Return whether the first site is a part of the exercise's name as well."""
    first = _first_site(tokens)
    words = set(re.findall(r"\w+", tokens[first].text)) if first is not None else set()
    return bool(words & set(re.findall(r"\w+", name)))


def without_site(tokens: Sequence[Token]) -> list[Token]:
    """Return tokens without the first site."""
    first = _first_site(tokens)
    return [token for place, token in enumerate(tokens) if place != first]


def is_muscle(tokens: Sequence[Token]) -> bool:
    """Return whether the first site is the word for a muscle, of which a score may be soreness as well."""
    first = _first_site(tokens)
    place = tokens[first].place if first is not None else None
    return place is not None and place.muscle
