"""Lighter weeks of a block, labelled so or written so, and the stretches that have none."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from core.policy import Policy
from core.programme.block import Block, weeks_text
from core.programme.exercises import Exercise
from core.programme.lighter_weeks import DELOAD_LOAD
from core.programme.prescription import Load, LoadKind, PercentOf
from core.programme.problems import Code, Place, Problem, problem
from core.programme.volume import working_sets

FEWER = (2, 3)
"""Sets of a week that is lighter by sets alone: at most so many of the week before. Our proposal: a deload as planned
has about half, [Rogerson2024]."""

_Key = tuple[str, LoadKind, PercentOf | None]


def eased_weeks(block: Block, catalogue: Mapping[str, Exercise]) -> frozenset[int]:
    """Return the lighter weeks of a block: those labelled as deloads, and those that are written lighter.

    Written lighter is a week in which no main lift has more load than in the week before that was not lighter itself,
    and either there are at most two thirds of its sets, or every main lift with a load has at least 5 % less, with no
    more reps. Our proposal.
    """
    eased: set[int] = set(block.lighter_weeks)
    before: _Week | None = None
    for number in range(1, block.weeks + 1):
        week = _Week(block, number, catalogue)
        if number not in eased and before is not None and week.is_lighter_than(before):
            eased.add(number)
        if number not in eased:
            before = week
    return frozenset(eased)


class _Week:
    """What a week asks for in all: its sets, and the heaviest of each main lift with the most reps it is asked for."""

    def __init__(self, block: Block, number: int, catalogue: Mapping[str, Exercise]) -> None:
        self.sets = 0
        self.tops: dict[_Key, tuple[Decimal, int]] = {}
        for asked in (asked for day in block.days for asked in day.in_week(number)):
            self.sets += working_sets(asked.dose)
            amount = _amount(asked.dose.load)
            if amount is None or asked.dose.load is None or not catalogue[asked.exercise].main_lift:
                continue
            key = (asked.exercise, asked.dose.load.kind, asked.dose.load.percent_of)
            reps = asked.dose.span.high if asked.dose.span is not None else 0
            self.tops[key] = max(self.tops.get(key, (amount, reps)), (amount, reps))

    def is_lighter_than(self, other: "_Week") -> bool:
        pairs = [(self.tops[key], other.tops[key]) for key in self.tops if key in other.tops]
        if any(now[0] > before[0] for now, before in pairs):
            return False
        fewer = other.sets > 0 and self.sets * FEWER[1] <= other.sets * FEWER[0]
        less = bool(pairs) and self.sets <= other.sets
        return fewer or (
            less and all(now[0] <= before[0] * DELOAD_LOAD and now[1] <= before[1] for now, before in pairs)
        )


def _amount(load: Load | None) -> Decimal | None:
    if load is None:
        return None
    if load.kind is LoadKind.MASS and load.mass is not None:
        return load.mass.kg
    return load.percent


def long_without_deload(block: Block, catalogue: Mapping[str, Exercise], policy: Policy) -> Iterator[Problem]:
    """Yield each stretch of weeks without a lighter one that is longer than usual. Source: [Rogerson2024]."""
    eased = eased_weeks(block, catalogue)
    run: list[int] = []
    for week in range(1, block.weeks + 2):
        if week <= block.weeks and week not in eased:
            run.append(week)
            continue
        if len(run) > policy.deload_after:
            facts = {"weeks": weeks_text(run), "count": len(run), "most": policy.deload_after}
            yield problem(Code.LONG_WITHOUT_DELOAD, Place(), **facts)
        run = []
