"""Questions asked once in a while, in a few taps: the weekly check-in that a coach edits, and the end of a block.

Answers are words, never numbers: only pain has a scale of numbers, so that no two scales can be mistaken for one
another.
"""

import re
from collections.abc import Sequence
from enum import StrEnum

from pydantic import Field
from rapidfuzz import fuzz

from core.value import Value

MOST = 4
"""Most questions of a check-in. Our proposal: more are not answered."""
LONGEST = 120
"""Longest question. [characters] Our proposal: it stands on a card."""
ALIKE = 80
"""How like one of the words a typed answer must be to be asked about. [0..100] Our proposal."""
MOST_WORDS = 3
"""More words than this are a line of her own, not a slip in one of ours. Our proposal."""


class Kind(StrEnum):
    """How a question is answered."""

    HARD = "how hard"
    FIVE = "five words"
    REST = "sleep and stress"
    YES_NO = "yes or no"
    FREE = "free line"
    PICK = "quick words"


class Part(Value):
    """One row of words to choose from.

    Attributes:
        name: What it is about, where a question has two rows; else empty.
        words: The words, in order.
    """

    name: str
    words: tuple[str, ...]


PARTS: dict[Kind, tuple[Part, ...]] = {
    Kind.HARD: (Part(name="", words=("Very hard", "Hard", "About right", "Easy", "Very easy")),),
    Kind.FIVE: (Part(name="", words=("Very bad", "Bad", "So-so", "Good", "Very good")),),
    Kind.REST: (
        Part(name="Sleep", words=("Good", "So-so", "Bad")),
        Part(name="Stress", words=("Low", "Medium", "High")),
    ),
    Kind.YES_NO: (Part(name="", words=("Yes", "No")),),
    Kind.FREE: (),
}
"""The words of each kind; those of `PICK` are its question's own. Our proposal."""
_SAME = {
    "y": "yes",
    "yeah": "yes",
    "yep": "yes",
    "n": "no",
    "nope": "no",
    "ok": "so-so",
    "okay": "so-so",
    "so so": "so-so",
    "middling": "medium",
    "right": "about right",
    "just right": "about right",
    "fine": "good",
    "well": "good",
    "badly": "bad",
    "little": "low",
    "much": "high",
    "a lot": "high",
}
"""Other words for ours."""
_NONE = frozenset({"skip", "nothing", "no", "none", "nope", "nothing really", "not really", "pass", "-"})


