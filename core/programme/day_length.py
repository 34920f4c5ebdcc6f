"""How long the days of a block take, beside the time that a client has."""

from collections.abc import Mapping

from core.programme.block import Block, Day
from core.programme.duration import WARM_UP_S, seconds_needed
from core.programme.exercises import Exercise
from core.value import Value

MINUTE_S = 60


class DayLength(Value):
    """A day of a block and its longest session.

    Attributes:
        day: As the coach named it.
        minutes: Warm-up and rests included, rounded down. [min]
    """

    day: str
    minutes: int


def longer_days(block: Block, minutes: int, catalogue: Mapping[str, Exercise]) -> tuple[DayLength, ...]:
    """Return the days whose longest session takes more than so many minutes, in the order of the block. [min]"""
    found = (DayLength(day=day.name, minutes=_longest(day, block.weeks, catalogue)) for day in block.days)
    return tuple(each for each in found if each.minutes > minutes)


def _longest(day: Day, weeks: int, catalogue: Mapping[str, Exercise]) -> int:
    return max(_seconds(day, week, catalogue) for week in range(1, weeks + 1)) // MINUTE_S


def _seconds(day: Day, week: int, catalogue: Mapping[str, Exercise]) -> int:
    asked = [line.prescription for line in day.lines if week in line.weeks]
    return WARM_UP_S + sum(
        seconds_needed(
            each.dose,
            sides=2 if each.dose.each_side or catalogue[each.exercise].each_side else 1,
            rest_s=each.rest_s,
            tempo=each.tempo,
        )
        for each in asked
    )
