"""An answer to a video, kept as that client's cue."""

from html import escape

from bot.messages import Action, Message, Rows
from bot.render.exercise_names import in_sentence
from bot.render.setting_up import Buttons

__all__ = ["Buttons"]


def offer(name: str, exercise: str, buttons: Buttons) -> Rows:
    """Offer to keep what was answered as a cue."""
    return ((buttons.one(f"Keep as {name}'s cue for {in_sentence(exercise)}", Action.CONFIRM),),)


def shorter(name: str, exercise: str, length: int, most: int, buttons: Buttons) -> Message:
    """Ask for a line that fits on a card."""
    return Message(
        f"That has {length} characters, and up to {most} fit on a card. Send me the cue for "
        f"<b>{escape(name)}</b> and {escape(in_sentence(exercise))} in one shorter line.",
        rows=((buttons.one("Not now", Action.CANCEL),),),
        silent=True,
    )


def kept(name: str, exercise: str) -> Message:
    """Say that it stands as a cue."""
    return Message(
        f"Sent to <b>{escape(name)}</b>, and kept as the cue for {escape(in_sentence(exercise))}.",
        silent=True,
    )


def not_kept(name: str) -> Message:
    """Say that it was sent and nothing more."""
    return Message(f"Sent to <b>{escape(name)}</b>. No cue was kept.", silent=True)


def settled() -> Message:
    """Say that the question is over."""
    return Message("This is settled. /cues shows the cues that stand.", silent=True)
