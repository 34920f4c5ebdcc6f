"""A client on a new account, in words."""

from datetime import datetime
from html import escape

from bot.messages import Message
from bot.render.dates import day_words


def how_to() -> Message:
    """Say how a client is brought to a new account."""
    return Message(
        "Who has a new account? Write the name with it: <code>/invite again Ada</code>", silent=True
    )


def link_made(name: str, until: datetime) -> Message:
    """Tell the coach what to do with the next message, and what it does."""
    who = escape(name)
    return Message(
        f"Make sure that it is {who} who asks. Then forward the next message to the new account. "
        f"Whoever opens the link is {who} from then on and sees {who}'s training; the old account gets nothing more. "
        f"The link works once, until {day_words(until.date())}. /invites takes it back.",
        silent=True,
    )


def invitation(name: str, coach: str, bot_name: str, code: str) -> Message:
    """The message that a coach forwards."""
    link = f"https://t.me/{bot_name}?start={code}"
    return Message(
        f"Hello {escape(name)}, {escape(coach)} moves your training to this account. Open this link:\n"
        f"{escape(link)}\n\n"
        f"Or write to @{escape(bot_name)}: <code>/start {escape(code)}</code>",
        silent=True,
    )


def welcome_again() -> Message:
    """Greet a client on her new account."""
    return Message(
        "Welcome back. Your plan, your log and your settings are all here, and come to this account from now on. "
        "The old account gets nothing more. /today shows your session.",
        silent=True,
    )


def has_come_again(name: str) -> Message:
    """Tell the coach that a client now has another account."""
    who = escape(name)
    return Message(
        f"<b>{who} is here on a new account.</b> The old one gets nothing more. "
        f"If that was not {who}, stop it at once: /invite again {who} moves it back, and tell who runs this bot."
    )


def consent_kept() -> Message:
    """Say that all goes on after the consent."""
    return Message("Thank you. All goes on as before. /today shows your session.", silent=True)
