"""One message of a coach to several, in words: previewed, sent, stopped."""

from collections.abc import Sequence
from datetime import time
from html import escape

from bot.messages import Action, Message
from bot.render.forwarding import KIND_WORDS
from bot.render.setting_up import Buttons

__all__ = ["Buttons"]

SHOWN = 5
"""Names that are told before the count of the others."""
FILTERS = (
    ("all", "everybody"),
    ("block Harbour strength", "who is on that block"),
    ("Ada, Ben", "these"),
    ("quiet", "who has said nothing for a week"),
    ("in pain", "who told of pain in the last week"),
    ("paused", "who is paused"),
)


def how_to() -> Message:
    """Say how several are written to."""
    lines = [f"<code>/tell {escape(word)}: words</code>  {what}" for word, what in FILTERS]
    return Message(
        "Whom, a colon, and the words:\n" + "\n".join(lines) + "\n\n"
        "The same line under a photo or a voice message sends that. You see it first, and nothing has been sent.",
        silent=True,
    )


def too_long(length: int, most: int) -> Message:
    """Say that the words are too many."""
    return Message(f"{length} characters; up to {most} can go to several. Nothing was sent.", silent=True)


def unclear(written: str) -> Message:
    """Say that a name is not clear."""
    return Message(
        f"I cannot tell whom “{escape(written[:60])}” means. Nothing was sent.\n"
        "Names with commas between them, or all, block and its name, quiet, in pain, paused.",
        silent=True,
    )


def nobody(whom: str) -> Message:
    """Say that nobody is meant."""
    return Message(f"Nobody is in “{escape(whom[:60])}” now. Nothing was sent.", silent=True)


def names_words(names: Sequence[str]) -> str:
    """Name five, and count the others."""
    more = f", and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return escape(", ".join(names[:SHOWN])) + more


def people(count: int) -> str:
    """Count people."""
    return "1 person" if count == 1 else f"{count} people"


def preview(
    coach: str, text: str, kind: str | None, names: Sequence[str], away: Sequence[str], buttons: Buttons
) -> Message:
    """Show what would go out, and to whom."""
    left = f"\nNot to {names_words(away)}: I cannot reach them." if away else ""
    body = escape(text) if text else ""
    head = f"<b>{escape(coach)}</b> sends {KIND_WORDS[kind]}." if kind else f"<b>{escape(coach)}</b> writes:"
    return Message(
        f"To {people(len(names))}: {names_words(names)}.{left}\n\n{head}\n{body}\n\n"
        "Nothing is sent yet. After Send there is a minute to stop it.",
        rows=(
            (buttons.one("Send", Action.CONFIRM),),
            (buttons.one("Change", Action.CHANGE), buttons.one("Never mind", Action.CANCEL)),
        ),
        silent=True,
    )


def ask_change(names: Sequence[str], buttons: Buttons) -> Message:
    """Ask for other words."""
    return Message(
        f"To {people(len(names))}: {names_words(names)}. Send me the new words, or a photo or voice message.",
        rows=((buttons.one("Never mind", Action.CANCEL),),),
        silent=True,
    )


def going(names: Sequence[str], at: time, quiet: int, buttons: Buttons) -> Message:
    """Say when it goes out, with the way to stop it."""
    night = f" It is night for {quiet} of them: there it makes no sound." if quiet else ""
    return Message(
        f"Goes out at {at:%H:%M} to {people(len(names))}: {names_words(names)}.{night}",
        rows=((buttons.one("Stop it", Action.UNDO),),),
        silent=True,
    )


def stopped(names: Sequence[str]) -> Message:
    """Say that nothing went out."""
    return Message(f"Stopped. Nothing went out to {names_words(names)}.", silent=True)


def is_out(names: Sequence[str]) -> Message:
    """Say that it is too late."""
    return Message(
        f"The minute is over: it is on its way to {people(len(names))}: {names_words(names)}.", silent=True
    )


def not_sent() -> Message:
    """Say that nothing was sent."""
    return Message("All right, nothing was sent.", silent=True)
