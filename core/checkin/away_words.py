"""Being away, as people type it: from when until when, training or not, what there is to lift, where. English."""

import re
from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from core.checkin.day_spans import days_said
from core.checkin.zones import is_city, zone_of_city

PLACE = "away "
"""How the name of a place begins that is that of one absence; its first day follows."""
LONGEST_CITY = 3
"""Words of the longest name of a city that is looked for."""
_NO_TRAINING = re.compile(
    r"\b(?:no|not|without|won't be|not going to be) (?:train|training|gym|lifting)\b|\brest\b"
)
_TRAINING = re.compile(r"\b(?:train|training|gym there|lifting)\b")
_KITS = (
    (
        "both",
        re.compile(
            r"\b(?:both|gym|bar(?:bell)?s? and (?:dumb|hand)\w+|(?:dumb|hand)\w+ and (?:a )?bar(?:bell)?s?)\b"
        ),
    ),
    ("dumbbells", re.compile(r"\b(?:dumb-?bells?|dumbells?|hand weights)\b")),
    ("bar", re.compile(r"\b(?:bar|barbells?|bar and plates)\b")),
    ("bodyweight", re.compile(r"\b(?:body-?weight|body weight|no kit|no weights|nothing)\b")),
)
_AWAY = re.compile(
    r"\b(?:on (?:a |my )?(?:holidays?|vacation|leave|(?:business |work )?trip)|away(?! from (?:the|that|this))|"
    r"travell?ing|out of town|abroad)\b"
)
_SELF = re.compile(r"\b(?:i|i'm|im|i'll|we|we're|we'll)\b")
_IN = re.compile(r"\b(?:i am|i'm|im|i will be|i'll be) (?:in|at) ")
_BACK = re.compile(
    r"(?:i am|i'm|im) (?:back(?: (?:home|again|now|today|from [\w' ]+))?|home(?: again)?)|back (?:home|again)"
)


class AwaySaid(NamedTuple):
    """What was said of an absence; None for what was not.

    Attributes:
        first: First day.
        last: Last day.
        training: Whether she trains there.
        kit: Kind of what there is to lift: "bar", "dumbbells", "both" or "bodyweight".
        zone: Zone of the city that was named.
    """

    first: date | None = None
    last: date | None = None
    training: bool | None = None
    kit: str | None = None
    zone: str | None = None


def away_line(text: str, today: date) -> AwaySaid:
    """Return what a line says that is about an absence, such as `3-10 May, dumbbells, in Tokyo`."""
    span = days_said(text, today)
    rest = _plain(text) if span is None else span.rest
    kit = kit_kind(rest)
    training = False if _NO_TRAINING.search(rest) else True if kit or _TRAINING.search(rest) else None
    return AwaySaid(
        first=span.first if span is not None else None,
        last=span.last if span is not None else None,
        training=training,
        kit=kit if training else None,
        zone=_zone_in(rest),
    )


def away_said(text: str, today: date) -> AwaySaid | None:
    """Return what plain words say of an absence; None where they are of something else."""
    said = _plain(text)
    found = away_line(text, today)
    away = _AWAY.search(said) is not None and (_SELF.search(said) is not None or found.first is not None)
    there = _IN.search(said) is not None and found.first is not None and found.zone is not None
    return found if away or there else None


def is_back(text: str) -> bool:
    """Return whether words say that somebody is back."""
    return _BACK.fullmatch(_plain(text)) is not None


def kit_kind(text: str) -> str | None:
    """Return the kind of kit that words name; None where they name none."""
    said = _plain(text)
    return next((kind for kind, words in _KITS if words.search(said)), None)


def _zone_in(text: str) -> str | None:
    return next((zone_of_city(name)[0] for name in _names(text) if is_city(name)), None)


def _names(text: str) -> Iterator[str]:
    words = text.split()
    for length in range(LONGEST_CITY, 0, -1):
        for start in range(len(words) - length + 1):
            yield " ".join(words[start : start + length])


def _plain(text: str) -> str:
    return " ".join(re.sub(r"[,;!?()]|\.(?!\d)", " ", text.casefold().replace("’", "'")).split())
