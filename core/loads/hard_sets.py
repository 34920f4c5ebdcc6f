"""Hard sets a muscle from what was done, and what stands against what: the same counting as of what is written."""

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from decimal import Decimal

from core.loads.past import Exposure, SetDone
from core.loads.work_done import WEEK_DAYS, WorkDone, within
from core.programme.exercises import Pattern, Side
from core.programme.muscles import Muscle
from core.programme.set_styles import StyleKind
from core.programme.volume import (
    HIP,
    KNEE,
    PULL,
    PUSH,
    Balance,
    balance,
    counted_by_muscle,
    counted_by_pattern,
    is_hard,
)
from core.value import Value


class WeekOfSets(Value):
    """Hard sets of seven days.

    A set counts for each muscle that it trains, so the sum over muscles is no number of sets: `total` is.

    Attributes:
        first: First day.
        last: Last day.
        total: Hard sets, each once. [sets]
        by_muscle: One for a muscle that an exercise is for, a half for one that helps. [sets]
        push_pull: Sets that press against sets that pull.
        knee_hip: Sets led by the knee against sets led by the hip.
    """

    first: date
    last: date
    total: int
    by_muscle: Mapping[Muscle, Decimal]
    push_pull: Balance
    knee_hip: Balance


def hard_sets(exposure: Exposure) -> int:
    """Return the hard sets of one exercise in one session. [sets]

    A set counts with at least one rep, second or metre, and with at most four reps left: its own number where the
    client gave one (4 is four or more), otherwise the one that was asked for. Of one-sided work a set counts once,
    whichever of the sides did it. Descending sets count as the sets at the load. Common practice, no source.
    """
    sides: Counter[Side | None] = Counter(one.side for one in exposure.sets if _is_hard(one, exposure))
    both = sides.pop(None, 0)
    count = both + max(sides.values(), default=0)
    style = exposure.dose.style
    descends = style is not None and style.kind is StyleKind.DESCENDING
    return min(count, exposure.dose.sets) if descends else count


def _is_hard(one: SetDone, exposure: Exposure) -> bool:
    left = exposure.dose.left if one.left is None else one.left
    return any((one.reps, one.seconds, one.metres)) and is_hard(left)


def hard_sets_by_muscle(work: Iterable[WorkDone]) -> dict[Muscle, Decimal]:
    """Return the hard sets for each muscle that has any, in the order of muscles. [sets] Source: [Pelland2024]."""
    return counted_by_muscle((one.exercise, hard_sets(one.exposure)) for one in work)


def hard_sets_by_pattern(work: Iterable[WorkDone]) -> dict[Pattern, int]:
    """Return the hard sets for each pattern that has any, in the order of patterns. [sets]"""
    return counted_by_pattern((one.exercise, hard_sets(one.exposure)) for one in work)


def week_of_sets(work: Iterable[WorkDone], first: date) -> WeekOfSets:
    """Return the hard sets of seven days from `first` on. Source: [Pelland2024]; the rest is common practice."""
    done = within(work, first)
    patterns = hard_sets_by_pattern(done)
    return WeekOfSets(
        first=first,
        last=first + timedelta(days=WEEK_DAYS - 1),
        total=sum(patterns.values()),
        by_muscle=hard_sets_by_muscle(done),
        push_pull=balance(patterns, PUSH, PULL),
        knee_hip=balance(patterns, KNEE, HIP),
    )
