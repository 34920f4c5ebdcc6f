"""One week of a block changed for one client alone: the file of it, what it changes, and that it holds."""

from collections.abc import Sequence
from html import escape

from bot.messages import Action, Message, Rows
from bot.render.differences import some_lines, weeks_words
from bot.render.problems import problem_line
from bot.render.setting_up import Buttons
from core.programme.problems import Problem

MOST_NAMES = 40
MOST_LINES = 25
MOST_WARNINGS = 4
"""Most names, differences and warnings in one message. Our proposal."""
STALE = "That button was from before. This is how things stand."


def whose(names: Sequence[str]) -> Message:
    """Ask whose week."""
    if not names:
        return Message("Nobody runs a block now. /assign puts a client on one.", silent=True)
    shown = "\n".join(f"<code>/change {escape(name)}</code>" for name in names[:MOST_NAMES])
    more = f"\n… and {len(names) - MOST_NAMES} more." if len(names) > MOST_NAMES else ""
    return Message(f"Whose week? Write the name with it:\n{shown}{more}", silent=True)


def no_block(name: str) -> Message:
    """Say that a client runs nothing."""
    return Message(f"{escape(name)} runs no block now. /assign puts a client on one.", silent=True)


def nothing_to_come(name: str, block: str) -> Message:
    """Say that a block is over for a client."""
    return Message(f"Nothing of {escape(block)} is still to come for {escape(name)}.", silent=True)


def not_to_come(name: str, week: int, weeks: Sequence[int]) -> Message:
    """Say that a week is over, or is none of the block."""
    return Message(
        f"Week {week} cannot be changed for {escape(name)}. Still to come: {weeks_words(weeks)}.", silent=True
    )


def which_week(
    name: str,
    block: str,
    weeks: Sequence[int],
    changed: Sequence[int],
    buttons: Buttons,
    note: str | None = None,
) -> Message:
    """Ask which week."""
    who = escape(name)
    text = (
        f"<b>{who}</b>, {escape(block)}: which week do you change for {who} alone? "
        f"Tap, or type <code>/change {who}, {weeks[0]}</code>."
    )
    labels = [(week, f"Week {week}, changed" if week in changed else f"Week {week}") for week in weeks]
    return _noted(text, note, buttons.picks(labels, 3))


def copy(name: str, block: str, week: int, *, begun: bool) -> str:
    """Say what the file of a week is for."""
    sent = " What was sent of it stays as it was." if begun else ""
    who = escape(name)
    return (
        f"<b>{who}, week {week}</b> of {escape(block)}. Change it and send it back: it holds for {who} alone, and "
        f"a new version of the block keeps it.{sent}"
    )


def nothing_different(name: str, week: int) -> Message:
    """Say that the file says what stands already."""
    return Message(f"Week {week} of {escape(name)} is like that already. Nothing was changed.", silent=True)


def preview(
    name: str,
    block: str,
    week: int,
    lines: Sequence[str],
    warnings: Sequence[Problem],
    buttons: Buttons,
    *,
    back_to_block: bool,
    note: str | None = None,
) -> Message:
    """Show what a changed week changes before it does."""
    who = escape(name)
    text = [
        f"<b>{who}, week {week}</b> of {escape(block)}, for {who} alone",
        "",
        "<b>What is different</b>",
        *(f"• {each}" for each in some_lines([*lines], MOST_LINES)),
    ]
    if warnings:
        told = [f"• {escape(problem_line(each))}" for each in warnings]
        text += ["", "<b>Worth another look</b>", *some_lines(told, MOST_WARNINGS)]
    ends = "That is the block's own week again." if back_to_block else "A new version keeps this week."
    text += ["", f"What was sent stays as it was. {ends}"]
    rows: Rows = ((buttons.one("Apply", Action.CONFIRM), buttons.one("Leave it", Action.CANCEL)),)
    return _noted("\n".join(text), note, rows)


def applied(
    name: str, block: str, week: int, buttons: Buttons, *, back_to_block: bool, note: str | None = None
) -> Message:
    """Say that it holds, with the way back."""
    who = escape(name)
    is_so = f"is as in the block again for {who}" if back_to_block else f"is changed for {who} alone"
    rows: Rows = ((buttons.one("Take it back", Action.UNDO),),)
    return _noted(f"Week {week} of {escape(block)} {is_so}.", note, rows)


def taken_back(name: str, block: str, week: int) -> Message:
    """Say that the week is as before."""
    text = f"Taken back. Week {week} of {escape(block)} is for {escape(name)} as it was before."
    return Message(text, silent=True)


def too_late(name: str, week: int) -> Message:
    """Say that it stays."""
    text = f"Something of week {week} was sent to {escape(name)} since, or it was changed again, so it stays."
    return Message(text, silent=True)


def left(name: str, week: int) -> Message:
    """Say that nothing changes."""
    return Message(f"Left. Week {week} of {escape(name)} stays as it is.", silent=True)


def closed() -> Message:
    """Say that the card is over."""
    return Message("This is settled, or can no longer be done. /change asks again.", silent=True)


def for_alone(names: Sequence[str], week: int) -> str:
    """Say in a preview of a block for whom the week is another."""
    shown = ", ".join(escape(name) for name in names)
    return (
        f"This week is changed for {shown} alone: <code>/change {escape(names[0])}, {week}</code> shows it."
    )


def weeks_alone(name: str, weeks: Sequence[int]) -> str:
    """Say on a client's card which weeks are changed for her alone."""
    verb = "are" if len(weeks) > 1 else "is"
    return f"{weeks_words(weeks).capitalize()} {verb} changed for {escape(name)} alone."


def _noted(text: str, note: str | None, rows: Rows) -> Message:
    return Message(f"{note}\n\n{text}" if note else text, rows=rows, silent=True)
