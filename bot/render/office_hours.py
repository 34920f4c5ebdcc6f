"""When a coach answers, in words."""

from collections.abc import Sequence
from datetime import time
from html import escape
from itertools import pairwise

from bot.messages import Message
from bot.render.dates import DAYS

EXAMPLE = "<code>/office 9-18 mon-fri</code>"


def days_words(days: Sequence[int]) -> str:
    """Write days as people say them: `Mon to Fri`, `Mon, Wed and Fri`, `every day`."""
    ordered = sorted(days)
    if len(ordered) == len(DAYS):
        return "every day"
    in_row = all(after - before == 1 for before, after in pairwise(ordered))
    if in_row and len(ordered) > 2:
        return f"{DAYS[ordered[0]]} to {DAYS[ordered[-1]]}"
    names = [DAYS[day] for day in ordered]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def hours_words(days: Sequence[int], begins: time, ends: time) -> str:
    """Write office hours: `Mon to Fri, 09:00 to 18:00`."""
    return f"{days_words(days)}, {begins:%H:%M} to {ends:%H:%M}"


def how_to() -> Message:
    """Say how office hours are set."""
    return Message(
        f"From when to when, then the days: {EXAMPLE}\n<code>/office off</code> takes them away. "
        "Nothing was changed.",
        silent=True,
    )


def none() -> Message:
    """Say that there are none."""
    return Message(
        f"You have no office hours: nobody is told when you usually answer. This sets them: {EXAMPLE}",
        silent=True,
    )


def shown(hours: str) -> Message:
    """Show the hours that stand."""
    return Message(f"You usually answer {hours}.\n<code>/office off</code> takes that away.", silent=True)


def kept(hours: str, coach: str, zone_word: str) -> Message:
    """Read office hours back, with what a client is told."""
    return Message(
        f"You usually answer {hours}. Who writes to you outside of that is told so once a day, without a sound:\n\n"
        f"{_line(coach, hours, zone_word)}\n\nPain and stop signs reach you as before, at any hour.",
        silent=True,
    )


def taken_away() -> Message:
    """Say that they no longer stand."""
    return Message("Taken away. Nobody is told when you usually answer.", silent=True)


def outside(coach: str, hours: str, zone_word: str) -> Message:
    """Tell a client when her coach usually answers."""
    return Message(_line(coach, hours, zone_word), silent=True)


def _line(coach: str, hours: str, zone_word: str) -> str:
    clock = f", by the clock in {escape(zone_word)}" if zone_word else ""
    return (
        f"{escape(coach)} usually answers {hours}{clock}. If something hurts, say so here: I act at once. "
        "In an emergency call your local emergency number."
    )
