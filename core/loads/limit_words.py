"""A clinician's limit as a coach types it: `no overhead until 1 June, by physiotherapist`. English.

What is said by halves is read as the wider limit: of a pattern before one exercise, of a place on both sides. What
cannot be read is told, and then nothing of the line counts. Nothing here ends a limit or clears anybody. Which word
names which pattern: common practice, no source.
"""

import re
from collections.abc import Mapping
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from core.checkin.day_spans import day_said, days_said
from core.checkin.sites import SITE_WORDS
from core.loads.clinician_words import clinician_named
from core.loads.limits import Clinician, Limit, LimitKind
from core.programme.catalogue import CATALOGUE, named, suggestions
from core.programme.exercises import Exercise, Pattern
from core.programme.folding import folded
from core.programme.restriction_words import restrictions_in
from core.units import Mass, Unit
from core.value import Value

LONGEST = 300
"""Longest line that is read. [characters] Our proposal."""

_PARTS = re.compile(r",(?!\d)|[;\n]")
_CLAUSES = re.compile(r"\b(until|till|til|since|from|for|by|(?:to be )?review(?:ed)?(?: on| by| in)?)\b:?")
_UNIT = r"kgs?|kilos?|kilograms?|lbs?|pounds?"
_MASS = rf"(\d{{1,4}}(?:[.,]\d{{1,3}})?)\s*({_UNIT})?\s*((?:in )?(?:each|per|a|an) (?:hand|side))?"
_MOST = (
    r"(?:at (?:the )?most|max(?:imum)?(?: of)?|up to|limited to|"
    r"no(?:t| loads?|thing)? (?:more|heavier|over|above)(?: than)?)"
)
_LOAD_LAST = re.compile(rf"(?:(.*?)\s+)?{_MOST}\s+{_MASS}")
_LOAD_FIRST = re.compile(rf"{_MOST}\s+{_MASS}\s+(?:on|in|for|of|with)\s+(?:the\s+)?(.+)")
_NO = re.compile(r"(?:no|not|nothing|avoid|without|do not|don't|must not|never)\s+(?:do\s+)?(?:any\s+)?(.+)")
_LOADS = re.compile(
    r"(?:(?:that|which)\s+)?(?:loads?|loading(?: of)?|load on|weight on|on|with)\s+"
    r"(?:on\s+)?(?:the\s+|her\s+|his\s+)?(.+)"
)
_SITE_LOADING = re.compile(r"(.+?)\s+(?:loading|loads?)")
_SIDES = re.compile(r"(?:(?:left|right|both|either)\s+)")
_ALL = frozenset(
    {"training", "exercise", "exercises", "lifting", "at all", "training at all", "exercise at all"}
)
_EVERYTHING = frozenset(
    {"", "all", "everything", "anything", "all exercises", "all lifts", "loads", "any load"}
)
_PATTERNS: Mapping[str, tuple[Pattern, ...]] = {
    folded(word): (pattern,)
    for pattern in Pattern
    for word in (pattern.value, f"{pattern.value}ing", f"{pattern.value}{pattern.value[-1]}ing")
} | {
    folded(word): patterns
    for word, patterns in (
        ("lunging", (Pattern.LUNGE,)),
        ("hinging", (Pattern.HINGE,)),
        ("step-ups", (Pattern.STEP,)),
        ("rowing", (Pattern.HORIZONTAL_PULL,)),
        ("pull-ups", (Pattern.VERTICAL_PULL,)),
        ("press", (Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS)),
        ("pressing", (Pattern.HORIZONTAL_PRESS, Pattern.VERTICAL_PRESS)),
        ("pulling", (Pattern.HORIZONTAL_PULL, Pattern.VERTICAL_PULL)),
    )
}
"""What a word means, where it means a whole pattern, or two of them."""


class LimitRead(Value):
    """What a line says.

    Attributes:
        limits: Limits, without rows (0); all with the same practitioner and days. None where anything was not read.
        unread: Parts that were not understood, as typed.
        near: Names of exercises that may have been meant.
        no_unit: True where a load has no unit, so that it must be asked.
        backwards: True where it would end before it begins.
    """

    limits: tuple[Limit, ...] = ()
    unread: tuple[str, ...] = ()
    near: tuple[str, ...] = ()
    no_unit: bool = False
    backwards: bool = False


