"""Words about a session on another day: what can be chosen, what was decided, and where something comes from."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from html import escape

from bot.messages import Action
from bot.render.dates import DAYS, day_words
from bot.render.exercise_names import in_sentence
from core.local_time import zone_named
from core.programme.replanning import How

NOT_THAT_DAY = (
    "That day does not fit: it is taken, over, or too close to a session that loads the same. These fit."
)
NO_LONGER = "That does not fit any more. This does."
NO_DAY = "No other day of this week fits."
LEAVE_OUT = "Leave it out"
LEAVE_OUT_AGAIN = "Leave it out all the same"
REASON = Action.LEAVE_OUT
REASONS = {"time": "No time.", "away": "Away."}


@dataclass(frozen=True, slots=True)
class Move:
    """One thing that can be done about a session.

    Attributes:
        how: What.
        on: Its new date, or that of the session that takes its main lift in.
        today: The client's own date.
        due_at: When it comes then.
        zone: The client's own clock.
        other: Day of the session that moves too, or takes the lift in.
        other_from: Date that the other moves from.
        other_on: Date that the other moves to.
        lift: Name of the main lift that is merged.
        dropped: What is left out to make room for it.
    """

    how: How
    on: date
    today: date
    due_at: datetime | None = None
    zone: str = "UTC"
    other: str = ""
    other_from: date | None = None
    other_on: date | None = None
    lift: str = ""
    dropped: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TakenIn:
    """A lift of another day in a session.

    Attributes:
        lift: Its name.
        day: The day that it comes from.
        on: The date that it was planned for.
        dropped: What is left out to make room for it.
    """

    lift: str
    day: str
    on: date
    dropped: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MovedTo:
    """Where a session has gone.

    Attributes:
        on: Date of the session that comes in its place, or takes its main lift in.
        day: Day of the latter; None where the whole session moved.
    """

    on: date
    day: str | None = None


def label(move: Move) -> str:
    """Write a button, at most 40 characters."""
    match move.how:
        case How.MERGE:
            return f"Main lift with {day_words(move.on)}"
        case How.NEXT:
            return f"Comes next, {day_words(move.on)}"
        case How.SLIDE_BOTH if move.other_on is not None:
            return f"{_short(move.on)} and {day_words(move.other_on)}"
        case _:
            return "Today" if move.on == move.today else day_words(move.on)


def explained(moves: Sequence[Move]) -> list[str]:
    """Say what is behind the buttons that do not say it themselves."""
    return [line for each in moves if (line := _explained(each))]


def _explained(move: Move) -> str:
    match move.how:
        case How.MERGE:
            room = f" To make room, left out there: {_names(move.dropped)}." if move.dropped else ""
            return (
                f"{label(move)}: {escape(in_sentence(move.lift))} comes with {escape(move.other)}.{room} "
                "The rest of this one is left out."
            )
        case How.SLIDE_BOTH if move.other_on is not None and move.other_from is not None:
            return (
                f"{label(move)}: this one on {day_words(move.on)}, and {escape(move.other)} on "
                f"{day_words(move.other_on)} in place of {day_words(move.other_from)}."
            )
        case How.NEXT:
            return "What comes next moves on by one, and so does all behind it."
        case _:
            return ""


def decided(move: Move) -> str:
    """Say what was decided."""
    match move.how:
        case How.MERGE:
            return (
                f"{escape(move.lift)} comes with {escape(move.other)}, {day_words(move.on)}. "
                "The rest is left out, and nothing more is carried over."
            )
        case How.NEXT:
            return (
                f"It comes next: {_when(move)}. All behind it moves on by one, and no load goes down for it."
            )
        case How.SLIDE_BOTH if move.other_on is not None:
            return f"Moved to {_when(move)}. {escape(move.other)} moves to {day_words(move.other_on)}."
        case _:
            return f"Moved to {_when(move)}. No load goes down for it."


def comes_again(on: date) -> str:
    """Say when what was not done comes again, in its turn."""
    return f"It comes again on {day_words(on)}."


def moved_words(to: MovedTo | None) -> str:
    """Say where a session has gone."""
    if to is None:
        return "moved to another day"
    if to.day is not None:
        return f"main lift with {escape(to.day)}, {day_words(to.on)}"
    return f"moved to {day_words(to.on)}"


def taken_in_line(taken_in: TakenIn) -> str:
    """Say of a session that it takes a lift in, and what makes room for it."""
    room = f" Left out to make room: {_names(taken_in.dropped)}." if taken_in.dropped else ""
    lift = escape(in_sentence(taken_in.lift))
    return f"With {lift} from {escape(taken_in.day)} ({day_words(taken_in.on)}).{room}"


def _when(move: Move) -> str:
    at = f", {move.due_at.astimezone(zone_named(move.zone)):%H:%M}" if move.due_at is not None else ""
    return f"{'today' if move.on == move.today else day_words(move.on)}{at}"


def _short(on: date) -> str:
    return f"{DAYS[on.weekday()]} {on.day}"


def _names(names: Sequence[str]) -> str:
    return escape(", ".join(in_sentence(each) for each in names))
