"""Training beside the block, as people write it: `ran 5k`, `football match 90 min yesterday`.

Read only where every word is known; where one may be mistyped or is strange it is asked about, never stored by a guess.
A question, a plan or a wish is no training that was done.
"""

import re
from datetime import date, timedelta
from enum import StrEnum

from rapidfuzz import fuzz

from core.checkin.sites import SITE_WORDS
from core.value import Value

ALIKE = 80
"""How like one of our words a strange one must be to be asked about. [0..100] Our proposal."""
MOST_STRANGE = 3
"""More strange words than this are a message to the coach. Our proposal."""
MOST_LETTERS = 80
"""A longer line is a message to the coach. [characters] Our proposal."""
MIN_LETTERS = 3
"""A word of so few letters is like too many others. [characters] Our proposal."""
MOST_MINUTES = 600
"""Longest training that is kept. [min] Our proposal: a slip of a digit is over it."""


class Trained(StrEnum):
    """What somebody did beside the block."""

    RUN = "run"
    RIDE = "ride"
    MATCH = "match"
    SWIM = "swim"
    HIKE = "hike"
    CLASS = "class"
    WORK = "physical work"
    OTHER = "other"


EFFORTS = ("Very easy", "Easy", "Medium", "Hard", "Very hard")
"""Effort of the whole, in words; kept as the place from 1. No number stands beside a word. Our proposal."""

_WORDS = {
    Trained.RUN: "run ran running jog jogged jogging",
    Trained.RIDE: "ride rode riding cycled cycling bike biked biking",
    Trained.MATCH: "match game football soccer rugby hockey tennis basketball volleyball handball squash badminton",
    Trained.SWIM: "swim swam swimming swum",
    Trained.HIKE: "hike hiked hiking hillwalk",
    Trained.CLASS: "class yoga pilates aerobics dance dancing climbing bouldering boxing judo karate",
    Trained.WORK: "digging shovelling removals",
}
KINDS = {word: kind for kind, words in _WORDS.items() for word in words.split()}
PHRASES = {"physical work": "digging", "yard work": "digging", "moved house": "removals"}
"""Words together that mean one of ours."""
_BESIDE = (
    "i a an the my did had went for played go was it of in on at and then with today this morning afternoon evening "
    "tonight just about around min mins minute minutes h hr hrs hour hours k km kms m mi mile miles other training "
    "after work before lunch long short half marathon indoor indoors outside outdoors park league easy hard very "
    "medium session"
)
_FILLERS = frozenset(_BESIDE.split())
_AGAINST = (
    "tomorrow will should can could would may might want plan planning going not no never cannot can't didn't don't "
    "won't instead if ok okay out over hurt hurts hurting pain sore ache aches "
    "is are cancelled canceled missed skipped skip broken off"
)
_NOT_DONE = frozenset(_AGAINST.split())
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MINUTES = re.compile(r"(?<![\d:.,/])(\d{1,3})\s*(?:min(?:ute)?s?|')(?![a-z\d])")
_HOURS = re.compile(
    r"(?<![\d:.,/])(\d{1,2})(?:[.,](\d))?\s*(?:h|hrs?|hours?)(?![a-z])(?:\s*(\d{1,2})(?![\dk]))?"
)
_DISTANCE = re.compile(r"(?<![\d:])\d{1,3}(?:[.,]\d{1,2})?\s*(?:k|kms?|m|mi|miles?)(?![a-z\d])")
_EFFORT = re.compile(r"\b(very easy|very hard|easy|medium|hard)\b")
_SIGNS = " ,.;:-"
_WORD = re.compile(r"[^\W\d_][\w'-]*")


class OtherRead(Value):
    """Training beside the block, as read.

    Attributes:
        kind: What.
        on: The date.
        minutes: How long; None where that was not said. [min, 1..600]
        effort: Place in `EFFORTS` from 1; None where that was not said.
        clear: False when it must be asked about first.
        distance: True when a distance was said, which is not kept.
    """

    kind: Trained
    on: date
    minutes: int | None = None
    effort: int | None = None
    clear: bool = True
    distance: bool = False


