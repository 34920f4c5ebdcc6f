"""Words about a holiday that a coach gives: no card comes on its days."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Message
from bot.render.counts import counted
from bot.render.season import span_words

LONG = 8
"""Days without training from which loads stay or begin lower, as the way back has it. [days]"""


@dataclass(frozen=True, slots=True)
class Comes:
    """What a holiday comes to.

    Attributes:
        sessions: Sessions that are left out, as laid out now.
        clients: Of how many clients.
        days: Days of the holiday.
        in_line: True where sessions wait for their turn.
        begun: True where it has begun.
    """

    sessions: int
    clients: int
    days: int
    in_line: bool
    begun: bool = False


def comes_to(found: Comes, name: str | None) -> str:
    """Tell a coach what a holiday comes to, for a client or for everybody."""
    lines = ["No card comes on these days, and nothing counts as missed."]
    if found.in_line:
        lines.append("What is planned waits and comes after it, in its order.")
    else:
        which = f" of {counted(found.clients, 'client')}" if name is None else ""
        count = f": so far {counted(found.sessions, 'session')}{which}" if found.sessions else ""
        lines.append(f"What is planned on them is left out{count}. The plan goes on after it.")
    if found.days >= LONG:
        lines.append("After so long a break loads stay or begin lower.")
    whom = "Each client is" if name is None else f"{escape(name)} is"
    lines.append(f"{whom} told {'now' if found.begun else 'in the days before it'}.")
    return "\n".join(lines)


def ahead(coach: str, spans: Sequence[tuple[date, date]], today: date) -> Message:
    """Tell a client of holidays that begin soon."""
    days = " and ".join(span_words(first, last, today) for first, last in spans)
    return Message(
        f"{escape(coach)} has planned a holiday: {days}. No session comes then, and nothing counts as missed. "
        "Your plan goes on after it."
    )


def off_again(coach: str, first: date, last: date, today: date) -> Message:
    """Tell a client that a holiday she was told of is none."""
    return Message(
        f"{escape(coach)} has taken the holiday back: {span_words(first, last, today)}. "
        "Your sessions come as planned again."
    )
