"""One message of a coach to several, in words: previewed, sent, stopped."""

from collections.abc import Sequence
from dataclasses import dataclass
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
        "The same line under a photo, a voice message or a file sends that. You see it first.",
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


@dataclass(frozen=True, slots=True)
class Outgoing:
    """What would go out.

    Attributes:
        coach: Whose it is.
        text: Her words; maybe none, with a file.
        kind: The platform's word for the file; None for words alone.
        name: What the file is called.
        of_album: True where it came together with others, which do not go.
    """

    coach: str
    text: str
    kind: str | None = None
    name: str = ""
    of_album: bool = False


def preview(what: Outgoing, names: Sequence[str], away: Sequence[str], buttons: Buttons) -> Message:
    """Show what would go out, and to whom."""
    parts = [f"To {people(len(names))}: {names_words(names)}."]
    if away:
        parts[0] += f"\nNot to {names_words(away)}: I cannot reach them."
    head = f"<b>{escape(what.coach)}</b> writes:"
    if what.kind is not None:
        called = f" ({escape(what.name[:60])})" if what.name else ""
        head = f"<b>{escape(what.coach)}</b> sends {KIND_WORDS[what.kind]}{called}."
    parts.append("\n".join([head, escape(what.text)] if what.text else [head]))
    if what.of_album:
        parts.append("Only this one goes, and not what you sent together with it.")
    parts.append("Nothing is sent yet. After Send there is a minute to stop it.")
    return Message(
        "\n\n".join(parts),
        rows=(
            (buttons.one("Send", Action.CONFIRM),),
            (buttons.one("Change", Action.CHANGE), buttons.one("Never mind", Action.CANCEL)),
        ),
        silent=True,
    )


def ask_change(names: Sequence[str], buttons: Buttons) -> Message:
    """Ask for other words."""
    return Message(
        f"To {people(len(names))}: {names_words(names)}. Send me the new words, a photo, a voice message or a file.",
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
