"""A day of a block as a client would get it, for the coach alone."""

from collections.abc import Sequence

from bot.messages import Message, Rows
from bot.render.session import session_card
from bot.render.session_views import SessionView
from bot.render.setting_up import Buttons
from core.programme.block import Block, Day

__all__ = ["Buttons"]

OLD = "That button was from an earlier question. Here is where we are."
HEAD = "<i>Preview, loads as written. Nobody is sent this.</i>"


def which_block(blocks: Sequence[tuple[int, str]], buttons: Buttons, note: str | None) -> Message:
    """Ask which block."""
    return _asked("Which block?", buttons.picks(blocks, 1), note)


def which_day(block: Block, buttons: Buttons, note: str | None) -> Message:
    """Ask which day."""
    days = [(number, day.name) for number, day in enumerate(block.days)]
    return _asked("Which day?", (*buttons.picks(days, 2), buttons.back), note)


def which_week(block: Block, day: Day, buttons: Buttons, note: str | None) -> Message:
    """Ask which week; one in which the day asks for nothing is not offered."""
    weeks = [(week, f"Week {week}") for week in range(1, block.weeks + 1) if day.in_week(week)]
    return _asked("Which week?", (*buttons.picks(weeks, 4), buttons.back), note)


def _asked(text: str, rows: Rows, note: str | None) -> Message:
    return Message(f"{note}\n\n{text}" if note else text, rows=rows, silent=True)


def as_the_client_sees(view: SessionView, buttons: Buttons, note: str | None) -> Message:
    """Show the card, with buttons of the preview in place of the client's."""
    card = session_card(view)
    client_buttons = " ".join(f"[{each.label}]" for row in card.rows for each in row)
    rows: Rows = (buttons.back,)
    if view.screen == "overview":
        items = [(each.item.id, each.item.prescription.order) for each in view.items]
        rows = (*buttons.picks(items, 6), buttons.back)
    parts = [note or "", HEAD, card.html, f"<i>Buttons: {client_buttons}</i>"]
    return Message("\n\n".join(part for part in parts if part), rows=rows, silent=True, protect=False)
