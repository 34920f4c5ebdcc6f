"""The one line that a stranger gets."""

from bot.messages import Message


def how_to_be_invited() -> Message:
    """Say how to be invited."""
    return Message(
        "I only talk with people whose coach has invited them: ask your coach for a link, and open that. "
        "A link works once, and for two weeks.",
        silent=True,
    )
