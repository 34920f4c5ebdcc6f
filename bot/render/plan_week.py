"""The plan of the coming week: its sessions, and days that they can move to."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message, Rows
from bot.render.dates import DAYS, day_words
from bot.render.moving import Move, explained, label
from bot.render.setting_up import Buttons

STANDS = "All stays as it is unless you move something, also without an answer."
IN_LINE = "What comes next comes on your next training day. /settings changes your days."
NOT_READ = "I found no such session in this week. Tap it, or type it like <code>move lower a to thu</code>."
SEVERAL = "There is more than one. Tap the one you mean."
NOT_THAT_DAY = (
    "That day does not fit: it is taken, over, or too close to a session that loads the same. "
    "Nothing was moved."
)
NO_DAY = "No other day of its week fits. It stays."
UNDONE = "Taken back."
STALE = "That button was from before. This is how things stand."
MOST = 7
"""Most sessions with a button of their own."""


@dataclass(frozen=True, slots=True)
class Line:
    """A session of the week.

    Attributes:
        session_id: Its row.
        on: The client's date.
        day: What the coach calls it.
    """

    session_id: int
    on: date
    day: str


def week(
    lines: Sequence[Line],
    first: date,
    last: date,
    buttons: Buttons,
    *,
    movable: bool,
    note: str = "",
    undo: bool = False,
    silent: bool = True,
) -> Message:
    """Show the week, with a button to keep it and one to move each session."""
    rows: list[tuple[Button, ...]] = [(buttons.one("That is all" if undo else "Keep", Action.CONFIRM),)]
    if movable:
        rows += [
            (buttons.one(f"Move {DAYS[each.on.weekday()]} {each.day}", Action.MOVE, each.session_id),)
            for each in lines[:MOST]
        ]
    if undo:
        rows.append((buttons.one("Undo", Action.UNDO),))
    parts = [
        f"<b>Your week, {day_words(first)} to {day_words(last)}</b>",
        note,
        _listed(lines),
        STANDS if movable else IN_LINE,
    ]
    return Message("\n\n".join(part for part in parts if part), rows=tuple(rows), silent=silent)


def _listed(lines: Sequence[Line]) -> str:
    return "\n".join(f"{day_words(each.on)}  {escape(each.day)}" for each in lines)


def dates(line: Line, moves: Sequence[Move], buttons: Buttons, *, note: str = "") -> Message:
    """Show where a session can go."""
    head = f"<b>{escape(line.day)}, {day_words(line.on)}</b>"
    asked = "Which day instead?" if moves else NO_DAY
    rows: Rows = tuple((buttons.one(label(each), Action.PICK, place),) for place, each in enumerate(moves))
    text = "\n\n".join(part for part in (head, note, *explained(moves), asked) if part)
    return Message(text, rows=(*rows, buttons.back), silent=True)


def moved(line: Line, move: Move) -> str:
    """Say what moved."""
    other = ""
    if move.other_on is not None:
        other = f" {escape(move.other)} moves to {day_words(move.other_on)}."
    return f"{escape(line.day)} moved to {day_words(move.on)}.{other}"


def kept(lines: Sequence[Line], first: date, last: date) -> Message:
    """Say that the week stands."""
    head = f"<b>Your week, {day_words(first)} to {day_words(last)}</b>"
    return Message(f"{head}\n\n{_listed(lines)}\n\nIt stands. /plan opens it again.", silent=True)


def nothing(first: date, last: date) -> Message:
    """Say that nothing is planned."""
    return Message(
        f"<b>{day_words(first)} to {day_words(last)}</b>\n\nNo session is planned that could move.",
        silent=True,
    )


def over() -> Message:
    """Say of an old card that its week is over."""
    return Message("This plan is from before. /plan shows the coming week.", silent=True)


def on_hold() -> Message:
    """Say that nothing is planned while the plan is on hold."""
    return Message("Your plan is on hold, so there is no week to plan. Your coach releases it.", silent=True)
