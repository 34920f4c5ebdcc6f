"""Which day of a block falls on which date of a client's own calendar."""

from collections.abc import Collection
from datetime import date, timedelta

from core.errors import TooFewTrainingDays
from core.programme.block import Block, Weekday
from core.value import Value

WEEK = timedelta(days=7)


class PlannedDay(Value):
    """A day of a block on a date.

    Attributes:
        week_no: Week of the block, from 1.
        day_key: Key of the day.
        on: The client's local date.
    """

    week_no: int
    day_key: str
    on: date


def sessions_between(
    block: Block, starts_on: date, days: Collection[Weekday], first: date, last: date
) -> tuple[PlannedDay, ...]:
    """Return the days of a block that fall on `first` to `last`, both included, in order of date.

    Week N is the seven days that begin 7 (N - 1) days after `starts_on`: a week of the client's own calendar,
    whatever day the coach's week begins on. In it the client's n-th training day takes the n-th day of the
    block. So a start on a Wednesday gives whole weeks from Wednesday to Tuesday and loses no session.
    Training days past the number of days of the block stay free.

    Args:
        block: What is written.
        starts_on: First date of week 1, on the client's own calendar.
        days: Days of the week that the client trains on.
        first: First date asked for.
        last: Last date asked for; nothing is returned when it is before `first`.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    offsets = training_days(block, starts_on, days)
    planned = (
        PlannedDay(week_no=week, day_key=day.key, on=starts_on + WEEK * (week - 1) + timedelta(days=offset))
        for week in range(1, block.weeks + 1)
        for day, offset in zip(block.days, offsets, strict=True)
    )
    return tuple(day for day in planned if first <= day.on <= last)


def training_days(block: Block, starts_on: date, days: Collection[Weekday]) -> tuple[int, ...]:
    """Return the days of a client's week that she trains on, counted from the first: as many as the block has.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    if len(set(days)) < len(block.days):
        raise TooFewTrainingDays(needed=len(block.days), given=len(set(days)))
    offsets = sorted({(day - starts_on.weekday()) % 7 for day in days})
    return tuple(offsets[: len(block.days)])
