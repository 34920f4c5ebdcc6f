"""What a coach has agreed with a client, in words. To the coach alone."""

from datetime import date
from html import escape

from bot.messages import Message
from bot.render.dates import day_words

HOW = (
    "<code>/contract Ada until 30 June</code>\n<code>/contract Ada 12 sessions</code>, counted from today\n"
    "<code>/contract Ada none</code>"
)


def how_to() -> Message:
    """Say how a contract is noted."""
    return Message(f"Until when, or for how many sessions?\n{HOW}\n\nOnly you see it.", silent=True)


def not_read() -> Message:
    """Say that a line was not understood."""
    return Message(f"I could not read that. Nothing was changed.\n\n{HOW}", silent=True)


def words(until_on: date | None, sessions: int | None, since_on: date, left: int | None, today: date) -> str:
    """Write a contract as plain text: `until Tue 30 June 2026`, `12 sessions from Mon 6 April, 9 left`."""
    if until_on is not None:
        over = ", that is over" if until_on < today else ""
        return f"until {day_words(until_on)} {until_on.year}{over}"
    noun = "session" if sessions == 1 else "sessions"
    return f"{sessions} {noun} from {day_words(since_on)}, {left} left"


def standing(client: str, contract: str | None) -> Message:
    """Say what stands."""
    said = contract if contract is not None else "none noted"
    return Message(f"<b>{escape(client)}</b>, contract: {said}. Only you see it.", silent=True)


def kept(client: str, contract: str, before: str | None) -> Message:
    """Say back what was kept, and what it takes the place of."""
    was = f"\nBefore: {before}." if before is not None else ""
    return Message(
        f"<b>{escape(client)}</b>, contract: {contract}.{was}\n"
        "I tell you, and only you, when 14 days or 2 sessions are left.",
        silent=True,
    )


def ended(client: str, before: str | None) -> Message:
    """Say that there is none any more."""
    was = f" Before: {before}." if before is not None else ""
    return Message(f"<b>{escape(client)}</b>: no contract noted.{was}", silent=True)


def ends_soon(client: str, contract: str) -> Message:
    """Tell the coach that a contract ends soon."""
    return Message(
        f"<b>{escape(client)}</b>: the contract ends soon: {contract}.\n"
        f"<code>/contract {escape(client)} 12 sessions</code> notes a new one. Only you see this."
    )
