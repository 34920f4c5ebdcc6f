"""What a coach types about raises that wait for her: `agree Ada`, `hold Ada hip thrust`, `agree 1 and 3`. English."""

import re

from core.value import Value

_ANSWER = re.compile(r"(?P<verb>agree|hold)(?:d)?(?: (?:to|with|for))?(?: (?P<rest>.+))?")
_NUMBERS = re.compile(r"\d{1,2}(?:(?: and | & | )\d{1,2})*")
_ALL = frozenset({"", "all", "all of them", "them all", "everything"})
_UNDO = re.compile(r"(?:undo|take back) (?:the )?(?:(?:last )?raises?|agree|hold)")


class RaiseSaid(Value):
    """An answer to raises that wait.

    Attributes:
        agree: True where she agrees; False where she holds.
        numbers: Those of the list that she named, from 1.
        about: Whom, and maybe what, as typed; nothing where all are meant, or numbers were.
    """

    agree: bool
    numbers: tuple[int, ...] = ()
    about: str = ""


def raise_said(text: str) -> RaiseSaid | None:
    """Return the answer that a line gives; None where it is none."""
    said = " ".join(re.sub(r"[,;:.!]", " ", text).split())
    found = _ANSWER.fullmatch(said.casefold())
    if found is None:
        return None
    rest = found["rest"] or ""
    agree = found["verb"] == "agree"
    if _NUMBERS.fullmatch(rest):
        return RaiseSaid(agree=agree, numbers=tuple(int(each) for each in re.findall(r"\d+", rest)))
    return RaiseSaid(agree=agree, about="" if rest in _ALL else said[len(said) - len(rest) :])


def undo_said(text: str) -> bool:
    """Return whether a line takes the last answer back: `undo raise`, `undo hold`."""
    return _UNDO.fullmatch(" ".join(text.casefold().split()).strip(" .!")) is not None
