"""What a rehearsal comes to: loads by week, rules that spoke, waits, sets, sessions, pain, warnings, breaches."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from statistics import median, quantiles

from core.loads.decision import Kind
from core.oversight.rehearsal_rules import Breach
from core.programme.muscles import Muscle
from core.programme.problems import Problem
from core.units import Unit
from core.value import Value


class Spread(Value):
    """The middle of some numbers, and the band of their middle half.

    Attributes:
        low: A quarter lies under it.
        middle: A half.
        high: Three quarters.
    """

    low: Decimal
    middle: Decimal
    high: Decimal

    @classmethod
    def of(cls, numbers: Iterable[Decimal]) -> "Spread":
        """Return that of one number or more; between two of them where none is there."""
        known = sorted(numbers)
        low, _, high = quantiles(known, n=4, method="inclusive") if len(known) > 1 else known * 3
        return cls(low=low, middle=median(known), high=high)


class WeekLoad(Value):
    """What a lift was done with in one week.

    Attributes:
        week: Of the block.
        clients: How many did it.
        load: Heaviest load of each; None where nobody did it. [unit of the lift]
    """

    week: int
    clients: int
    load: Spread | None


class LiftLoads(Value):
    """A main lift by week.

    Attributes:
        exercise: Key.
        unit: Of its loads.
        weeks: From the first on.
        instead: Clients that do something else in its place, because of their kit or level.
        unplaced: Clients for whom nothing can be done in its place, and the coach would be asked.
    """

    exercise: str
    unit: Unit
    weeks: tuple[WeekLoad, ...]
    instead: int
    unplaced: int


class RuleCount(Value):
    """How often a rule spoke.

    Attributes:
        code: Its reason.
        first: Decisions in which it was told first.
        binding: Decisions in which it was the lowest ceiling.
        clients: Clients that heard of it at all.
    """

    code: str
    first: int
    binding: int
    clients: int


class Wait(Value):
    """Raises of an exercise that waited for reps to earn a step of the kit.

    Attributes:
        exercise: Key.
        clients: Clients that waited.
        sessions: Sessions in which they did.
        earned: Steps that were earned.
        bridges: Sessions in which reps were used up and the step was still too big.
        percent: Usual jump to that step. [%]
    """

    exercise: str
    clients: int
    sessions: int
    earned: int
    bridges: int
    percent: str


class MuscleWeek(Value):
    """Hard sets of a muscle in one week.

    Attributes:
        muscle: Which.
        week: Of the block.
        planned: As written. [sets]
        done: Of a client, on the average of all. [sets]
    """

    muscle: Muscle
    week: int
    planned: Decimal
    done: Decimal


class SessionCount(Value):
    """Sessions of all clients.

    Attributes:
        due: As planned.
        kept: Done, in whole or in part.
        missed: One at a time.
        away: In weeks away.
        each: Kept by a client, of those due to her.
    """

    due: int
    kept: int
    missed: int
    away: int
    each: Spread


class PainCount(Value):
    """Pain that was reported in sessions, and what it held.

    Attributes:
        clients: Clients that reported any.
        low: Reports of 1-3.
        middle: Reports of 4-6, or without a number.
        high: Reports of 7 and over, or sudden.
        held: Decisions that a rule of pain had a say in.
        locked: Of those, paused altogether.
    """

    clients: int
    low: int
    middle: int
    high: int
    held: int
    locked: int


class Rehearsal(Value):
    """What came of a block.

    Attributes:
        block: Its name.
        weeks: How many were played.
        clients: How many simulated clients.
        new: Of them in the first three months.
        older: Of them 60 and over.
        kits: Of them with each kind of kit.
        decisions: How many were made.
        kinds: Of them of each kind.
        lifts: Main lifts by week, in the order of the block.
        rules: The one that spoke most first.
        waits: The one that most clients waited for first.
        muscles: By muscle and week.
        sessions: Sessions of all.
        pain: Reports of all.
        warnings: What the block's own checks warn of.
        breaches: Decisions that broke a rule: a fault of the program.
    """

    block: str
    weeks: int
    clients: int
    new: int
    older: int
    kits: Mapping[str, int]
    decisions: int
    kinds: Mapping[Kind, int]
    lifts: tuple[LiftLoads, ...]
    rules: tuple[RuleCount, ...]
    waits: tuple[Wait, ...]
    muscles: tuple[MuscleWeek, ...]
    sessions: SessionCount
    pain: PainCount
    warnings: tuple[Problem, ...]
    breaches: tuple[Breach, ...]
