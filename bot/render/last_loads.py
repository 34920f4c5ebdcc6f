"""Last loads of a coach's sheet, in words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from html import escape
from typing import Any

from bot.messages import Action, Message
from bot.render.dates import day_words
from bot.render.loads import load_words
from bot.render.problems import problem_line
from bot.render.setting_up import Buttons, pages
from core.programme.exercises import Exercise
from core.programme.last_loads import LastLoad
from core.programme.problems import Problem

__all__ = ["Buttons"]

FROM_COACH = "from your coach"
"""What a client reads beside a number that she has not logged here."""


@dataclass(frozen=True, slots=True)
class Line:
    """A last load as it is shown before it is kept.

    Attributes:
        exercise: From the catalogue.
        value: What the sheet says.
        before: What is kept now, and would be replaced.
        counts: False where the log already has the exercise by that date.
    """

    exercise: Exercise
    value: LastLoad
    before: LastLoad | None = None
    counts: bool = True


@dataclass(frozen=True, slots=True)
class Part:
    """All of one person.

    Attributes:
        name: As the coach has it.
        invited: True when she has not joined yet.
        lines: In the order of the sheet.
    """

    name: str
    invited: bool
    lines: tuple[Line, ...]


def load_and_reps(value: LastLoad, exercise: Exercise) -> str:
    """Write a last load as HTML: `90 kg × 8`."""
    return f"{escape(load_words(value.load, exercise.basis))} × {value.reps}"


def date_words(on: date, today: date) -> str:
    """Write a date, with its year where that is not this one."""
    return day_words(on) if on.year == today.year else f"{day_words(on)} {on.year}"


def preview(
    file: str, parts: Sequence[Part], warnings: Sequence[Mapping[str, Any]], today: date, buttons: Buttons
) -> list[Message]:
    """Show what a sheet comes to before it is kept, on as many messages as it takes; the last one asks."""
    count = sum(len(part.lines) for part in parts)
    loads, people = _many(count, "last load", "last loads"), _many(len(parts), "person", "people")
    head = f"<b>{escape(file[:80])}</b>: {loads} of {people}. Nothing is kept yet."
    lines = [line for part in parts for line in _part_lines(part, today)]
    if warnings:
        lines.append("\n\nPlease look again:")
        lines += [f"\n• {escape(problem_line(Problem.model_validate(one)))}" for one in warnings]
    *before, last = pages(head, lines)
    rows = ((buttons.one("Keep", Action.CONFIRM), buttons.one("Leave it", Action.CANCEL)),)
    return [*before, Message(last.html, rows=rows, silent=True)]


def _part_lines(part: Part, today: date) -> list[str]:
    waits = ", who has not joined yet: they wait with the invitation" if part.invited else ""
    lines = [f"\n\n<b>{escape(part.name)}</b>{waits}"]
    for each in part.lines:
        said = f"\n{escape(each.exercise.name)} {load_and_reps(each.value, each.exercise)}"
        said += f", {date_words(each.value.on, today)}"
        if each.before == each.value:
            said += " (kept already)"
        elif each.before is not None:
            was = load_and_reps(each.before, each.exercise)
            said += f" (in place of {was}, {date_words(each.before.on, today)})"
        if not each.counts:
            said += ". Logged here by then, so the log counts"
        lines.append(said)
    return lines


def kept(changed: int, count: int, people: int) -> Message:
    """Say what was kept."""
    loads, whose = _many(count, "last load", "last loads"), _many(people, "person", "people")
    same = f" {count - changed} of them stood so already." if changed < count else ""
    return Message(
        f"Kept: {loads} of {whose}.{same} Exercises that were never logged here begin from them. "
        "A newer sheet replaces them.",
        silent=True,
    )


def left() -> Message:
    """Say that nothing was kept."""
    return Message("Nothing was kept. Send the sheet again when you like.", silent=True)


def settled() -> Message:
    """Say that this question is over."""
    return Message("This is settled. Send the sheet again to change what is kept.", silent=True)


def nobody_any_more(names: Sequence[str]) -> Message:
    """Say that nothing was kept, since somebody has gone meanwhile."""
    return Message(
        f"Nothing was kept: {escape(', '.join(names))} can no longer be found among your clients and invitations. "
        "Put that right and send the sheet again.",
        silent=True,
    )


def form() -> str:
    """Say what to do with the form."""
    return (
        "For people who have trained before: a row for each client and exercise, with the load, the reps and the date "
        "of the last time. Names can be chosen from a list. Send it back to me; I show what it comes to before "
        "anything is kept. Without a form: any xlsx or csv with the columns Client, Exercise, Load, Reps and Date."
    )


def _many(count: int, one: str, more: str) -> str:
    return f"{count} {one if count == 1 else more}"