def limit_read(text: str, today: date, catalogue: Mapping[str, Exercise] = CATALOGUE) -> LimitRead:
    """Return the limits of a line. A date without a year is the next one, after `since` the last.

    Args:
        text: As typed, without the client's name.
        today: The client's local date; a limit holds from it on, where no other day is named.
        catalogue: Exercises that the coach may name.
    """
    common: dict[str, Any] = {"since": today, "by": Clinician.OTHER}
    whats: list[dict[str, Any]] = []
    unread: list[str] = []
    near: tuple[str, ...] = ()
    for part in (" ".join(each.split()) for each in _PARTS.split(text[:LONGEST])):
        rest = _common(part.casefold().strip(" ."), today, common)
        found = _whats(rest, catalogue) if rest else ()
        if rest is None or (rest and not found):
            unread.append(part)
            near = near or tuple(each.name for each in suggestions(_bare(rest or ""), 3, catalogue))
        whats.extend(found)
    if unread or not whats:
        return LimitRead(unread=tuple(unread), near=near)
    if any(what.get("mass") == _NO_UNIT for what in whats):
        return LimitRead(no_unit=True)
    if "until" in common and common["until"] < common["since"]:
        return LimitRead(backwards=True)
    return LimitRead(limits=tuple(Limit.model_validate({"row_id": 0, **common, **what}) for what in whats))


_NO_UNIT = "no unit"


def _common(said: str, today: date, common: dict[str, Any]) -> str | None:
    """Take practitioner and days out of a part; return what is left, or None where one of them was not read."""
    clinician = clinician_named(said)
    if clinician is not None:
        common["by"] = clinician
        return ""
    what, *clauses = _CLAUSES.split(said)
    for key, rest in zip(clauses[::2], (each.strip() for each in clauses[1::2]), strict=True):
        name, value = _clause(key, rest, today)
        if value is not None:
            common[name] = value
        elif key == "for":
            what = f"{what.strip()} for {rest}"
        else:
            return None
    return what.strip()


def _clause(key: str, said: str, today: date) -> tuple[str, date | Clinician | None]:
    """Return the field that a clause says something of, and what; None where it was not read."""
    if key == "by":
        return "by", clinician_named(said)
    if key == "for":
        span = days_said(f"for {said}", today)
        return "until", span.last if span is not None and not span.rest else None
    if key in ("since", "from"):
        return "since", day_said(said, today, past=key == "since")
    if "review" in key:
        return "review_on", day_said(said, today) or _after(said, today)
    return "until", day_said(said, today)


def _after(said: str, today: date) -> date | None:
    """Return the day so long after today: `3 weeks`."""
    span = days_said(f"for {said}", today)
    return None if span is None or span.rest else span.last + timedelta(days=1)


def _whats(said: str, catalogue: Mapping[str, Exercise]) -> tuple[dict[str, Any], ...]:
    """Return what one part limits, as fields of limits; none where that is not clear."""
    first, last = _LOAD_FIRST.fullmatch(said), _LOAD_LAST.fullmatch(said)
    if first is not None:
        return _most(first[4], first.groups()[:3], catalogue)
    if last is not None:
        return _most(last[1] or "", last.groups()[1:], catalogue)
    denied = _NO.fullmatch(said)
    if denied is None:
        return ()
    restrictions, _ = restrictions_in(denied[1])
    if restrictions:
        return tuple({"kind": LimitKind.RESTRICTION, "restriction": one} for one in sorted(restrictions))
    if denied[1] in _ALL:
        return ({"kind": LimitKind.FORBIDDEN},)
    return tuple({"kind": LimitKind.FORBIDDEN, **aim} for aim in _aims(denied[1], catalogue))


def _most(
    aim: str, mass: tuple[str | None, ...], catalogue: Mapping[str, Exercise]
) -> tuple[dict[str, Any], ...]:
    aims = ({},) if aim in _EVERYTHING else _aims(aim, catalogue)
    value, unit, apart = mass
    number = Decimal((value or "").replace(",", ".")) * (2 if apart else 1)
    kept = _NO_UNIT if unit is None else Mass.of(number, Unit.KG if unit.startswith("k") else Unit.LB)
    return tuple({"kind": LimitKind.MOST_LOAD, "mass": kept, **each} for each in aims)


def _aims(said: str, catalogue: Mapping[str, Exercise]) -> tuple[dict[str, Any], ...]:
    """Return what a limit is about: a place, patterns or an exercise; nothing where that is not clear."""
    loading = _LOADS.fullmatch(said) or _SITE_LOADING.fullmatch(said)
    word = SITE_WORDS.get(_SIDES.sub("", loading[1] if loading is not None else said).strip())
    if word is not None and len(word.sites) == 1:
        return ({"site": word.sites[0]},)
    patterns = _PATTERNS.get(folded(said), ())
    if patterns:
        return tuple({"pattern": each} for each in patterns)
    exercise = named(said, catalogue)
    return () if exercise is None else ({"exercise": exercise.key},)


def _bare(said: str) -> str:
    denied = _NO.fullmatch(said)
    return denied[1] if denied is not None else said