class Question(Value):
    """One question.

    Attributes:
        text: As it is asked. [1..120 characters]
        kind: How it is answered; a line of her own is always taken too.
        none: The button of somebody who has nothing to say.
        words: Quick words of a `PICK`.
    """

    text: str = Field(min_length=1, max_length=LONGEST)
    kind: Kind
    none: str = "Skip"
    words: tuple[str, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """Its rows of words; none for a free line."""
        return (Part(name="", words=self.words),) if self.kind is Kind.PICK else PARTS[self.kind]


CHECK_IN = (
    Question(text="How was your training week?", kind=Kind.HARD),
    Question(text="How were sleep and stress?", kind=Kind.REST),
    Question(text="Is anything worrying you?", kind=Kind.FREE, none="Nothing"),
    Question(text="What is one thing that went well?", kind=Kind.FREE),
)
"""What is asked until a coach edits it. Our proposal."""
BLOCK_END = (
    Question(
        text="What worked in this block?",
        kind=Kind.PICK,
        words=("The days", "The exercises", "The loads", "The length"),
    ),
    Question(
        text="What did not work?",
        kind=Kind.PICK,
        none="Nothing",
        words=("Too long", "Too hard", "Too easy", "The days"),
    ),
    Question(
        text="What would you like next?",
        kind=Kind.PICK,
        words=("The same again", "Something new", "Fewer days", "More days"),
    ),
    Question(text="Is there any pain or worry that stays?", kind=Kind.PICK, none="Nothing", words=("Pain",)),
)
"""What is asked at the end of a block. Our proposal."""


class Answer(Value):
    """What a typed line says to a question.

    Attributes:
        chosen: Place of the word for each row that was answered, by row.
        none: True when there is nothing to say.
        near: True when it is like one of the words, and must be asked about.
    """

    chosen: dict[int, int] = Field(default_factory=dict)
    none: bool = False
    near: bool = False


def answer_read(text: str, question: Question) -> Answer | None:
    """Return what a line says in the words of a question; None for a line of her own."""
    words = _folded(text)
    parts = question.parts
    if words == question.none.casefold() or (words in _NONE and question.kind is not Kind.YES_NO):
        return Answer(none=True)
    names = [part.name.casefold() for part in parts if part.name]
    said = [piece for each in re.split(r"[,;/:]|\band\b|\bbut\b", words) if (piece := _without(each, names))]
    found = [_place(each, parts) for each in said]
    if said and all(each is not None for each in found):
        return Answer(chosen=dict(each for each in found if each is not None))
    pieces = [piece.strip() for piece in re.split(r"[,;/:]|\band\b", words) if piece.strip()]
    ours = [word.casefold() for part in parts for word in part.words]
    ours += [f"{part.name} {word}".casefold() for part in parts for word in part.words]
    few = 0 < len(pieces) <= len(parts) and all(len(each.split()) <= MOST_WORDS for each in pieces)
    near = few and all(any(fuzz.ratio(piece, each) >= ALIKE for each in ours) for piece in pieces)
    return Answer(near=True) if near else None


def _folded(text: str) -> str:
    return " ".join(text.casefold().replace("’", "'").strip(" .!").split())


def _without(piece: str, names: Sequence[str]) -> str:
    kept = [word for word in piece.split() if word not in (*names, "was", "is")]
    return " ".join(kept)


def _place(said: str, parts: Sequence[Part]) -> tuple[int, int] | None:
    """Return the row and the place of a word."""
    meant = {said, _SAME.get(said, said)}
    for row, part in enumerate(parts):
        for place, word in enumerate(part.words):
            if word.casefold() in meant:
                return row, place
    return None


_TO_TEN = re.compile(
    r"\b(?:0|1|zero|one)\s*(?:-|–|—|to|and|\.\.|bis)\s*(?:5|7|10|100|five|seven|ten)\b"
    r"|\bout of (?:5|7|10|100|five|seven|ten)\b|/\s*10\b|\bscale\b"
)
_BODY = re.compile(r"\b(?:pains?|painful|hurts?|hurting|aches?|aching|sore|injur(?:y|ies|ed))\b")


def asks_for_number(text: str) -> bool:
    """Return whether a question asks for a number on a scale, which only pain has."""
    return _TO_TEN.search(text.casefold()) is not None


def is_of_body(text: str) -> bool:
    """Return whether words ask or tell of pain, so that a yes opens the questions about it."""
    return _BODY.search(text.casefold()) is not None


class Change(Value):
    """What a coach types to edit her questions.

    Attributes:
        what: "put", "kind", "out", "add", "reset", "off" or "on".
        number: Which question, from 1; 0 where it is about none.
        text: Its new text, or the name of a client.
        kind: Its new kind; None where none was named.
    """

    what: str
    number: int = 0
    text: str = ""
    kind: Kind | None = None


CHOSEN = (Kind.FIVE, Kind.YES_NO, Kind.FREE)
"""Kinds that a coach gives a question of hers."""
_KINDS = {"five words": Kind.FIVE, "five": Kind.FIVE, "yes or no": Kind.YES_NO, "yes no": Kind.YES_NO}
_KINDS |= {"free line": Kind.FREE, "free": Kind.FREE, "line": Kind.FREE}
_OF_CLIENT = re.compile(r"(off|on) (\S.*)", re.IGNORECASE)
_OUT = re.compile(r"(?:out|remove|take out) (\d)|(\d) out", re.IGNORECASE)
_KIND = re.compile(r"(\d) (?:as )?([a-z ]+)", re.IGNORECASE)
_PUT = re.compile(r"(\d)[.:)]? (\S.*)")
_ADD = re.compile(r"(?:add|new):? (\S.*)", re.IGNORECASE)


def change_read(text: str) -> Change | None:
    """Return what a line of a coach changes of her questions; None when it cannot be read."""
    words = " ".join(text.split())
    if words.casefold() in ("reset", "as before", "default"):
        return Change(what="reset")
    if found := _OF_CLIENT.fullmatch(words):
        return Change(what=found[1].lower(), text=found[2])
    if found := _OUT.fullmatch(words):
        return Change(what="out", number=int(found[1] or found[2]))
    if (found := _KIND.fullmatch(words)) and found[2].lower() in _KINDS:
        return Change(what="kind", number=int(found[1]), kind=_KINDS[found[2].lower()])
    if found := _PUT.fullmatch(words):
        kind, asked = _kind_first(found[2])
        return Change(what="put", number=int(found[1]), text=asked, kind=kind)
    if found := _ADD.fullmatch(words):
        kind, asked = _kind_first(found[1])
        return Change(what="add", text=asked, kind=kind)
    return None


def _kind_first(text: str) -> tuple[Kind | None, str]:
    """Return the kind that stands before a colon, and the question after it."""
    head, colon, rest = text.partition(":")
    kind = _KINDS.get(head.strip().casefold())
    return (kind, rest.strip()) if colon and kind is not None and rest.strip() else (None, text)


def changed(questions: Sequence[Question], change: Change) -> tuple[Question, ...] | None:
    """Return the questions after a change; None when there is no such question, or no room for one more.

    A question with other words keeps its kind where that fits any question; else it is answered by a free line.
    """
    found, place = list(questions), change.number - 1
    if change.what == "reset":
        return CHECK_IN
    if change.what == "add":
        if len(found) >= MOST:
            return None
        return (*found, Question(text=change.text, kind=change.kind or Kind.FREE))
    if not 0 <= place < len(found):
        return None
    before = found[place]
    if change.what == "out":
        del found[place]
    elif change.what == "kind":
        found[place] = Question(text=before.text, kind=change.kind or before.kind)
    else:
        kept = before.kind if before.kind in CHOSEN else Kind.FREE
        found[place] = Question(text=change.text, kind=change.kind or kept)
    return tuple(found)
