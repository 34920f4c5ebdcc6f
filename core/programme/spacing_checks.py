"""Heavy work of one pattern within 48 hours.

A block's days fall on a client's own training days, so that a block alone says little of hours: only that some pair
must come close, wherever the days are put. With a client's days it is known which.
"""

from collections.abc import Collection, Iterator, Mapping
from datetime import date
from itertools import pairwise

from core.programme.block import Block, Day, Weekday, weeks_text
from core.programme.calendar import WEEK, sessions_between
from core.programme.catalogue import CATALOGUE
from core.programme.exercises import Exercise, Pattern
from core.programme.problems import Code, Place, Problem, problem
from core.programme.replanning import APART
from core.value import Value

HEAVY_REPS = 8
"""Most reps of a set that is heavy: about 80 % of the maximum. [reps] Source: [NSCA], where 8 reps go with 80 %, and
[ACSM2026], which has strength begin about there."""
WEEKDAYS = 7


class ClosePair(Value):
    """Two sessions with heavy work of one pattern, less than 48 h apart.

    Attributes:
        days: Name in the block and weekday of the first, and of the one after it, which may be the next week's first.
        patterns: What both are heavy on.
        weeks: Weeks of the block in which the first of them falls.
    """

    days: tuple[tuple[str, Weekday], tuple[str, Weekday]]
    patterns: tuple[Pattern, ...]
    weeks: tuple[int, ...]


def heavy_patterns(day: Day, week: int, catalogue: Mapping[str, Exercise] = CATALOGUE) -> frozenset[Pattern]:
    """Return the patterns that a day is heavy on in a week: those of its main lifts, at eight reps or fewer.

    Where no exercise is a main lift the first is taken as one. A planned lighter week is heavy on nothing.
    """
    asked = day.in_week(week)
    mains = [one for one in asked if catalogue[one.exercise].main_lift] or asked[:1]
    return frozenset(
        catalogue[one.exercise].pattern
        for one in mains
        if one.dose.reps is not None and one.dose.reps.high <= HEAVY_REPS and not one.dose.lighter
    )


def crowded(block: Block, catalogue: Mapping[str, Exercise] = CATALOGUE) -> Iterator[Problem]:
    """Yield that days which share a heavy pattern must come within 48 h, however a client's week is laid.

    D days a week leave 7 - D days free. Each pair of neighbours that shares a pattern needs one of them between, the
    last day and the first of the next week too; what is left over must come close.
    """
    count = len(block.days)
    pairs: dict[tuple[int, int], set[Pattern]] = {}
    weeks: set[int] = set()
    for week in range(1, block.weeks + 1):
        for place, day in enumerate(block.days):
            last = place == count - 1
            if last and week == block.weeks:
                continue
            other = block.days[0 if last else place + 1]
            shared = heavy_patterns(day, week, catalogue) & heavy_patterns(other, week + last, catalogue)
            if shared:
                pairs.setdefault((place, 0 if last else place + 1), set()).update(shared)
                weeks.add(week)
    over = len(pairs) - (WEEKDAYS - count)
    if over > 0:
        named = "; ".join(
            f"{block.days[one].name} and {block.days[other].name} ({_patterns_text(shared)})"
            for (one, other), shared in sorted(pairs.items())
        )
        facts = {"count": count, "over": over, "pairs": named, "weeks": weeks_text(sorted(weeks))}
        yield problem(Code.HEAVY_CLOSE, Place(), **facts)


def close_pairs(
    block: Block,
    starts_on: date,
    days: Collection[Weekday],
    catalogue: Mapping[str, Exercise] = CATALOGUE,
) -> tuple[ClosePair, ...]:
    """Return the pairs of sessions that come less than 48 h apart on a client's own days, in the order they come.

    Raises:
        TooFewTrainingDays: The client trains on fewer days than the block has.
    """
    planned = sessions_between(block, starts_on, days, starts_on, starts_on + WEEK * block.weeks)
    by_key = {day.key: day for day in block.days}
    found: dict[tuple[tuple[tuple[str, Weekday], tuple[str, Weekday]], frozenset[Pattern]], list[int]] = {}
    for one, other in pairwise(planned):
        first, second = by_key[one.day_key], by_key[other.day_key]
        shared = heavy_patterns(first, one.week_no, catalogue)
        shared &= heavy_patterns(second, other.week_no, catalogue)
        if shared and other.on - one.on < APART:
            both = (first.name, Weekday(one.on.weekday())), (second.name, Weekday(other.on.weekday()))
            found.setdefault((both, shared), []).append(one.week_no)
    return tuple(
        ClosePair(
            days=both, patterns=tuple(pattern for pattern in Pattern if pattern in shared), weeks=tuple(weeks)
        )
        for (both, shared), weeks in found.items()
    )


def _patterns_text(patterns: Collection[Pattern]) -> str:
    return ", ".join(pattern.value for pattern in Pattern if pattern in patterns)
