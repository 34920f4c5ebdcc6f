"""A coach's note on a week of a block, in words."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Message
from bot.render.forwarding import BARE, KIND_WORDS
from bot.render.setting_up import Buttons

__all__ = ["Buttons"]

EXAMPLE = "<code>/note Harbour strength week 3</code>"
SHOWN = 5


def how_to() -> Message:
    """Say how a note is begun."""
    return Message(
        f"Which block and week? {EXAMPLE}\nThen send a voice message, or words. Words can stand behind a colon "
        "at once. Nothing was kept.",
        silent=True,
    )


def which_block(written: str, names: Sequence[str]) -> Message:
    """Say that there is no such block."""
    there = f" You have: {escape(', '.join(names))}." if names else " You have sent no block yet."
    return Message(f"I know no block “{escape(written[:60])}”.{there} Nothing was kept.", silent=True)


def no_such_week(block: str, weeks: int) -> Message:
    """Say that a block has no such week."""
    return Message(f"{escape(block)} has weeks 1 to {weeks}. Nothing was kept.", silent=True)


def ask(block: str, week: int, weeks: int, standing: str | None, buttons: Buttons) -> Message:
    """Ask for the note."""
    before = f"\nNow it says: {escape(standing)}" if standing else ""
    rows = [(buttons.one("Not now", Action.CANCEL),)]
    if standing:
        rows.insert(0, (buttons.one("Take it away", Action.LEAVE_OUT),))
    return Message(
        f"{escape(block)}, week {week} of {weeks}: send me a voice message or words. They go with the first card "
        f"of that week to everybody on the block.{before}",
        rows=tuple(rows),
        silent=True,
    )


def kept(
    block: str, week: int, kind: str | None, text: str, people: Sequence[str], buttons: Buttons
) -> Message:
    """Read a note back, with whom it goes to."""
    what = KIND_WORDS[kind] if kind is not None else "your words"
    said = f"\n{escape(text)}" if text else ""
    return Message(
        f"Kept: {what} for week {week} of {escape(block)}.{said}\n{_people(people)}",
        rows=((buttons.one("Undo", Action.UNDO),),),
        silent=True,
    )


def _people(people: Sequence[str]) -> str:
    if not people:
        return "Nobody has that week still to come."
    more = f", and {len(people) - SHOWN} more" if len(people) > SHOWN else ""
    return f"Once each, with the next card of that week: {escape(', '.join(people[:SHOWN]))}{more}."


def too_long(length: int, most: int) -> Message:
    """Say that it is too long."""
    return Message(f"{length} characters; up to {most} can be kept. Nothing was kept.", silent=True)


def wrong_kind() -> Message:
    """Say what can be kept."""
    return Message(
        "A voice message, a sound, a video, a picture or words can stand there. Nothing was kept.",
        silent=True,
    )


def not_kept() -> Message:
    """Say that nothing was kept."""
    return Message("All right, nothing was changed.", silent=True)


def taken_back(block: str, week: int, *, again: bool) -> Message:
    """Say that a note no longer stands."""
    before = " The one before stands again." if again else ""
    return Message(
        f"Taken back: week {week} of {escape(block)} has this note no more.{before} "
        "Who has it already keeps it.",
        silent=True,
    )


def settled(block: str, week: int) -> Message:
    """Say of an older note that others may have come since."""
    return Message(f"Week {week} of {escape(block)}: this was settled before.", silent=True)


def on_card(coach: str, text: str, kind: str | None) -> str:
    """Say a note on a client's card."""
    head = f"<b>{escape(coach)}</b>"
    if kind is None:
        return f"{head}: {escape(text)}"
    return f"{head} says something about this week, below." + (f"\n{escape(text)}" if text else "")


def file(kind: str, file_id: str) -> Message:
    """The file that goes right after the card, without a sound."""
    return Message("", silent=True, media_kind=kind, file_id=file_id)


KEPT_KINDS = frozenset(KIND_WORDS) - {"contact", "sticker", "document"} | BARE - {"sticker"}
"""What may stand on a week."""
