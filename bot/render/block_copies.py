"""Words beside a file that a coach gets: the form, a block of hers."""

from collections.abc import Sequence
from html import escape

from bot.messages import Message

MOST_NAMES = 40
"""Most names of blocks in one message. Our proposal."""


def form() -> str:
    """Say what to do with the form."""
    return (
        "Open it, write over the examples, and send it back to me. A sheet in it says how, and I say what I cannot "
        "read, with its row and column."
    )


def copy(name: str, number: int) -> str:
    """Say which block this is."""
    version = f", version {number}" if number > 1 else ""
    return (
        f"<b>{escape(name)}</b>{version}, as I have it. Change it and send it back: that makes a new version."
    )


def which(names: Sequence[str]) -> Message:
    """Ask which block."""
    shown = "\n".join(f"<code>/block {escape(name)}</code>" for name in names[:MOST_NAMES])
    more = f"\n… and {len(names) - MOST_NAMES} more." if len(names) > MOST_NAMES else ""
    return Message(f"Which block? Write its name with it:\n{shown}{more}", silent=True)
