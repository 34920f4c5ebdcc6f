"""A coach's open invitations, in words."""

from collections.abc import Sequence
from datetime import datetime
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.setting_up import MOST_BUTTONS, Buttons
from core.local_time import local_date

__all__ = ["Buttons"]

OLD = "That button was from before. This is how things stand."


def open_ones(
    found: Sequence[tuple[int, str, datetime]], zone: str, buttons: Buttons, note: str | None
) -> Message:
    """List invitations with until when each is good."""
    top = [note, ""] if note else []
    if not found:
        return Message("\n".join([*top, "No link is open. <code>/invite Ada</code> makes one."]), silent=True)
    lines = [
        f"<b>{escape(name)}</b>, good until {day_words(local_date(until, zone))}" for _, name, until in found
    ]
    more = [f"… and {len(found) - MOST_BUTTONS} more."] if len(found) > MOST_BUTTONS else []
    rows = tuple((buttons.one(f"Revoke {name}", Action.PICK, row),) for row, name, _ in found[:MOST_BUTTONS])
    return Message("\n".join([*top, "Open links:", *lines[:MOST_BUTTONS], *more]), rows=rows, silent=True)


def revoked(name: str) -> str:
    """Say that a link no longer works."""
    return f"The link for {escape(name)} no longer works."
