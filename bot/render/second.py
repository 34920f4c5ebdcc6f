"""Words about the second person: named, bound, shown, let go."""

from datetime import datetime
from html import escape

from bot.messages import Message
from bot.render.dates import day_words


def nobody() -> Message:
    """Say that there is none, and how to name one."""
    return Message(
        "Nobody is named. When you do not see an alert that cannot wait, I tell you again after 15 and 60 minutes, "
        "and then a second person, if you name one:\n"
        "<code>/second Lena</code> makes a link for Lena.",
        silent=True,
    )


def standing(name: str, *, bound: bool, until: datetime | None) -> Message:
    """Say who it is."""
    if not bound:
        left = f" The link is good until {day_words(until.date())}." if until is not None else ""
        return Message(f"{escape(name)} has not opened the link yet.{left}\n{OFF}", silent=True)
    return Message(
        f"{escape(name)} is told when you have not seen an alert for over an hour: who it is, and what kind "
        f"of thing. Nothing more.\n{OFF}",
        silent=True,
    )


OFF = "<code>/second off</code> ends that."


def link_made(name: str, until: datetime) -> Message:
    """Say what the link is for."""
    return Message(
        f"A link for {escape(name)}, good once, until {day_words(until.date())}. Send the next message on. "
        "It must be somebody who is neither coach nor client here.",
        silent=True,
    )


def link(name: str, coach: str, bot_name: str, code: str) -> Message:
    """The message that a coach sends on."""
    address = f"https://t.me/{bot_name}?start={code}"
    return Message(
        f"Hello {escape(name)}, {escape(coach)} has named you for alerts that cannot wait and that "
        f"{escape(coach)} has not seen. Open this link:\n{escape(address)}\n\n"
        f"Or write to @{escape(bot_name)}: <code>/start {escape(code)}</code>",
        silent=True,
    )


def welcome(coach: str) -> Message:
    """Greet the second person."""
    return Message(
        f"<b>Thank you.</b> When {escape(coach)} has not seen an alert for over an hour, you hear of it here: "
        "who it is about and what kind of matter. Nothing else comes, and nothing that you write is passed on. "
        f"{escape(coach)} can end it at any time; so can you, by blocking this chat."
    )


def is_bound(name: str) -> Message:
    """Tell the coach that the link was opened."""
    return Message(f"{escape(name)} has opened the link, and is told when you do not see an alert.")


def ended(name: str) -> Message:
    """Say that nobody is told any more."""
    return Message(f"{escape(name)} is no longer told.", silent=True)


def too_long(limit: int) -> Message:
    """Say that a name is too long."""
    return Message(f"A name has at most {limit} letters.", silent=True)
