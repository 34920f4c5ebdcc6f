"""What a coach reads of a client beside the block: goals, check-ins, other training."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from bot.render.dates import day_words
from bot.render.goals import Line, for_file
from bot.render.other_training import Kept, week_line


@dataclass(frozen=True, slots=True)
class Answered:
    """Questions that were answered, in one line.

    Attributes:
        said: HTML.
        on: The client's date.
        of_block: True for the end of a block, False for a check-in.
    """

    said: str
    on: date
    of_block: bool = False


@dataclass(frozen=True, slots=True)
class BesideBlock:
    """What there is.

    Attributes:
        goals: Those that stand.
        answered: Check-ins and ends of blocks that were answered last, newest first.
        other: What was trained beside the block in the last seven days, oldest first.
        is_off: True where the coach has turned the check-in off.
    """

    goals: Sequence[Line] = ()
    answered: Sequence[Answered] = ()
    other: Sequence[Kept] = ()
    is_off: bool = False


def beside_lines(beside: BesideBlock) -> str:
    """Write it, a line each; nothing where there is nothing."""
    lines = [for_file(beside.goals)] if beside.goals else []
    lines += [_answered(each) for each in beside.answered]
    if beside.is_off:
        lines.append("The check-in is off.")
    if beside.other:
        lines.append(f"Other training in 7 days: {week_line(beside.other)}.")
    return "\n".join(lines)


def _answered(each: Answered) -> str:
    head = "End of a block" if each.of_block else "Check-in"
    return f"{head}, {day_words(each.on)}: {each.said}."
