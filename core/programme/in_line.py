"""Next in line: sessions in their order on the training days that come, whatever was not done among them.

The order of the block stays, nothing is lost, and the block ends later. Common practice, no source.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import date, timedelta

from core.programme.block import Block, Weekday
from core.programme.calendar import WEEK, training_days
from core.programme.exercises import Pattern
from core.programme.replanning import APART
from core.value import Value


class Turn(Value):
    """A session that waits for its turn, or has had it.

    Attributes:
        written_on: Date that the block and the client's days give it.
        patterns: Patterns of its main lifts.
        not_before: Earliest date that it may come on, where there is one.
    """

    written_on: date
    patterns: frozenset[Pattern] = frozenset()
    not_before: date | None = None


def slots(block: Block, starts_on: date, days: Collection[Weekday], first: date) -> Iterator[date]:
    """Yield the client's training days from `first` on, without an end: as many a week as the block has days.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    offsets = training_days(block, starts_on, days)
    week = starts_on
    while True:
        yield from (on for offset in offsets if (on := week + timedelta(days=offset)) >= first)
        week += WEEK


def dates_in_line(
    before: Sequence[tuple[Turn, date]], turns: Sequence[Turn], free: Iterable[date]
) -> tuple[date, ...]:
    """Return a date for each turn, in their order, each on the first free date after the one before it.

    A date that leaves less than 48 h to a session that shares a main pattern is passed over, unless the coach herself
    has written the two closer together.

    Args:
        before: Sessions that have their dates.
        turns: Sessions that wait, in the order of the block.
        free: Dates that can be had, rising, without an end.
    """
    placed = list(before)
    dates = iter(free)
    found: list[date] = []
    for turn in turns:
        on = next(each for each in dates if _may_come(turn, each, placed))
        placed.append((turn, on))
        found.append(on)
    return tuple(found)


def _may_come(turn: Turn, on: date, placed: Sequence[tuple[Turn, date]]) -> bool:
    if turn.not_before is not None and on < turn.not_before:
        return False
    return all(
        abs(on - there) >= min(APART, abs(turn.written_on - other.written_on) or APART)
        for other, there in placed
        if turn.patterns & other.patterns
    )
