"""What is said around a coach's words to a client."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Message
from bot.render.forwarding import KIND_WORDS, carried
from bot.render.setting_up import Buttons

__all__ = ["Buttons"]

LONGEST = 3500
"""Letters on a message; the platform takes 4,096."""
SHOWN = 200
"""Most letters of a message that are said back."""


def ask(name: str, buttons: Buttons, phrases: Sequence[tuple[int, str]] = ()) -> Message:
    """Say that the next message goes to a client; saved phrases have a button each."""
    return Message(
        f"What you send me next goes to <b>{escape(name)}</b>, at once and with your name on it.",
        rows=(*buttons.picks(phrases, 3), (buttons.one("Not now", Action.CANCEL),)),
        silent=True,
    )


def from_coach(
    coach: str, text: str, kind: str | None, file_id: str | None, *, silent: bool
) -> tuple[Message, ...]:
    """Show a client what her coach wrote or sent, on as many messages as that takes."""
    head = f"<b>{escape(coach)}</b>"
    if kind is not None:
        return carried(f"{head} sends {KIND_WORDS[kind]}.", kind, file_id, text, silent=silent)
    first, *rest = [text[at : at + LONGEST] for at in range(0, len(text), LONGEST)]
    return (
        Message(f"{head} writes:\n{escape(first)}", silent=silent),
        *(Message(f"{head}, the rest:\n{escape(each)}", silent=True) for each in rest),
    )


def sent(name: str, text: str, kind: str | None, *, silent: bool) -> Message:
    """Say back to the coach what went to whom."""
    what = KIND_WORDS[kind] if kind else f"“{_short(text)}”"
    night = " It is night there, so it makes no sound." if silent else ""
    return Message(f"Sent to <b>{escape(name)}</b>: {what}{night}", silent=True)


def ask_whom(text: str, clients: Sequence[tuple[int, str]], buttons: Buttons) -> Message:
    """Ask whom a message is for."""
    what = f"“{_short(text)}”" if text else "This"
    return Message(
        f"{what}: whom is it for? Nothing is sent yet.",
        rows=(*buttons.picks(clients, 2), (buttons.one("Nobody", Action.CANCEL),)),
        silent=True,
    )


def not_sent() -> Message:
    """Say that nothing was sent."""
    return Message("All right, nothing was sent.", silent=True)


def settled() -> Message:
    """Say that a question is over."""
    return Message("This is settled. To write to somebody, reply to a message of theirs.", silent=True)


def has_left(name: str) -> Message:
    """Say that a client has left."""
    return Message(f"<b>{escape(name)}</b> has left, so nothing was sent.", silent=True)


def unreachable(name: str) -> Message:
    """Say that a client has blocked the bot."""
    return Message(
        f"<b>{escape(name)}</b> has blocked me, so nothing was sent. Please write to them another way.",
        silent=True,
    )


def passed_back() -> Message:
    """Tell a client that her reply went to her coach, and that nothing was logged from it."""
    return Message("Passed on to your coach. Nothing was logged from it.", silent=True)


def _short(text: str) -> str:
    return escape(text if len(text) <= SHOWN else f"{text[:SHOWN]}…")
