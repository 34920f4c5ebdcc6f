"""A coach who is away herself, in words."""

from datetime import date
from html import escape

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.setting_up import Buttons

__all__ = ["Buttons"]

EXAMPLE = "<code>/absent 3-10 May, cover Jo</code>"


def span_words(from_on: date, until_on: date) -> str:
    """Write the days of an absence."""
    if from_on == until_on:
        return f"on {day_words(from_on)}"
    return f"from {day_words(from_on)} to {day_words(until_on)}"


def how_to() -> Message:
    """Say how an absence is set."""
    return Message(
        f"From when to when, and who covers: {EXAMPLE}\n<code>/absent over</code> ends it. Nothing was changed.",
        silent=True,
    )


def too_long(days: int, most: int) -> Message:
    """Say that an absence is longer than may be set."""
    return Message(f"{days} days; up to {most} can be set at once. Nothing was changed.", silent=True)


def none() -> Message:
    """Say that none is set."""
    return Message(f"You are not away. This says that you will be: {EXAMPLE}", silent=True)


def shown(span: str, cover: str | None) -> Message:
    """Show the absence that stands."""
    return Message(f"You are away {span}. {_covers(cover)}\n<code>/absent over</code> ends it.", silent=True)


def kept(span: str, cover: str | None, line: str, buttons: Buttons) -> Message:
    """Read an absence back, with what holds while it lasts."""
    return Message(
        f"You are away {span}. {_covers(cover)}\n"
        "While it lasts no load rises. Alerts still come here, those for now at once.\n"
        f"Each client reads once, on the next card in these days:\n\n{line}",
        rows=((buttons.one("Undo", Action.UNDO),),),
        silent=True,
    )


def _covers(cover: str | None) -> str:
    return f"{escape(cover)} covers." if cover else "Nobody covers."


def for_client(coach: str, until_on: date, cover: str | None) -> str:
    """Tell a client who covers, and till when."""
    who = f" {escape(cover)} covers." if cover else ""
    return (
        f"{escape(coach)} is away until {day_words(until_on)}.{who} No load rises until then.\n"
        "If something hurts, say so here: I act at once."
    )


def in_digest(span: str, cover: str | None) -> str:
    """Remind a coach of her absence, in the digest."""
    return f"You are away {span}. {_covers(cover)} No load rises in that time."


def taken_back(span: str) -> Message:
    """Say that an absence is taken back."""
    return Message(f"Taken back. You are not away {span}.", silent=True)


def over(span: str) -> Message:
    """Say that an absence has ended."""
    return Message(
        f"Welcome back. Your absence {span} is over, and loads go on as they are earned.", silent=True
    )


def settled(span: str) -> Message:
    """Say of an older absence that it no longer stands."""
    return Message(f"Away {span}: this no longer stands. /absent shows what does.", silent=True)
