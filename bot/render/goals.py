"""Goals: up to three, in a person's own words."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from html import escape

from bot.messages import Action, Button, Message
from bot.render.dates import MONTHS
from bot.render.setting_up import Buttons

MOST = 3
"""Most goals at a time. Our proposal: more are none."""
HOW = "Type it in one line, with a date if you like: <code>deadlift 100 by 1 June</code>."
CHANGE_HOW = "Type how it reads now, with a date if you like."
FULL = f"There are {MOST} goals already. First say what became of one. Nothing was changed."
NOT_READ = "I could not read that. Nothing was changed."
ADDED = "Added."
CHANGED = "Changed."
UNDONE = "Taken back."
ENDED = {"reached": "Noted: reached.", "given up": "Noted: given up."}
STALE = "That button was from before. This is how things stand."


@dataclass(frozen=True, slots=True)
class Line:
    """A goal that stands.

    Attributes:
        text: As typed.
        by_on: Until when, if that was said.
    """

    text: str
    by_on: date | None = None


def words(goal: Line) -> str:
    """Write a goal: `deadlift 100, by 1 June 2026`."""
    if goal.by_on is None:
        return escape(goal.text)
    on = goal.by_on
    return f"{escape(goal.text)}, by {on.day} {MONTHS[on.month - 1]} {on.year}"


def listed(
    goals: Sequence[Line], buttons: Buttons, *, note: str = "", asks: str = "", undo: bool = False
) -> Message:
    """Show the goals, with what can be done about each."""
    lines = "\n".join(f"{number}. {words(each)}" for number, each in enumerate(goals, 1))
    rows: list[tuple[Button, ...]] = []
    if not asks:
        rows = [
            (
                buttons.one(f"{number} reached", Action.DONE, number),
                buttons.one(f"{number} given up", Action.DROP, number),
                buttons.one(f"{number} change", Action.CHANGE, number),
            )
            for number, _ in enumerate(goals, 1)
        ]
        if len(goals) < MOST:
            rows.append((buttons.one("Add a goal", Action.TYPE),))
        if undo:
            rows.append((buttons.one("Undo", Action.UNDO),))
    else:
        rows.append(buttons.back)
    body = lines or "No goal yet."
    text = "\n\n".join(part for part in ("<b>Your goals</b>", note, body, asks) if part)
    return Message(text, rows=tuple(rows), silent=True)


def unread_date(written: str) -> str:
    """Say that a date is not clear."""
    return f"I could not read the date {escape(written)}. Write it like <code>by 1 June</code>. Nothing was changed."


def closed() -> Message:
    """Say that this card is over."""
    return Message("These goals are from before. /goals shows them as they are now.", silent=True)


def usage() -> Message:
    """Say how a coach puts a goal."""
    return Message(
        "Write it like <code>/goal Ada deadlift 100 by 1 June</code>. /client shows goals.", silent=True
    )


def unknown(written: str, known: Sequence[str]) -> Message:
    """Say that a name is not clear."""
    return Message(
        f"Whose goal is that? I read {escape(written)}. Yours: {escape(', '.join(known))}. Nothing was changed.",
        silent=True,
    )


def added_for(name: str, goal: Line) -> Message:
    """Tell a coach that a goal was put."""
    return Message(f"A goal for {escape(name)}: {words(goal)}. /goals shows it there.", silent=True)


def refused(name: str, why: str) -> Message:
    """Tell a coach that a goal was not put."""
    return Message(f"{escape(name)}: {why}", silent=True)


def from_coach(coach: str, goal: Line) -> Message:
    """Tell a client of a goal that her coach has put."""
    return Message(
        f"{escape(coach)} has put a goal for you: {words(goal)}.\n/goals shows and changes it.", silent=True
    )


def for_file(goals: Sequence[Line]) -> str:
    """Write goals in a line for the coach."""
    return f"Goals: {'; '.join(words(each) for each in goals)}."