def training_read(text: str, today: date) -> OtherRead | None:
    """Return the training beside the block that a line tells of; None for anything else.

    Args:
        text: As typed.
        today: Date on her calendar; `yesterday` and the name of a day are held against it.
    """
    words = " ".join(text.casefold().replace("’", "'").split())
    if "?" in words or len(words) > MOST_LETTERS:
        return None
    for phrase, ours in PHRASES.items():
        words = re.sub(rf"\b{phrase}\b", ours, words)
    on, words = _date_in(words, today)
    minutes, rest = minutes_read(words)
    distance = _DISTANCE.search(rest) is not None
    rest = _DISTANCE.sub(" ", rest)
    if re.search(r"\d", rest):
        return None
    said = _WORD.findall(rest)
    if _NOT_DONE & set(said) or any(word in SITE_WORDS for word in said):
        return None
    kinds = list(dict.fromkeys(KINDS[word] for word in said if word in KINDS))
    strange = [word for word in said if word not in KINDS and word not in _FILLERS]
    kind, sure = _kind_of(kinds, strange)
    if kind is None or len(strange) > MOST_STRANGE:
        return None
    clear = sure and not strange and (minutes is None or minutes <= MOST_MINUTES)
    kept = minutes if minutes is not None and 1 <= minutes <= MOST_MINUTES else None
    return OtherRead(
        kind=kind, on=on, minutes=kept, effort=effort_read(words), clear=clear, distance=distance
    )


def training_beside(text: str, today: date) -> list[tuple[OtherRead, str]]:
    """Return each way to part a line in training that was done, beyond doubt, and other words that name a place.

    Only training with its minutes or way is, so that `my knee hurts after the run` stays one saying; minutes first.

    Args:
        text: As typed: `ran 30 min, left knee 5`, `left knee 5 after a run 30 min`.
        today: Date on her calendar.
    """
    words = text.split()
    if len(text) > MOST_LETTERS or not any(word in SITE_WORDS for word in _WORD.findall(text.casefold())):
        return []
    pairs = [
        (" ".join(words[:at]).rstrip(_SIGNS), " ".join(words[at:]).lstrip(_SIGNS))
        for at in range(1, len(words))
    ]
    found: list[tuple[OtherRead, str]] = []
    for before, after in pairs:
        for told, rest in ((before, after), (after, before)):
            read = training_read(told, today)
            if read is not None and read.clear and (read.minutes is not None or read.distance):
                found.append((read, rest))
    return sorted(found, key=lambda one: one[0].minutes is None)


def _kind_of(kinds: list[Trained], strange: list[str]) -> tuple[Trained | None, bool]:
    """Return the kind that is meant, and whether that is beyond doubt: a match of football is one kind, not two."""
    if len(kinds) == 1:
        return kinds[0], True
    if kinds:
        return kinds[0], False
    for word in strange:
        near = [ours for ours in KINDS if len(word) > MIN_LETTERS and fuzz.ratio(word, ours) >= ALIKE]
        if near:
            return KINDS[max(near, key=lambda ours: fuzz.ratio(word, ours))], False
    return None, False


def _date_in(words: str, today: date) -> tuple[date, str]:
    """Return the date that is meant, the last one past of a day that is named, and the words without it."""
    if re.search(r"\byesterday\b", words):
        return today - timedelta(days=1), re.sub(r"\byesterday\b", " ", words)
    for place, day in enumerate(_DAYS):
        name = rf"\b(?:on |last )?(?:{day}|{day[:3]})\b"
        if re.search(name, words):
            return today - timedelta(days=(today.weekday() - place) % 7), re.sub(name, " ", words)
    return today, words


def minutes_read(words: str) -> tuple[int | None, str]:
    """Return how long a line says that something took, and the words without it. [min]"""
    if found := _HOURS.search(words):
        minutes = int(found[1]) * 60 + int(found[2] or 0) * 6 + int(found[3] or 0)
        return minutes, words[: found.start()] + " " + words[found.end() :].removeprefix("min")
    if found := _MINUTES.search(words):
        return int(found[1]), words[: found.start()] + " " + words[found.end() :]
    return None, words


def effort_read(words: str) -> int | None:
    """Return the place, from 1, of the effort that a line names; None where it names none."""
    found = _EFFORT.search(words.casefold())
    return None if found is None else [each.casefold() for each in EFFORTS].index(found[1]) + 1


def kind_read(text: str) -> Trained | None:
    """Return the kind that a line of its name alone means, as it stands on its button; None for anything else."""
    words = " ".join(text.casefold().strip(" .!").split())
    return next((each for each in Trained if each.value == words), KINDS.get(words))
