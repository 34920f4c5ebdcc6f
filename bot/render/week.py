"""A client's week in a few lines."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from html import escape

from bot.messages import Message
from bot.render.dates import DAYS, day_words
from bot.render.exercise_names import in_sentence
from bot.render.moving import MovedTo, moved_words
from core.local_time import zone_named

STATE_WORDS = {
    "sent": "card is out",
    "started": "begun",
    "asking": "begun",
    "done": "done",
    "partial": "done, in part",
    "left_out": "left out",
    "missed": "nothing logged",
    "unsent": "not sent",
    "held": "on hold",
}


@dataclass(frozen=True, slots=True)
class Line:
    """A session of the week.

    Attributes:
        on: The client's date.
        day: What the coach calls it.
        state: As kept.
        due_at: When it comes.
        to: Where it has gone, if it has.
        with_lift: Name of the lift of another day that it takes in, if any.
    """

    on: date
    day: str
    state: str
    due_at: datetime
    to: MovedTo | None = None
    with_lift: str = ""


def week(lines: Sequence[Line], first: date, last: date, zone: str, *, frozen: bool) -> Message:
    """Write the week: a session a line."""
    head = f"<b>{day_words(first)} to {day_words(last)}</b>"
    if not lines:
        return Message(f"{head}\nNo session this week.", silent=True)
    told = [
        f"{DAYS[each.on.weekday()]}  {escape(each.day)}{_lift(each)}: {_state(each, zone, frozen=frozen)}"
        for each in lines
    ]
    return Message("\n".join([head, *told]), silent=True)


def _lift(each: Line) -> str:
    return f" with {escape(in_sentence(each.with_lift))}" if each.with_lift else ""


def _state(each: Line, zone: str, *, frozen: bool) -> str:
    if each.state == "moved":
        return moved_words(each.to)
    if each.state != "planned":
        return STATE_WORDS[each.state]
    return "on hold" if frozen else f"comes at {each.due_at.astimezone(zone_named(zone)):%H:%M}"
