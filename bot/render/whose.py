"""Which client a coach means, asked."""

from collections.abc import Sequence
from html import escape

from bot.messages import Message

MOST_NAMED = 12
"""Names on one message."""


def which(command: str, typed: str, names: Sequence[str]) -> Message:
    """Ask for one name, with those there are."""
    if not names:
        return Message("You have no clients yet. <code>/invite Ada</code> makes a link.", silent=True)
    unclear = f"“{escape(typed[:40])}” is not clear. " if typed else ""
    shown = ", ".join(escape(each) for each in names[:MOST_NAMED])
    more = f", and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return Message(
        f"{unclear}Which client? Write it so: <code>/{command} {escape(names[0])}</code>\n{shown}{more}.",
        silent=True,
    )
