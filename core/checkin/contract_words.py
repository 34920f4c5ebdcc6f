"""What a coach has agreed with a client, as she types it: `until 30 June`, `12 sessions`, `none`. English."""

import re
from datetime import date, timedelta

from core.checkin.day_spans import day_said
from core.value import Value

NEAR_SESSIONS = 2
"""Sessions left at which the coach is told that a contract ends. [sessions] Our proposal."""
NEAR_DAYS = timedelta(days=14)
"""Days before its last day at which she is told. [days] Our proposal."""
MOST_SESSIONS = 500
"""Most sessions of a contract. [sessions] Our proposal: more is a slip of a digit."""
_SESSIONS = re.compile(r"(\d{1,4}) sessions?(?: (?:left|from (?:now|today)))?")
_UNTIL = re.compile(r"(?:until|till|to|ends)(?: on)? (.+)")
_NONE = frozenset({"none", "no", "over", "no contract", "end", "ended"})


class ContractRead(Value):
    """What a line says.

    Attributes:
        until_on: Last day.
        sessions: How many, from today on. [sessions, 1 to 500]
        none: True where there is no contract any more.
    """

    until_on: date | None = None
    sessions: int | None = None
    none: bool = False


def contract_read(text: str, today: date) -> ContractRead | None:
    """Return what a line says; None where it says nothing of a contract."""
    words = " ".join(text.casefold().strip(" .").split())
    if words in _NONE:
        return ContractRead(none=True)
    counted = _SESSIONS.fullmatch(words)
    if counted is not None:
        number = int(counted[1])
        return ContractRead(sessions=number) if 1 <= number <= MOST_SESSIONS else None
    ending = _UNTIL.fullmatch(words)
    last = day_said(ending[1], today) if ending is not None else None
    return None if last is None else ContractRead(until_on=last)


def is_near(left: int) -> bool:
    """Return whether so few sessions are left that the coach is told. [sessions]"""
    return left <= NEAR_SESSIONS
