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
_SIDES = frozenset({Mark.LEFT, Mark.RIGHT, Mark.BOTH})
_ALONE = _SIDES | {Mark.SITE, Mark.NUMBER, Mark.SLASH, Mark.BODY_FILLER, Mark.FILLER, Mark.AT, Mark.MINUS}
_OUT_OF_TEN = frozenset({"out of 10", "out of ten"})
_SET = "seat pad pads notch pin hole holes setting settings level height position machine rack"
_SETTINGS = frozenset(_SET.split())
"""Words of how a machine or a rack is set."""
_SINCE = "after from since when during while today now again this all still"
_WHEN = frozenset(_SINCE.split())
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


def scored_parts(tokens: Sequence[Token], name: str, kind: Mark) -> list[Token]:
    """Return a line of other words with "pain", or "sore", put after each scored site that is said by itself.

    By itself: between signs, `busy week, knee 5`, or with its side at the end of such a part, `ran far left knee 5`.
    What a machine is set to, `seat 4, back 3`, is no score of anything.

    Args:
        tokens: A whole line.
        name: Of the exercise, folded.
        kind: Which word; "sore" only for a muscle.
    """
    if any(token.text in _SETTINGS for token in tokens):
        return list(tokens)
    said: list[Token] = []
    part: list[Token] = []
    for token in (*tokens, Token(Mark.STOP, "")):
        if token.mark not in (Mark.STOP, Mark.SPLIT):
            part.append(token)
            continue
        said += _with_kind(part, name, kind)
        if token.text:
            said.append(token)
        part = []
    return said


def _with_kind(part: Sequence[Token], name: str, kind: Mark) -> Sequence[Token]:
    start = len(part)
    while start and (part[start - 1].mark in _ALONE or part[start - 1].text in _OUT_OF_TEN):
        start -= 1
    first = _first_site(part[start:])
    if first is None:
        return _leading(part, name, kind)
    lead = part[start : start + first]
    sided = [place for place, token in enumerate(lead) if token.mark in _SIDES]
    if start or any(token.mark is Mark.NUMBER for token in lead):
        if not sided:
            return part
        start += sided[-1]
    own = part[start:]
    if not is_scored(own, name) or any(token.mark in _SAID for token in part):
        return part
    chosen = kind if is_muscle(own) else Mark.PAIN
    return [*part[:start], *as_said(own, chosen)]


def _leading(part: Sequence[Token], name: str, kind: Mark) -> Sequence[Token]:
    """Return a part that begins with a scored site and goes on to tell when: `left knee 5 after the run`."""
    first = _first_site(part)
    lead = part[: first or 0]
    begins = all(token.mark in _ALONE and token.mark is not Mark.NUMBER for token in lead)
    goes_on = any(token.text in _WHEN for token in part)
    if (
        first is None
        or not (begins and goes_on and is_scored(part, name))
        or any(token.mark in _SAID for token in part)
    ):
        return part
    return as_said(part, kind if is_muscle(part) else Mark.PAIN)


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
